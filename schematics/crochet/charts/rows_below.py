"""The rows a new one is worked on, and what its stitches find there."""

from __future__ import annotations

from collections import defaultdict
from itertools import count

from schematics.crochet.charts.chart import Worked
from schematics.crochet.charts.chart_fault import count_words, with_article
from schematics.crochet.charts.placed_stitches import PlacedStitch, Target, WorkedRow, column_under
from schematics.crochet.stitches import Height, Loop


class MissedError(ValueError):
    """A stitch does not find what it is worked into or round; the message says what."""


class NoPostError(MissedError):
    """A stitch falls on another that has no post; ``cure`` is the end of the message, what would be right."""

    def __init__(self, sentence: str, cure: str = "") -> None:
        self.sentence = sentence
        super().__init__(f"{sentence}; {cure}" if cure else sentence)


class _Offer:
    """What a row offers, by column: what stands there, what lies there, and what takes the one below."""

    def __init__(self, row: WorkedRow) -> None:
        self.row = row
        self.standing = row.standing()
        self.chains = row.chain_columns()
        self.on_surface = frozenset(each.column for each in row.stitches if each.worked.surface)
        self.taking: defaultdict[int, list[PlacedStitch]] = defaultdict(list)
        for placed in row.stitches:
            for column in placed.base:
                self.taking[column].append(placed)


