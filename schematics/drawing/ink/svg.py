"""The one file that knows SVG: marks to markup."""

from __future__ import annotations

import base64
import math
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from itertools import groupby
from xml.etree.ElementTree import Element

import svgwrite
from svgwrite.base import BaseElement

from schematics.document.lettering.text import FONT_FAMILY, font_size, printable
from schematics.drawing.ink.layers import colour_of, layered, sheet_layers
from schematics.drawing.ink.marks import (
    FILLING,
    STROKES,
    Area,
    Circle,
    Group,
    Line,
    Mark,
    Pen,
    Text,
    bounds,
    mark_points,
    moved_group,
)
from schematics.drawing.ink.sheet import BareInk, Sheet

DECIMALS = 3
"""Of a length in mm, as it is written."""

_LAST_DIGITS = "123456789"
_COARSE = 2
"""The same, with which groups are compared: those look alike that differ by no more."""

_ALIKE = 2
"""So many groups at least are worth a shape to be shared."""

_HEAD = '<?xml version="1.0" encoding="utf-8"?>\n'
OPENING = f'{_HEAD}<svg baseProfile="full" '
"""How every drawing begins; what begins otherwise somebody else has made."""


def number(value: float) -> str:
    """The number with at most `DECIMALS` and no needless noughts.

    Raises:
        ValueError: it is not finite.
    """
    text = f"{value:.{DECIMALS}f}"
    if text[-1] in _LAST_DIGITS:
        return text
    if not math.isfinite(value):
        raise ValueError(f"a drawing cannot hold the number {value}")
    text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def to_svg(sheet: Sheet, *, shared: bool = False) -> str:
    """The sheet as a standalone SVG 1.1 document in millimetres; the same sheet gives the same text.

    It is parted into layers. A bare drawing has no paper under it and says by what its readers recognize it.

    ``shared``: groups without words that look alike are drawn once and used in each place, so that a chart
    of many stitches is a fraction as long; every group keeps its id.
    """
    width, height = number(sheet.paper.width), number(sheet.paper.height)
    drawing = svgwrite.Drawing(size=(f"{width}mm", f"{height}mm"), profile="full", debug=False)
    drawing.attribs["viewBox"] = f"0 0 {width} {height}"
    drawing.attribs["role"] = "img"
    drawing.set_desc(title=printable(sheet.title), desc=printable(sheet.description))
    if sheet.ink is None:
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
            "font-family": _families(sheet.ink),
        }
    )
    ids = _Ids()
    if sheet.ink is not None:
        _embed(drawing, sheet)
        drawing.attribs["aria-labelledby"] = f"{sheet.ink.name}-title {sheet.ink.name}-desc"
    shapes = _Shapes(drawing, sheet.groups) if shared else None
    for layer, groups in sheet_layers(sheet.groups) if sheet.ink is None else layered(sheet.groups):
        holder = drawing.g()
        holder.attribs.update({"id": ids.new(layer), "class": "layer"})
        for group in groups:
            name = ids.of(group)
            element = shapes.element(group, name) if shapes else _ReadyElement(_group(group, name, sheet.ink))
            holder.add(element)
        everything.add(holder)
    drawing.add(everything)
    text: str = drawing.tostring()
    if sheet.ink is not None:
        text = _with_own_ids(text, sheet.ink.name)
    return f"{_HEAD}{text}\n"


class _Ids:
    """Ids, each of which is given once."""

    def __init__(self) -> None:
        self._seen: Counter[str] = Counter()

    def of(self, group: Group) -> str:
        """The id of a group: its kind and name."""
        return self.new(f"{group.kind}-{group.name}")

    def new(self, words: str) -> str:
        """The words as an id, with a number if there is one such already."""
        stem = re.sub(r"[^a-zA-Z0-9.-]+", "-", words).strip("-")
        self._seen[stem] += 1
        return stem if self._seen[stem] == 1 else f"{stem}-{self._seen[stem]}"


def _families(ink: BareInk | None) -> str:
    """The fonts to letter with, the next for what one lacks."""
    return f'"{ink.font.family}", {FONT_FAMILY}' if ink and ink.font else FONT_FAMILY


def _embed(drawing: svgwrite.Drawing, sheet: Sheet) -> None:
    """Put what a drawing shows of a font of its own into it, so that it is lettered alike everywhere."""
    font = sheet.ink.font if sheet.ink else None
    if font is None:
        return
    from schematics.document.lettering.font_file import part_of

    faces = []
    for bold, content in zip((False, True), font.contents, strict=True):
        shown = {
            char
            for group in sheet.groups
            for mark in group.marks
            if isinstance(mark, Text) and mark.bold is bold
            for char in mark.words
            if font.has(char, bold=bold)
        }
        if shown:
            address = f"data:font/ttf;base64,{base64.b64encode(part_of(content, shown)).decode()}"
            weight = "bold" if bold else "normal"
            faces.append(
                f'@font-face {{ font-family: "{font.family}"; font-weight: {weight}; src: url({address}); }}'
            )
    drawing.defs.add(drawing.style("\n".join(faces)))


def _with_own_ids(text: str, name: str) -> str:
    """The drawing with ids at its title and description that no other drawing has."""
    for element in ("title", "desc"):
        text = text.replace(f"<{element}>", f'<{element} id="{name}-{element}">', 1)
    return text


