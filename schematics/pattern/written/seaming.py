"""The seams: what lies against what, from where to where, in which stitch, and how the row ends meet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from schematics.checks.wording import listed, sentence_case
from schematics.crochet.spacing import join
from schematics.design.design import Design
from schematics.design.missing import marks
from schematics.design.publication import SeamSides
from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.document.document import NONE, Section, Table, Words
from schematics.garment.garment import Seam
from schematics.pattern.book import Book
from schematics.pattern.sections.piece_sizes import piece_rows
from schematics.pattern.written.schedules import quarter_points, row_ends, schedule_table

_RowNumber = Callable[[int, int], int]
"""The row that a row end belongs to, from its number counted from the hem and the rows of its piece."""


def front_seams(book: Book) -> Section:
    """The body's front edges to the sides of the panel."""
    return Section("Seams", tuple(_front_blocks(book)), "seams")


def side_seams(book: Book) -> Section | None:
    """Front to back below the arm bands; None where no size has such seams."""
    sewn = tuple(result for result in book.results if len(result.garment.seams) > 2)
    if not sewn:
        return None
    return Section("Side seams", tuple(_side_blocks(book, replace(book, results=sewn))), "side_seams")


def _front_blocks(book: Book) -> Iterator[Words | Table]:
    yield (
        "Seam A joins the front edge of the body on the wearer's right to one side of the centre panel, "
        "seam B that on the wearer's left to the other. With the right side of the panel facing you and "
        "its Row 1 at the bottom, seam A is at its left, seam B at its right. Row 1 of the panel lies at "
        "the hem, its last row at the neck; panel and body are level at both."
    )
    stitch = _stitch(book.design)
    held = _from_hem(book.design, "neck", ("body", "panel"), "AB")
    yield f"Work each seam from the hem up to the neck {stitch}. {held}"
    seam = book.design.publication.seam
    if seam and seam.stitch.how:
        yield f"{sentence_case(seam.stitch.value)}: {seam.stitch.how}."
    seams = [garment.seams[0] for garment in book.garments]
    yield from _joined(book, seams, ("body", "panel"), (_from_last, _from_first))


def _side_blocks(book: Book, sewn: Book) -> Iterator[Words | Table]:
    only = (
        ""
        if len(sewn.names) == len(book.names)
        else (
            f"Size{'' if len(sewn.names) == 1 else 's'} {listed(sewn.names)} only: in the others the sides "
            "stay open below the arm bands. "
        )
    )
    yield (
        f"{only}Fold the body at the shoulder fold. Seam C joins the front to the back on the wearer's "
        "right, seam D on the left."
    )
    yield (
        f"Work each seam from the hem up to the arm band {_stitch(book.design)}. "
        f"{_from_hem(book.design, 'arm band', ('back', 'front'), 'CD')}"
    )
    seams = [garment.seams[2] for garment in sewn.garments]
    yield from _joined(sewn, seams, ("front", "back"), (_from_last, _from_first))


def _stitch(design: Design) -> str:
    seam, lacking = design.publication.seam, marks(design)
    if seam is None:
        return f"in {lacking['pattern.seam']}"
    sides = seam.sides.value if seam.sides else lacking["pattern.seam.sides"]
    tool = "hook used for the body" if seam.stitch.hooked else "yarn needle"
    return f"in {seam.stitch.value}, with the {tool}, {sides}"


def _from_hem(design: Design, end: str, parts: tuple[str, str], letters: str) -> str:
    """Where yarn is joined and how the pieces are held.

    With the hem at the right the first of the parts is towards the maker along the first seam and the other
    along the second, if the wrong sides are together; the other way about if the right sides are.
    """
    seam = design.publication.seam
    if seam is None or not seam.stitch.hooked:
        return f"Join yarn at the hem and fasten off at the {end}."
    words = f"Join yarn at the hem, with the hem at your right, and fasten off at the {end}."
    if seam.sides not in (SeamSides.WRONG, SeamSides.RIGHT):
        return words
    near, then = parts if seam.sides is SeamSides.WRONG else parts[::-1]
    return (
        f"{words} Held so, the {near} is towards you along seam {letters[0]}, the {then} along seam "
        f"{letters[1]}."
    )


def _from_first(number: int, rows: int) -> int:
    del rows
    return number


def _from_last(number: int, rows: int) -> int:
    return rows - number + 1


def _joined(
    book: Book, seams: Sequence[Seam], names: tuple[str, str], numbered: tuple[_RowNumber, _RowNumber]
) -> Iterator[Words | Table]:
    """Ratio and schedule of every size, and the row ends to be marked."""
    first, second = map(row_ends, names)
    joins = [join(seam.first.count, seam.second.count) for seam in seams]
    letters = "A and B" if names[0] == "body" else "C and D"
    meet = "Every seam stitch goes through one row end of each edge."
    if any(set(each.shares) != {1} for each in joins):
        meet += (
            " Work by the ratio and let the marked row ends meet; the exact order is told from the "
            "hem. Where one row end takes several of the other edge, it gets as many seam stitches, one "
            "with each of them."
        )
    yield meet
    yield schedule_table(f"Seams {letters}", book.names, joins, first, second)
    points = [tuple(quarter_points(each)) for each in joins]
    if not any(filter(None, (point for each in points for point in each))):
        return
    yield "Before you begin, mark with scraps of yarn the row ends that meet at each quarter of the way:"
    rows = [
        [piece_rows(garment.piece(name)) for garment in book.garments]
        for name in ("body", "centre panel" if names[1] == "panel" else "body")
    ]
    yield Table(
        header=("marker", f"{names[0]}, row", f"{names[1]}, row"),
        rows=tuple(
            (
                words,
                *(
                    _rows_marked([each[quarter] for each in points], side, rows[side], numbered[side])
                    for side in (0, 1)
                ),
            )
            for quarter, words in enumerate(("a quarter from the hem", "half way", "a quarter from the top"))
        ),
    )


def _rows_marked(
    points: Sequence[tuple[int, int] | None], side: int, rows: Sequence[int], number: _RowNumber
) -> str:
    return texts_in_sizes(
        [
            NONE if point is None else str(number(point[side], high))
            for point, high in zip(points, rows, strict=True)
        ]
    )
