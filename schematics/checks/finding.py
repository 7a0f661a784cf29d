"""What a check says, and what a check is given."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass, field, fields
from enum import StrEnum
from functools import cached_property
from typing import TypeAlias

from schematics.checks.rules.garment_numbers import facts
from schematics.checks.rules.judging import Judge, inputs_of, judges
from schematics.checks.rules.sentence import TO_BE_SURE, Answer
from schematics.checks.rules.sureness import Chances, WornSize, chances_of, surely
from schematics.checks.rules.varied_facts import alike
from schematics.checks.tape import Tape
from schematics.design.design import Design, Parts, Size
from schematics.design.limits import Limits
from schematics.garment.arm_freedom import ArmFreedom
from schematics.garment.constructions import CONSTRUCTIONS, Construction
from schematics.garment.garment import Garment
from schematics.wearer.body import Wearer
from schematics.wearer.evaluator import Inputs


class Severity(StrEnum):
    """How much a finding matters."""

    STOP = "stop"
    MIND = "mind"
    GOOD = "good"


Words: TypeAlias = str | Callable[[], str]
"""A sentence, or what puts it together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Certainty:
    """How sure a finding is that rests on what was measured.

    It holds by ``margin_cm``, negative where it does not, with a standard deviation of ``sd_cm``, and in
    ``holds_fraction`` of all cases; in the tighter of several comparisons, but the chance is that of all.
    Where that is not ``enough`` a finding on the wearer is to be minded; one on a seam is not, as its edges
    meet no body and the maker ends them level. Of what fails as it is measured, but is ``short_of_stop``, the
    chance is that it stays so. ``shares`` name what is in doubt with its share of the variance, the largest
    first. ``sentence`` says so, ``measure`` what to measure to be surer.
    """

    margin_cm: float
    sd_cm: float
    holds_fraction: float
    enough: bool
    open: bool
    shares: tuple[tuple[str, float], ...]
    sentence: str
    measure: str
    short_of_stop: bool = False


Sure: TypeAlias = Certainty | Callable[[], Certainty | None] | None
"""How sure a finding is, or what works it out; None where nothing it goes by is in doubt."""


Numbers: TypeAlias = Mapping[str, float] | Callable[[], Mapping[str, float]]
"""Figures by their names, or what works them out."""


