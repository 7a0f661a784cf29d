"""What a check says, and what a check is given."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, fields
from enum import StrEnum
from functools import cached_property
from typing import TypeAlias

from schematics.checks.rules.garment_numbers import facts
from schematics.checks.rules.judging import Judge, inputs_of, judges
from schematics.checks.tape import Tape
from schematics.design.design import Design, Size
from schematics.design.limits import Limits
from schematics.garment.arm_freedom import ArmFreedom
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


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One result of one check on one size.

    ``figures`` are the numbers behind the sentence: centimetres unless a name says otherwise
    (``_fraction``, ``_count``, ``_rows``). ``words`` are put together when they are first read: of most
    findings that are good they never are.
    """

    code: str
    severity: Severity
    size: str
    place: str
    words: Words = field(repr=False)
    figures: Mapping[str, float] = field(default_factory=dict)

    @cached_property
    def sentence(self) -> str:
        """What is found, as a person reads it."""
        return self.words() if callable(self.words) else self.words

    def __getstate__(self) -> dict[str, object]:
        """What is compared, copied and pickled: all of it, in words."""
        return {**{each.name: getattr(self, each.name) for each in fields(self)}, "words": self.sentence}

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Finding) and self.__getstate__() == other.__getstate__()


@dataclass(frozen=True, kw_only=True)
class Case:
    """One size to be checked: everything a check may look at.

    ``freedom`` is the garment's reach and spread, None where they cannot be measured.
    """

    design: Design
    size: Size
    garment: Garment
    freedom: ArmFreedom | None
    wearer: Wearer
    limits: Limits

    @cached_property
    def tape(self) -> Tape:
        """Writes lengths in the design's unit."""
        return Tape(self.design.unit)

    @cached_property
    def inputs(self) -> Inputs:
        """What the rules that depend on the wearer are worked out from."""
        return inputs_of(self.wearer, facts(self.garment, self.freedom))

    @cached_property
    def judges(self) -> Mapping[str, Judge]:
        """Those rules by their codes, under the design's limits."""
        return judges(self.limits)

    def finding(self, code: str, severity: Severity, place: str, words: Words, **figures: float) -> Finding:
        """A finding on this size."""
        return Finding(
            code=code, severity=severity, size=self.size.name, place=place, words=words, figures=figures
        )


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
class Family:
    """One family of checks: a function from a case to findings, and the codes it may give.

    ``making`` gives those that do not depend on the wearer; None where none does.
    """

    name: str
    check: Callable[[Case], Iterator[Finding]]
    explanations: tuple[Explanation, ...]
    making: Callable[[Case], Iterator[Finding]] | None = None