class _ReadyElement:
    """An element for `svgwrite` to put in its place: made as XML at once, as there are thousands."""

    def __init__(self, xml: Element) -> None:
        self._xml = xml

    def get_xml(self) -> Element:
        """As `svgwrite` asks for it."""
        return self._xml


def _group(group: Group, name: str, ink: BareInk | None = None) -> Element:
    element = Element("g", {"class": group.kind, "id": name})
    element.extend([_element(mark, ink) for mark in group.marks])
    return element


def _joined_group(group: Group, name: str) -> Element:
    """The group with lines of the same pen that follow each other in one path."""
    element = Element("g", {"class": group.kind, "id": name})
    for pen, marks in groupby(group.marks, _joining_pen):
        if pen is None:
            element.extend([_element(mark) for mark in marks])
        else:
            lines = (mark for mark in marks if isinstance(mark, Line | Area))
            element.append(_ready("path", {"d": " ".join(map(_path, lines)), **_inked(pen)}))
    return element


def _ready(kind: str, attributes: Mapping[str, str]) -> Element:
    """The element with the attributes that `svgwrite` would give it: none that is empty, by their names."""
    return Element(kind, {name: value for name, value in sorted(attributes.items()) if value})


def _joining_pen(mark: Mark) -> Pen | None:
    """The pen of a line that may be drawn in one path with others; faces would leave out what they share."""
    return mark.pen if isinstance(mark, Line | Area) and mark.pen not in FILLING else None


class _Shapes:
    """Groups that look alike, each drawn once among the definitions of a drawing, with their class."""

    def __init__(self, drawing: svgwrite.Drawing, groups: Iterable[Group]) -> None:
        self._drawing = drawing
        self._often = Counter(key for group in groups if (key := _likeness(group)))
        self._ids: dict[tuple[object, ...], str] = {}

    def element(self, group: Group, name: str) -> _ReadyElement | BaseElement:
        """The group, or the use of its shape where there are others like it, with the id ``name``."""
        key = _likeness(group)
        if self._often[key] < _ALIKE:
            return _ReadyElement(_joined_group(group, name))
        x, y = _corner(group)
        if key not in self._ids:
            self._ids[key] = f"s{len(self._ids) + 1}"
            shape = _joined_group(moved_group(group, -x, -y), self._ids[key])
            self._drawing.defs.add(_ReadyElement(shape))
        return self._drawing.use(f"#{self._ids[key]}", insert=(number(x), number(y)), id=name)


def _corner(group: Group) -> tuple[float, float]:
    x, y, _, _ = bounds([group])
    return round(x, DECIMALS), round(y, DECIMALS)


def _likeness(group: Group) -> tuple[object, ...]:
    """What groups have in common that look alike wherever they are; empty for one with words."""
    x, y = _corner(group)
    drawn = [mark for mark in group.marks if not isinstance(mark, Text)]
    if len(drawn) < len(group.marks):
        return ()
    looks = ((type(mark), mark.pen, colour_of(mark, None), *_about(mark, x, y)) for mark in drawn)
    return (group.kind, *looks)


def _about(mark: Line | Area | Circle, x: float, y: float) -> Iterator[tuple[float, float]]:
    """The points that a mark is drawn by, from the corner of its group."""
    return ((round(px - x, _COARSE), round(py - y, _COARSE)) for px, py in mark_points(mark))


def _element(mark: Mark, ink: BareInk | None = None) -> Element:
    if isinstance(mark, Text):
        return _text(mark, colour_of(mark, ink) or "black")
    if isinstance(mark, Circle):
        x, y = mark.centre
        kind, drawn = "circle", {"cx": number(x), "cy": number(y), "r": number(mark.radius)}
    else:
        kind, drawn = "path", {"d": _path(mark)}
    if mark.pen is Pen.TINT:
        drawn |= {"fill": colour_of(mark, ink) or "", "stroke": "none", "class": mark.pen.value}
    else:
        drawn |= _inked(mark.pen, ink)
    return _ready(kind, drawn)


def _path(mark: Line | Area) -> str:
    points = " L".join(f"{number(x)},{number(y)}" for x, y in mark.points)
    return f"M{points} Z" if isinstance(mark, Area) else f"M{points}"


@lru_cache(maxsize=256)
def _inked(pen: Pen, ink: BareInk | None = None) -> Mapping[str, str]:
    """The attributes of what that pen draws."""
    if pen is Pen.SOLID:
        return {"fill": "black", "stroke": "none", "class": pen.value}
    stroke = STROKES[pen]
    return {
        "class": pen.value,
        "stroke-width": number(stroke.width * (ink.weight if ink else 1.0)),
        "stroke-dasharray": ",".join(map(number, stroke.dashes)),
    }


def _text(mark: Text, colour: str) -> Element:
    """The text, every letter in its place, so that all renderers set it alike."""
    words, starts = mark.letters
    x, y = number(mark.at[0]), number(mark.at[1])
    look = {
        "x": " ".join(map(number, starts)),
        "y": y,
        "font-size": number(font_size(mark.height, mark.font)),
        "fill": colour,
        "stroke": "none",
    }
    if mark.bold:
        look["font-weight"] = "bold"
    if abs(mark.angle) > 1e-9:
        look["transform"] = f"rotate({number(mark.angle)} {x} {y})"
    element = _ready("text", look)
    element.text = words
    return element
