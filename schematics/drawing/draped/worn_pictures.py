"""A size as it is worn, by itself: hung as cloth where it can be, else on the figure of the plane model."""

from __future__ import annotations

from contextlib import suppress

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.bare.on_figure import LANDSCAPE, figure_picture, worn_drawing
from schematics.drawing.draped.hang_sheet import hangs, hung_picture
from schematics.drawing.ink.sheet import Sheet
from schematics.garment.cloth.cloth_error import ClothError


def worn_picture(design: Design, result: Result) -> Sheet | None:
    """Without a measurement, as wide as a page's text; None of a body of which too little is known."""
    if hangs(design, result):
        with suppress(ClothError):
            return hung_picture(design, result)
    return figure_picture(design, result)


def measured_picture(design: Design, result: Result) -> Sheet | None:
    """With what is measured on it, on a page lying; None of a body of which too little is known."""
    if hangs(design, result):
        with suppress(ClothError):
            return hung_picture(design, result, (LANDSCAPE.inside.x1, LANDSCAPE.inside.y1), measured=True)
    return worn_drawing(design, result)
