"""One wearer against every size: what is to spare where, the verdicts, and which size is the best."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from schematics.checks import check_making, check_size
from schematics.checks.evaluation import SEVERITIES, worst
from schematics.checks.finding import Beside, Case, Finding, Severity
from schematics.checks.rules import hang, reach
from schematics.checks.rules.formula_facts import FormulaFacts
from schematics.checks.rules.judging import Judge, inputs_of, judges
from schematics.checks.rules.sentence import Answer
from schematics.checks.tape import Grains
from schematics.design.design import Design, Size
from schematics.fitting.flaws import FLAW_DECIMALS, TOO_MANY_FLAWS, flaws_of, level_of
from schematics.fitting.gauge import SizeAtGauge
from schematics.fitting.measured import at_end
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.wearer.body import Wearer
from schematics.wearer.evaluator import Inputs, Numbers, Truths, evaluator_of
from schematics.wearer.expr import End, Expr, Fact, at_most, either, first, least, less, size_of
from schematics.wearer.resolve import resolve

REACH, HEM = reach.BAND, hang.KNEE

NOT_HERS_WEIGHT, STOP_WEIGHT, LEVEL_WEIGHT, FARTHEST_CM = 1e9, 1e7, 1e5, 900.0
"""What is added to a size's score where it is not the wearer's, by each that stops, by each level of
what is to be minded, and by a miss at most: none of them, of 99 rules, weighs as much as the one before."""

FLAW_CM = 20.0
"""A thing to mind weighs as much as that bands and hem together come so far from where they are meant to
(common practice, no source)."""

TIE = 1e-9
"""Scores no farther apart than this are alike."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One rule on one size: what it answers, what there is, what is asked for, what is to spare, in cm.

    None where it is unknown. What is ``unsure`` is good as it is measured, and to be minded as too few cases
    hold. The ``grains`` are those that what there is and what is asked for are printed in.
    """

    code: str
    place: str
    answer: Answer
    unsure: bool
    grains: Grains
    garment_cm: float | None
    body_cm: float | None
    ease_cm: float | None


@dataclass(frozen=True, kw_only=True, repr=False)
class SizeFit:
    """One size on a wearer, as the checks see it; ``points`` are the rules that depend on the wearer."""

    at_gauge: SizeAtGauge
    case: Case
    points: tuple[Point, ...]

    def __repr__(self) -> str:
        return f"<SizeFit of size {self.name!r}: {self.verdict.value}>"

    @property
    def name(self) -> str:
        """The size's name."""
        return self.at_gauge.size.name

    @property
    def verdict(self) -> Severity:
        """The worst severity of the findings."""
        return worst(finding.severity for finding in self.findings)

    @property
    def on_wearer(self) -> Answer:
        """The worst severity of the rules that depend on the wearer."""
        return max((point.answer for point in self.points), default=Answer.GOOD)

    @property
    def unknown(self) -> tuple[str, ...]:
        """Codes of the rules that want a measurement."""
        return tuple(point.code for point in self.points if point.answer is Answer.UNKNOWN)

    @property
    def reported(self) -> tuple[Finding, ...]:
        """The findings that are not good, the worst first, without those that only want a measurement."""
        findings = [
            each
            for each in self.findings
            if each.severity is not Severity.GOOD and each.code not in self.unknown
        ]
        return tuple(sorted(findings, key=lambda each: SEVERITIES.index(each.severity)))

    @property
    def to_be_sure(self) -> tuple[str, ...]:
        """Where nothing is amiss but that too few cases hold, what to measure; nothing where it is sure."""
        if not all(finding.unsure for finding in self.reported):
            return ()
        certainties = (finding.certainty for finding in self.reported)
        return tuple(dict.fromkeys(each.measure for each in certainties if each is not None))

    @property
    def how(self) -> str:
        """How it is: one of `HOW`, or ``right``."""
        amiss = self.reported
        unsure = sum(each.unsure for each in amiss)
        stops = sum(each.severity is Severity.STOP for each in amiss)
        facts = {
            "found.stop": stops,
            "found.mind": len(amiss) - stops - unsure,
            "found.unsure": unsure,
            "found.flaws": round(self.expected_amiss[1], FLAW_DECIMALS),
        }
        inputs = Inputs(body={}, facts=facts)
        return next((word for word, is_so in _HOW.items() if is_so(inputs)), "right")

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """All the checks' findings, those on how it is made among them."""
        return check_size(self.case)

    @cached_property
    def making(self) -> tuple[Finding, ...]:
        """The findings that do not depend on the wearer."""
        return check_making(self.case)

    @property
    def is_workable(self) -> bool:
        """Whether nothing stops how it is made, whoever wears it."""
        return in_making(self.making)[0] == 0

    @cached_property
    def meant_cm(self) -> Mapping[str, float]:
        """What is to spare by the rules of `score_of` on the wearer the pattern's size is for."""
        return meant_cm(self.case.design, self.at_gauge.size)

    @property
    def score(self) -> float:
        """How far it is from right, see `score`."""
        off = (self._ease_cm, self.meant_cm)
        failing = any(each.answer is Answer.MIND and not each.unsure for each in self.points)
        return float(score(*self.expected_amiss, *off, failing=failing, not_hers=self.is_not_hers))

    @property
    def expected_amiss(self) -> tuple[int, float]:
        """How many findings stop, and how many things to mind are to be expected by the others."""
        stops, minds = in_making(self.making)
        return self.stops + stops, self.flaws + minds

    @property
    def stops(self) -> int:
        """How many rules that depend on the wearer stop."""
        return sum(point.answer is Answer.STOP for point in self.points)

    @cached_property
    def flaws(self) -> float:
        """How many things to mind are to be expected by those rules, see `schematics.fitting.flaws`."""
        judges, chances = self.case.judges, self.case.chances
        return sum(
            float(
                flaws_of(
                    point.answer,
                    point.unsure,
                    judges[point.code].stops_if_it_fails(self.case.inputs),
                    chances.fails(point.code)[0],
                )
            )
            for point in self.points
            if point.answer is Answer.MIND
        )

    @cached_property
    def is_not_hers(self) -> bool:
        """Whether it is `far_off` this wearer, wherever in its spread lies what was not measured."""
        return all(self._is_far_off(at_end(self.case.wearer, end)) for end in End)

    def _is_far_off(self, wearer: Wearer) -> bool:
        inputs, rules = inputs_of(wearer).of(self.at_gauge.facts), self.case.judges
        ease_cm = {code: rules[code].figure("ease_cm", inputs) for code in (REACH, HEM)}
        return bool(are_far_off(ease_cm, self.meant_cm))

    @property
    def _ease_cm(self) -> dict[str, float]:
        return {point.code: point.ease_cm for point in self.points if point.ease_cm is not None}


