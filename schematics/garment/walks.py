"""Distances on the fabric that bound what the wearer's arms can do."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from shapely import LineString, Point, Polygon


class WalkName(StrEnum):
    """The three distances on the fabric that bound what the wearer's arms can do."""

    REACH = "reach"
    ACROSS_BACK = "across the back"
    ACROSS_FRONT = "across the front"


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """A distance asked for: the shortest path on the fabric from ``start`` to ``goal``.

    ``domain`` is fabric laid flat, in the coordinates of the body's right half; the panel's right
    half may be joined on. ``start`` and the ends of ``goal`` are vertices of it. Reach runs from the
    centre back neck to the middle of the arm run; the other two run from there to the line of
    symmetry, and are doubled to go from opening to opening.
    """

    name: WalkName
    domain: Polygon
    start: Point
    goal: Point | LineString
