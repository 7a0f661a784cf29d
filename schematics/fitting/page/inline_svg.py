"""Drawings as part of the page: the sheets' own SVG, in the colours of the text around it."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence

from markupsafe import Markup

from schematics.drawing.ink.marks import Group, bounds, moved_group
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.ink.svg import number, to_svg

ENLARGED = 1.1
"""How much larger than on a sheet drawings are shown: the smallest lettering becomes 14.2 CSS pixels."""

WIDTH = 66.0
"""Widest drawing, in mm before it is enlarged: a phone of 320 CSS pixels shows it in full."""

_MARGIN = 0.8
_REM_MM = 16 * 25.4 / 96
"""How large the text of a page is where its reader has not set it larger: drawings grow with it."""


def inline_svg(groups: Sequence[Group], title: str, description: str, *, named: bool = False) -> Markup:
    """The groups as an ``svg`` element just large enough for them, `ENLARGED`.

    What only a document of its own has is dropped: namespace, ids, black ink.

    Args:
        groups: at least one mark among them.
        title: the drawing's name for screen readers.
        description: what it shows, for them.
        named: whether each group keeps its name, as ``data-part``.
    """
    x0, y0, x1, y1 = bounds(groups)
    paper = Paper(name="page", width=x1 - x0 + 2 * _MARGIN, height=y1 - y0 + 2 * _MARGIN)
    moved = tuple(moved_group(group, _MARGIN - x0, _MARGIN - y0) for group in groups)
    sheet = Sheet(paper=paper, scale=None, title=title, description=description, groups=moved)
    root = ET.fromstring(to_svg(sheet))
    for parent in root.iter():
        for child in [child for child in parent if child.get("class") == "paper"]:
            parent.remove(child)
    for name, length in (("width", paper.width), ("height", paper.height)):
        root.set(name, f"{number(length * ENLARGED / _REM_MM)}rem")
    for element in root.iter():
        element.tag = element.tag.rpartition("}")[2]
        if named and "id" in element.attrib:
            element.set("data-part", element.attrib["id"].partition("-")[2])
        for name in ("id", "baseProfile", "version"):
            element.attrib.pop(name, None)
        for name in ("fill", "stroke"):
            if element.get(name) == "black":
                element.set(name, "currentColor")
    return Markup(ET.tostring(root, encoding="unicode", short_empty_elements=False))
