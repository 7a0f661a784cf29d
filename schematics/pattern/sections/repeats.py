"""How often the pattern of each patterned piece repeats, across and up, and its rows in words."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.crochet.charts.chart import Chart, ChartSection, Side
from schematics.crochet.charts.chart_rules import multiple_words
from schematics.crochet.fabric import CountRule
from schematics.document.document import Figure, Section, Table, listed_section, text_figure
from schematics.garment.garment import Piece
from schematics.pattern.book import Book
from schematics.pattern.sections.piece_sizes import piece_rows


def section(book: Book) -> Section:
    """Whole repeats of each patterned piece; then the rows of every fabric with a chart."""
    pairs = [pair for piece in book.pieces for pair in _repeats_of(book, piece)]
    charts = {piece.fabric.name: piece.fabric.chart for piece in book.pieces if piece.fabric.chart}
    rows = {name: tuple(_chart_figures(book, name, chart)) for name, chart in charts.items()}
    header = ("pattern", "it takes", "repeats")
    whole = tuple((repeats.name, rule, repeats) for rule, repeats in pairs)
    none = "No stitch pattern asks for a multiple or a row repeat."
    return listed_section(
        key="repeats",
        heading="Pattern repeats",
        sentences=tuple(map(_chart_words, charts, charts.values())) or (() if pairs else (none,)),
        tables=(
            *([Table(caption="Whole repeats", header=header, rows=whole)] if pairs else []),
            *(_chart_table(name, chart, rows[name]) for name, chart in charts.items()),
        ),
        figures=(
            *(figure for pair in pairs for figure in pair),
            *(figure for figures in rows.values() for figure in figures),
        ),
    )


def _repeats_of(book: Book, piece: Piece) -> Iterator[tuple[Figure, Figure]]:
    """The rule and the whole repeats for each direction in which a pattern repeats."""
    pieces = [garment.piece(piece.name) for garment in book.garments]
    across, up = piece.fabric.stitch_rule, piece.fabric.row_rule
    if across != CountRule():
        texts = [_repeats(across, each.foundation_stitches, "sts") for each in pieces]
        takes = f"{'' if across.only else 'a multiple of '}{multiple_words(across)} sts"
        yield _pair(piece, "across", takes, texts)
    if up.rule != CountRule():
        texts = [_repeats(up.rule, piece_rows(each), "rows") for each in pieces]
        ends = f", {up.setup} set-up and {up.closing} closing" if up.setup or up.closing else ""
        yield _pair(piece, "up", f"repeats of {up.repeat} row{'' if up.repeat == 1 else 's'}{ends}", texts)


def _pair(piece: Piece, direction: str, rule: str, texts: list[str]) -> tuple[Figure, Figure]:
    key, name = f"{piece.name.replace(' ', '_')}.repeats.{direction}", f"{piece.name}, {direction}"
    return text_figure(f"{key}.rule", f"{name}, it takes", [rule]), text_figure(key, name, texts)


def _repeats(rule: CountRule, count: int, unit: str) -> str:
    """Whole repeats; what does not fit is said."""
    if rule.allows(count):
        if rule.only:
            return "worked once"
        return str((count - rule.plus) // rule.multiple)
    return f"{count} {unit} do not fit"


def _chart_words(fabric: str, chart: Chart) -> str:
    """In which order the rows of the table are worked."""
    parts = []
    for part, numbers in chart.sections():
        first, last = numbers[0], numbers[-1]
        between = " and " if len(numbers) == 2 else " to "
        rows = f"row {first}" if first == last else f"rows {first}{between}{last}"
        parts.append(f"{rows} once for each repeat up" if part is ChartSection.REPEAT else rows)
    return f"Work {fabric} as {', then '.join(parts)} of its table."


def _chart_figures(book: Book, fabric: str, chart: Chart) -> Iterator[Figure]:
    for number, row in enumerate(chart.rows, start=1):
        words = book.terms.text(str(row))
        yield text_figure(f"chart.{fabric}.row.{number}", f"{fabric}, row {number}", [words])


def _chart_table(fabric: str, chart: Chart, rows: tuple[Figure, ...]) -> Table:
    return Table(
        caption=f"{fabric}, row by row",
        header=("row", "side", "part", "work"),
        rows=tuple(
            (str(number), side_words(chart, part, number), part.words, rows[number - 1])
            for part, numbers in chart.sections()
            for number in numbers
        ),
    )


def side_words(chart: Chart, part: ChartSection, number: int) -> str:
    """The side that faces; where an odd number of rows is repeated, it changes from one time to the next."""
    side, other = ("right", "wrong") if chart.side(number) is Side.RIGHT else ("wrong", "right")
    if part is ChartSection.SETUP or len(chart.repeat) % 2 == 0:
        return side
    return f"{side}, then {other} in turn" if part is ChartSection.REPEAT else "as it falls"
