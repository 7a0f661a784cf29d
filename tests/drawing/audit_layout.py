"""What a reader must be able to see on a sheet: words that touch nothing, everything on the paper.

Each function gives one sentence per fault, none for a good sheet.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import chain, product

import shapely
from shapely import LineString, Polygon, STRtree, box
from shapely import Point as ShapelyPoint

from tests.drawing.readback import Page, Words

_UNCROSSED = ("leader", "dimension", "solid")
_BESIDE_TIP = {"leader": 0.6, "solid": 0.6, "dimension": 1.2, "extension": 1.2}
"""Least distance in mm from an arrow's end to lines of other things: an arrow is 2.5 mm long and 0.8 wide.

Extension lines begin 1 mm off the outline on which the arrow ends.
"""

CLEAR = 0.2
"""Least distance in mm between words and the edge of a line: less reads as touching in print."""


def layout_faults(page: Page) -> list[str]:
    """Every fault in how a sheet is laid out."""
    return list(
        chain(
            letters_astray(page),
            words_on_words(page),
            words_on_lines(page),
            outside_the_frame(page),
            lines_through_lines(page),
            upside_down(page),
            misleading_leaders(page),
        )
    )


def letters_astray(page: Page) -> Iterator[str]:
    """Letters placed by themselves elsewhere than the font would set them, and spaces that would collapse."""
    for words in page.words:
        if words.astray > 0.01:
            yield f"a letter of {_named(words)} is {words.astray:.3f} mm out of place"
        if words.text != " ".join(re.split(r"[ \t\n]+", words.text.strip(" "))):
            yield f"{_named(words)} has spaces that SVG leaves out"


def words_on_words(page: Page) -> Iterator[str]:
    """Text boxes that overlap or touch."""
    boxes = [words.box for words in page.words]
    tree = STRtree(boxes)
    for i, j in zip(*tree.query(boxes, predicate="intersects"), strict=True):
        if i < j:
            yield f"{_named(page.words[i])} is on {_named(page.words[j])}"


def words_on_lines(page: Page) -> Iterator[str]:
    """Text boxes that a line, an arrowhead or a ring of any group crosses or touches."""
    tree = STRtree([words.box for words in page.words])
    lines = [stroke.shape for stroke in page.strokes]
    reach = [stroke.width / 2 + CLEAR for stroke in page.strokes]
    for i, j in zip(*tree.query(lines, predicate="dwithin", distance=reach), strict=True):
        stroke = page.strokes[i]
        yield f"{_named(page.words[j])} is on a line of {stroke.group} ({stroke.pen})"


def outside_the_frame(page: Page) -> Iterator[str]:
    """Words outside the frame, lines outside the frame, a frame outside the paper."""
    paper = box(0, 0, page.width, page.height)
    frame = next(stroke for stroke in page.of_kind("frame") if stroke.pen == "frame")
    inside = Polygon(frame.points)
    if not paper.contains(inside.buffer(frame.width / 2)):
        yield f"the frame {inside.bounds} is not on the paper"
    for words in page.words:
        if not inside.contains(words.box):
            yield f"{_named(words)} leaves the frame"
    left, top, right, bottom = inside.bounds
    bounds = shapely.bounds([stroke.shape for stroke in page.strokes])
    for stroke, (x0, y0, x1, y1) in zip(page.strokes, bounds, strict=True):
        beyond = max(left - x0, top - y0, x1 - right, y1 - bottom)
        if stroke.kind != "frame" and beyond > (0.001 if stroke.filled else 0.0):
            yield f"a line of {stroke.group} ({stroke.pen}) leaves the frame"


def lines_through_lines(page: Page) -> Iterator[str]:
    """Dimension and extension lines that cross an outline, dimension lines that cross each other."""
    outlines = {group: shape.exterior for group, shape in page.outlines.items()}
    for stroke in page.strokes:
        for outline, ring in outlines.items():
            if stroke.pen == "extension" and stroke.shape.distance(ring) < CLEAR:
                yield f"an extension line of {stroke.group} crosses {outline}"
    lines = [(each.group, line) for each in page.dimensions() for line in each.lines]
    for group, line in lines:
        for outline, ring in outlines.items():
            if line.intersects(ring):
                yield f"the dimension line of {group} crosses {outline}"
    for i, (group, line) in enumerate(lines):
        for other, second in lines[i + 1 :]:
            if group != other and _cross(line, second):
                yield f"the dimension lines of {group} and {other} cross"


def misleading_leaders(page: Page) -> Iterator[str]:
    """Lines to labels that cross or touch others, dimension lines or arrows: whose is which is then unclear.

    So it is where one leads from a dimension line outside a piece to words on it, and where an arrow to an
    edge ends beside the line of something else. Not so lines to two names of the same thing, and arrows to
    markers, where extension lines begin.
    """
    yield from _met(page, _UNCROSSED)
    edges = [stroke.shape for stroke in page.of_kind("outline")]
    for leader in (each for each in page.of_kind("dimension") if each.pen == "leader"):
        if any(leader.shape.intersects(edge) for edge in edges):
            yield f"the leader of {leader.group} crosses an outline"
    for arrow in (each for each in page.leaders() if not each.label.isdigit()):
        tip = ShapelyPoint(arrow.tip)
        if all(tip.distance(edge) > CLEAR for edge in edges):
            continue
        for other in (each for each in page.strokes if each.pen in _BESIDE_TIP):
            if other.group != arrow.group and tip.distance(other.shape) < _BESIDE_TIP[other.pen]:
                yield f"the arrow of {arrow.group} ends at a line of {other.group} ({other.pen})"


def leaders_over_extensions(page: Page) -> Iterator[str]:
    """Lines to labels that cross extension lines of dimensions, as they may where nothing else is free."""
    return _met(page, ("extension",))


def _met(page: Page, pens: Sequence[str]) -> Iterator[str]:
    leaders = [stroke for stroke in page.strokes if stroke.pen == "leader"]
    lines = [stroke for stroke in page.strokes if stroke.pen in pens and stroke.kind != "height"]
    for leader, other in product(leaders, lines):
        if (
            leader.points[0] != other.points[0]
            and other.group != leader.group
            and leader.shape.distance(other.shape) < CLEAR
        ):
            yield f"the leader of {leader.group} meets a line of {other.group} ({other.pen})"


def _cross(first: LineString, second: LineString) -> bool:
    """Whether two lines meet other than at their ends; chained dimensions share an end."""
    if not first.intersects(second):
        return False
    meet = first.intersection(second)
    ends = [ShapelyPoint(line.coords[i]) for line in (first, second) for i in (0, -1)]
    return min(meet.hausdorff_distance(end) for end in ends) > 0.01


def upside_down(page: Page) -> Iterator[str]:
    """Words that read neither from the bottom nor from the right edge of the sheet (ISO 129-1)."""
    for words in page.words:
        x, y = words.along
        if not (x > 1e-6 or (abs(x) <= 1e-3 and y < 0)):
            yield f"{_named(words)} is upside down: its baseline runs along ({x:.3f}, {y:.3f})"


def _named(words: Words) -> str:
    return f"'{words.text}' of {words.group}"
