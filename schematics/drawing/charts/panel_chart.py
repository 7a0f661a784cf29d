"""The centre panel's stitch chart."""

from __future__ import annotations

from schematics.document.lettering.text import LARGE, line_pitch
from schematics.drawing.charts.chart_words import rows_in_words, size_lines, sizes_words
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.page import drawing_area
from schematics.drawing.ink.text_block import TextBlock


def draw_panel_chart(setting: Setting) -> Drawing | None:
    """The chart sheet; None where the panel's fabric has no chart."""
    design = setting.design
    fabric = design.parts.centre_panel
    if fabric.chart is None:
        return None
    area = drawing_area(setting.paper)
    text = TextBlock(f"Centre panel: {fabric.stitch}", area.x1 - area.x0, line_pitch(LARGE))
    words = rows_in_words(fabric.chart, design.terms)
    text.add([*words, sizes_words(design.sizes), *size_lines(fabric, design.sizes)])
    return Drawing(
        groups=tuple(text.block("chart-rows", "rows").at(area.x0, area.y0)),
        title="centre panel, stitch chart",
        description=" ".join(words),
        scale=None,
    )
