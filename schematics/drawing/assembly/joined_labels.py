"""The words on a view of the joined garment: numbers, seam letters, notes, sides, its name."""

from __future__ import annotations

import math
from itertools import product

from shapely import Polygon, contains_xy

from schematics.document.lettering.text import LARGE
from schematics.drawing.assembly.joined_half import Half, Marker
from schematics.drawing.ink.block import CLEAR, Block
from schematics.drawing.ink.labeller import (
    beside_edge,
    draw_label,
    draw_leader,
    letter_seam,
    turned,
    upright,
)
from schematics.drawing.ink.leaders import ANY, Spot
from schematics.drawing.ink.marks import Label, Point, along, between, opposite, unit
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.pieces.view import View

_AWAY, _ASIDE = (3.6, 4.6, 5.6, 7.0, 9.0), (0.0, -2.0, 2.0, -4.0, 4.0, -6.0, 6.0)
"""Where a marker's number may stand, inward and along the run, best first, in mm."""

_OFF_WORDS = 2.2, CLEAR
"""So far off other words a number on a leader stands, in mm, lest it is read as one with them."""

_ONE_LINE = 0, 1
"""Its leader crosses at most an increase row, not the two sides of a triangle, if it can be."""

_ITS_OWN = 8.1
"""No farther from its marker, in mm, a number inside the fabric is seen to be its."""

_FROM_CORNER = 1.5, 3.0, 5.0
"""How far off an edge it is said where an arm band is, in mm."""


def number(block: Block, marker: Marker, half: Half, view: View) -> None:
    """The marker's number, inside the half next to it or with an arrow to it, else where there is room."""
    at, inward, into_run = view.point(*marker.at), turned(marker.inward), turned(marker.along)
    fabric, label = Polygon(view.line(half.shape.exterior)), Label((str(marker.number),))
    near = [along(along(at, inward, away), into_run, aside) for away, aside in product(_AWAY, _ASIDE)]
    inside = [Spot(each) for each in near if math.dist(at, each) <= _ITS_OWN and contains_xy(fabric, *each)]
    name, tip = label.lines[0], (at, opposite(inward))
    if draw_label(block, "marker-number", name, label, inside, optional=True):
        return
    for crossings, clear in product((_ONE_LINE, ANY), _OFF_WORDS):
        if draw_leader(block, name, [tip], [label], crossings=crossings, clear=clear, optional=True):
            return
    draw_label(block, "marker-number", name, label, map(Spot, near))


def letter_seams(block: Block, half: Half, view: View) -> None:
    """Each seam's letter in a ring beside it, inside the half if there is room."""
    for seam in half.seams:
        points = view.line(seam.path)
        start, end = points[0], points[-1]
        normal = _towards_middle(start, end, half, view)
        away, shares = (3.6, -3.6, 4.6, -4.6, 6.0, -6.0), (0.5, 0.4, 0.6, 0.25, 0.75)
        spots = (spot for spot, _ in beside_edge(start, end, normal, shares, away))
        letter_seam(block, "seam-letter", seam.letter, spots, (between(start, end), normal))


def _towards_middle(start: Point, end: Point, half: Half, view: View) -> Point:
    """The unit direction square to the line between two points, on the side of the half's middle."""
    run, within = unit(start, end), view.point(half.shape.centroid.x, half.shape.centroid.y)
    normal = run[1], -run[0]
    inside = normal[0] * (within[0] - start[0]) + normal[1] * (within[1] - start[1]) >= 0
    return normal if inside else opposite(normal)


def refer(block: Block, marker: Marker, view: View, other: str) -> None:
    """That the band of an arm run, which is seen edge on here, is in the ``other`` view: off its marker."""
    at, out, into_run = view.point(*marker.at), opposite(turned(marker.inward)), turned(marker.along)
    label = Label(("arm band:", f"see {other}"))
    width, height = label.size
    reach = abs(out[0]) * width / 2 + abs(out[1]) * height / 2
    spots = (
        Spot(along(along(at, out, reach + gap), into_run, aside))
        for gap, aside in product(_FROM_CORNER, (-6.0, -4.0, -8.0, -2.0, -12.0, 0.0, 2.0, 4.0))
    )
    draw_label(block, "note", "arm band", label, spots, tips=[(at, out)])


def name_fold(block: Block, half: Half, view: View) -> None:
    """The word along the fold, inside it or outside, or with an arrow to it."""
    label = Label(("fold",))
    neck, *_, out = view.line(half.fold)
    inward, height = _towards_middle(neck, out, half, view), label.size[1]
    spots = [
        Spot(along(between(neck, out, share), inward, side * (height / 2 + gap)), upright(unit(neck, out)))
        for gap in (1.6, 2.6, 4.0)
        for side in (1, -1)
        for share in (0.5, 0.4, 0.6, 0.3, 0.7)
    ]
    draw_label(block, "note", "fold", label, spots, tips=((between(neck, out), opposite(inward)),))


def name_side(block: Block, half: Half, view: View, level: float) -> None:
    """Whose right or left it is, beyond the width's dimension line, which is at ``level``, or below it."""
    words = f"wearer's {'left' if half.left else 'right'}"
    label = Label(tuple(words.split()))
    width, height = label.size
    x0, _, x1, _ = half.shape.bounds
    edge = to_mm(max(abs(x0), abs(x1)), view.scale) + width / 2
    side = 1.0 if x0 + x1 > 0 else -1.0
    spots = [
        Spot((side * (edge + gap), level + height / 2 + lower))
        for gap in (2.5, 8.0, 14.0, 20.0, 30.0)
        for lower in (-1.0, -5.0, 5.0, 10.0, 20.0, 30.0, 40.0)
    ]
    draw_label(block, "note", words, label, spots)


def caption(block: Block, name: str, corner: Point) -> None:
    """The view's name under ``corner``, that of its width dimension, or above everything."""
    label = Label((name,), LARGE, bold=True)
    width, height = label.size
    x0, y0, _, _ = block.bounds()
    spots = [
        Spot((corner[0] + width / 2 + aside, corner[1] + height / 2 + lower))
        for lower in (2.5, 4.0)
        for aside in (2.5, 4.0, 6.0)
    ]
    spots.append(Spot((x0 + width / 2, y0 - height / 2 - 1.5)))
    draw_label(block, "caption", name, label, spots)
