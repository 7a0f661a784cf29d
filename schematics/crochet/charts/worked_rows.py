"""A chart worked stitch by stitch: where each stitch of each row stands, and what it goes into.

Columns count a row's stitches from nought at the left, as seen with the right side facing. Row 0 is the
foundation chain.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from schematics.crochet.charts.chart import (
    Chart,
    ChartRow,
    ChartSection,
    Crossing,
    Into,
    Item,
    Passing,
    SeveralInOne,
    Side,
    StitchGroup,
    StitchRun,
    Worked,
)
from schematics.crochet.charts.chart_fault import ChartFault, ChartFaultError, count_words, uneven_words
from schematics.crochet.stitches import Loop


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The stitch that one is worked into or round: its row's place in the list (-1: foundation) and column.

    ``surface``: it is the one that lies on the surface there.
    """

    row: int
    column: int
    surface: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedStitch:
    """A stitch in its place.

    ``column`` is that of its first stitch for the row above; a stitch on the surface has the column of the
    one it lies over. ``base`` are the columns of the row below that it uses. ``target`` is set where it
    goes round a post, or into a row further down.
    """

    worked: Worked
    base: tuple[int, ...]
    column: int = -1
    target: Target | None = None
    passing: Passing | None = None
    in_space: bool = False
    written: int = field(default=1, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedRow:
    """A row of a piece: ``stitches`` in working order, and which columns of the row below were ``skipped``.

    ``number`` is the row of the chart, from 1; ``times`` how often what is worked across was worked.
    """

    number: int
    section: ChartSection
    index: int
    side: Side
    offered: int
    made: int
    times: int
    stitches: tuple[PlacedStitch, ...]
    skipped: tuple[int, ...]

    def standing(self) -> tuple[PlacedStitch, ...]:
        """The stitch that stands in each column, surface stitches left out: ``made`` of them."""
        by_column: dict[int, PlacedStitch] = {}
        for placed in self.stitches:
            for step in range(placed.worked.makes):
                by_column[placed.column + step] = placed
        return tuple(by_column[column] for column in range(self.made))

    def chain_columns(self) -> frozenset[int]:
        """The columns that hold a chain."""
        chains = {each.column for each in self.stitches if each.worked.stitch.abbreviation == "ch"}
        middles = {each.column + 1 for each in self.stitches if each.worked.stitch.abbreviation == "V-st"}
        return frozenset(chains | middles)


def row_counts(chart: Chart, stitches: int, repeats: int) -> tuple[int, ...]:
    """The stitches after each row of a piece of so many at its foot; the last row of the piece is the last.

    Raises:
        ChartFaultError: a row does not come out even.
    """
    counts: list[int] = []
    for number, section, index, row in _order(chart, repeats):
        offered = counts[-1] if counts else stitches
        try:
            times = row.times(offered)
        except ValueError:
            fault = ChartFault(
                sentence=f"row {number}: {uneven_words(row, offered)}", section=section, index=index
            )
            raise ChartFaultError(fault) from None
        counts.append(row.once.makes + times * row.across.makes)
    return tuple(counts)


def work_rows(chart: Chart, stitches: int, repeats: int) -> tuple[WorkedRow, ...]:
    """Every row of a piece of so many stitches at its foot, worked from the foundation chain up.

    Raises:
        ChartFaultError: a row does not come out even, or a stitch has nothing to go into.
    """
    rows: list[WorkedRow] = []
    side = chart.first_side
    for number, section, index, row in _order(chart, repeats):
        below = _Below(rows, stitches if not rows else rows[-1].made)
        rows.append(_RowWorker(number, section, index, row, side, below).worked_row())
        side = side.other
    return tuple(rows)


def _order(chart: Chart, repeats: int) -> Iterator[tuple[int, ChartSection, int, ChartRow]]:
    for section, numbers in chart.sections():
        for _ in range(repeats if section is ChartSection.REPEAT else 1):
            for index, number in enumerate(numbers):
                yield number, section, index, chart.rows[number - 1]


@dataclass(frozen=True, slots=True)
class _Below:
    """What the rows worked so far offer."""

    rows: Sequence[WorkedRow]
    offered: int

    def chains(self) -> frozenset[int]:
        return self.rows[-1].chain_columns() if self.rows else frozenset()

    def under(self, column: int, rows_down: int) -> int | None:
        """The column, so many rows further down, of what stands under a column of the row below."""
        place: int | None = column
        for row in reversed(self.rows[len(self.rows) - rows_down :]):
            base = row.standing()[place].base if place is not None else ()
            place = base[len(base) // 2] if base else None
        return place


class _RowWorker:
    """Works one row from its first stitch to its last."""

    def __init__(
        self, number: int, section: ChartSection, index: int, row: ChartRow, side: Side, below: _Below
    ) -> None:
        self._number, self._section, self._index = number, section, index
        self._row, self._side, self._below = row, side, below
        self._used = 0
        self._placed: list[PlacedStitch] = []
        self._skipped: list[int] = []
        self._loose: list[int] = []
        self._spare: list[int] = []

    def worked_row(self) -> WorkedRow:
        try:
            times = self._row.times(self._below.offered)
        except ValueError:
            raise self._fault(uneven_words(self._row, self._below.offered)) from None
        for part in self._row.parts:
            for _ in range(times if part.across else 1):
                self._work(part.items)
        self._stand_chains()
        made = sum(each.worked.makes for each in self._placed)
        placed = self._columns(made)
        row = WorkedRow(
            number=self._number, section=self._section, index=self._index, side=self._side,
            offered=self._below.offered, made=made, times=times, stitches=placed,
            skipped=tuple(self._skipped),
        )  # fmt: skip
        self._check(row)
        return row

    def _fault(self, sentence: str, column: int | None = None) -> ChartFaultError:
        return ChartFaultError(
            ChartFault(sentence=sentence, section=self._section, index=self._index, column=column)
        )

    def _seen(self, place: int) -> int:
        """The column of the row below that is met after ``place`` others."""
        return self._below.offered - 1 - place if self._side is Side.RIGHT else place

    def _work(self, items: Sequence[Item]) -> None:
        for item in items:
            match item:
                case StitchRun():
                    for _ in range(item.count):
                        self._one(item)
                case StitchGroup():
                    for _ in range(item.times):
                        self._work(item.items)
                case Crossing():
                    self._cross(item)
                case SeveralInOne():
                    self._several(item)

    def _next(self, number: int) -> tuple[int, ...]:
        base = tuple(self._seen(self._used + step) for step in range(number))
        self._used += number
        return base

    def _one(self, run: StitchRun) -> None:
        worked = run.worked
        name = worked.stitch.abbreviation
        if name == "sk":
            (column,) = self._next(1)
            self._skipped.append(column)
            self._spare.append(column)
        elif name == "ch":
            self._loose.append(len(self._placed))
            self._place(run, ())
        else:
            self._stand_chains()
            base = self._next(worked.uses)
            over = base or (self._seen(min(self._used, self._below.offered - 1)),)
            self._place(run, base, over[len(over) // 2] if worked.surface or base else None)

    def _place(
        self, run: StitchRun, base: tuple[int, ...], aim: int | None = None, *, in_space: bool = False
    ) -> None:
        """Add a stitch; ``aim`` is the column of the row below under or over which its target stands."""
        target = None
        worked = run.worked
        if aim is not None and (worked.stitch.post or worked.rows_below > 1 or worked.surface):
            target = self._target(run, aim)
        self._placed.append(
            PlacedStitch(
                worked=worked,
                base=base,
                target=target,
                passing=run.passing,
                in_space=in_space,
                written=run.column,
            )
        )

    def _stand_chains(self) -> None:
        """Chains that were made beside skipped stitches stand over them, shared out evenly."""
        for order, place in enumerate(self._loose):
            if self._spare:
                base = (self._spare[order * len(self._spare) // len(self._loose)],)
                self._placed[place] = replace(self._placed[place], base=base)
        self._loose, self._spare = [], []

    def _cross(self, crossing: Crossing) -> None:
        self._stand_chains()
        first = self._used
        for item in crossing.items:
            assert isinstance(item, StitchRun)
            for number in range(item.count):
                over = min(self._used, self._below.offered - 1)
                base = self._next(item.worked.uses)
                aim = self._seen(first + item.places[number] - 1) if item.places else self._seen(over)
                into_top = item.places and not item.worked.stitch.post and not item.worked.surface
                self._place(item, (aim,) if into_top and base else base, aim)

    def _several(self, item: SeveralInOne) -> None:
        self._stand_chains()
        if item.into is Into.SAME:
            standing = [each for each in self._placed if each.base]
            if not standing:
                raise self._fault("'in same st' has no stitch before it to share", item.column)
            base = standing[-1].base
        else:
            base = self._next(item.uses)
        if item.into is Into.SPACE:
            self._check_space(item, base)
        self._inside(item.items, base, in_space=item.into is Into.SPACE)

    def _inside(self, items: Sequence[Item], base: tuple[int, ...], *, in_space: bool) -> None:
        for item in items:
            if isinstance(item, StitchGroup):
                for _ in range(item.times):
                    self._inside(item.items, base, in_space=in_space)
            elif isinstance(item, StitchRun):
                for _ in range(item.count):
                    self._place(item, base, in_space=in_space)

    def _check_space(self, item: SeveralInOne, base: tuple[int, ...]) -> None:
        chains = self._below.chains()
        beyond = {min(base) - 1, max(base) + 1}
        if not set(base) <= chains:
            raise self._fault(f"there is no space of {item.chains} chains here in the row below", item.column)
        if beyond & chains:
            raise self._fault(
                f"the space here in the row below has more than {item.chains} chains; "
                "expected all of them to be named",
                item.column,
            )

    def _columns(self, made: int) -> tuple[PlacedStitch, ...]:
        """The stitches with their columns; one on the surface takes that of the next, or else the last."""
        result: list[PlacedStitch] = []
        done = 0
        for placed in self._placed:
            width = max(placed.worked.makes, 1)
            at = min(done, made - width)
            result.append(replace(placed, column=made - at - width if self._side is Side.RIGHT else at))
            done += placed.worked.makes
        return tuple(result)

    def _target(self, run: StitchRun, aim: int) -> Target:
        """The stitch that one is worked into or round."""
        worked, rows = run.worked, self._below.rows
        place = len(rows) - worked.rows_below
        name = worked.abbreviation
        if worked.stitch.post and place < 0 and worked.rows_below == 1:
            raise self._fault(
                f"{name} has no post to go round, since the first row is worked into the foundation chain; "
                "expected a plain row first",
                run.column,
            )
        if place < (0 if worked.stitch.post else -1):
            below, first = count_words(len(rows), "row"), worked.rows_below + 1
            raise self._fault(
                f"{name} has only {below} below it here; expected it from row {first} of the piece on",
                run.column,
            )
        column = self._below.under(aim, worked.rows_below - 1)
        if column is None:
            raise self._fault(
                f"{name} has no stitch under it {worked.rows_below} rows below, only chains", run.column
            )
        if place < 0:
            return Target(row=place, column=column)
        on_surface = any(each.worked.surface and each.column == column for each in rows[place].stitches)
        target = Target(row=place, column=column, surface=on_surface)
        if worked.stitch.post and not on_surface:
            self._check_post(run, rows[place], column)
        return target

    def _check_post(self, run: StitchRun, row: WorkedRow, column: int) -> None:
        stitch = row.standing()[column].worked.stitch
        where = "the row below" if run.worked.rows_below == 1 else f"row {row.number}"
        if column in row.chain_columns():
            sentence = (
                f"{run.worked.abbreviation} has no post to go round, since it falls on a chain of {where}"
            )
            raise self._fault(sentence, run.column)
        if not stitch.has_post:
            sentence = (
                f"{run.worked.abbreviation} has no post to go round, since it falls on a {stitch.words} of "
                f"{where}, which has none; expected it over a stitch that has one"
            )
            raise self._fault(sentence, run.column)

    def _check(self, row: WorkedRow) -> None:
        """Checks that need the whole row: free loops, and one surface stitch over each stitch."""
        covered: set[int] = set()
        for placed in row.stitches:
            if placed.worked.surface:
                if placed.column in covered:
                    raise self._fault(
                        "two surface stitches lie over one stitch; work a stitch of the fabric between them",
                        placed.written,
                    )
                covered.add(placed.column)
            if placed.target and not placed.worked.stitch.post and placed.worked.loop:
                self._check_free_loop(placed, row)

    def _check_free_loop(self, placed: PlacedStitch, row: WorkedRow) -> None:
        """A loop of an earlier row is free where the row above it was worked into the other."""
        assert placed.target
        rows = (*self._below.rows, row)
        above = rows[placed.target.row + 1]
        over = [
            each for each in above.stitches if placed.target.column in each.base and not each.worked.surface
        ]
        taken = over[0].worked.loop if over else None
        other = {Loop.FRONT: Loop.BACK, Loop.BACK: Loop.FRONT}.get(placed.worked.loop or Loop.THIRD)
        free = other if above.side is row.side else placed.worked.loop
        if taken is None or taken is not free:
            loop = "front loop" if placed.worked.loop is Loop.FRONT else "back loop"
            raise self._fault(
                f"{placed.worked.abbreviation} finds no free {loop} there: row {above.number} is not worked "
                "in the other loop alone",
                placed.written,
            )