MADE_AMISS = "not all is right with how it is made"
"""What is amiss in a few words, whoever wears it."""


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One result of one check on one size.

    ``words`` are put together, ``numbers`` and how ``sure`` it is are worked out when they are first read: of
    most findings that are good they never are. What is ``unsure`` is good as it is measured, and to be minded
    because too few cases hold. ``amiss`` is what is amiss in a few words, where something is or may be.
    """

    code: str
    severity: Severity
    size: str
    place: str
    words: Words = field(repr=False)
    numbers: Numbers = field(default_factory=dict)
    unsure: bool = False
    sure: Sure = field(default=None, repr=False)
    amiss: Words = field(default=MADE_AMISS, repr=False)

    @cached_property
    def figures(self) -> Mapping[str, float]:
        """The numbers behind the sentence: cm unless a name says otherwise (``_fraction``, ``_rows``)."""
        return self.numbers() if callable(self.numbers) else self.numbers

    @cached_property
    def certainty(self) -> Certainty | None:
        """How sure it is; None where nothing it goes by is in doubt."""
        return self.sure() if callable(self.sure) else self.sure

    @property
    def sure_sentence(self) -> str:
        """The sentence, and how sure it is."""
        return self.sentence if self.certainty is None else f"{self.sentence} {self.certainty.sentence}"

    @property
    def full_sentence(self) -> str:
        """The sentence, how sure it is, and what to measure, if anything."""
        measure = [TO_BE_SURE.format(measure=each) for each in self.to_measure]
        return " ".join([self.sure_sentence, *measure])

    @property
    def to_measure(self) -> tuple[str, ...]:
        """What to measure where it is good as measured, but not sure, or may be either; none elsewhere."""
        sure, good = self.certainty, self.unsure or self.severity is Severity.GOOD
        if sure is None or sure.enough or not (good or sure.open):
            return ()
        return (sure.measure,)

    @property
    def reason(self) -> str:
        """The sentence, and where it is to be minded only because it is not sure, how sure it is."""
        return self.full_sentence if self.unsure else self.sentence

    @cached_property
    def sentence(self) -> str:
        """The finding, as a person reads it."""
        return self.words() if callable(self.words) else self.words

    @cached_property
    def amiss_words(self) -> str:
        """What is amiss, in a few words; it means nothing where all is good."""
        return self.amiss() if callable(self.amiss) else self.amiss

    def __getstate__(self) -> dict[str, object]:
        """What is compared, copied and pickled: all of it, in words."""
        return {
            **{each.name: getattr(self, each.name) for each in fields(self)},
            "words": self.sentence,
            "amiss": self.amiss_words,
            "numbers": self.figures,
            "sure": self.certainty,
        }

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Finding) and self.__getstate__() == other.__getstate__()


@dataclass(frozen=True, kw_only=True)
class Case:
    """One size to be checked: everything a check may look at.

    It is worked in the fabrics of ``parts``, a maker's or the design's. ``freedom`` is the garment's reach
    and spread, None where they cannot be measured. ``beside`` are the cases whose chances are worked out with
    its own.
    """

    design: Design
    parts: Parts
    size: Size
    garment: Garment
    freedom: ArmFreedom | None
    wearer: Wearer
    limits: Limits
    beside: Beside | None = field(default=None, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Stand beside the others."""
        if self.beside is not None:
            self.beside.add(self)

    @cached_property
    def tape(self) -> Tape:
        """Writes lengths in the design's unit."""
        return Tape(self.design.unit)

    @cached_property
    def inputs(self) -> Inputs:
        """What the rules that depend on the wearer are worked out from."""
        return inputs_of(self.wearer, facts(self.garment, self.freedom))

    @cached_property
    def chances(self) -> Chances:
        """How sure each of the rules that depend on the wearer is."""
        return chances_of([self.worn], self.construction, self.parts, self.limits)

    def sds_cm(self, code: str) -> list[float]:
        """The standard deviation of each comparison of a rule that depends on the wearer."""
        return chances_of([self.worn], self.construction, self.parts, self.limits, code).sds_cm()

    @property
    def worn(self) -> WornSize:
        """The garment on its wearer."""
        return WornSize(inputs=self.inputs, wearer=self.wearer, size=self.size, garment=self.garment)

    @property
    def construction(self) -> Construction:
        """The kind of body that the design has."""
        return CONSTRUCTIONS[self.design.construction]

    def is_sure(self, code: str) -> bool:
        """Whether a rule that depends on the wearer holds in as many cases as the limits ask for."""
        sure = self.chances.is_sure(code)[0] if self.beside is None else self.beside.is_sure(self, code)
        return bool(sure)

    def answers(self, code: str) -> tuple[Answer, Answer]:
        """What one of those rules says of the lengths as they are measured, and with how sure they are."""
        measured = self.judges[code].answer(self.inputs)
        return measured, surely(measured, measured is not Answer.GOOD or self.is_sure(code))

    @cached_property
    def judges(self) -> Mapping[str, Judge]:
        """The rules that depend on the wearer, by their codes, under the design's limits."""
        return judges(self.limits)

    def finding(self, code: str, severity: Severity, place: str, words: Words, **figures: float) -> Finding:
        """A finding on this size."""
        return Finding(
            code=code, severity=severity, size=self.size.name, place=place, words=words, numbers=figures
        )


class Beside:
    """Cases of one design in the same fabrics: the chances of ten take hardly longer than those of one.

    Args:
        codes: of the rules that are asked about; none for all.
    """

    def __init__(self, *codes: str) -> None:
        self._codes = codes
        self._waiting: list[Case] = []
        self._sure: dict[int, Mapping[str, bool]] = {}

    def add(self, case: Case) -> None:
        """Have one more case worked out beside the others."""
        self._sure.pop(id(case), None)
        self._waiting.append(case)

    def is_sure(self, case: Case, code: str) -> bool:
        """Whether a rule surely holds in one of them."""
        if id(case) not in self._sure:
            self._work_out()
        return self._sure[id(case)][code]

    def _work_out(self) -> None:
        by_kind: dict[Hashable, list[Case]] = {}
        for case in self._waiting:
            by_kind.setdefault(alike(case.construction, case.size), []).append(case)
        self._waiting = []
        for cases in by_kind.values():
            first = cases[0]
            worn = [each.worn for each in cases]
            chances = chances_of(worn, first.construction, first.parts, first.limits, *self._codes)
            sure = {code: chances.is_sure(code) for code in self._codes or first.judges}
            for place, case in enumerate(cases):
                self._sure[id(case)] = {code: bool(column[place]) for code, column in sure.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """What a finding's code means, at length, for ``schematics explain``.

    ``meaning`` says what it does on the wearer, ``cure`` what to change, ``origin`` where the rule
    comes from. ``limits`` are the names of the limits it uses (see `schematics.design.limits`), and
    ``severities`` are the verdicts the code can give, ``tracked`` is the figure that shows how a change moves
    it, where there is one, and words for that.
    """

    code: str
    title: str
    meaning: str
    cure: str
    origin: str
    limits: tuple[str, ...] = ()
    severities: tuple[Severity, ...] = tuple(Severity)
    tracked: tuple[str, str] = ("", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """What findings are about, and the codes they may have."""

    name: str
    explanations: tuple[Explanation, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Family(Topic):
    """One family of checks: a function from a case to findings.

    ``making`` gives those that do not depend on the wearer; None where none does.
    """

    check: Callable[[Case], Iterator[Finding]]
    making: Callable[[Case], Iterator[Finding]] | None = None
