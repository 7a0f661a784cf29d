"""The key to the pictures of the assembly's steps: each mark beside what it means."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import LineString
from shapely import box as rectangle

from schematics.document.lettering.text import SMALL, Font
from schematics.drawing.assembly.step_canvas import Canvas
from schematics.drawing.bare.rooms import cropped
from schematics.drawing.ink.marks import Line, Pen, text_lines
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.pieces.view import View

_PITCH = 6.5
_WIDE, _HIGH = 13.0, 4.4
"""Room for a mark, in mm; swatches of fabric are so large."""

_WORDS_AT = 16.0


def draw_key(title: str, description: str, font: Font | None) -> Sheet:
    """A line for each mark."""
    canvas = Canvas(View(scale=1), font)
    for row, words in enumerate(_draw_marks(canvas)):
        at = _WORDS_AT, row * _PITCH + SMALL / 2
        canvas.block.add("note", words, text_lines(at, [words], font=font))
    canvas.finish()
    return cropped(canvas.block.groups, title, description)


def _draw_marks(canvas: Canvas) -> Iterator[str]:
    """Draw each mark in its row, and give what it means."""
    middle = _WIDE / 2
    rows = (each * _PITCH for each in range(7))
    for words, wrong in (("right side", False), ("wrong side", True)):
        y = next(rows)
        face = rectangle(0.0, y - _HIGH / 2, _WIDE, y + _HIGH / 2)
        outline = tuple((x, y) for x, y in face.exterior.coords)
        canvas.block.add("fabric", words, [Line(outline, Pen.OUTLINE)])
        if wrong:
            canvas.hatch(face)
        yield words
    canvas.triangle("key", (middle, next(rows) - 1.3), (0.0, -1.0))
    yield "join yarn"
    canvas.marker("key", (middle, next(rows)))
    yield "marker"
    for words, kind, pen in (("seam", "seam", Pen.SEAM), ("fold", "fold", Pen.FOLD)):
        y = next(rows)
        canvas.block.add(kind, "key", [Line(((0.0, y), (_WIDE, y)), pen)])
        yield words
    y = next(rows)
    canvas.arrow("key", LineString([(0.0, y), (_WIDE, y)]))
    yield "direction of work"
