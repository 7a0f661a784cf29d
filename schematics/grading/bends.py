"""What is not linear: found on the made garment, and kept out by cuts until nothing is left to find.

A cut says that no counts in a box around the ones that failed will do. That holds because the
levers of a construction only push one way: where the best corner of the box fails, all of it does.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from schematics.checks.finding import Finding, Severity
from schematics.constructions.facts import Lever, Quantity
from schematics.grading.made import Counts, Workshop
from schematics.grading.rules import Clause, Rule, SizeCase
from schematics.linear import at_least
from schematics.wearer.body import Body

_MOST_STEPS = 12
"""How far a box reaches from the counts that failed, in steps of each lever."""
_MOST_MADE = 40
"""Garments made for one step of a box, where levers push either way."""

_UNMEASURED = {
    "REACH-BAND": (Quantity.REACH,),
    "SPREAD-ARMS": (Quantity.SPREAD_BACK, Quantity.SPREAD_FRONT),
}
"""What cannot be measured where the body overlaps itself; then any lever may help (sense 0)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """A quantity of one size that a check finds too small (``sense`` 1) or too large (-1)."""

    code: str
    severity: Severity
    quantity: Quantity
    sense: int

    @property
    def key(self) -> str:
        """Unique on one size."""
        return f"{self.code} {self.quantity} {self.sense}"


def bends(case: SizeCase, findings: Iterable[Finding]) -> Iterator[Bend]:
    """What the findings say is wrong with what no straight line tells."""
    for each in findings:
        if each.severity is Severity.GOOD:
            continue
        for quantity, sense in _wrong(case, each):
            yield Bend(code=each.code, severity=each.severity, quantity=quantity, sense=sense)


def _wrong(case: SizeCase, finding: Finding) -> Iterator[tuple[Quantity, int]]:
    figures = finding.figures
    if not figures and finding.code in _UNMEASURED and case.wearer.get(Body.CENTRE_BACK_NECK_TO_WRIST):
        yield from ((quantity, 0) for quantity in _UNMEASURED[finding.code])
    elif finding.code == "REACH-BAND" and figures:
        yield Quantity.REACH, 1 if figures["above_wrist_cm"] > 0 else -1
    elif finding.code == "SPREAD-ARMS" and figures:
        needs = case.limits.spread_fraction * figures["span_cm"]
        sides = {
            Quantity.SPREAD_BACK: figures["spread_back_cm"],
            Quantity.SPREAD_FRONT: figures["spread_front_cm"],
        }
        yield from ((quantity, 1) for quantity, length in sides.items() if length < needs)
    elif finding.code == "GIRTH-EASE" and figures:
        yield Quantity.GIRTH, 1
    elif finding.code == "COUNT-INCREASE" and finding.severity is Severity.STOP:
        yield Quantity.INCREASES, 1
    elif case.facts.drop_cm is None and finding.code in ("HANG-KNEE", "HANG-WHERE") and figures:
        yield Quantity.DROP, -1 if finding.code == "HANG-KNEE" else 1


@dataclass(slots=True)
class _Box:
    """Counts around those that failed, as far as each lever may be pushed with all of them failing."""

    case: SizeCase
    workshop: Workshop
    bend: Bend
    counts: dict[str, int]
    low: dict[int, int] = field(default_factory=dict)
    high: dict[int, int] = field(default_factory=dict)

    def push(self, lever: int, way: int) -> bool:
        """Reach one step farther, if everything there fails too; levers by their places."""
        ends = self.high if way > 0 else self.low
        step = ends.get(lever, 0) + way
        others = [at for at in self._either_way if at != lever]
        spans = [range(self.low.get(each, 0), self.high.get(each, 0) + 1) for each in others]
        if math.prod(map(len, spans)) > _MOST_MADE or abs(step) > _MOST_STEPS:
            return False
        for steps in itertools.product(*spans):
            if not self._fails(dict(zip(others, steps, strict=True)) | {lever: step}):
                return False
        ends[lever] = step
        return True

    @property
    def _either_way(self) -> list[int]:
        return [at for at, each in enumerate(self.levers) if each.sign * self.bend.sense == 0]

    @property
    def levers(self) -> tuple[Lever, ...]:
        """What moves the quantity."""
        gradable = self.workshop.draft.gradable
        return gradable.levers.get(self.bend.quantity, ()) if gradable else ()

    def _fails(self, steps: Mapping[int, int]) -> bool:
        """Whether the farthest counts in every sure direction fail, the others at these steps."""
        counts = dict(self.counts)
        for at, lever in enumerate(self.levers):
            counts[lever.by] += steps.get(at, self.high.get(at, 0) or self.low.get(at, 0))
        try:
            findings = self.workshop.findings(self.case.index, counts, self.bend.code)
        except ValueError:
            return False
        return any(
            each.quantity is self.bend.quantity
            and each.sense == self.bend.sense
            and _rank(each.severity) >= _rank(self.bend.severity)
            for each in bends(self.case, findings)
        )

    def clause(self) -> Clause:
        """Some lever lies outside the box."""
        rows = []
        for at, lever in enumerate(self.levers):
            value, per_step = lever.value.of_size(self.case.index), lever.value.terms[lever.by]
            here = lever.value.at(self.counts)
            sense = lever.sign * self.bend.sense
            if sense >= 0:
                rows.append(at_least(value, here + self.high.get(at, 0) * per_step + 1))
            if sense <= 0:
                rows.append(at_least(-value, -(here + self.low.get(at, 0) * per_step - 1)))
        return tuple(rows)


def _rank(severity: Severity) -> int:
    return [Severity.GOOD, Severity.MIND, Severity.STOP].index(severity)


def cuts(case: SizeCase, workshop: Workshop, bend: Bend, counts: Counts) -> Iterator[Clause]:
    """Clauses that these counts break and no counts that pass do: one balanced box, one for each way."""
    box = _Box(case, workshop, bend, dict(counts))
    fixed = case.size.given.keys()
    ways = [
        (at, way)
        for at, lever in enumerate(box.levers)
        if not lever.value.terms.keys() <= fixed and lever.by not in fixed
        for way in (1, -1)
        if lever.sign * bend.sense in (0, way)
    ]
    starts: list[Sequence[tuple[int, int]]] = [(), *([each] for each in ways)]
    told = set()
    for start in starts:
        box = _Box(case, workshop, bend, dict(counts))
        for first in start:
            while box.push(*first):
                pass
        active = list(ways)
        while active:
            active = [each for each in active if box.push(*each)]
        corner = (tuple(box.low.items()), tuple(box.high.items()))
        if corner not in told:
            told.add(corner)
            yield box.clause()


def cut_rule(case: SizeCase, bend: Bend, clauses: Sequence[Clause]) -> Rule:
    """The rule that the cuts found so far stand for."""
    more = "more" if bend.sense > 0 else "less"
    return Rule(
        key=f"{case.size.name}: {bend.key}",
        sizes=(case.index,),
        words=f"{bend.quantity} as the check {bend.code} asks",
        clauses=tuple(clauses),
        cure=f"{more} {bend.quantity}: schematics explain {bend.code} says what helps",
        code=bend.code,
        price=f"{case.size.name}: {bend.code}",
        wish=bend.severity is Severity.MIND,
    )
