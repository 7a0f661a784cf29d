"""A body worked from the neck down: how far down and round a place on it is, how wide it is there."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely import LineString

from schematics.garment.cloth.arrays import Floats
from schematics.garment.garment import Piece


def down_and_around(place: Floats, neck: LineString, hem: LineString) -> tuple[Floats, Floats]:
    """Places on a body worked from the neck down: shares from neck to hem, from back to front."""
    at = shapely.points(place)
    above, below = shapely.distance(neck, at), shapely.distance(hem, at)
    depth = above / np.maximum(above + below, 1e-9)
    on_neck, on_hem = (shapely.line_locate_point(each, at, normalized=True) for each in (neck, hem))
    if neck.coords[0][0] > neck.coords[-1][0] or math.isclose(neck.coords[-1][0], 0.0, abs_tol=1e-9):
        on_neck = 1 - on_neck
    return depth, on_neck + (on_hem - on_neck) * depth


def wider_than_drawn(body: Piece, place: Floats) -> Floats:
    """How many times as wide as its outline the stitches make a body at these places.

    Where its increases end above the hem it is drawn as a straight taper; where they do not, it is as drawn.
    """
    stitches = body.row_stitches if body.worked_cm2 is not None else None
    if stitches is None:
        return np.ones(len(place))
    depth, _ = down_and_around(place, body.edge("neck").path, body.edge("hem").path)
    tapering = stitches[0] + (stitches[-1] - stitches[0]) * depth
    middles = (np.arange(len(stitches)) + 0.5) / len(stitches)
    wider: Floats = np.interp(depth, middles, stitches) / tapering
    return wider
