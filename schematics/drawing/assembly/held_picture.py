"""How edges are held for a seam that is worked with a hook: one on the other, the hem at the right."""

from __future__ import annotations

import math

from shapely import LineString, Polygon

from schematics.design.publication import SeamSides
from schematics.drawing.assembly.step_canvas import RIGHT_SIDE, Canvas
from schematics.drawing.ink.marks import Line, Pen

_WIDE, _HIGH, _FRONT = 40.0, 15.0, 22.0
"""Of the stretch of seam that is shown, in mm, and how much of it the nearer layer covers, from the hem."""

_OFF, _SWING, _WAVES = 2.0, 0.8, 3
_WRONG_SIDE = "wrong", "side"


def held_picture(sides: SeamSides, canvas: Canvas) -> Canvas:
    """The nearer layer is cut short, so that the side of the other is seen that lies against it."""
    steps = range(_WAVES * 8 + 1)
    break_x = _WIDE - _FRONT
    cut = [(break_x + _SWING * math.sin(math.tau * step / 8), _HIGH * step / (_WAVES * 8)) for step in steps]
    near = Polygon([*cut, (_WIDE, _HIGH), (_WIDE, 0.0)])
    far = Polygon([*cut, (0.0, _HIGH), (0.0, 0.0)])
    corners = (0.0, _HIGH), (0.0, 0.0), (_WIDE, 0.0), (_WIDE, _HIGH)
    canvas.block.add("fabric", "seam edge", [Line(corners[1:3], Pen.OUTLINE)])
    canvas.block.add("fabric", "hem", [Line(corners[2:], Pen.OUTLINE)])
    canvas.block.add("break", "near layer", [Line(tuple(cut), Pen.OUTLINE)])
    right_near = sides is SeamSides.WRONG
    for shape, right in ((near, right_near), (far, not right_near)):
        x0, _, x1, _ = shape.bounds
        words = RIGHT_SIDE if right else _WRONG_SIDE
        canvas.words("note", " ".join(words), words, [((x0 + x1) / 2, _HIGH / 2 + 0.5)])
        if not right:
            canvas.hatch(shape)
    foot = canvas.triangle("seam", (_WIDE, -0.6), (0.0, 1.0))
    canvas.arrow("seam", LineString([(_WIDE - 3.0, -_OFF), (6.0, -_OFF)]))
    wide, high = canvas.label("join yarn").size
    canvas.words("note", "join yarn", ("join yarn",), [(_WIDE + 2.0 - wide / 2, foot[1] - high / 2 - 1.0)])
    canvas.words("note", "hem", ("hem",), [(_WIDE - canvas.label("hem").size[0] / 2, _HIGH + high / 2 + 1.0)])
    foot_of_words = -_OFF - high / 2 - 1.0
    for lines in (("to the neck",), ("to the", "neck")):
        width, height = canvas.label(*lines).size
        if canvas.words("note", "neck", lines, [(width / 2, foot_of_words - height / 2)], optional=True):
            break
    return canvas
