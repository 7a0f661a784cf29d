"""What a stitch chart's sheets say in words: how to read it, its rows, and the counts of every size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from schematics.crochet.charts.chart import ChartSection, Side
from schematics.crochet.charts.chart_fault import count_words
from schematics.crochet.charts.placed_stitches import PlacedStitch
from schematics.crochet.fabric import Fabric
from schematics.crochet.symbols import COUNTED, StrokeKind, Symbol
from schematics.crochet.terms import Terms
from schematics.design.guessed import GUESSED, marked
from schematics.design.size_string import size_string
from schematics.document.chart_words.chart_piece import ChartPiece, repeats_of
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.chart_words.piece_words import PieceWords
from schematics.drawing.charts.chart_layout import seen_loop, seen_passing, seen_symbol
from schematics.drawing.charts.chart_views import ChartView
from schematics.drawing.charts.stitch_symbols import MOST_STRANDS

_BESIDE_ROWS = (
    "Beside a row stand its number, where it begins, and in brackets its count of stitches, where it ends."
)
_ACROSS = (
    "Beside a row stands its number, where it begins. What lies between two heavy lines is drawn once for "
    "all sizes: work it as often as is said under it."
)


def row_span(numbers: range) -> str:
    """``row 3``, ``rows 3 and 4`` or ``rows 3 to 6``."""
    first, last = numbers[0], numbers[-1]
    if first == last:
        return f"row {first}"
    return f"rows {first} {'and' if last == first + 1 else 'to'} {last}"


def reading_facts(fabric: Fabric, views: Sequence[ChartView], terms: Terms) -> Iterator[str]:
    """How the charts are read, a paragraph each."""
    chart = fabric.chart
    assert chart
    across = any(view.across for view in views)
    stitches = [(row.side, placed) for view in views for row in view.rows for placed in row.stitches]
    yield (
        "Read from the bottom up: right-side rows (RS) from right to left, wrong-side rows (WS) from left to "
        f"right. {_BESIDE_ROWS if not across else _ACROSS}"
    )
    if sided := list(_sided(stitches)):
        yield (
            "The chart shows the right side of the fabric. A stitch of a wrong-side row is drawn as it looks "
            f"from there: {', and '.join(sided)}."
        )
    if any(placed.passing or placed.worked.rows_below > 1 for _, placed in stitches):
        yield (
            "The foot of a symbol stands at the stitch that it is worked into or round, however far down; a "
            "broken stroke passes behind the whole one."
        )
    if any(placed.worked.surface for _, placed in stitches):
        yield (
            "Surface stitches lie on the fabric, between the stitches beside them. They are not counted, and "
            "the next row passes over them."
        )
    if any(row.skipped for view in views for row in view.rows):
        yield terms.text("A skipped stitch has nothing worked into it: no foot stands on it.")
    if any(_has_figure(placed.worked.makes, placed.worked.stitch.symbol) for _, placed in stitches):
        yield "A figure in a symbol says how many legs or loops it has."
    if chains := fabric.turning_chains:
        which = "The chain that turns a row is" if chains == 1 else "The chains that turn a row are"
        guess = f" How many is {GUESSED}." if fabric.turning_chains_guessed else ""
        yield f"{which} not drawn.{guess}"
    if chart.colours:
        between = any(not each.worked.makes and each.worked.stitch.symbol for _, each in stitches)
        own = " A stitch between others has a narrow cell of its own for it." if between else ""
        yield (
            "Hatching is a colour, and letters beside the row's number are its colours in working order."
            f"{own}"
        )
    if len(chart.repeat) % 2:
        yield (
            "The repeat has an odd number of rows: every second time it is worked, "
            "right side and wrong side change places."
        )


def numbering_fact(fabric: Fabric, views: Sequence[ChartView]) -> str:
    """Where a chart's rows are numbered otherwise than those of a written pattern; empty if nowhere."""
    assert fabric.chart
    pieces = [piece for view in views for piece in view.pieces]
    if not fabric.chart.closing or all((repeats_of(fabric, piece) or 0) < 2 for piece in pieces):
        return ""
    return "The repeat is drawn once, so the rows above it have other numbers here than in the written rows."


