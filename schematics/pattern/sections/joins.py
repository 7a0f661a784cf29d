"""How the seams are joined: ratio and exact schedule."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.checks.wording import listed
from schematics.crochet.fabric import Counted
from schematics.crochet.join_words import Side, ratio_words, schedule_words
from schematics.crochet.spacing import Join, join
from schematics.document.document import Figure, Section, Table, count_figure, listed_section, text_figure
from schematics.garment.garment import Garment, Seam
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """Each seam, those with the same figures in every size together."""
    groups: dict[tuple[object, ...], list[str]] = {}
    for letter in book.keys(lambda garment: (seam.letter for seam in garment.seams)):
        seams = _seams(book, letter)
        groups.setdefault(tuple(_edges(seam) for seam in seams), []).append(letter)
    parts = [_group(book, letters) for letters in groups.values()]
    return listed_section(
        key="joins",
        heading="Joining the pieces",
        sentences=(
            "The ratio is the simplest that comes near; the schedule is exact: it says how many rows of "
            "the side with more rows each row of the other takes, in turn. [2, 1] × 3 stands for 2, 1, 2, 1, "
            "2, 1 and 1 × 5 for five ones.",
        ),
        tables=tuple(table for table, _ in parts),
        figures=tuple(figure for _, figures in parts for figure in figures),
    )


def _seams(book: Book, letter: str) -> tuple[Seam | None, ...]:
    def named(garment: Garment) -> Seam | None:
        return next((seam for seam in garment.seams if seam.letter == letter), None)

    return book.each(named)


def _edges(seam: Seam | None) -> tuple[object, ...] | None:
    if seam is None:
        return None
    ends = ((seam.first_piece, seam.first), (seam.second_piece, seam.second))
    sides = [(piece, edge.count, edge.counted, edge.length_cm) for piece, edge in ends]
    return tuple(sides)


def _group(book: Book, letters: Sequence[str]) -> tuple[Table, tuple[Figure, ...]]:
    seams = _seams(book, letters[0])
    known = next(seam for seam in seams if seam is not None)
    first, second = _sides(known)
    joins = [None if seam is None else join(seam.first.count, seam.second.count) for seam in seams]
    figures = tuple(each for letter in letters for each in _figures(letter, joins, first, second))
    rows = [
        (name, *(figure.text(index) for figure in figures[:4]))
        for index, (name, seam) in enumerate(zip(book.names, seams, strict=True))
        if seam is not None
    ]
    seam_words = f"Seam{'' if len(letters) == 1 else 's'} {listed(letters)}"
    return (
        Table(
            caption=f"{seam_words}: {first.name} to {second.name}",
            header=("size", _header(first), _header(second), "ratio", "schedule"),
            rows=tuple(rows),
        ),
        figures,
    )


def _sides(seam: Seam) -> tuple[Side, Side]:
    """Both sides by their pieces' names, or by their edges' where one piece is joined to itself."""
    names = (seam.first_piece, seam.second_piece)
    if names[0] == names[1]:
        names = (seam.first.name, seam.second.name)
    first, second = (name.removeprefix("centre ") for name in names)
    return Side(name=first, counted=seam.first.counted), Side(name=second, counted=seam.second.counted)


def _header(side: Side) -> str:
    return f"{side.name} {'stitches' if side.counted is Counted.STITCHES else 'rows'}"


def _figures(letter: str, joins: Sequence[Join | None], first: Side, second: Side) -> Iterator[Figure]:
    key, name = f"join.{letter}", f"seam {letter}"
    yield count_figure(
        f"{key}.first", f"{name}: {_header(first)}", first.counted.value,
        [None if how is None else how.first_rows for how in joins],
    )  # fmt: skip
    yield count_figure(
        f"{key}.second", f"{name}: {_header(second)}", second.counted.value,
        [None if how is None else how.second_rows for how in joins],
    )  # fmt: skip
    yield text_figure(
        f"{key}.ratio", f"{name}: ratio",
        [None if how is None else ratio_words(how, first, second) for how in joins],
    )  # fmt: skip
    yield text_figure(
        f"{key}.schedule", f"{name}: schedule",
        [None if how is None else schedule_words(how, first, second) for how in joins],
    )  # fmt: skip
