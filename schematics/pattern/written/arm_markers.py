"""The markers between which the arm bands are worked: their numbers, and from where they are counted."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.document import Section, Table, Words
from schematics.garment.garment import ArmRun, ArmsOn, Garment
from schematics.pattern.book import Book
from schematics.pattern.sections.bands import MARKERS
from schematics.pattern.sections.piece_sizes import piece_rows


def section(book: Book) -> Section:
    """Where markers are hung: both ends of both arm runs."""
    on_hem = book.garments[0].arm.on is ArmsOn.HEM
    blocks = _on_hem(book) if on_hem else _on_sides(book)
    return Section(MARKERS, tuple(blocks), "markers")


def _on_hem(book: Book) -> Iterator[Words | Table]:
    def of(number: Callable[[ArmRun], int]) -> str:
        return in_sizes([number(garment.arm) for garment in book.garments])

    edge, run, before = (
        of(number)
        for number in (lambda arm: arm.edge.count, lambda arm: arm.count, lambda arm: arm.first - 1)
    )
    yield (
        "Each arm band is worked onto a run of hem sts, from one marker to another. Number the hem sts, "
        "those of the body's last row, with the right side facing you, from seam A round the wearer's "
        "right, the back and the wearer's left to seam B: the st beside seam A is 1, the st beside seam B "
        f"is {edge}. Place four markers:"
    )
    yield Table(
        header=("marker", "in hem st"),
        rows=(
            ("wearer's right, front", of(lambda arm: arm.first)),
            ("wearer's right, back", of(lambda arm: arm.last)),
            ("wearer's left, back", of(lambda arm: arm.left[0])),
            ("wearer's left, front", of(lambda arm: arm.left[1])),
        ),
    )
    yield (
        f"Check, from seam A to seam B: {before} sts, a run of {run} sts with both marked ones, "
        f"{of(lambda arm: arm.back_count)} sts across the back, a run of {run} sts, {before} sts: {edge} sts "
        "in all."
    )


def _on_sides(book: Book) -> Iterator[Words | Table]:
    def of(number: Callable[[Garment], int]) -> str:
        return in_sizes(list(map(number, book.garments)))

    def row(garment: Garment, row_end: int) -> int:
        return piece_rows(garment.piece("body")) - row_end + 1

    yield (
        "The arm openings are in the side edges, half on the front and half on the back. Number the row "
        "ends of each side edge from the front hem: that of the body's last row is 1. Place two markers in "
        "each side edge:"
    )
    yield Table(
        header=("marker, on either side", "in row end", "which is that of body row"),
        rows=(
            (
                "front end of the opening",
                of(lambda each: each.arm.first),
                of(lambda each: row(each, each.arm.first)),
            ),
            (
                "back end of the opening",
                of(lambda each: each.arm.last),
                of(lambda each: row(each, each.arm.last)),
            ),
        ),
    )
    yield (
        f"Check: {of(lambda each: each.arm.count)} row ends in each opening with both marked ones, "
        f"{of(lambda each: each.arm.count // 2)} of them before the shoulder fold and as many behind it; "
        f"{of(lambda each: each.arm.first - 1)} row ends below it on the front, "
        f"{of(lambda each: each.arm.back_count)} on the back."
    )
