"""Charts for the tests of their words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from schematics.crochet.charts.chart import Chart, Side
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.fabric import Fabric, RowRule, Swatch
from schematics.crochet.stitch_list import TRADE
from schematics.crochet.stitches import StitchBook
from schematics.crochet.terms import Terms
from schematics.document.chart_words.chart_piece import ChartPiece
from schematics.document.chart_words.piece_words import PieceWords


def chart_of(
    repeat: Sequence[str],
    *,
    setup: Sequence[str] = (),
    closing: Sequence[str] = (),
    adds: tuple[int, int, int] = (0, 0, 0),
    colours: Mapping[str, str] | None = None,
    first_side: Side = Side.RIGHT,
    carried: bool = True,
    stitches: StitchBook = TRADE,
) -> Chart:
    """A chart of rows as they are written in a spec."""
    letters = frozenset(colours or {})

    def read(texts: Sequence[str]) -> tuple:  # type: ignore[type-arg]
        return tuple(parse_row(text, stitches, letters) for text in texts)

    return Chart(
        setup=read(setup), repeat=read(repeat), closing=read(closing), adds=adds, first_side=first_side,
        colours=tuple((colours or {}).items()), carried=carried,
    )  # fmt: skip


def words_of(
    chart: Chart, sizes: Sequence[tuple[int, int]], terms: Terms = Terms.US, *, turning_chains: int = 1
) -> PieceWords:
    """The words for sizes of so many stitches at the foot and so many repeats, named S1, S2, ..."""
    rows = RowRule(setup=len(chart.setup), repeat=len(chart.repeat), closing=len(chart.closing))
    fabric = Fabric(
        name="cloth", stitch="single crochet", row_rule=rows, turning_chains=turning_chains, chart=chart,
        swatch=Swatch(stitches=14, rows=12, width_cm=10, height_cm=10),
    )  # fmt: skip
    pieces = tuple(
        ChartPiece(
            size=f"S{number}", stitches=stitches, rows=rows.setup + rows.repeat * repeats + rows.closing
        )
        for number, (stitches, repeats) in enumerate(sizes, start=1)
    )
    return PieceWords(fabric, pieces, terms)