def in_making(findings: Iterable[Finding]) -> tuple[int, int]:
    """How many findings that do not depend on the wearer stop, and how many are to be minded."""
    severities = [each.severity for each in findings]
    return severities.count(Severity.STOP), severities.count(Severity.MIND)


def meant_cm(design: Design, size: Size) -> dict[str, float]:
    """What is to spare by the rules of `score_of` in the pattern's fabrics on the typical wearer of a size.

    The counts are those of the pattern's size of that name. Not a number where it is not known.
    """
    pattern = next((each for each in design.sizes if each.name == size.name), size)
    formulas = CONSTRUCTIONS[design.construction].formulas_of(
        pattern.body, design.pattern_parts or design.parts
    )
    facts = FormulaFacts(formulas, counts_of(pattern))
    wearer = at_end(resolve(pattern.wearer, pattern.name), End.TYPICAL)
    inputs = inputs_of(wearer).of(facts)
    return {code: float(judges(design.limits)[code].figure("ease_cm", inputs)) for code in (REACH, HEM)}


def score_of(ease_cm: Mapping[str, Expr]) -> Expr:
    """How far a size is from right, the less the better.

    First counts whether it may be the wearer's at all, then what stops, then whether what is to be
    minded is nothing, or only not sure, see `schematics.fitting.flaws.level_of`, then how much is to be
    expected amiss: each flaw by how likely it is and how bad, and how far from what the size is meant to have
    arm bands and hem come, either sign. ``ease_cm`` is what is to spare at the wrist and over the knee by the
    codes of their rules, held against the same on the size's own wearer. What is unknown does not count. It
    is over the facts ``score.not_hers``, 1 where it is `far_off` at every end,
    ``score.stops``, ``score.level``, ``score.flaws``, how many things to mind are to be expected, and
    `meant_fact` of either rule, see `meant_cm`.
    """
    counted = (
        Fact("score.not_hers") * NOT_HERS_WEIGHT
        + Fact("score.stops") * STOP_WEIGHT
        + Fact("score.level") * LEVEL_WEIGHT
        + Fact("score.flaws") * FLAW_CM
    )
    off = [first(size_of(ease_cm[code] - first(Fact(meant_fact(code)), 0.0)), 0.0) for code in (REACH, HEM)]
    return counted + least(off[0] + off[1], FARTHEST_CM)


HOW: Mapping[str, Expr] = {
    "stop": less(0.5, Fact("found.stop")),
    "mind": less(0.5, Fact("found.mind")),
    "doubtful": at_most(TOO_MANY_FLAWS, Fact("found.flaws")),
    "unsure": less(0.5, Fact("found.unsure")),
}
"""How a size is, by its findings: the first that is true, else it is ``right``.

It is over how many findings stop, are to be minded as it is measured, and are so only as too few cases hold,
and how many things to mind are to be expected.
"""

