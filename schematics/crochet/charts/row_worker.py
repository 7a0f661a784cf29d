"""Working one row of a chart, from its first stitch to its last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from schematics.crochet.charts.chart import (
    ChartRow,
    ChartSection,
    Crossing,
    Into,
    Item,
    SeveralInOne,
    Side,
    StitchGroup,
    StitchRun,
    Worked,
    tally,
)
from schematics.crochet.charts.chart_fault import (
    NO_STITCH_LEFT,
    ChartFault,
    ChartFaultError,
    UnevenRowError,
    uneven_words,
)
from schematics.crochet.charts.placed_stitches import PlacedStitch, WorkedRow
from schematics.crochet.charts.rows_below import MissedError, NoPostError, RowsBelow
from schematics.crochet.stitches import Loop


class RowWorker:
    """Works one row from its first stitch to its last."""

    def __init__(
        self, number: int, section: ChartSection, index: int, row: ChartRow, side: Side, below: RowsBelow
    ) -> None:
        self._number, self._section, self._index = number, section, index
        self._row, self._side, self._below = row, side, below
        self._used = 0
        self._placed: list[PlacedStitch] = []
        self._aims: list[int] = []
        self._skipped: list[int] = []
        self._loose: list[int] = []
        self._spare: list[int] = []

    def worked_row(self) -> WorkedRow:
        """The row in its place.

        Raises:
            ChartFaultError: it does not come out even, or a stitch has nothing to go into.
        """
        try:
            times = self._row.times(self._below.offered)
        except ValueError:
            self._work_first_parts()
            raise UnevenRowError(self._fault(uneven_words(self._row, self._below.offered)).fault) from None
        for part in self._row.parts:
            for _ in range(times if part.across else 1):
                self._work(part.items)
        self._place_chains()
        stitch_count = sum(each.worked.makes for each in self._placed)
        if stitch_count == 0:
            raise self._fault(NO_STITCH_LEFT, self._row.column)
        placed = self._columns(stitch_count)
        row = WorkedRow(
            number=self._number, section=self._section, index=self._index, side=self._side,
            offered=self._below.offered, stitch_count=stitch_count, times=times, stitches=placed,
            skipped=tuple(self._skipped),
        )  # fmt: skip
        self._check(row)
        return row

    def _work_first_parts(self) -> None:
        """What is before anything across and has stitches to go into: its targets say more than the count."""
        for part in self._row.parts:
            if part.across or self._used + tally(part.items).uses > self._below.offered:
                return
            self._work(part.items)

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
            self._place(run, (), -1)
        else:
            self._place_chains()
            base = self._next(worked.uses)
            over = base or (self._seen(min(self._used, self._below.offered - 1)),)
            self._place(run, base, over[len(over) // 2])

    def _place(
        self,
        run: StitchRun,
        base: tuple[int, ...],
        aim: int,
        *,
        in_space: bool = False,
        bracket: Sequence[int] = (),
    ) -> None:
        """Add a stitch; ``aim`` is the column of the row below under or over which its target stands.

        ``bracket`` has the columns of the crossing in which it names its place.
        """
        target = None
        worked = run.worked
        try:
            if worked.stitch.post or worked.rows_below > 1 or worked.surface:
                target = self._below.target(worked, aim)
                for column in base if worked.stitch.post and worked.uses > 1 else ():
                    self._below.target(worked, column)
            elif worked.loop is Loop.THIRD:
                self._below.check_third_loop(worked, aim)
        except NoPostError as error:
            cure = self._with_post(worked, bracket) if bracket else ""
            raise self._fault(f"{error.sentence}; {cure}" if cure else str(error), run.column) from None
        except MissedError as error:
            raise self._fault(str(error), run.column) from None
        self._aims.append(aim)
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

    def _with_post(self, worked: Worked, bracket: Sequence[int]) -> str:
        """Which stitches of a crossing have a post."""
        numbers = [str(number) for number, aim in enumerate(bracket, start=1) if self._has_post(worked, aim)]
        if not numbers:
            return "no stitch of the bracket has one"
        if len(numbers) == 1:
            return f"stitch {numbers[0]} of the bracket has one"
        return f"stitches {', '.join(numbers[:-1])} and {numbers[-1]} of the bracket have one"

    def _has_post(self, worked: Worked, aim: int) -> bool:
        try:
            self._below.target(worked, aim)
        except MissedError:
            return False
        return True

    def _place_chains(self) -> None:
        """Chains that were made beside skipped stitches stand over them, shared out evenly."""
        for order, place in enumerate(self._loose):
            if self._spare:
                base = (self._spare[order * len(self._spare) // len(self._loose)],)
                self._placed[place] = replace(self._placed[place], base=base)
        self._loose, self._spare = [], []

    def _cross(self, crossing: Crossing) -> None:
        self._place_chains()
        first, begun = self._used, len(self._placed)
        bracket = [self._seen(first + step) for step in range(tally(crossing.items).uses)]
        for item in crossing.items:
            assert isinstance(item, StitchRun)
            for number in range(item.count):
                if item.places:
                    self._cross_one(item, item.places[number], bracket)
                elif item.worked.stitch.abbreviation == "sk":
                    self._next(1)
                else:
                    self._one(item)
        used = {column for placed in self._placed[begun:] for column in placed.base}
        self._spare = [column for column in map(self._seen, range(first, self._used)) if column not in used]
        self._skipped += self._spare
        self._place_chains()

    def _cross_one(self, run: StitchRun, place: int, bracket: Sequence[int]) -> None:
        aim = bracket[place - 1]
        base = self._next(run.worked.uses)
        into_top = base and not run.worked.stitch.post
        self._place(run, (aim,) if into_top else base, aim, bracket=bracket)

    def _several(self, item: SeveralInOne) -> None:
        self._place_chains()
        if item.into is Into.SAME:
            standing = [each for each in self._placed if each.base]
            if not standing:
                raise self._fault("'in same st' has no stitch before it to share", item.column)
            base = standing[-1].base
        else:
            base = self._next(item.uses)
        if item.into is Into.SPACE:
            try:
                self._below.check_space(item.chains, base, -1 if self._side is Side.RIGHT else 1)
            except MissedError as error:
                raise self._fault(str(error), item.column) from None
        self._inside(item.items, base, in_space=item.into is Into.SPACE)

    def _inside(self, items: Sequence[Item], base: tuple[int, ...], *, in_space: bool) -> None:
        for item in items:
            if isinstance(item, StitchGroup):
                for _ in range(item.times):
                    self._inside(item.items, base, in_space=in_space)
            elif isinstance(item, StitchRun):
                for _ in range(item.count):
                    self._place(item, base, base[len(base) // 2], in_space=in_space)

    def _columns(self, stitch_count: int) -> tuple[PlacedStitch, ...]:
        """The stitches with their columns; one on the surface takes that of the next, or else the last."""
        result: list[PlacedStitch] = []
        done = 0
        for placed in self._placed:
            width = max(placed.worked.makes, 1)
            at = min(done, stitch_count - width)
            result.append(
                replace(placed, column=stitch_count - at - width if self._side is Side.RIGHT else at)
            )
            done += placed.worked.makes
        return tuple(result)

    def _check(self, row: WorkedRow) -> None:
        """Checks that need the whole row: free loops, and one surface stitch over each stitch."""
        covered: set[int] = set()
        for placed, aim in zip(row.stitches, self._aims, strict=True):
            if placed.worked.surface:
                if placed.column in covered:
                    raise self._fault(
                        "two surface stitches lie over one stitch; work a stitch of the fabric between them",
                        placed.written,
                    )
                covered.add(placed.column)
            if placed.target and not placed.worked.stitch.post and placed.worked.loop:
                try:
                    self._below.check_free_loop(placed.worked, placed.target, aim, row)
                except MissedError as error:
                    raise self._fault(str(error), placed.written) from None
