"""Boxes: counts that the checks refuse, all of them, learnt from made garments.

Levers push one way only (held by tests), so where the best corner of a box fails, all of it does.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from schematics.checks.finding import Severity
from schematics.constructions.facts import Lever
from schematics.grading.bends import Bend
from schematics.grading.levers import Levers
from schematics.grading.made import Counts, Workshop
from schematics.grading.rules import Clause, Rule, SizeCase
from schematics.linear import at_least

_MOST_STEPS = 12
"""How far a box reaches, in steps of each lever."""
_MOST_MADE = 8
"""Garments made for one step of a box where levers push either way."""


@dataclass(slots=True)
class _Box:
    """Counts around those that failed, as far as each lever may be pushed with all of them failing."""

    levers: Levers
    low: dict[int, int] = field(default_factory=dict)
    high: dict[int, int] = field(default_factory=dict)

    def push(self, lever: int, way: int) -> bool:
        """Reach one step farther, if everything there fails too; levers by their places."""
        ends = self.high if way > 0 else self.low
        step = ends.get(lever, 0) + way
        others = [at for at, each in enumerate(self.levers.all) if at != lever and not self._sense(each)]
        spans = [range(self.low.get(each, 0), self.high.get(each, 0) + 1) for each in others]
        if math.prod(map(len, spans)) > _MOST_MADE or abs(step) > _MOST_STEPS:
            return False
        for steps in itertools.product(*spans):
            if not self._fails({**dict(zip(others, steps, strict=True)), lever: step}):
                return False
        ends[lever] = step
        return True

    def _sense(self, lever: Lever) -> int:
        return lever.sign * self.levers.bend.sense

    def _fails(self, steps: Mapping[int, int]) -> bool:
        """Whether the farthest counts in every sure direction fail, the others at these steps."""
        farthest = {at: self.high.get(at, 0) or self.low.get(at, 0) for at in range(len(self.levers.all))}
        counts = self.levers.moved({**farthest, **steps})
        try:
            return self.levers.bend.fails(self.levers.case, self.levers.workshop, counts)
        except ValueError:
            return False

    def clause(self) -> Clause:
        """Some lever lies outside the box."""
        rows = []
        for at, lever in enumerate(self.levers.all):
            value, per_step = lever.value.of_size(self.levers.case.index), self.levers.per_step(at)
            here, sense = lever.value.at(self.levers.counts), self._sense(lever)
            if sense >= 0:
                rows.append(at_least(value, here + self.high.get(at, 0) * per_step + 1))
            if sense <= 0:
                rows.append(at_least(-value, 1 - here - self.low.get(at, 0) * per_step))
        return tuple(rows)


def boxes(case: SizeCase, workshop: Workshop, bend: Bend, counts: Counts) -> Iterator[Clause]:
    """Clauses that these counts break and no counts that pass do: one balanced box, one for each way."""
    levers = Levers(case, workshop, bend, counts)
    ways = [
        (at, way)
        for at, lever in enumerate(levers.all)
        for way in (1, -1)
        if levers.free(lever) and lever.sign * bend.sense in (0, way)
    ]
    starts: list[Sequence[tuple[int, int]]] = [(), *([each] for each in ways)]
    told = set()
    for start in starts:
        box = _Box(levers)
        for first in start:
            while box.push(*first):
                pass
        active = list(ways)
        while active:
            active = [each for each in active if box.push(*each)]
        corner = (tuple(sorted(box.low.items())), tuple(sorted(box.high.items())))
        if levers.all and corner not in told:
            told.add(corner)
            yield box.clause()


def box_rule(case: SizeCase, bend: Bend, clauses: Sequence[Clause]) -> Rule:
    """The rule that boxes stand for."""
    more = "more" if bend.sense > 0 else "less"
    return Rule(
        key=f"{case.size.name}: {bend.key}",
        sizes=(case.index,),
        words=f"the {bend.quantity} is as the check {bend.code} asks",
        clauses=tuple(clauses),
        cure=f"{more} {bend.quantity}: schematics explain {bend.code} says what helps",
        code=bend.code,
        price=price(case, bend),
        wish=bend.severity is Severity.MIND,
    )


def price(case: SizeCase, bend: Bend) -> str:
    """What a wish is broken by: one finding, however many ways there are to it."""
    return f"{case.size.name}: {bend.code}"