FAR_OFF_CM = {REACH: 10.0, HEM: 20.0}
"""A size whose bands or hem come so much farther from wrist or knee than is meant is not the wearer's at all:
sleeves end at half a forearm or cover the hand (common practice, no source). It is so only where it is at
every end of what is borrowed of the wearer: else it may be the wearer's, for all that is known."""


def far_off(ease_cm: Mapping[str, Expr]) -> Expr:
    """Whether a size is so far from what it is meant to be that nobody would think of it; see `score_of`."""
    return either(
        *(
            less(FAR_OFF_CM[code], size_of(ease_cm[code] - first(Fact(meant_fact(code)), 0.0)))
            for code in (REACH, HEM)
        )
    )


def meant_fact(code: str) -> str:
    """The name of what a size is meant to have to spare by a rule."""
    return f"meant.{code}"


_EASE = {code: Fact(f"ease.{code}") for code in (REACH, HEM)}
_HOW = {word: evaluator_of(tree) for word, tree in HOW.items()}
_SCORE, _FAR_OFF = evaluator_of(score_of(_EASE)), evaluator_of(far_off(_EASE))


def score(
    stops: Numbers,
    flaws: Numbers,
    ease_cm: Mapping[str, Numbers],
    meant_cm: Mapping[str, float],
    *,
    failing: Truths = False,
    not_hers: Truths = False,
) -> Numbers:
    """How far a size is from right, see `score_of`; for one wearer or for columns.

    Args:
        stops: how many rules and findings stop.
        flaws: how many things to mind are to be expected by the others.
        ease_cm: what is to spare by the rules of `score_of`, as far as it is known.
        meant_cm: the same on the size's own wearer.
        failing: whether any of these is to be minded as it is measured, not only as it is not sure.
        not_hers: whether it is `far_off` at every end of what is borrowed.
    """
    facts = {
        "score.not_hers": np.asarray(not_hers).astype(float),
        "score.stops": np.asarray(stops).astype(float),
        "score.level": level_of(flaws, failing),
        "score.flaws": np.round(flaws, FLAW_DECIMALS),
        **_ease_facts(ease_cm, meant_cm),
    }
    return _SCORE(Inputs(body={}, facts=facts))


def are_far_off(ease_cm: Mapping[str, Numbers], meant_cm: Mapping[str, float]) -> Numbers:
    """Whether a size is `far_off`, for one wearer or for columns; arguments as of `score`."""
    return _FAR_OFF(Inputs(body={}, facts=_ease_facts(ease_cm, meant_cm)))


def _ease_facts(ease_cm: Mapping[str, Numbers], meant_cm: Mapping[str, float]) -> dict[str, Numbers]:
    return {
        **{f"ease.{code}": ease_cm.get(code, math.nan) for code in (REACH, HEM)},
        **{meant_fact(code): meant_cm.get(code, math.nan) for code in (REACH, HEM)},
    }


def size_fit(design: Design, each: SizeAtGauge, wearer: Wearer) -> SizeFit:
    """One size, as it is made, on one person or on all those a size is for."""
    return _fit(each, _case(design, each, wearer))


def size_fits(design: Design, sizes: Sequence[SizeAtGauge], wearer: Wearer) -> tuple[SizeFit, ...]:
    """The same of several sizes in the same fabrics, worked out beside each other."""
    beside = Beside()
    cases = [_case(design, each, wearer, beside) for each in sizes]
    return tuple(map(_fit, sizes, cases))


def _case(design: Design, each: SizeAtGauge, wearer: Wearer, beside: Beside | None = None) -> Case:
    return Case(
        design=design,
        parts=each.parts,
        size=each.size,
        garment=each.garment,
        freedom=each.freedom,
        wearer=wearer,
        limits=design.limits,
        beside=beside,
    )


def _fit(each: SizeAtGauge, case: Case) -> SizeFit:
    return SizeFit(
        at_gauge=each,
        case=case,
        points=tuple(_point(case, judge) for judge in case.judges.values()),
    )


def _point(case: Case, judge: Judge) -> Point:
    figures = (float(judge.figure(name, case.inputs)) for name in ("garment_cm", "body_cm", "ease_cm"))
    garment, body, ease = figures
    measured, answer = case.answers(judge.rule.code)
    return Point(
        code=judge.rule.code,
        place=judge.rule.place,
        answer=answer,
        unsure=answer is not measured,
        grains=judge.rule.grains,
        garment_cm=_finite(garment),
        body_cm=_finite(body),
        ease_cm=_finite(ease),
    )


def _finite(number: float) -> float | None:
    return number if math.isfinite(number) else None


def best(fits: Sequence[SizeFit]) -> SizeFit:
    """The size with the smallest score; of equal ones the first."""
    return min(fits, key=lambda fit: fit.score)
