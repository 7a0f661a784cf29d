"""The views of a joined garment, for tests."""

from __future__ import annotations

import math

from hypothesis import assume

from schematics.design.limits import Limits
from schematics.drawing.assembly.joined import JoinedView
from schematics.drawing.assembly.joined import joined_views as joined_views_or_none
from schematics.garment.garment import Garment


def joined_views(made: Garment) -> tuple[JoinedView, JoinedView]:
    """Both views; only bodies of more than a circle may lie over themselves and have none."""
    views = joined_views_or_none(made, Limits())
    if views is None:
        assert (made.opening_angle or 0.0) > math.tau
        assume(False)
    assert views is not None
    return views


def front_view(made: Garment) -> JoinedView:
    return joined_views(made)[0]


def back_view(made: Garment) -> JoinedView:
    return joined_views(made)[1]


def width(view: JoinedView) -> float:
    xs = [x for shape in view.shapes for x, *_ in shape.exterior.coords]
    return max(xs) - min(xs)
