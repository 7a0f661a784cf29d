"""The one file that knows SVG: marks to markup."""

from __future__ import annotations

import math
import re

import svgwrite
from svgwrite.base import BaseElement

from schematics.document.lettering.text import FONT_FAMILY, font_size, printable
from schematics.drawing.ink.marks import STROKES, Area, Circle, Mark, Pen, Text
from schematics.drawing.ink.sheet import Sheet

DECIMALS = 3
"""Of a length in mm, as it is written."""

_HEAD = '<?xml version="1.0" encoding="utf-8"?>\n'
OPENING = f'{_HEAD}<svg baseProfile="full" '
"""How every drawing begins; what begins otherwise somebody else has made."""


def number(value: float) -> str:
    """The number with at most `DECIMALS` and no needless noughts.

    Raises:
        ValueError: it is not finite.
    """
    if not math.isfinite(value):
        raise ValueError(f"a drawing cannot hold the number {value}")
    text = f"{value:.{DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def to_svg(sheet: Sheet) -> str:
    """The sheet as a standalone SVG 1.1 document in millimetres; the same sheet gives the same text."""
    width, height = number(sheet.paper.width), number(sheet.paper.height)
    drawing = svgwrite.Drawing(size=(f"{width}mm", f"{height}mm"), profile="full", debug=False)
    drawing.attribs["viewBox"] = f"0 0 {width} {height}"
    drawing.attribs["role"] = "img"
    drawing.set_desc(title=printable(sheet.title), desc=printable(sheet.description))
    paper = drawing.rect(insert=(0, 0), size=(width, height), fill="white")
    paper.attribs["class"] = "paper"
    drawing.add(paper)
    everything = drawing.g()
    everything.attribs.update(
        {
            "fill": "none",
            "stroke": "black",
            "stroke-linecap": "butt",
            "stroke-linejoin": "miter",
            "font-family": FONT_FAMILY,
        }
    )
    seen: dict[str, int] = {}
    for group in sheet.groups:
        element = drawing.g()
        stem = re.sub(r"[^a-zA-Z0-9.-]+", "-", f"{group.kind}-{group.name}").strip("-")
        seen[stem] = seen.get(stem, 0) + 1
        element.attribs["id"] = stem if seen[stem] == 1 else f"{stem}-{seen[stem]}"
        element.attribs["class"] = group.kind
        for mark in group.marks:
            element.add(_element(drawing, mark))
        everything.add(element)
    drawing.add(everything)
    text: str = drawing.tostring()
    return f"{_HEAD}{text}\n"


def _element(drawing: svgwrite.Drawing, mark: Mark) -> BaseElement:
    if isinstance(mark, Text):
        return _text(drawing, mark)
    if isinstance(mark, Circle):
        element = drawing.circle(
            center=(number(mark.centre[0]), number(mark.centre[1])), r=number(mark.radius)
        )
    else:
        points = [(number(x), number(y)) for x, y in mark.points]
        path = "M" + " L".join(f"{x},{y}" for x, y in points)
        element = drawing.path(d=path + (" Z" if isinstance(mark, Area) else ""))
    if mark.pen is Pen.SOLID:
        element.attribs.update({"fill": "black", "stroke": "none"})
    else:
        stroke = STROKES[mark.pen]
        element.attribs["stroke-width"] = number(stroke.width)
        if stroke.dashes:
            element.attribs["stroke-dasharray"] = ",".join(map(number, stroke.dashes))
    element.attribs["class"] = mark.pen.value
    return element


def _text(drawing: svgwrite.Drawing, mark: Text) -> BaseElement:
    """The text, every letter in its place, so that all renderers set it alike."""
    words, starts = mark.letters
    x, y = number(mark.at[0]), number(mark.at[1])
    element = drawing.text(words, insert=(x, y))
    element.attribs["x"] = " ".join(map(number, starts))
    element.attribs.update(
        {
            "font-size": number(font_size(mark.height)),
            "fill": "black",
            "stroke": "none",
        }
    )
    if mark.bold:
        element.attribs["font-weight"] = "bold"
    if abs(mark.angle) > 1e-9:
        element.attribs["transform"] = f"rotate({number(mark.angle)} {x} {y})"
    return element
