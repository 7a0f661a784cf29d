"""Foundation chains, stitches and rows of every piece, and how its pattern repeats."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.chart import Chart, is_right_side
from schematics.chart import Section as Part
from schematics.chart_rules import multiple_words
from schematics.fabric import Counted, CountRule, Fabric
from schematics.figures.book import Book
from schematics.figures.document import Figure, Section, Table, count_figure, text_figure
from schematics.garment import Garment, Piece


def piece_rows(piece: Piece) -> int:
    """Rows worked in a piece, from its foundation chain to its last row."""
    return max(edge.count for edge in piece.edges if edge.counted is Counted.ROWS and not edge.partial)


def section(book: Book) -> Section:
    """What to chain and how many rows to work, piece by piece."""
    figures: list[Figure] = []
    rows: list[tuple[str | Figure, ...]] = []
    for piece in book.pieces():
        shown = _piece_figures(book, piece.name)
        figures += shown
        rows.append((piece.name, str(piece.quantity), *shown))
    return Section(
        key="pieces",
        heading="Foundation chains and rows",
        sentences=(
            "The foundation chain is the stitches of the first row and the turning chain. The turning chain "
            "counts as no stitch (common practice): after one of 2, work the first stitch into the 3rd chain "
            "from the hook.",
        ),
        tables=(
            Table(
                caption="Every piece",
                header=(
                    "piece", "make", "foundation chain", "stitches in the first row", "turning chain", "rows",
                ),
                rows=tuple(rows),
            ),
        ),
        figures=tuple(figures),
    )  # fmt: skip


def _piece_figures(book: Book, name: str) -> tuple[Figure, ...]:
    def piece(garment: Garment) -> Piece:
        return garment.piece(name)

    pieces = book.each(piece)
    key = name.replace(" ", "_")
    return (
        count_figure(
            f"{key}.chain", f"{name}: foundation chain", "ch",
            [each.fabric.foundation_chain(each.foundation_stitches) for each in pieces],
        ),
        count_figure(
            f"{key}.stitches", f"{name}: stitches in the first row", "sts",
            [each.foundation_stitches for each in pieces],
        ),
        count_figure(f"{key}.turning", f"{name}: turning chain", "ch", [pieces[0].fabric.turning_chains]),
        count_figure(f"{key}.rows", f"{name}: rows", "rows", [piece_rows(each) for each in pieces]),
    )  # fmt: skip


def repeats_section(book: Book) -> Section:
    """How often the pattern of each patterned piece repeats, across and up; then its rows in words."""
    figures: list[Figure] = []
    rows = []
    for piece in book.pieces():
        for figure, rule in _repeat_figures(book, piece):
            figures.append(figure)
            rows.append((figure.name, rule, figure))
    tables = [
        Table(caption="Whole repeats", header=("pattern", "it takes", "repeats"), rows=tuple(rows))
    ] if rows else []  # fmt: skip
    charts = {piece.fabric: None for piece in book.pieces() if piece.fabric.chart is not None}
    return Section(
        key="repeats",
        heading="Pattern repeats",
        sentences=tuple(_chart_words(fabric) for fabric in charts)
        or (() if rows else ("No stitch pattern asks for a multiple or a row repeat.",)),
        tables=(*tables, *(_chart_table(book, fabric) for fabric in charts)),
        figures=tuple(figures),
    )


def _repeat_figures(book: Book, piece: Piece) -> Iterator[tuple[Figure, str]]:
    """A figure for each direction in which a pattern repeats, with its rule in words."""
    across, up = piece.fabric.stitch_rule, piece.fabric.row_rule
    key = f"{piece.name.replace(' ', '_')}.repeats"
    if across != CountRule():
        counts = book.each(lambda garment: garment.piece(piece.name).foundation_stitches)
        texts = [_repeats(across, count, "sts") for count in counts]
        yield (
            text_figure(f"{key}.across", f"{piece.name}, across", texts),
            f"a multiple of {multiple_words(across)} sts",
        )
    if up.rule != CountRule():
        counts = book.each(lambda garment: piece_rows(garment.piece(piece.name)))
        texts = [_repeats(up.rule, count, "rows") for count in counts]
        ends = f", {up.setup} set-up and {up.closing} closing" if up.setup or up.closing else ""
        yield (
            text_figure(f"{key}.up", f"{piece.name}, up", texts),
            f"repeats of {up.repeat} row{'' if up.repeat == 1 else 's'}{ends}",
        )


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
        told.append(f"{rows} once for each repeat up" if part is Part.REPEAT else rows)
    return f"Work {fabric.name} as {', then '.join(told)} of its table."


def _chart(fabric: Fabric) -> Chart:
    if fabric.chart is None:
        raise ValueError(f"{fabric.name} has no chart")
    return fabric.chart


def _side(chart: Chart, part: Part, number: int) -> str:
    """The side that faces; where an odd number of rows is repeated, it changes from one time to the next."""
    side, other = ("right", "wrong") if is_right_side(number) else ("wrong", "right")
    if part is Part.SETUP or len(chart.repeat) % 2 == 0:
        return side
    return f"{side}, then {other} in turn" if part is Part.REPEAT else "as it falls"


def _chart_table(book: Book, fabric: Fabric) -> Table:
    chart = _chart(fabric)
    rows = [
        (
            str(number),
            _side(chart, part, number),
            part.words,
            book.terms.text(str(chart.rows[number - 1])),
        )
        for part, numbers in chart.sections()
        for number in numbers
    ]
    return Table(
        caption=f"{fabric.name}, row by row", header=("row", "side", "part", "work"), rows=tuple(rows)
    )
