"""A body that widens evenly all round, laid flat: a ring sector, and the shortest paths on it.

The paths are in closed form, for columns of garments: by them grading judges the arms. The polygons of a
garment say the same, see `tests/garment/constructions/test_formulas.py`; here an arc is an arc. The neck edge
is convex, so a path either runs straight or first hugs it and leaves it along a tangent.

References:
    The shortest path round a disc: two tangents and the arc between them, as in any handbook of mensuration.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

import numpy as np

from schematics.garment.amounts import Numbers
from schematics.garment.constructions.base import Array
from schematics.garment.constructions.demands import TWO_CIRCLES
from schematics.garment.constructions.neck_down.shape import Shape
from schematics.garment.constructions.panel_formulas import PanelCm
from schematics.garment.constructions.path_formulas import ArmPaths
from schematics.garment.garment import Vertex

_STEP = 0.02
"""Largest angle between two vertices of an arc, in radians: its length falls 2e-5 short."""
_STRAIGHT_CM = 0.01
"""No arc is farther than this off the straight line between two of its vertices."""
_MOST_STEPS = 1000
"""Between two places of an arc. Three times round the centre takes fewer, and fabric that goes farther cannot
be drawn: there the steps grow larger."""
_FLAT = 1e-9
"""A body that opens to less than this angle, in radians, is a rectangle."""


def opening_of_sector(neck_cm: Numbers, hem_cm: Numbers, depth_cm: Numbers) -> Numbers:
    """The angle between both front edges, in radians, of such edges."""
    return (hem_cm - neck_cm) / depth_cm


class Sector(Shape):
    """A ring sector about the fold, origin at the neck's centre back, fold along x = 0 downwards.

    An opening angle of nought is a rectangle.
    """

    def __init__(self, neck_cm: float, hem_cm: float, depth_cm: float) -> None:
        self.depth = depth_cm
        self.opening = opening_of_sector(neck_cm, hem_cm, depth_cm)
        self._neck_cm = neck_cm
        self._flat = math.isclose(neck_cm, hem_cm, rel_tol=1e-12)
        self._inner = math.inf if self._flat else neck_cm / self.opening
        self.centre = None if self._flat else (0.0, self._inner)

    def _at(self, share: float, *, hem: bool) -> Vertex:
        radial = self.depth if hem else 0
        if self._flat:
            return share * self._neck_cm / 2, -radial
        angle = share * self.opening / 2
        radius = self._inner + radial
        return radius * math.sin(angle), self._inner - radius * math.cos(angle)

    def _stops(self, start: float, end: float, through: Sequence[float]) -> Sequence[float]:
        knots = sorted({start, end, *(share for share in through if start < share < end)})
        shares = [start]
        step = 0.0 if self._flat else min(_STEP, math.sqrt(8 * _STRAIGHT_CM / (self._inner + self.depth)))
        for near, far in itertools.pairwise(knots):
            angle = (far - near) * self.opening / 2
            pieces = 1 if self._flat else min(_MOST_STEPS, max(1, math.ceil(angle / step)))
            shares += [near + (far - near) * each / pieces for each in range(1, pieces + 1)]
        return shares

    def _lines(self, shares: Sequence[float], *hems: bool) -> Iterator[Array]:
        along = np.array(shares)
        angles = along * (0.0 if self._flat else self.opening) / 2
        sines, cosines = np.sin(angles), np.cos(angles)
        for hem in hems:
            radial, vertices = self.depth if hem else 0, np.empty((len(along), 2))
            if self._flat:
                vertices[:, 0], vertices[:, 1] = along * self._neck_cm / 2, -radial
            else:
                radius = self._inner + radial
                vertices[:, 0], vertices[:, 1] = radius * sines, self._inner - radius * cosines
            yield vertices


def paths_on_sector(
    neck_cm: Numbers, hem_cm: Numbers, depth_cm: Numbers, share: Numbers, panel: PanelCm
) -> ArmPaths:
    """The paths on a ring sector.

    Args:
        neck_cm: length of the neck edge.
        hem_cm: length of the hem.
        depth_cm: length of the front edge.
        share: where the middle of the arm run lies on the half hem, 0 at centre back and 1 at the front.
        panel: the panel.
    """
    opening = opening_of_sector(neck_cm, hem_cm, depth_cm)
    turn = np.maximum(opening, _FLAT)
    inner = neck_cm / turn
    outer, back = inner + depth_cm, share * turn / 2
    front = turn / 2 - back
    measured = (share > 0) & (share < 1) & (opening <= TWO_CIRCLES) & (back < math.tau) & (front < math.tau)
    valid = np.where(measured, 1.0, np.nan)
    return ArmPaths(
        reach=valid * _to_corner(inner, outer, back),
        back=valid * 2 * _to_edge(inner, outer, back, depth_cm),
        front=valid * 2 * _to_panel(inner, outer, front, panel)
        if panel.tapers
        else valid * (2 * _to_edge(inner, outer, front, panel.length) + panel.top),
    )


def _to_corner(inner: Numbers, outer: Numbers, angle: Numbers) -> Numbers:
    """From a place of the outer arc to one of the inner that far round the centre."""
    free = np.arccos(inner / outer)
    chord = np.sqrt((outer - inner) ** 2 + 4 * inner * outer * np.sin(np.minimum(angle, free) / 2) ** 2)
    return np.where(angle <= free, chord, np.sqrt(outer**2 - inner**2) + inner * (angle - free))


def _to_edge(inner: Numbers, outer: Numbers, angle: Numbers, length_cm: Numbers) -> Numbers:
    """From a place of the outer arc to a straight edge that far round, ``length_cm`` long."""
    down = (outer - inner) - 2 * outer * np.sin(angle / 2) ** 2
    off = outer * np.sin(angle)
    seen = np.where(down <= length_cm, off, np.hypot(down - length_cm, off))
    return np.where((down >= 0) & (angle < math.pi / 2), seen, _to_corner(inner, outer, angle))


def _to_panel(inner: Numbers, outer: Numbers, angle: Numbers, panel: PanelCm) -> Numbers:
    """From a place of the outer arc to the middle of a panel that tapers, beside the edge that far round.

    A panel wider at its top is met from the neck edge along a tangent, square to its middle.
    """
    lean, free = panel.lean, np.arccos(inner / outer)
    off, down = outer * np.sin(angle), (outer - inner) - 2 * outer * np.sin(angle / 2) ** 2
    above = panel.along_middle(off, down) < 0
    tangent = np.sqrt(outer**2 - inner**2) + inner * (angle + lean - free) - inner * np.sin(lean)
    around = np.where(lean < 0, tangent, _to_corner(inner, outer, angle)) + panel.top / 2
    hidden = np.where(lean < 0, angle + lean > free, above | (angle + lean >= math.pi / 2))
    return np.where(hidden, around, panel.path(off, down, outer - inner))
