"""Stitch charts by themselves: the key, then the chart in each of its views."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from schematics.crochet.charts.chart import Chart
from schematics.crochet.terms import Terms
from schematics.drawing.bare.rooms import EDGE, cropped
from schematics.drawing.charts.chart_views import ChartView
from schematics.drawing.charts.chart_words import view_heading
from schematics.drawing.charts.panel_chart import LARGEST_CELL, least_room, smallest_cell, view_blocks
from schematics.drawing.charts.stitch_key import KeyPart, key_block, key_parts
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.page import block_size
from schematics.drawing.ink.sheet import Sheet

_KEY_WIDTH = 80.0

CHART_SCALE = 0.7
"""Charts are lettered as for large sheets; so much of it is read well on a page."""

_CHART_ROOM = 170.0 / CHART_SCALE - 2 * EDGE, 220.0 / CHART_SCALE
"""What a chart may take before it is scaled, in mm: the text of a page of A4 or Letter, a heading over it."""

_STEP = 0.5


def bare_charts(chart: Chart, part: str, views: Sequence[ChartView], terms: Terms) -> tuple[Sheet, ...]:
    """The key of a part's stitch chart, then the chart in each of its views."""
    keys = key_parts(chart, views, terms, _KEY_WIDTH)
    key = cropped(key_block(keys, "Key").groups, "Key", f"Key of the stitch chart: {_in_words(keys)}.")
    charts = (
        cropped(block.groups, "Stitch chart", f"Stitch chart of the {part}. {view_heading(view)}.")
        for view in views
        for block in _in_room(chart, view)
    )
    return (key, *charts)


def _in_room(chart: Chart, view: ChartView) -> list[Block]:
    """The chart in as few parts as can be, two to a page if it can, its cells as large as they may be then.

    Once they are scaled, the smallest are as large as those of sheets.
    """
    smallest = smallest_cell([view]) / CHART_SCALE
    steps = math.floor((LARGEST_CELL - smallest) / _STEP)

    def largest(most: int, high: float) -> list[Block] | None:
        """With the largest cells, above the smallest, that make it at most so many parts, no higher."""
        for side in (smallest + step * _STEP for step in range(steps, 0, -1)):
            parts, at_least = least_room(view, side, *_CHART_ROOM)
            if parts <= most and at_least <= high:
                blocks = view_blocks(chart, view, side, *_CHART_ROOM)
                if len(blocks) <= most and _height(blocks) <= high:
                    return blocks
        return None

    half = _CHART_ROOM[1] / 2
    if parts := largest(least_room(view, smallest, *_CHART_ROOM)[0], half):
        return parts
    least = view_blocks(chart, view, smallest, *_CHART_ROOM)
    return largest(len(least), half if _height(least) <= half else _CHART_ROOM[1]) or least


def _height(blocks: Iterable[Block]) -> float:
    """That of the highest, in mm."""
    return max(block_size(block)[1] for block in blocks)


def _in_words(keys: Iterable[KeyPart]) -> str:
    return "; ".join(" ".join(_words(part)) for part in keys)


def _words(part: KeyPart) -> Iterator[str]:
    return (words for line in part.lines for words in line if words)
