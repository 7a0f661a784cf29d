"""Cuts: what keeps the solver from counts the checks would refuse, learnt from made garments.

Two kinds, both true of every garment as far as a construction's levers are (held by tests):

A box says that no counts in it will do. Levers push one way only, so where the best corner of a box
fails, all of it does.

A plane says that inside a window of counts a quantity is at most its tangent plus a gap, taken from
the corners and axes of the window. Boxes are exact; planes let the solver see from afar where to go
(outer approximation).

References:
    M. A. Duran, I. E. Grossmann, An outer-approximation algorithm for a class of mixed-integer
    nonlinear programs, Mathematical Programming 36 (1986).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from schematics.checks.finding import Severity
from schematics.constructions.facts import Lever
from schematics.grading.bends import Bend, margin_cm
from schematics.grading.made import Counts, Workshop
from schematics.grading.rules import Clause, Rule, SizeCase
from schematics.grading.state import cm_per_count
from schematics.linear import Linear, Row, at_least, within

WINDOWS_CM = (24.0, 12.0, 6.0, 3.0)
"""How far a window may reach from the counts its plane touches, each way; the first that serves."""
_SERVES = 0.5
"""A window serves if its gap is no more than this share of what is missing."""
_MOST_STEPS = 12
"""How far a box reaches, in steps of each lever."""
_MOST_MADE = 8
"""Garments made for one step of a box where levers push either way."""
_SLACK = 1.15
"""The gap of a plane is this much wider than at the corners and axes of its window."""
_LEAST_GAP_CM = 0.01
_HAIR_CM = 1e-6


@dataclass(frozen=True, slots=True)
class _Levers:
    """What moves the quantity that bends, and what of it is free to move."""

    case: SizeCase
    workshop: Workshop
    bend: Bend
    counts: Counts

    @property
    def all(self) -> tuple[Lever, ...]:
        """What moves the quantity."""
        gradable = self.workshop.draft.gradable
        return gradable.levers.get(self.bend.quantity, ()) if gradable else ()

    @property
    def slice(self) -> int | None:
        """The lever that leaves the others straight while it stands."""
        gradable = self.workshop.draft.gradable
        by = gradable.slices.get(self.bend.quantity) if gradable else None
        return next((at for at, lever in enumerate(self.all) if lever.by == by), None)

    def straight(self, at: int) -> bool:
        """Whether the lever moves the quantity evenly, in the slice if there is one."""
        return self.all[at].straight or self.slice is not None

    def free(self, lever: Lever) -> bool:
        """Whether the lever's count is not fixed by hand."""
        return lever.by not in self.case.size.given

    def moved(self, steps: Mapping[int, int]) -> dict[str, int]:
        """The counts with so many steps of the levers, by their places."""
        counts = dict(self.counts)
        for at, step in steps.items():
            counts[self.all[at].by] += step
        return counts


@dataclass(slots=True)
class _Box:
    """Counts around those that failed, as far as each lever may be pushed with all of them failing."""

    levers: _Levers
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
            value, per_step = lever.value.of_size(self.levers.case.index), lever.value.terms[lever.by]
            here, sense = lever.value.at(self.levers.counts), self._sense(lever)
            if sense >= 0:
                rows.append(at_least(value, here + self.high.get(at, 0) * per_step + 1))
            if sense <= 0:
                rows.append(at_least(-value, 1 - here - self.low.get(at, 0) * per_step))
        return tuple(rows)


def boxes(case: SizeCase, workshop: Workshop, bend: Bend, counts: Counts) -> Iterator[Clause]:
    """Clauses that these counts break and no counts that pass do: one balanced box, one for each way."""
    levers = _Levers(case, workshop, bend, counts)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """Inside a window a wish asks for a row; ``window`` names the choice to leave it, if there is one."""

    rules: tuple[Rule, ...]
    window: str = ""


def plane(case: SizeCase, workshop: Workshop, bend: Bend, counts: Counts, number: int) -> Plane | None:
    """The plane that touches the quantity at these counts; None where it would cut off too little.

    Hard rules get none: a plane holds as long as the counts fixed by hand are, and a contradiction
    is told by giving those up.
    """
    levers = _Levers(case, workshop, bend, counts)
    if bend.severity is Severity.STOP or not bend.sense:
        return None
    for window_cm in (math.inf,) if levers.slice is not None else WINDOWS_CM:
        steps = _steps(levers, window_cm)
        tangent = _tangent(levers, steps)
        if tangent is not None:
            return _plane(levers, steps, tangent, number)
    return None


