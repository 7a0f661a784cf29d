"""The page round a drawing: frame, title block, scale bar, and packing blocks into it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations

from schematics.document.lettering.text import LARGE, SMALL, shorten, text_width
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Area, Group, Line, Mark, Pen, Point, Text
from schematics.drawing.ink.sheet import MARGIN, Paper
from schematics.units import CM_PER_INCH

TITLE_HEIGHT = 21.0
_FIRST_BASELINE = 4.9
_UNDER_DESIGN = 0.6
"""How much farther the second line is from the first, whose capitals are large, in mm."""
_TITLE_PITCH = 3.5
"""Baseline to baseline in the title block: ISO 3098-1 asks for 19/14 of the capitals' height at least."""

_INSET = 2.0
_GUTTER = 5.0
_WIDEST_GAP = 20.0
"""As much as two rows of blocks are moved apart where the page has room, in mm."""

_TITLE_SHARES = (0.335, 0.455, 0.21)
"""Of the frame's width: what the sheet is, the gauges, the scale."""

_MOST_GAUGES = 4
"""As many lines as the title block has under its heading."""

_BAR_STEPS = (0.25, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 30.0, 40.0, 50.0)
_BAR_PART = 7.8
"""What a third of a scale bar stands for, in its unit, and how long it is at most, in mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """The fields of the title block, named after ISO 7200; what is wearer and findings may be empty."""

    design: str
    sheet: str
    size: str
    wearer: str
    findings: str
    gauge_heading: str
    gauges: tuple[tuple[str, str], ...]
    terms: str
    date: str
    number: int
    total: int
    scale: int | None


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the page."""

    x0: float
    y0: float
    x1: float
    y1: float

    def meets(self, other: Box) -> bool:
        """Whether the two overlap."""
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1


def drawing_area(paper: Paper) -> Box:
    """Where a drawing may go: inside the frame, above the title block."""
    return Box(
        MARGIN + _INSET,
        MARGIN + _INSET,
        paper.width - MARGIN - _INSET,
        paper.height - MARGIN - TITLE_HEIGHT - _INSET,
    )


def pack(sizes: Sequence[tuple[float, float]], area: Box) -> list[Point] | None:
    """Upper left corners for rectangles of ``sizes`` inside ``area``; None if they do not fit.

    The first is placed first, the others in whatever order fits; each goes to the highest, then
    leftmost corner left free by those before it.
    """
    for order in permutations(range(1, len(sizes))):
        corners = _pack_in_order([sizes[i] for i in (0, *order)], area)
        if corners is not None:
            return [corner for _, corner in sorted(zip((0, *order), corners, strict=True))]
    return None


def _pack_in_order(sizes: Sequence[tuple[float, float]], area: Box) -> list[Point] | None:
    placed: list[Box] = []
    for width, height in sizes:
        xs = [area.x0, *(box.x1 + _GUTTER for box in placed)]
        ys = [area.y0, *(box.y1 + _GUTTER for box in placed)]
        for y, x in sorted((y, x) for x in xs for y in ys):
            room = Box(x, y, x + width + _GUTTER, y + height + _GUTTER)
            if x + width > area.x1 or y + height > area.y1:
                continue
            if not any(room.meets(Box(b.x0, b.y0, b.x1 + _GUTTER, b.y1 + _GUTTER)) for b in placed):
                placed.append(Box(x, y, x + width, y + height))
                break
        else:
            return None
    return [(box.x0, box.y0) for box in placed]


def spread_down(boxes: Sequence[Box], area: Box) -> list[Box]:
    """The boxes with the room under the lowest shared out under every row of them, as evenly as at the foot.

    A row is what no level line parts from what is beside it.
    """
    starts: list[float] = []
    foot = area.y0
    for box in sorted(boxes, key=lambda box: box.y0):
        if not starts or box.y0 >= foot:
            starts.append(box.y0)
        foot = max(foot, box.y1)
    gap = min((area.y1 - foot) / len(starts), _WIDEST_GAP)
    down = [gap * (bisect_right(starts, box.y0) - 1) for box in boxes]
    return [Box(box.x0, box.y0 + d, box.x1, box.y1 + d) for box, d in zip(boxes, down, strict=True)]


def block_size(block: Block) -> tuple[float, float]:
    """Width and height of a block."""
    x0, y0, x1, y1 = block.bounds()
    return x1 - x0, y1 - y0


def placed_groups(placed: Iterable[tuple[Block, Point]]) -> tuple[Group, ...]:
    """The groups of blocks, each at the upper left corner that comes with it."""
    return tuple(group for block, corner in placed for group in block.at(*corner))


def unplaced_names(blocks: Iterable[Block]) -> tuple[str, ...]:
    """The names of what could not be placed in the blocks."""
    return tuple(name for block in blocks for name in block.unplaced)


