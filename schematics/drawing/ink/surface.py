"""Ribbed strips along an edge, in centimetres."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely.ops import substring

from schematics.units import HAIR, NEAR

_SHARES = (1.0, 0.8, 0.6, 0.4, 0.2, 0.1)
"""How much less deep a band is tried where it hides its own base."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A ribbed band lying flat off the edge it is worked onto.

    ``base`` is the edge, ``rim`` the rest of the outline from the base's end round to its start:
    an end, the free edge, the other end. ``starts_folded`` and ``ends_folded`` say whether the band
    goes on behind a fold at that end of the base.
    """

    base: LineString
    shape: Polygon
    rim: LineString
    depth_cm: float
    on_left: bool
    starts_folded: bool
    ends_folded: bool

    def ribs(self, pitch_cm: float) -> tuple[LineString, ...]:
        """Lines across the band ``pitch_cm`` apart along its base, evenly about the middle.

        At a sharp corner, where two would cross, the one nearer the middle stays.
        """
        length = self.base.length
        count = max(0, math.floor(length / pitch_cm))
        places = sorted((length / 2 + (i - (count - 1) / 2) * pitch_cm for i in range(count)),
                        key=lambda place: abs(place - length / 2))  # fmt: skip
        ribs: list[LineString] = []
        for place in places:
            rib = self._rib(place)
            if not any(rib.intersects(other) for other in ribs):
                ribs.append(rib)
        return tuple(ribs)

    def _rib(self, place: float) -> LineString:
        near = min(self.base.length / 1000, 0.01)
        at = self.base.interpolate(place)
        before, after = self.base.interpolate(max(place - near, 0)), self.base.interpolate(place + near)
        run = math.hypot(after.x - before.x, after.y - before.y)
        side = self.depth_cm if self.on_left else -self.depth_cm
        across = -(after.y - before.y) / run * side, (after.x - before.x) / run * side
        return LineString([(at.x, at.y), (at.x + across[0], at.y + across[1])])


def strip(
    base: LineString, depth_cm: float, *, on_left: bool, starts_folded: bool, ends_folded: bool
) -> Strip:
    """The band of that depth on the left of ``base`` as it runs, or on its right."""
    shape = _beside(base, depth_cm if on_left else -depth_cm)
    return Strip(
        base=base,
        shape=shape,
        rim=_rim(shape, base),
        depth_cm=depth_cm,
        on_left=on_left,
        starts_folded=starts_folded,
        ends_folded=ends_folded,
    )


def _beside(base: LineString, distance: float) -> Polygon:
    """Everything within ``distance`` on the left of ``base``, on its right if negative."""
    band = base.buffer(distance, cap_style="flat", join_style="mitre", single_sided=True)
    shape: Polygon = max(getattr(band, "geoms", [band]), key=lambda part: part.area)
    return _without_notches(shape, base)


def _without_notches(shape: Polygon, base: LineString) -> Polygon:
    """The band without the notch a buffer leaves at an end of ``base`` shorter than the band is deep.

    There the outline goes in from the end and at once comes back to the line straight on from it.
    """
    points = [(x, y) for x, y, *_ in shape.exterior.coords[:-1]]
    for end, before in ((base.coords[0], base.coords[1]), (base.coords[-1], base.coords[-2])):
        for _ in range(2):
            points.reverse()
            at = next((i for i, point in enumerate(points) if math.dist(point, end) < NEAR), None)
            if at is None:
                break
            points = points[at:] + points[:at]
            while len(points) > 3 and _straight_on(before, end, points[2]):
                del points[1]
    return Polygon(points)


def _straight_on(before: Sequence[float], end: Sequence[float], point: Sequence[float]) -> bool:
    """Whether ``point`` lies beyond ``end`` on the line there from ``before``."""
    (x0, y0), (x1, y1), (x2, y2) = before[:2], end[:2], point[:2]
    size = math.dist((x0, y0), (x1, y1))
    aside = (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)
    ahead = (x1 - x0) * (x2 - x1) + (y1 - y0) * (y2 - y1)
    return abs(aside) < NEAR * size < ahead


def has_rim(base: LineString, distance: float) -> bool:
    """Whether a band on the left of ``base`` has a free edge; where the base winds round it may have none."""
    start, end = _places(LineString(_beside(base, distance).exterior.coords), base)
    return abs(start - end) > NEAR


def _places(ring: LineString, base: LineString) -> tuple[float, float]:
    """How far along the outline of a band the ends of its base are."""
    start, end = (ring.project(ShapelyPoint(base.coords[i])) for i in (0, -1))
    return start, end


def _rim(shape: Polygon, base: LineString) -> LineString:
    """The outline without its base, from the base's end to its start."""
    ring = LineString(shape.exterior.coords)
    start, end = _places(ring, base)
    low, high = min(start, end), max(start, end)
    inner = substring(ring, low, high)
    outer = LineString([*substring(ring, high, ring.length).coords, *substring(ring, 0, low).coords[1:]])
    side = max((inner, outer), key=lambda each: each.interpolate(0.5, normalized=True).distance(base))
    rim = LineString(side.coords)
    first = ShapelyPoint(rim.coords[0])
    at_end = first.distance(ShapelyPoint(base.coords[-1])) < first.distance(ShapelyPoint(base.coords[0]))
    return rim if at_end else rim.reverse()


def depth_that_fits(bases: Sequence[LineString], depth_cm: float) -> float:
    """The depth at which a band can be drawn flat above curves that open upwards.

    That is less than ``depth_cm`` where the largest circle standing on the middle of one and staying
    above it is smaller, or its sides are too near to each other; worn, such a band stands up.
    """
    depth = min(depth_cm, *(0.95 * _circle_on(base) for base in bases))
    tries = (depth * share for share in _SHARES)
    return next((each for each in tries if all(_is_whole(base, each) for base in bases)), depth)


def _circle_on(base: LineString) -> float:
    """Radius of the largest circle standing on the middle of ``base`` with no vertex of it inside."""
    middle = base.interpolate(0.5, normalized=True)
    radii = (
        ((x - middle.x) ** 2 + (y - middle.y) ** 2) / (2 * (y - middle.y))
        for x, y, *_ in base.coords
        if y > middle.y + HAIR
    )
    return min(radii, default=math.inf)


def _is_whole(base: LineString, depth_cm: float) -> bool:
    """Whether a band of that depth leaves its base in sight all along."""
    outline = _beside(base, depth_cm).exterior
    return all(outline.distance(ShapelyPoint(point)) < NEAR for point in base.coords)