class RowsBelow:
    """The rows of a piece so far, on a foundation of so many stitches."""

    def __init__(self, foundation: int) -> None:
        self._foundation = foundation
        self._offers: list[_Offer] = []

    @property
    def rows(self) -> list[WorkedRow]:
        """The rows, the first at the bottom."""
        return [each.row for each in self._offers]

    @property
    def offered(self) -> int:
        """Stitches that the next row finds."""
        return self._offers[-1].row.stitch_count if self._offers else self._foundation

    def add(self, row: WorkedRow) -> None:
        """Put a row on top."""
        self._offers.append(_Offer(row))

    def check_space(self, chains: int, columns: tuple[int, ...], onwards: int) -> None:
        """A space of so many chains is at those columns of the row below, in working order.

        ``onwards`` is 1 where the row is worked from the first column to the last, -1 the other way.

        Raises:
            MissedError: there is none, or it has more chains.
        """
        offered = self._offers[-1].chains if self._offers else frozenset()
        if not set(columns) <= offered:
            raise MissedError(
                f"there is no space of {count_words(chains, 'chain')} here in the row below"
                f"{_space_instead(chains, columns[0], onwards, offered)}"
            )
        if {min(columns) - 1, max(columns) + 1} & offered:
            raise MissedError(
                f"the space here in the row below has more than {count_words(chains, 'chain')}; "
                "expected all of them to be named"
            )

    def target(self, worked: Worked, aim: int) -> Target:
        """What a stitch over or on that column of the row below is worked into or round.

        Raises:
            MissedError: there is no such row or stitch, or it has no post.
        """
        place = len(self._offers) - worked.rows_below
        name = worked.abbreviation
        if worked.stitch.post and place < 0 and worked.rows_below == 1:
            raise MissedError(
                f"{name} has no post to go round, since the first row is worked into the foundation chain; "
                "expected a plain row first"
            )
        if place < (0 if worked.stitch.post else -1):
            below, first = count_words(len(self._offers), "row"), worked.rows_below + 1
            raise MissedError(
                f"{name} has only {below} below it here; expected it from row {first} of the piece on"
            )
        column = self._under(aim, worked.rows_below - 1)
        if column is None:
            raise MissedError(f"{name} has no stitch under it {worked.rows_below} rows below, only chains")
        if place < 0:
            return Target(row=place, column=column)
        offer = self._offers[place]
        if worked.stitch.post and column not in offer.on_surface:
            self._check_post(worked, offer, column)
        return Target(row=place, column=column, surface=column in offer.on_surface)

    def _under(self, column: int, rows_down: int) -> int | None:
        """The column, so many rows further down, of what stands under a column of the row below."""
        between = reversed(self._offers[len(self._offers) - rows_down :])
        return column_under(column, (offer.standing for offer in between))

    def _check_post(self, worked: Worked, offer: _Offer, column: int) -> None:
        stitch = offer.standing[column].worked.stitch
        where = "the row below" if worked.rows_below == 1 else f"row {offer.row.number}"
        none = f"{worked.abbreviation} has no post to go round, since it falls on"
        if column in offer.chains:
            raise NoPostError(f"{none} a chain of {where}")
        if not stitch.has_post:
            raise NoPostError(
                f"{none} {with_article(stitch.words)} of {where}, which has none",
                "expected it over a stitch that has one",
            )

    def check_third_loop(self, worked: Worked, column: int) -> None:
        """The stitch at that column of the row below has a third loop; so has a foundation chain.

        Raises:
            MissedError: it has none.
        """
        stitch = self._offers[-1].standing[column].worked.stitch if self._offers else None
        if stitch and stitch.height not in (Height.HALF_DOUBLE, Height.NONE):
            raise MissedError(
                f"{worked.abbreviation} falls on {with_article(stitch.words)} of the row below, which has no "
                "third loop; expected both loops here, or 'blo' or 'flo'"
            )

    def check_free_loop(self, worked: Worked, target: Target, aim: int, row: WorkedRow) -> None:
        """A loop of an earlier row is free where the row above it, which may be this ``row``, took the other.

        ``aim`` is the column of the row below over the target.

        Raises:
            MissedError: it is not free.
        """
        if not self._is_free(worked.loop, target, row):
            loop = "front loop" if worked.loop is Loop.FRONT else "back loop"
            above = self._above(target, row).row.number
            raise MissedError(
                f"{worked.abbreviation} finds no free {loop} there: row {above} is not worked in the other "
                f"loop alone{self._free_instead(worked, aim, row)}"
            )

    def _above(self, target: Target, row: WorkedRow) -> _Offer:
        return self._offers[target.row + 1] if target.row + 1 < len(self._offers) else _Offer(row)

    def _is_free(self, loop: Loop | None, target: Target, row: WorkedRow) -> bool:
        above = self._above(target, row)
        over = [each for each in above.taking[target.column] if not each.worked.surface]
        taken = over[0].worked.loop if over else None
        other = Loop.BACK if loop is Loop.FRONT else Loop.FRONT
        return taken is (other if above.row.side is row.side else loop)

    def _free_instead(self, worked: Worked, aim: int, row: WorkedRow) -> str:
        """How far down the loop is free, as the message ends: as near as may be, of two the lower."""
        depths = range(1 if worked.surface else 2, len(self._offers) + 1)
        for depth in sorted(depths, key=lambda each: (abs(each - worked.rows_below), -each)):
            column = self._under(aim, depth - 1)
            target = Target(row=len(self._offers) - depth, column=column) if column is not None else None
            if target and self._is_free(worked.loop, target, row):
                return (
                    f"; expected {self._higher_up(worked.rows_below, depth)}{count_words(depth, 'row')} below"
                )
        return ""

    def _higher_up(self, asked: int, free: int) -> str:
        """How far down the loop is free in a later row of this side; empty where that is seen in this row."""
        number, far = len(self._offers) + 1, asked + 1
        if free > asked or (far - free) % 2 or far < number:
            return ""
        first = far + 1 + (far + 1 - number) % 2
        return f"{count_words(far, 'row')} below from row {first} of the piece on, or here "


def _space_instead(chains: int, column: int, onwards: int, offered: frozenset[int]) -> str:
    """Where the nearest space of so many chains begins, or how many the spaces have, as the message ends."""
    begins = {
        each: next(length for length in count(1) if each + length * onwards not in offered)
        for each in offered if each - onwards not in offered
    }  # fmt: skip
    if not begins:
        return ""
    distances = [(each - column) * onwards for each, length in begins.items() if length == chains]
    if not distances:
        return f"; its spaces have {count_words(max(begins.values()), 'chain')} at most"
    nearest = min(distances, key=lambda each: (abs(each), -each))
    return (
        f"; one begins {count_words(abs(nearest), 'stitch')} {'further on' if nearest > 0 else 'before here'}"
    )