_LABELLED = ("dimension", "leader", "level")
"""Kinds of groups that have figures."""


def printed_labels(groups: Iterable[Group]) -> list[str]:
    """The lengths that groups are labelled with, as they are printed, each after its name."""
    labels = []
    for group in groups:
        words = ", ".join(mark.words for mark in group.marks if isinstance(mark, Text))
        if " cm" in words and group.kind in _LABELLED:
            labels.append(f"{group.name} {words}" if words[0].isdigit() else words)
    return labels


def page_groups(paper: Paper, title: TitleBlock) -> Iterator[Group]:
    """Frame, title block and scale bar."""
    left, right = MARGIN, paper.width - MARGIN
    top, bottom = MARGIN, paper.height - MARGIN
    rule = bottom - TITLE_HEIGHT
    frame = Area(((left, top), (right, top), (right, bottom), (left, bottom)), Pen.FRAME)
    yield Group("frame", "frame", (frame, Line(((left, rule), (right, rule)), Pen.THIN)))
    yield Group("title", "title block", tuple(_title_marks(title, left, right, rule)))


def _title_marks(title: TitleBlock, left: float, right: float, top: float) -> Iterator[Mark]:
    """Three cells side by side, of five lines each."""
    cells, across = (_identity, _gauge, _scale), right - left
    for cell, share in zip(cells, _TITLE_SHARES, strict=True):
        width = across * share
        if cell is not _identity:
            yield Line(((left, top + 1.5), (left, top + TITLE_HEIGHT - 1.5)), Pen.THIN)
        yield from cell(title, (left + _INSET, top + _FIRST_BASELINE), width - 2 * _INSET)
        left += width


def _identity(title: TitleBlock, at: Point, width: float) -> Iterator[Mark]:
    """Design, sheet, size and for whom, what the checks found, and the date."""
    x, y = at
    height = LARGE if text_width(title.design, LARGE, bold=True) <= width else SMALL
    yield Text((x, y), shorten(title.design, width, height, bold=True), height, bold=True)
    y += _UNDER_DESIGN
    size = shorten(title.size, width, bold=True)
    over = text_width(f"{size}  ", bold=True)
    lines = (
        ((0.0, title.sheet, False),),
        ((0.0, size, True), (over, title.wearer, False)),
        ((0.0, title.findings, False),),
        ((0.0, title.date, False), (text_width(f"{title.date}  "), title.terms, False)),
    )
    for line in lines:
        y += _TITLE_PITCH
        for start, words, bold in line:
            fitting = shorten(words, width - start, bold=bold) if words and start < width else ""
            if len(fitting) > 1:
                yield Text((x + start, y), fitting, bold=bold)


def _gauge(title: TitleBlock, at: Point, width: float) -> Iterator[Mark]:
    """Each fabric's name and its gauge; where both are too long the name is cut, never a figure.

    Those that have no room are on the cover, and the heading says so.
    """
    x, y = at
    more = len(title.gauges) - _MOST_GAUGES
    heading = f"{title.gauge_heading}; {more} more on the cover" if more > 0 else title.gauge_heading
    yield Text((x, y), shorten(heading, width))
    for name, gauge in title.gauges[:_MOST_GAUGES]:
        y += _TITLE_PITCH
        yield Text((x, y), f"{shorten(name, width - text_width(f': {gauge}'))}: {gauge}")


def _scale(title: TitleBlock, at: Point, _width: float) -> Iterator[Mark]:
    """The scale with the bars that prove it, centimetres above inches, and the sheet's number."""
    x, y = at
    yield Text((x, y), f"Scale 1:{title.scale}" if title.scale else "not to scale", bold=True)
    if title.scale:
        for unit, in_cm, top in (("cm", 1.0, y + 2.6), ("in", CM_PER_INCH, y + 7.0)):
            yield from _scale_bar((x, top), title.scale, unit, in_cm)
    yield Text((x, y + _UNDER_DESIGN + 4 * _TITLE_PITCH), f"Sheet {title.number} of {title.total}")


def _scale_bar(at: Point, scale: float, unit: str, in_cm: float) -> Iterator[Mark]:
    """A bar of three parts and, right of it, how long it is in a unit of so many cm."""
    x, top = at
    per_unit = in_cm * 10 / scale
    step = max((each for each in _BAR_STEPS if each * per_unit <= _BAR_PART), default=_BAR_STEPS[0])
    part = step * per_unit
    for number in range(3):
        x0, x1 = x + number * part, x + (number + 1) * part
        box = ((x0, top), (x1, top), (x1, top + 1.6), (x0, top + 1.6))
        yield Area(box, Pen.SOLID if number % 2 == 0 else Pen.THIN)
    yield Text((x + 3 * part + 1.5, top + 2.2), f"{3 * step:g} {unit}")
