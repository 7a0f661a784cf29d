"""Drawings by themselves, as large as they are: no frame, no title block, nothing about the checks."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from schematics.checks.evaluation import Result
from schematics.crochet.charts.chart import Chart
from schematics.crochet.terms import Terms
from schematics.document.lettering.text import CAP_HEIGHT, SMALL
from schematics.drawing.charts.chart_views import ChartView
from schematics.drawing.charts.chart_words import view_heading
from schematics.drawing.charts.panel_chart import LARGEST_CELL, least_room, smallest_cell, view_blocks
from schematics.drawing.charts.stitch_key import KeyPart, key_block, key_parts
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, bounds, moved_group
from schematics.drawing.ink.page import Box, block_size
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.pieces.all_sizes import lettered_outline
from schematics.drawing.pieces.piece_block import measurement_letters

_EDGE = 1.0
"""Paper left round the marks, in mm."""

_KEY_WIDTH = 80.0

CHART_SCALE = 0.7
"""Charts are lettered as for large sheets; so much of it is read well on a page."""

_CHART_ROOM = 170.0 / CHART_SCALE - 2 * _EDGE, 220.0 / CHART_SCALE
"""What a chart may take before it is scaled, in mm: the text of a page of A4 or Letter, a heading over it."""

_STEP = 0.5


@dataclass(frozen=True, slots=True)
class Room:
    """What a drawing may take, and how high its capitals are, in mm; it is not to be scaled."""

    width: float
    height: float
    lettering: float = SMALL


POINT = 25.4 / 72
"""In mm."""

PAGE = Room(170.0, 78.0)
"""Of A4 or Letter: as wide as the text, and so high that it finds a place on most pages."""

PHONE = Room(78.0, 240.0)
"""The text of a page on a phone of 320 CSS pixels; lettering of 2.5 mm is a font of 13 pixels."""

LARGE_PT = 22.0
"""The text of the large-print edition, in points."""

LARGE_PAGE = Room(180.0, 170.0, LARGE_PT * POINT * CAP_HEIGHT)
"""Of that edition, lettered like its text."""


def bare_schematic(results: Sequence[Result], room: Room = PAGE) -> Sheet | None:
    """The pieces of the middle size, a letter at each measurement; None where they find no room."""
    letters = measurement_letters(results)
    shown = results[len(results) // 2]
    inside = Box(0.0, 0.0, room.width - 2 * _EDGE, room.height - 2 * _EDGE)
    groups, _ = lettered_outline(shown, letters, inside, room.lettering)
    if not groups:
        return None
    names = {item.key: item.name for result in results for item in result.garment.finished}
    pieces = ", ".join(piece.name for piece in shown.garment.pieces)
    measured = ", ".join(f"{letter} {names[key]}" for key, letter in letters.items())
    return _cropped(
        groups, "Schematic", f"The pieces laid flat: {pieces}. A letter marks each measurement: {measured}."
    )


def bare_charts(chart: Chart, part: str, views: Sequence[ChartView], terms: Terms) -> tuple[Sheet, ...]:
    """The key of a part's stitch chart, then the chart in each of its views."""
    keys = key_parts(chart, views, terms, _KEY_WIDTH)
    key = _cropped(key_block(keys, "Key").groups, "Key", f"Key of the stitch chart: {_told(keys)}.")
    charts = (
        _cropped(block.groups, "Stitch chart", f"Stitch chart of the {part}. {view_heading(view)}.")
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
    least = view_blocks(chart, view, smallest, *_CHART_ROOM)
    half = _CHART_ROOM[1] / 2
    high = half if _height(least) <= half else _CHART_ROOM[1]
    sides = (smallest + step * _STEP for step in range(steps, 0, -1))
    larger = (
        view_blocks(chart, view, side, *_CHART_ROOM)
        for side in sides
        for parts, at_least in [least_room(view, side, *_CHART_ROOM)]
        if parts <= len(least) and at_least <= high
    )
    fitting = (blocks for blocks in larger if len(blocks) <= len(least) and _height(blocks) <= high)
    return next(fitting, least)


def _height(blocks: Iterable[Block]) -> float:
    """That of the highest, in mm."""
    return max(block_size(block)[1] for block in blocks)


def _told(keys: Iterable[KeyPart]) -> str:
    return "; ".join(" ".join(_words(part)) for part in keys)


def _words(part: KeyPart) -> Iterator[str]:
    return (words for line in part.lines for words in line if words)


def _cropped(groups: Sequence[Group], title: str, description: str) -> Sheet:
    """The marks on paper just as large as they are."""
    x0, y0, x1, y1 = bounds(groups)
    paper = Paper(name="drawing", width=x1 - x0 + 2 * _EDGE, height=y1 - y0 + 2 * _EDGE)
    moved = tuple(moved_group(group, _EDGE - x0, _EDGE - y0) for group in groups)
    return Sheet(paper=paper, scale=None, title=title, description=description, groups=moved)