def _sided(stitches: Iterable[tuple[Side, PlacedStitch]]) -> Iterator[str]:
    """What is drawn otherwise on a wrong-side row than it is worked."""
    wrong = [placed for side, placed in stitches if side is Side.WRONG]
    if any(seen_symbol(each.worked.stitch.symbol, Side.WRONG) != each.worked.stitch.symbol for each in wrong):
        yield "a back post has the symbol of a front post, and a front post that of a back post"
    if any(seen_loop(each.worked.loop, Side.WRONG) is not each.worked.loop for each in wrong):
        yield "the back loop has the arc of the front loop, and the other way about"
    if any(seen_passing(each.passing, Side.WRONG) is not each.passing for each in wrong):
        yield "what is worked in front passes behind"


def _has_figure(makes: int, symbol: Symbol) -> bool:
    return makes < 2 and any(
        each.count > MOST_STRANDS and each.kind in COUNTED - {StrokeKind.BARS, StrokeKind.LEGS}
        for each in symbol
    )


def rows_in_words(fabric: Fabric, pieces: Sequence[ChartPiece], terms: Terms) -> list[str]:
    """What holds for all rows, and every row as a pattern has it, row 1 first."""
    words = PieceWords(fabric, tuple(pieces), terms)
    return [*words.notes, *(line.text for line in words.lines)]


def size_lines(fabric: Fabric, pieces: Sequence[ChartPiece], *, on_body: bool = False) -> list[str]:
    """Counts of every size; a dash where a size's counts do not fit the chart."""
    chart = fabric.chart
    assert chart
    numbers = next(numbers for section, numbers in chart.sections() if section is ChartSection.REPEAT)
    repeats = [repeats_of(fabric, piece) for piece in pieces]
    chains = in_sizes([fabric.foundation_chain(piece.stitches) for piece in pieces])
    lines = [
        "worked on the row of the body below it"
        if on_body
        else marked(f"foundation chain: {chains}", guess=fabric.turning_chains_guessed),
        f"stitches: {in_sizes([piece.stitches for piece in pieces])}",
    ]
    if any(chart.adds):
        tops = [
            None if times is None else chart.top(piece.stitches, times)
            for piece, times in zip(pieces, repeats, strict=True)
        ]
        lines.append(f"stitches at the top: {in_sizes(tops)}")
    lines += [
        f"repeat {row_span(numbers)}: {in_sizes(repeats)} {'time' if set(repeats) == {1} else 'times'}",
        f"rows in all: {in_sizes([piece.rows for piece in pieces])}",
    ]
    if None in repeats:
        lines.append("where there is a dash, the piece does not fit the chart: see the checks of that size")
    return lines


def sizes_words(names: Sequence[str]) -> str:
    """``Size 2`` or ``Sizes 2 (4, 6)``."""
    return f"Size {names[0]}" if len(names) == 1 else f"Sizes {size_string(names)}"


def view_heading(view: ChartView) -> str:
    """Whose chart it is: ``Sizes 2 (4): 10 stitches``; of one size alone, how wide: ``10 stitches``."""
    if not view.pieces:
        return f"The narrowest that the chart may be: {count_words(view.stitches)}"
    sizes = "" if view.alone else f"{sizes_words([piece.size for piece in view.pieces])}: "
    if view.across:
        return f"{sizes}{in_sizes([piece.stitches for piece in view.pieces])} stitches"
    if any(piece.stitches != view.stitches for piece in view.pieces):
        counts = in_sizes([piece.stitches for piece in view.pieces])
        drawn = "is drawn" if view.stitches == 1 else "are drawn"
        return f"{sizes}{counts} stitches, of which {view.stitches} {drawn}"
    return f"{sizes}{count_words(view.stitches)}"


def chart_description(fabric: Fabric, part: str, pieces: Sequence[ChartPiece], terms: Terms) -> str:
    """The sheets in words, for screen readers."""
    assert fabric.chart
    rows = " ".join(rows_in_words(fabric, pieces, terms))
    sizes = sizes_words([piece.size for piece in pieces])
    return (
        f"Stitch chart of the {part} in {terms.text(fabric.stitch)}. {rows} "
        f"{sizes}: {'; '.join(size_lines(fabric, pieces))}."
    )
