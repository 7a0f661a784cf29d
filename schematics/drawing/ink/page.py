"""The page round a drawing: frame, title block, scale bar, cautions, and packing blocks into it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations

from schematics.design.cautions import CAUTIONS
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, shorten, text_width, wrap
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Area, Group, Line, Mark, Pen, Point, Text, text_lines
from schematics.drawing.ink.sheet import MARGIN, Paper
from schematics.units import CM_PER_INCH

_FIRST_ROW = 15.5
TITLE_HEIGHT = 37.0
_INSET = 2.0
_GUTTER = 5.0

_INCH_STEPS = {1: 0.25, 2: 0.5, 5: 2.0, 10: 4.0, 20: 8.0, 50: 20.0}
"""Inches in one third of the scale bar, by scale, so that it is about as long as the cm bar."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """The fields of the title block, named after ISO 7200."""

    design: str
    size: str
    wearer: str
    verdict: str
    findings: str
    sheet: str
    gauge_heading: str
    gauges: tuple[tuple[str, str], ...]
    units: str
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


def caution_lines(paper: Paper) -> list[str]:
    """The cautions, wrapped to the width of the page."""
    words = "Cautions: " + " ".join(caution.sentence for caution in CAUTIONS)
    return wrap(words, paper.width - 2 * MARGIN - 2 * _INSET)


def drawing_area(paper: Paper) -> Box:
    """Where a drawing may go: inside the frame, above cautions and title block."""
    below = TITLE_HEIGHT + len(caution_lines(paper)) * line_pitch(SMALL) + 2 * _INSET
    return Box(
        MARGIN + _INSET,
        MARGIN + _INSET,
        paper.width - MARGIN - _INSET,
        paper.height - MARGIN - below,
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


def page_groups(paper: Paper, title: TitleBlock) -> Iterator[Group]:
    """Frame, cautions, title block and scale bar."""
    left, right = MARGIN, paper.width - MARGIN
    top, bottom = MARGIN, paper.height - MARGIN
    rule = bottom - TITLE_HEIGHT
    frame = Area(((left, top), (right, top), (right, bottom), (left, bottom)), Pen.FRAME)
    yield Group("frame", "frame", (frame, Line(((left, rule), (right, rule)), Pen.OUTLINE)))
    lines = caution_lines(paper)
    first = rule - _INSET - (len(lines) - 1) * line_pitch(SMALL) - 0.4
    yield Group(
        "cautions",
        "cautions",
        tuple(text_lines((left + _INSET, first), lines)),
    )
    yield Group("title", "title block", tuple(_title_marks(title, left, right, rule, bottom)))


def _title_marks(title: TitleBlock, left: float, right: float, top: float, bottom: float) -> Iterator[Mark]:
    rule = top + _FIRST_ROW
    yield Line(((left, rule), (right, rule)), Pen.THIN)
    upper = (
        ("Design, sheet", 0.36, title.design, (title.sheet,)),
        ("Size, wearer", 0.37, title.size, (title.wearer,)),
        ("Checks", 0.27, title.verdict, (title.findings,)),
    )
    lower = (
        (title.gauge_heading, 0.47, "", _gauge_lines(title.gauges, (right - left) * 0.47 - 2 * _INSET)),
        (
            f"Scale 1:{title.scale}" if title.scale else "Scale",
            0.26,
            "" if title.scale else "not to scale",
            (),
        ),
        ("Date, units", 0.16, title.date, (title.units,)),
        ("Sheet", 0.11, f"{title.number} of {title.total}", (title.terms,)),
    )
    for row, above, below in ((upper, top, rule), (lower, rule, bottom)):
        x = left
        for heading, share, main, others in row:
            width = (right - left) * share
            if x > left:
                yield Line(((x, above), (x, below)), Pen.THIN)
            yield from _cell((x + _INSET, above), width - 2 * _INSET, heading, main, others)
            if heading.startswith("Scale") and title.scale:
                yield from _scale_bar((x + _INSET, above + 7.5), title.scale)
            x += width


def _gauge_lines(gauges: Sequence[tuple[str, str]], width: float) -> tuple[str, ...]:
    """A fabric's name and its gauge; where both are too long the name is cut, never a figure."""
    return tuple(f"{shorten(name, width - text_width(f': {gauge}'))}: {gauge}" for name, gauge in gauges)


def _cell(at: Point, width: float, heading: str, main: str, others: Sequence[str]) -> Iterator[Mark]:
    """A heading, its main words in bold, and further lines."""
    x, y = at[0], at[1] + 4.2
    yield Text((x, y), heading)
    if main:
        y += 5.4
        height = LARGE if text_width(main, LARGE, bold=True) <= width else SMALL
        yield Text((x, y), shorten(main, width, height, bold=True), height, bold=True)
    for line in others:
        y += line_pitch(SMALL)
        yield Text((x, y), shorten(line, width))


def _scale_bar(at: Point, scale: int) -> Iterator[Mark]:
    """Two bars of three parts each, centimetres above inches."""
    x, y = at
    inch = _INCH_STEPS[scale]
    bars = (
        (10.0, f"{3 * scale} cm", y),
        (inch * CM_PER_INCH * 10 / scale, f"{3 * inch:g} in", y + 6.0),
    )
    for step, words, top in bars:
        for part in range(3):
            corners = ((x + part * step, top), (x + (part + 1) * step, top))
            box = (*corners, (corners[1][0], top + 1.6), (corners[0][0], top + 1.6))
            yield Area(box, Pen.SOLID if part % 2 == 0 else Pen.THIN)
        yield Text((x + 3 * step + 1.5, top + 2.2), words)
