"""How often the pattern of each patterned piece repeats, across and up, and its rows in words."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.crochet.charts.chart import Chart, ChartSection, is_right_side
from schematics.crochet.charts.chart_rules import multiple_words
from schematics.crochet.fabric import CountRule, Fabric
from schematics.document.document import Figure, Section, Table, listed_section, text_figure
from schematics.garment.garment import Piece
from schematics.pattern.book import Book
from schematics.pattern.sections.piece_sizes import piece_rows


def section(book: Book) -> Section:
    """Whole repeats of each patterned piece; then the rows of every fabric with a chart."""
    pairs = [pair for piece in book.pieces() for pair in _repeats_of(book, piece)]
    fabrics = {piece.fabric: None for piece in book.pieces() if piece.fabric.chart is not None}
    charts = [(fabric, tuple(_chart_figures(book, fabric))) for fabric in fabrics]
    none = "No stitch pattern asks for a multiple or a row repeat."
    return listed_section(
        key="repeats",
        heading="Pattern repeats",
        sentences=tuple(_chart_words(fabric) for fabric in fabrics) or (() if pairs else (none,)),
        tables=(
            *([_repeats_table(pairs)] if pairs else []),
            *(_chart_table(fabric, rows) for fabric, rows in charts),
        ),
        figures=(
            *(figure for pair in pairs for figure in pair),
            *(figure for _, rows in charts for figure in rows),
        ),
    )


def _repeats_table(pairs: list[tuple[Figure, Figure]]) -> Table:
    return Table(
        caption="Whole repeats",
        header=("pattern", "it takes", "repeats"),
        rows=tuple((repeats.name, rule, repeats) for rule, repeats in pairs),
    )


def _repeats_of(book: Book, piece: Piece) -> Iterator[tuple[Figure, Figure]]:
    """The rule and the whole repeats for each direction in which a pattern repeats."""
    across, up = piece.fabric.stitch_rule, piece.fabric.row_rule
    if across != CountRule():
        counts = book.each(lambda garment: garment.piece(piece.name).foundation_stitches)
        texts = [_repeats(across, count, "sts") for count in counts]
        yield _pair(piece, "across", f"a multiple of {multiple_words(across)} sts", texts)
    if up.rule != CountRule():
        counts = book.each(lambda garment: piece_rows(garment.piece(piece.name)))
        texts = [_repeats(up.rule, count, "rows") for count in counts]
        ends = f", {up.setup} set-up and {up.closing} closing" if up.setup or up.closing else ""
        yield _pair(piece, "up", f"repeats of {up.repeat} row{'' if up.repeat == 1 else 's'}{ends}", texts)


def _pair(piece: Piece, direction: str, rule: str, texts: list[str]) -> tuple[Figure, Figure]:
    key, name = f"{piece.name.replace(' ', '_')}.repeats.{direction}", f"{piece.name}, {direction}"
    return text_figure(f"{key}.rule", f"{name}, it takes", [rule]), text_figure(key, name, texts)


def _repeats(rule: CountRule, count: int, unit: str) -> str:
    """Whole repeats; what does not fit is said."""
    if rule.allows(count):
        return str((count - rule.plus) // rule.multiple)
    return f"{count} {unit} do not fit"


def _chart_words(fabric: Fabric) -> str:
    """In which order the rows of the table are worked."""
    told = []
    for part, numbers in _chart(fabric).sections():
        first, last = numbers[0], numbers[-1]
        between = " and " if len(numbers) == 2 else " to "
        rows = f"row {first}" if first == last else f"rows {first}{between}{last}"
        told.append(f"{rows} once for each repeat up" if part is ChartSection.REPEAT else rows)
    return f"Work {fabric.name} as {', then '.join(told)} of its table."


def _chart(fabric: Fabric) -> Chart:
    if fabric.chart is None:
        raise ValueError(f"{fabric.name} has no chart")
    return fabric.chart


def _chart_figures(book: Book, fabric: Fabric) -> Iterator[Figure]:
    for number, row in enumerate(_chart(fabric).rows, start=1):
        words = book.terms.text(str(row))
        yield text_figure(f"chart.{fabric.name}.row.{number}", f"{fabric.name}, row {number}", [words])


def _chart_table(fabric: Fabric, rows: tuple[Figure, ...]) -> Table:
    chart = _chart(fabric)
    return Table(
        caption=f"{fabric.name}, row by row",
        header=("row", "side", "part", "work"),
        rows=tuple(
            (str(number), side_words(chart, part, number), part.words, rows[number - 1])
            for part, numbers in chart.sections()
            for number in numbers
        ),
    )


def side_words(chart: Chart, part: ChartSection, number: int) -> str:
    """The side that faces; where an odd number of rows is repeated, it changes from one time to the next."""
    side, other = ("right", "wrong") if is_right_side(number) else ("wrong", "right")
    if part is ChartSection.SETUP or len(chart.repeat) % 2 == 0:
        return side
    return f"{side}, then {other} in turn" if part is ChartSection.REPEAT else "as it falls"
