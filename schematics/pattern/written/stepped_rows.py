"""A body worked in steps of even rows, which may divide in two parts and gain stitches between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from schematics.document.chart_words.in_sizes import Sized, in_sizes, not_none
from schematics.document.document import Row, Words
from schematics.garment.constructions.body_steps import BodyStep, BodySteps
from schematics.garment.garment import Garment
from schematics.pattern.written.labels import Labels
from schematics.pattern.written.plain_rows import PlainRows
from schematics.pattern.written.shaped_rows import listed_rows
from schematics.pattern.written.stretches import Stretch, stretches

_ORDER = ("First", "Second")


@dataclass(frozen=True, slots=True)
class SteppedRows:
    """The steps, in the sizes that the labels name."""

    steps: BodySteps
    garments: Sequence[Garment]
    labels: Labels
    rows: PlainRows

    def whole(self) -> Iterator[Stretch | Words | Row]:
        """The rows from the foundation chain to where the work divides."""
        for step, worked in self._ranges():
            if step.parts == 1:
                for stretch in stretches(self.garments, worked):
                    yield from self._stretch(stretch, step)

    def part(self, number: int) -> Iterator[Stretch | Words | Row]:
        """The first part, 0, or the second, from where the work divides to its end."""
        for step, worked in self._ranges():
            if step.parts == 1:
                continue
            if step.leaves:
                yield self._divided(number, step, worked)
                worked = [range(rows.start + 1, rows.stop) for rows in worked]
            elif step.adds and any(step.adds.values):
                yield from self._extended(number, step, worked)
                worked = [range(rows.start + 1, rows.stop) for rows in worked]
            for stretch in stretches(self.garments, worked):
                yield from self._stretch(stretch, step)
            if (marked := self.steps.marked) and step.leaves:
                yield Row(
                    "Marker",
                    f"Hang one in the row end of Row {in_sizes(marked.values)} at the side edge, away from "
                    f"the neck. It is the last {marked.name}.",
                )

    @property
    def divided(self) -> bool:
        """Whether there are two parts."""
        return any(step.parts > 1 for step in self.steps.steps)

    def _ranges(self) -> Iterator[tuple[BodyStep, list[range]]]:
        """Every step with its rows in each size."""
        ends = [
            [0, *accumulate(step.rows.values[index] for step in self.steps.steps)]
            for index in range(len(self.garments))
        ]
        for number, step in enumerate(self.steps.steps):
            yield step, [range(each[number] + 1, each[number + 1] + 1) for each in ends]

    def _stretch(self, stretch: Stretch, step: BodyStep) -> Iterator[Stretch | Row]:
        if stretch.border:
            yield stretch
            return
        if stretch.first == [1] * len(self.garments):
            yield self.rows.foundation(step.stitches.values)
            yield self.labels.row(stretch.first, self.rows.first, step.stitches.values)
            stretch = Stretch(tuple(range(2, rows.stop) for rows in stretch.rows))
        if any(stretch.rows):
            counts = step.stitches.values
            yield from listed_rows(stretch, self.labels, self.rows, lambda _index, _row: None, counts)

    def _divided(self, number: int, step: BodyStep, worked: Sequence[range]) -> Row:
        """The first row of a part."""
        assert step.leaves is not None
        at, parts = [rows.start for rows in worked], step.stitches.values
        if number == 0:
            across = self.rows.row(f"{self.rows.name} in each of first {in_sizes(parts)} sts")
            work = f"{across} Leave the other sts unworked."
        else:
            work = (
                f"With this side facing, skip the next {in_sizes(step.leaves.values)} sts of Row "
                f"{in_sizes([each - 1 for each in at])} after the first shoulder, join yarn in next st. "
                f"{self.rows.row(f'{self.rows.name} in same st and in each st to end')}"
            )
        return self.labels.row(at, work, parts)

    def _extended(self, number: int, step: BodyStep, worked: Sequence[range]) -> Iterator[Row]:
        """The row that takes in a chain at the neck edge, made at its beginning or joined before its end."""
        assert step.adds is not None
        divided = next(rows for each, rows in self._ranges() if each.leaves)
        begins = [
            (rows.start - first.start) % 2 == 1 - number for rows, first in zip(worked, divided, strict=True)
        ]
        added, parts = step.adds.values, step.stitches.values
        turning = self.rows.fabric.turning_chains
        chained: Sized = [
            rows.start if begun and more else None
            for rows, begun, more in zip(worked, begins, added, strict=True)
        ]
        if not_none(chained):
            chains = [more + turning for more, row in zip(added, chained, strict=True) if row]
            yield self.labels.row(
                chained,
                f"Ch {in_sizes(chains)}, {self.rows.name} in {self.rows.first_chain} and in each ch to the "
                f"neck edge, {self.rows.across('to end')}, turn.",
                parts,
            )
        joined: Sized = [
            rows.start if more and not begun else None
            for rows, begun, more in zip(worked, begins, added, strict=True)
        ]
        if not_none(joined):
            chains = [more for more, row in zip(added, joined, strict=True) if row]
            before = in_sizes([row - 1 for row in not_none(joined)])
            across = (
                f"{self.rows.across('to the neck edge')}, {self.rows.name} in each of {in_sizes(chains)} ch"
            )
            yield self.labels.row(
                joined,
                f"Join a separate length of yarn with sl st in the st at the neck edge of Row {before}, "
                f"ch {in_sizes(chains)}, fasten off. With the working yarn: {self.rows.row(across)}",
                parts,
            )
        even: Sized = [rows.start if not more else None for rows, more in zip(worked, added, strict=True)]
        if not_none(even):
            yield self.labels.row(even, self.rows.even, parts)


def part_heading(number: int) -> str:
    """``First shoulder and front``."""
    return f"{_ORDER[number]} shoulder and front"
