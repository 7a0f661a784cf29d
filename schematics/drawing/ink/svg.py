"""The one file that knows SVG: marks to markup."""

from __future__ import annotations

import base64
import math
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from itertools import groupby

from schematics.document.lettering.text import FONT_FAMILY, font_size, printable
from schematics.drawing.ink.layers import colour_of, layered
from schematics.drawing.ink.marks import (
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

_COARSE = 2
"""The same, with which groups are compared: those look alike that differ by no more."""

_ALIKE = 2
"""So many groups at least are worth a shape to be shared."""

_HEAD = '<?xml version="1.0" encoding="utf-8"?>\n'
OPENING = f'{_HEAD}<svg baseProfile="full" '
"""How every drawing begins; what begins otherwise somebody else has made."""

_DOCUMENT = {
    "baseProfile": "full",
    "role": "img",
    "version": "1.1",
    "xmlns": "http://www.w3.org/2000/svg",
    "xmlns:ev": "http://www.w3.org/2001/xml-events",
    "xmlns:xlink": "http://www.w3.org/1999/xlink",
}


def number(value: float) -> str:
    """The number with at most `DECIMALS` and no needless noughts.

    Raises:
        ValueError: it is not finite.
    """
    if not math.isfinite(value):
        raise ValueError(f"a drawing cannot hold the number {value}")
    text = f"{value:.{DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def to_svg(sheet: Sheet, *, shared: bool = False) -> str:
    """The sheet as a standalone SVG 1.1 document in millimetres; the same sheet gives the same text.

    A bare drawing has no paper under it, is parted into layers and says by what its readers are to tell it.

    ``shared``: groups without words that look alike are drawn once and used in each place, so that a chart
    of many stitches is a fraction as long; every group keeps its id.
    """
    width, height = number(sheet.paper.width), number(sheet.paper.height)
    document = {"height": f"{height}mm", "viewBox": f"0 0 {width} {height}", "width": f"{width}mm"}
    ids = _Ids()
    defined: list[str] = []
    if sheet.ink is None:
        told, under = _told(sheet), _paper(width, height)
        shapes = _Shapes(sheet.groups) if shared else None
        drawn = [
            shapes.markup(group, ids.of(group)) if shapes else _group(group, ids.of(group))
            for group in sheet.groups
        ]
        defined += shapes.defined if shapes else []
    else:
        name = sheet.ink.name
        document["aria-labelledby"] = f"{name}-title {name}-desc"
        told, under = _told(sheet, name), ""
        defined += _faces(sheet)
        drawn = [
            _element(
                "g",
                {"id": ids.new(layer), "class": "layer"},
                "".join(_group(group, ids.of(group), sheet.ink) for group in groups),
            )
            for layer, groups in layered(sheet.groups)
        ]
    everything = _element(
        "g",
        {
            "fill": "none",
            "stroke": "black",
            "stroke-linecap": "butt",
            "stroke-linejoin": "miter",
            "font-family": _quoted(_families(sheet.ink)),
        },
        "".join(drawn),
    )
    defs = _element("defs", {}, "".join(defined))
    return f"{_HEAD}{_element('svg', _DOCUMENT | document, told + defs + under + everything)}\n"


def _element(name: str, attributes: Mapping[str, str], content: str = "") -> str:
    """Markup of an element without its empty attributes; what stands in it and in them is markup already."""
    said = "".join([f' {key}="{value}"' for key, value in sorted(attributes.items()) if value])
    return f"<{name}{said}>{content}</{name}>" if content else f"<{name}{said} />"


def _escaped(words: str) -> str:
    return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _quoted(words: str) -> str:
    return _escaped(words).replace('"', "&quot;")


def _told(sheet: Sheet, name: str = "") -> str:
    """Title and description, with ids that no other drawing has if there is a name."""
    return "".join(
        _element(element, {"id": f"{name}-{element}"} if name else {}, _escaped(printable(words)))
        for element, words in (("title", sheet.title), ("desc", sheet.description))
    )


def _paper(width: str, height: str) -> str:
    size = {"x": "0", "y": "0", "width": width, "height": height}
    return _element("rect", {**size, "fill": "white", "class": "paper"})


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


def _faces(sheet: Sheet) -> Iterator[str]:
    """What a drawing shows of a font of its own, put into it, so that it is lettered alike everywhere."""
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
    if faces:
        style = "\n".join(faces)
        yield _element("style", {"type": "text/css"}, f"<![CDATA[{style}]]>")


def _group(group: Group, name: str, ink: BareInk | None = None) -> str:
    content = "".join([_mark(mark, ink) for mark in group.marks])
    return _element("g", {"id": name, "class": group.kind}, content)


def _joined_group(group: Group, name: str) -> str:
    """The group with lines of the same pen that follow each other in one path."""
    content: list[str] = []
    for pen, marks in groupby(group.marks, _joining_pen):
        if pen is None:
            content += map(_mark, marks)
        else:
            lines = (mark for mark in marks if isinstance(mark, Line | Area))
            content.append(_element("path", {"d": " ".join(map(_path, lines)), **_inked(pen)}))
    return _element("g", {"id": name, "class": group.kind}, "".join(content))


def _joining_pen(mark: Mark) -> Pen | None:
    """The pen of a line that may be drawn in one path with others; faces would leave out what they share."""
    return mark.pen if isinstance(mark, Line | Area) and mark.pen is not Pen.SOLID else None


class _Shapes:
    """Groups that look alike, each ``defined`` once with its class."""

    def __init__(self, groups: Iterable[Group]) -> None:
        self.defined: list[str] = []
        self._often = Counter(key for group in groups if (key := _likeness(group)))
        self._ids: dict[tuple[object, ...], str] = {}

    def markup(self, group: Group, name: str) -> str:
        """The group under that id, or the use of its shape where there are others like it."""
        key = _likeness(group)
        if self._often[key] < _ALIKE:
            return _joined_group(group, name)
        x, y = _corner(group)
        if key not in self._ids:
            self._ids[key] = f"s{len(self._ids) + 1}"
            self.defined.append(_joined_group(moved_group(group, -x, -y), self._ids[key]))
        place = {"x": number(x), "y": number(y)}
        return _element("use", {"id": name, "xlink:href": f"#{self._ids[key]}", **place})


def _corner(group: Group) -> tuple[float, float]:
    x, y, _, _ = bounds([group])
    return round(x, DECIMALS), round(y, DECIMALS)


def _likeness(group: Group) -> tuple[object, ...]:
    """What groups have in common that look alike wherever they stand; empty for one with words."""
    x, y = _corner(group)
    drawn = [mark for mark in group.marks if not isinstance(mark, Text)]
    if len(drawn) < len(group.marks):
        return ()
    return (group.kind, *((type(mark), mark.pen, *_about(mark, x, y)) for mark in drawn))


def _about(mark: Line | Area | Circle, x: float, y: float) -> Iterator[tuple[float, float]]:
    """The points that a mark is drawn by, from the corner of its group."""
    return ((round(px - x, _COARSE), round(py - y, _COARSE)) for px, py in mark_points(mark))


def _mark(mark: Mark, ink: BareInk | None = None) -> str:
    if isinstance(mark, Text):
        return _text(mark, colour_of(mark, ink) or "black")
    look = _inked(mark.pen, ink.weight if ink else 1.0)
    if isinstance(mark, Circle):
        x, y = mark.centre
        return _element("circle", {"cx": number(x), "cy": number(y), "r": number(mark.radius), **look})
    return _element("path", {"d": _path(mark), **look})


def _path(mark: Line | Area) -> str:
    points = " L".join([f"{number(x)},{number(y)}" for x, y in mark.points])
    return f"M{points} Z" if isinstance(mark, Area) else f"M{points}"


@cache
def _inked(pen: Pen, weight: float = 1.0) -> Mapping[str, str]:
    """The attributes of what is drawn with a pen."""
    if pen is Pen.SOLID:
        return {"class": pen.value, "fill": "black", "stroke": "none"}
    stroke = STROKES[pen]
    look = {"class": pen.value, "stroke-width": number(stroke.width * weight)}
    return look | ({"stroke-dasharray": ",".join(map(number, stroke.dashes))} if stroke.dashes else {})


def _text(mark: Text, colour: str) -> str:
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
    return _element("text", look, _escaped(words))
