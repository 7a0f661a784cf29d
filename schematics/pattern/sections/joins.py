"""How the seams are joined: ratio and exact schedule."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.checks.wording import listed
from schematics.crochet.join_words import JoinSide, ratio_words, schedule_words
from schematics.crochet.spacing import join
from schematics.document.document import Figure, Section, Table, count_figure, listed_section, text_figure
from schematics.garment.garment import Seam
from schematics.pattern.book import Book, if_any


def section(book: Book) -> Section:
    """Each seam, those with the same figures in every size together."""
    groups: dict[tuple[object, ...], list[str]] = {}
    for letter in book.keys(lambda garment: (seam.letter for seam in garment.seams)):
        groups.setdefault(tuple(if_any(_seams(book, letter), _edges)), []).append(letter)
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


def _seams(book: Book, letter: str) -> list[Seam | None]:
    """The seam of that letter in every size."""
    return [
        next((seam for seam in garment.seams if seam.letter == letter), None) for garment in book.garments
    ]


def _edges(seam: Seam) -> tuple[object, ...]:
    ends = ((seam.first_piece, seam.first), (seam.second_piece, seam.second))
    return tuple((piece, edge.count, edge.counted, edge.length_cm) for piece, edge in ends)


def _group(book: Book, letters: Sequence[str]) -> tuple[Table, tuple[Figure, ...]]:
    """The table of seams that are alike, and the figures of each."""
    seams = _seams(book, letters[0])
    first, second = _sides(next(filter(None, seams)))
    figures = [_figures(letter, seams, first, second) for letter in letters]
    return (
        book.size_table(
            f"Seam{'' if len(letters) == 1 else 's'} {listed(letters)}: {first.name} to {second.name}",
            ("size", _header(first), _header(second), "ratio", "schedule"),
            figures[0],
            seams,
        ),
        tuple(figure for each in figures for figure in each),
    )


def _sides(seam: Seam) -> tuple[JoinSide, JoinSide]:
    """Both sides by their pieces' names, or by their edges' where one piece is joined to itself."""
    return seam.sides(name.removeprefix("centre ") for name in seam.names)


def _header(side: JoinSide) -> str:
    return f"{side.name} {side.counted.words}"


def _figures(
    letter: str, seams: Sequence[Seam | None], first: JoinSide, second: JoinSide
) -> tuple[Figure, ...]:
    key, name = f"join.{letter}", f"seam {letter}"
    joins = if_any(seams, lambda seam: join(seam.first.count, seam.second.count))
    firsts = if_any(joins, lambda how: how.first_rows)
    seconds = if_any(joins, lambda how: how.second_rows)
    ratios = if_any(joins, lambda how: ratio_words(how, first, second))
    schedules = if_any(joins, lambda how: schedule_words(how, first, second))
    return (
        count_figure(f"{key}.first", f"{name}: {_header(first)}", first.counted.value, firsts),
        count_figure(f"{key}.second", f"{name}: {_header(second)}", second.counted.value, seconds),
        text_figure(f"{key}.ratio", f"{name}: ratio", ratios),
        text_figure(f"{key}.schedule", f"{name}: schedule", schedules),
    )
