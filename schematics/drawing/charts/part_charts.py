"""The stitch charts of bands, which are worked sideways, and of the borders of the body."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain

from schematics.checks.evaluation import Result
from schematics.crochet.fabric import Fabric
from schematics.document.chart_words.chart_piece import ChartPiece
from schematics.drawing.charts.panel_chart import chart_sheets
from schematics.drawing.compose import Drawing, Setting


def draw_part_charts(setting: Setting) -> tuple[Drawing, ...]:
    """The sheets of every chart but the panel's, part by part."""
    return tuple(chain.from_iterable(_sheets(setting)))


def _sheets(setting: Setting) -> Iterator[tuple[Drawing, ...]]:
    body = {area.name for result in setting.results for area in result.garment.piece("body").patterned}
    for name, (fabric, pieces) in charted_parts(setting.results).items():
        yield chart_sheets(setting, name, fabric, pieces, on_body=name in body)


def charted_parts(results: Sequence[Result]) -> dict[str, tuple[Fabric, list[ChartPiece]]]:
    """What but the panel is worked from a chart, by its name, in each size with it; both fronts are one."""
    by_part: dict[str, tuple[Fabric, list[ChartPiece]]] = {}
    for result in results:
        for piece in result.garment.pieces:
            for area in piece.patterned if piece.name != "centre panel" else ():
                _, pieces = by_part.setdefault(area.name, (area.fabric, []))
                here = ChartPiece(size=result.size.name, stitches=area.stitches, rows=area.rows)
                if here not in pieces:
                    pieces.append(here)
    return by_part
