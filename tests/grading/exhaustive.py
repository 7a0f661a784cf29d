"""The best counts of a small grading problem, found by looking at every combination of counts.

Each is judged by the real checks on the garment that the construction makes of it, and priced as
`tests.grading.stated_price` has it. What lengths alone cost is a price no garment falls below; one is
made only where that is no more than an answer may cost that could still be the best.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

import numpy as np

from schematics.checks import check_size
from schematics.checks.finding import Case, Severity
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.grading.draft import Draft, DraftSize
from schematics.wearer.body import Wearer
from schematics.wearer.resolve import resolve
from tests.grading.stated_price import Prices, lengths_cm, makings

Counts = Mapping[str, float]

WIDE_CM = 5.0
"""How far to both sides of what fits, and of the answer, counts are looked at."""
_NEAR = 1e-6
EVERY, UNTIL = "body.increase_every", "body.increase_until"


def intervals(construction: str) -> tuple[float, ...]:
    """The intervals of regular increases that bodies can be shaped with; two rows of three in lines only."""
    return {"flared": (1, 2, 3, 4, 5, 6, 7, 8), "mitred": (1, 1.5, 2, 3, 4, 5, 6, 7, 8)}.get(
        construction, (1,)
    )


@dataclass(eq=False)
class Choices:
    """Every combination of the counts of one size at one interval, by columns, and what it costs.

    ``least`` is what its lengths cost; ``cost`` all it costs, not a number before it was judged.
    """

    columns: Mapping[str, Any]
    lengths: Mapping[str, Any]
    least: Any
    cost: Any = field(init=False)

    def __post_init__(self) -> None:
        self.cost = np.full(len(self.least), math.nan)

    @property
    def so_far(self) -> Any:
        """The cost where it is known, else what it is at least."""
        return np.where(np.isnan(self.cost), self.least, self.cost)

    def kept(self, rows: Any) -> Choices:
        """Those rows of it."""
        columns, lengths = (
            {name: each[rows] for name, each in of.items()} for of in (self.columns, self.lengths)
        )
        found = Choices(columns, lengths, self.least[rows])
        found.cost = self.cost[rows]
        return found

    def counts(self, row: int) -> dict[str, float]:
        """One combination."""
        values = {name: column[row].item() for name, column in self.columns.items()}
        return {name: int(value) if value == int(value) else value for name, value in values.items()}


class Exhaustive:
    """A draft and all its answers near counts that more or less fit and those that were found."""

    def __init__(self, draft: Draft, fitting: Sequence[Counts], found: Sequence[Counts] = ()) -> None:
        assert draft.wishes is not None
        self.draft, self.fitting, self.found, self.wishes = draft, fitting, found, draft.wishes
        self.construction = CONSTRUCTIONS[draft.head.construction]
        settings = draft.sizes[0].settings
        made = makings(self.construction.word, settings.get("body.lines", 0), draft.head.parts)
        self.prices = Prices(self.wishes, made)
        self.wearers = [resolve(size.wearer, size.name) for size in draft.sizes]
        self._judged: dict[tuple[int, tuple[tuple[str, float], ...]], float] = {}

    @cached_property
    def meant_cm(self) -> list[dict[str, float]]:
        """The lengths meant for each size."""
        return [self._meant_cm(wearer) for wearer in self.wearers]

    def _meant_cm(self, wearer: Wearer) -> dict[str, float]:
        found = {}
        for key, intent in self.wishes.intents.items():
            body = intent.measure and wearer.get(intent.measure)
            found[key] = intent.part * body.cm + intent.ease_cm if body else intent.length_cm or 0.0
        return found

    def cost(self, counts: Sequence[Counts]) -> float:
        """What an answer costs; infinite where a check stops it."""
        lengths = [
            {key: np.array([cm]) for key, cm in lengths_cm(self.prices.made, each).items()} for each in counts
        ]
        own = sum(self.judge(at, each) for at, each in enumerate(counts))
        sizes = zip(self.draft.sizes, counts, strict=True)
        shared = {each[EVERY] for size, each in sizes if EVERY in each and EVERY not in size.given}
        own += min(self._apart(every) for every in shared or self._intervals)
        return float(
            own + sum(self._steps(at, *pair)[0, 0] for at, pair in enumerate(itertools.pairwise(lengths)))
        )

    def _steps(self, at: int, before: Mapping[str, Any], after: Mapping[str, Any]) -> Any:
        return self.prices.steps((self.meant_cm[at], self.meant_cm[at + 1]), (before, after)) + np.zeros(
            (1, 1)
        )

    def judge(self, at: int, counts: Counts) -> float:
        """What one size costs by itself; infinite where it cannot be made or worn."""
        key = at, tuple(sorted(counts.items()))
        if key not in self._judged:
            self._judged[key] = self._judge(at, counts)
        return self._judged[key]

    def _judge(self, at: int, counts: Counts) -> float:
        draft, wearer = self.draft, self.wearers[at]
        try:
            size = draft.size(draft.sizes[at], counts)
        except ValueError:
            return math.inf
        garment = self.construction.build(size, draft.head.parts)
        design = replace(draft.head, sizes=(size,))
        case = Case(
            design=design, parts=design.parts, size=size, garment=garment, freedom=arm_freedom(garment),
            wearer=wearer, limits=design.limits,
        )  # fmt: skip
        stopped = any(finding.severity is Severity.STOP for finding in check_size(case))
        if stopped and draft.missing(draft.sizes[at]):
            return math.inf
        lengths = {each.key: each.length_cm for each in garment.finished}
        own = self.prices.lengths(self.meant_cm[at], lengths) + self.prices.straight(counts)
        return float(own) + self.prices.minded(case)

    def best(self, most: float = math.inf) -> tuple[float, list[dict[str, float]]]:
        """The cheapest answer of those that cost no more than ``most``; infinite where there is none."""
        best: tuple[float, list[dict[str, float]]] = (math.inf, [])
        for every in self._intervals:
            sizes = [self._choices(at, every) for at in range(len(self.wearers))]
            apart = self._apart(every)
            cost, counts = self._cheapest(sizes, min(most, best[0]) - apart + _NEAR)
            best = min(best, (cost + apart, counts), key=lambda each: each[0])
        return best

    def _apart(self, every: float) -> float:
        """20 for each size that has another interval by hand."""
        given = (size.given.get(EVERY, every) for size in self.draft.sizes)
        return 20.0 * sum(each != every for each in given)

    def feasible(self) -> bool:
        """Whether there is an interval at which every size has counts that nothing stops."""
        return any(
            all(self._any(at, self._choices(at, every)) for at in range(len(self.wearers)))
            for every in self._intervals
        )

    def _any(self, at: int, choices: Choices) -> bool:
        return any(math.isfinite(self.judge(at, choices.counts(row))) for row in range(len(choices.least)))

    @property
    def _intervals(self) -> Sequence[float]:
        """The intervals that sizes may share."""
        given = {size.given[EVERY] for size in self.draft.sizes if EVERY in size.given}
        return sorted({*intervals(self.draft.head.construction), *given})

    def _choices(self, at: int, every: float) -> Choices:
        size = self.draft.sizes[at]
        missing = self.draft.missing(size)
        free = [name for name in missing if name not in (EVERY, UNTIL)]
        grid = np.meshgrid(*(self._range(at, name) for name in free), indexing="ij")
        columns = {name: values.ravel() for name, values in zip(free, grid, strict=True)}
        number = len(grid[0].ravel()) if grid else 1
        columns |= {name: np.full(number, value) for name, value in size.given.items()}
        if len(missing) > len(free):
            columns = self._shaped(size, columns, size.given.get(EVERY, every))
        lengths = lengths_cm(self.prices.made, columns)
        number = len(next(iter(columns.values())))
        cost = self.prices.lengths(self.meant_cm[at], lengths) + self.prices.straight(columns)
        return Choices(columns, lengths, cost + np.zeros(number))

    def _range(self, at: int, name: str) -> Any:
        """Whole numbers from well below what fits and what was found to well above."""
        cm = next(abs(each.cm) for made in self.prices.made.values() for each in made if each.count == name)
        middles = [self.fitting[at][name], *(counts[name] for counts in self.found[at : at + 1])]
        low, high = math.floor(min(middles) - WIDE_CM / cm), math.ceil(max(middles) + WIDE_CM / cm)
        return np.arange(max(low, 0), high + 1)

    def _shaped(self, size: DraftSize, columns: Mapping[str, Any], every: float) -> dict[str, Any]:
        """The columns with every way to make regular increases."""
        rows = columns["body.rows"]
        lined = "body.increase_rows" in columns
        least = (1, 2)
        found: list[dict[str, Any]] = []
        there_are = np.array([len(increase_rows(each, every)) for each in range(int(rows.max()) + 1)])[rows]
        for number in range(1, int(there_are.max(initial=0)) + 1):
            until = increase_rows(int(rows.max()), every)[number - 1]
            fills = (number <= there_are) & (least[1] * number >= least[0] * there_are)
            if lined:
                fits = fills & (columns["body.increase_rows"] == number)
            else:
                more, neck = columns["body.hem"] - columns["body.neck"], columns["body.neck"]
                each, rest = np.divmod(more, number)
                fits = fills & (rest == 0) & (each >= 4) & (each <= 20) & (2 * each <= neck)
                fits |= (more == 0) & (number == there_are)
            if size.given.get(UNTIL, until) == until:
                found.append({name: column[fits] for name, column in columns.items()})
                found[-1] |= {EVERY: np.full(fits.sum(), every), UNTIL: np.full(fits.sum(), until)}
        return (
            {name: np.concatenate([each[name] for each in found]) for name in found[0]}
            if found
            else {name: column[:0] for name, column in columns.items()}
        )

    def _floor(self, at: int, choices: Choices, most: float) -> float:
        """What one size costs at least; infinite if that is more than ``most``."""
        best = math.inf
        for row in np.argsort(choices.least, kind="stable"):
            if choices.least[row] > min(best, most):
                break
            choices.cost[row] = self.judge(at, choices.counts(row))
            best = min(best, choices.cost[row])
        return best

    def _cheapest(self, sizes: Sequence[Choices], most: float) -> tuple[float, list[dict[str, float]]]:
        """The cheapest answer at one interval.

        The cheapest way from size to size is sought as if what was not judged cost no more than its lengths,
        and what lies on it is judged, until all that lies on it was judged before.
        """
        floors = [self._floor(at, choices, most) for at, choices in enumerate(sizes)]
        if math.isinf(sum(floors)) or sum(floors) > most:
            return math.inf, []
        kept = [
            choices.kept(choices.so_far + sum(floors) - floor <= most)
            for choices, floor in zip(sizes, floors, strict=True)
        ]
        between = [
            self._steps(at, *(each.lengths for each in pair))
            for at, pair in enumerate(itertools.pairwise(kept))
        ]
        while True:
            cost, rows = cheapest_way([each.so_far for each in kept], between)
            new = [at for at, row in enumerate(rows) if math.isnan(kept[at].cost[row])]
            if cost > most:
                return math.inf, []
            if not new:
                return cost, [each.counts(row) for each, row in zip(kept, rows, strict=True)]
            for at in new:
                kept[at].cost[rows[at]] = self.judge(at, kept[at].counts(rows[at]))


def increase_rows(rows: int, every: float) -> list[int]:
    """Row 2 and every so many rows after it; with 1.5, rows 2, 3, 5, 6, 8 and so on."""
    found = (2 + math.floor(number * every) for number in itertools.count())
    return list(itertools.takewhile(lambda row: row <= rows, found))


def cheapest_way(costs: Sequence[Any], between: Sequence[Any]) -> tuple[float, list[int]]:
    """The cheapest choice for each size, given what each costs and what each step costs (R. Bellman)."""
    best, origins = np.asarray(costs[0]), []
    for step, own in zip(between, costs[1:], strict=True):
        through = best[:, None] + step
        origins.append(through.argmin(axis=0))
        best = through.min(axis=0) + own
    rows = [int(best.argmin())]
    for origin in reversed(origins):
        rows.append(int(origin[rows[-1]]))
    return float(best.min()), rows[::-1]