def _plane(levers: _Levers, steps: Mapping[int, int], tangent: Linear, number: int) -> Plane:
    case, bend, counts = levers.case, levers.bend, levers.counts
    name = f"{case.size.name}: {bend.key} plane {number}"

    def rule(kind: str, clauses: Sequence[Clause], **more: str | bool) -> Rule:
        return Rule(
            key=f"{name} {kind}",
            sizes=(case.index,),
            words="",
            clauses=tuple(clauses),
            **more,  # type: ignore[arg-type]  # the rule's own fields
        )

    row = at_least(tangent.of_size(case.index), 0)
    curved = [(at, step) for at, step in steps.items() if not levers.straight(at)]
    if not curved:
        clause = (row, *_beyond(levers))
        return Plane(rules=(rule("slice", [clause], price=price(case, bend), wish=True),))
    inside: list[Clause] = []
    outside: list[Row] = []
    for at, step in curved:
        lever = levers.all[at]
        value, here = lever.value.of_size(case.index), lever.value.at(counts)
        reach = step * lever.value.terms[lever.by]
        inside.append((within(value, here - reach, here + reach),))
        outside += [at_least(value, here + reach + 1), at_least(-value, 1 + reach - here)]
    return Plane(
        rules=(
            rule("window", inside, unless=name),
            rule("row", [(row,)], unless=name, price=price(case, bend), wish=True),
            rule("outside", [tuple(outside)], given=name),
        ),
        window=name,
    )


def _beyond(levers: _Levers) -> list[Row]:
    """The slice is left towards where the quantity is better; away from there it is only worse."""
    if levers.slice is None:
        return []
    lever = levers.all[levers.slice]
    value, here = lever.value.of_size(levers.case.index), lever.value.at(levers.counts)
    sense = lever.sign * levers.bend.sense
    return [at_least(value, here + 1) if sense > 0 else at_least(-value, 1 - here)]


def _steps(levers: _Levers, window_cm: float) -> dict[int, int]:
    """Steps from the middle of the window to its ends, of the levers that are free to move in it."""
    draft, case = levers.workshop.draft, levers.case
    return {
        at: 1 if levers.straight(at) else max(1, int(window_cm / cm_per_count(draft, case, lever.by)))
        for at, lever in enumerate(levers.all)
        if levers.free(lever) and at != levers.slice
    }


def _tangent(levers: _Levers, steps: Mapping[int, int]) -> Linear | None:
    """A sum of counts that is at least the quantity's margin all over the window.

    None where it is not measured all over, or the gap is too wide to serve.
    """
    here = _margin(levers, {})
    if here is None:
        return None
    slopes: dict[int, float] = {}
    gap = 0.0
    for at, step in steps.items():
        up, down = _margin(levers, {at: step}), _margin(levers, {at: -step})
        if up is None or down is None:
            return None
        slopes[at] = (up - down) / 2 / step
        gap = max(gap, (up + down) / 2 - here)
    curved = [at for at in steps if not levers.straight(at)]
    for signs in itertools.product((1, -1), repeat=len(curved)):
        corner = {at: sign * steps[at] for at, sign in zip(curved, signs, strict=True)}
        margin = _margin(levers, corner)
        if margin is None:
            return None
        gap = max(gap, margin - here - sum(slopes[at] * step for at, step in corner.items()))
        if _SLACK * gap > -_SERVES * here:
            return None
    tangent = Linear(constant=here + (_SLACK * gap + _LEAST_GAP_CM if curved else _HAIR_CM))
    for at, slope in slopes.items():
        lever = levers.all[at]
        tangent = tangent + slope / lever.value.terms[lever.by] * (
            lever.value - lever.value.at(levers.counts)
        )
    return tangent


def _margin(levers: _Levers, steps: Mapping[int, int]) -> float | None:
    try:
        findings = levers.workshop.findings(levers.case.index, levers.moved(steps), levers.bend.code)
    except ValueError:
        return None
    return margin_cm(levers.case, levers.bend, findings)
