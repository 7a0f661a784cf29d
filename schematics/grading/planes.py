"""Planes: what a quantity is at most inside a window of counts, learnt from made garments.

It is its tangent plus a gap, taken from the corners and axes of the window. Boxes are exact; planes let the
solver see from afar where to go (outer approximation).

References:
    M. A. Duran, I. E. Grossmann, An outer-approximation algorithm for a class of mixed-integer
    nonlinear programs, Mathematical Programming 36 (1986).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from schematics.checks.finding import Severity
from schematics.constructions.facts import Quantity
from schematics.grading.bends import Bend
from schematics.grading.boxes import price
from schematics.grading.levers import Levers
from schematics.grading.made import Counts, Workshop
from schematics.grading.rules import Clause, Rule, SizeCase
from schematics.grading.state import cm_per_count
from schematics.linear import Linear, Row, at_least, within

WIDEST_CM, NARROWEST_CM = 24.0, 2.0
"""How far a window may reach from the counts its plane touches, each way."""
_NARROWER = 1.5
"""By how much at least the next window is narrower."""
_SERVES = 0.5
"""A window serves if its gap is no more than this share of what is missing."""
_SLACK = 1.15
"""The gap of a plane is this much wider than at the corners and axes of its window."""
_LEAST_GAP_CM = 0.01
_HAIR_CM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """A tangent that is no less than a quantity's margin while ``spans`` hold: sums, from and to.

    Where they do not, or a row of ``beyond`` holds, it says nothing. At ``counts`` it touches the quantity,
    whose margin there is ``margin_cm``.
    """

    bend: Bend
    counts: Counts
    margin_cm: float
    tangent: Linear
    spans: tuple[tuple[Linear, float, float], ...] = ()
    beyond: tuple[Row, ...] = ()

    def holds(self, counts: Counts) -> bool:
        """Whether the counts lie in its spans."""
        return all(low <= value.at(counts) <= high for value, low, high in self.spans)

    def refuses(self, counts: Counts) -> bool:
        """Whether it says that the quantity is wrong at these counts."""
        return (
            self.holds(counts)
            and self.tangent.at(counts) < 0
            and all(row.miss(counts) for row in self.beyond)
        )


def plane(case: SizeCase, workshop: Workshop, bend: Bend, counts: Counts) -> Plane | None:
    """The plane that touches the quantity at these counts; None where it would cut off too little."""
    levers = Levers(case, workshop, bend, counts)
    if not bend.sense:
        return None
    here = levers.margin_cm({})
    if here is None or here >= 0:
        return None
    window_cm = WIDEST_CM
    while window_cm >= NARROWEST_CM:
        steps = _steps(levers, window_cm)
        tangent = _Tangent(levers, here, steps)
        share = tangent.lay()
        if share <= 1:
            return Plane(
                bend=bend,
                counts=counts,
                margin_cm=here,
                tangent=tangent.value,
                spans=tuple(_spans(levers, steps)),
                beyond=tuple(_beyond(levers)),
            )
        if levers.slice is not None:
            return None
        window_cm /= 2 if share == math.inf else max(_NARROWER, math.sqrt(share))
    return None


SAME_FOR_ALL = frozenset({Quantity.REACH, Quantity.SPREAD_BACK, Quantity.SPREAD_FRONT, Quantity.LOWEST})
"""Quantities that only the garment decides; what differs between wearers is how much of them is needed."""


def lent(found: Plane, case: SizeCase, workshop: Workshop, bend: Bend) -> Plane | None:
    """Another size's plane for this one.

    None where its garment cannot be measured, or what moves the quantity is fixed by hand elsewhere: the
    plane takes that for granted.
    """
    levers = Levers(case, workshop, bend, found.counts)
    if not levers.fixed_here:
        return None
    margin = levers.margin_cm({})
    if margin is None:
        return None
    more = margin - found.margin_cm
    return replace(found, bend=bend, margin_cm=margin, tangent=found.tangent + more)


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """A plane and the rules it stands for; ``window`` names the choice to leave its spans, if it has some."""

    plane: Plane
    rules: tuple[Rule, ...]
    window: str = ""


def region(case: SizeCase, found: Plane, number: int) -> Region:
    """The rules of a size's plane; no other plane has the same ``number``.

    A contradiction is told by giving up counts fixed by hand, which planes take for granted: so they are no
    part of one.
    """
    bend = found.bend
    name = f"{case.size.name}: {bend.key} plane {number}"
    wish = bend.severity is Severity.MIND
    window = name if found.spans else ""

    def rule(kind: str, clauses: Sequence[Clause], **more: str | bool) -> Rule:
        return Rule(
            key=f"{name} {kind}",
            sizes=(case.index,),
            words="",
            clauses=tuple(tuple(row.of_size(case.index) for row in clause) for clause in clauses),
            **more,  # type: ignore[arg-type]  # the rule's own fields
        )

    rules = [
        rule(
            "row",
            [(at_least(found.tangent, 0), *found.beyond)],
            unless=window,
            wish=wish,
            price=price(case, bend) if wish else "",
            learnt=True,
        )
    ]
    if found.spans:
        inside = [(within(value, low, high),) for value, low, high in found.spans]
        outside = [
            row
            for value, low, high in found.spans
            for row in (at_least(value, high + 1), at_least(-value, 1 - low))
        ]
        rules.append(rule("window", inside, unless=window, learnt=True))
        rules.append(rule("outside", [tuple(outside)], given=window, learnt=True))
    return Region(plane=found, rules=tuple(rules), window=window)


def _spans(levers: Levers, steps: Mapping[int, int]) -> Iterator[tuple[Linear, float, float]]:
    for at, step in steps.items():
        if not levers.straight(at):
            lever = levers.all[at]
            here, reach = lever.value.at(levers.counts), step * levers.per_step(at)
            yield lever.value, here - reach, here + reach


def _beyond(levers: Levers) -> list[Row]:
    """The slice is left towards where the quantity is better; away from there it is only worse."""
    if levers.slice is None:
        return []
    lever = levers.all[levers.slice]
    here, sense = lever.value.at(levers.counts), lever.sign * levers.bend.sense
    return [at_least(lever.value, here + 1) if sense > 0 else at_least(-lever.value, 1 - here)]


def _steps(levers: Levers, window_cm: float) -> dict[int, int]:
    """Steps from the middle of the window to its ends, of the levers that are free to move in it."""
    draft, case = levers.workshop.draft, levers.case
    return {
        at: 1
        if levers.straight(at)
        else max(1, int(window_cm / cm_per_count(draft, case, lever.by) / levers.counts_per_step(at)))
        for at, lever in enumerate(levers.all)
        if levers.free(lever) and at != levers.slice
    }


@dataclass(slots=True)
class _Tangent:
    """A sum of counts that is at least the quantity's margin all over a window."""

    levers: Levers
    here: float
    steps: Mapping[int, int]
    slopes: dict[int, float] = field(default_factory=dict)
    gap: float = 0.0

    def lay(self) -> float:
        """Look at the window's axes and corners; the gap as a share of what serves.

        A window half as wide has about a quarter of the gap. Looking ends with a gap that is too wide, and is
        infinite where the margin is not measured.
        """
        for at, step in self.steps.items():
            up, down = self._margin({at: step}), self._margin({at: -step})
            self.slopes[at] = (up - down) / 2 / step
            if not self._serves((up + down) / 2):
                return self.share
        bent = [at for at in self.steps if not self.levers.straight(at)]
        for signs in itertools.product((1, -1), repeat=len(bent)):
            corner = {at: sign * self.steps[at] for at, sign in zip(bent, signs, strict=True)}
            if not self._serves(
                self._margin(corner) - sum(self.slopes[at] * step for at, step in corner.items())
            ):
                return self.share
        return self.share

    @property
    def share(self) -> float:
        """The gap as a share of what serves."""
        return _SLACK * self.gap / (_SERVES * -self.here)

    @property
    def value(self) -> Linear:
        """The sum."""
        bent = any(not self.levers.straight(at) for at in self.steps)
        value = Linear(constant=self.here + (_SLACK * self.gap + _LEAST_GAP_CM if bent else _HAIR_CM))
        for at, slope in self.slopes.items():
            lever = self.levers.all[at]
            value = value + slope / self.levers.per_step(at) * (
                lever.value - lever.value.at(self.levers.counts)
            )
        return value

    def _margin(self, steps: Mapping[int, int]) -> float:
        margin = self.levers.margin_cm(steps)
        return math.inf if margin is None else margin

    def _serves(self, level: float) -> bool:
        """Whether the plane still serves if it lies no lower than ``level`` in the middle."""
        self.gap = max(self.gap, level - self.here) if level < math.inf else math.inf
        return self.share <= 1
