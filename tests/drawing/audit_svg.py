"""What the markup may hold: an allow-list of what every reader of SVG, CairoSVG too, draws alike."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any

from svgwrite.validator2 import get_validator

_SVG = "{http://www.w3.org/2000/svg}"

_STROKE = {"stroke", "stroke-width", "stroke-dasharray"}
_ALLOWED: Mapping[str, set[str]] = {
    "svg": {"baseProfile", "width", "height", "viewBox", "version", "role", "aria-labelledby"},
    "title": {"id"},
    "desc": {"id"},
    "defs": set(),
    "rect": {"class", "x", "y", "width", "height", "fill"},
    "g": {"id", "class", "fill", "stroke", "stroke-linecap", "stroke-linejoin", "font-family"},
    "path": {"class", "d", "fill", *_STROKE},
    "circle": {"class", "cx", "cy", "r", "fill", *_STROKE},
    "text": {
        "class",
        "x",
        "y",
        "fill",
        "stroke",
        "font-size",
        "font-weight",
        "text-anchor",
        "transform",
    },
}
"""Elements and their attributes. No style sheets, links, markers, tspans or baselines: CairoSVG and
browsers differ on them."""

_WORDS: Mapping[str, set[str]] = {
    "fill": {"none", "black", "white"},
    "stroke": {"none", "black"},
    "font-weight": {"bold"},
    "text-anchor": {"start", "middle", "end"},
    "stroke-linecap": {"butt", "round"},
    "stroke-linejoin": {"miter", "round"},
}
_NUMERIC = {
    "viewBox", "x", "y", "width", "height", "d", "cx", "cy", "r", "font-size", "stroke-width",
    "stroke-dasharray", "transform",
}  # fmt: skip
_NUMBER = re.compile(r"(?<![\d.])-?(?:0|[1-9]\d*)(?:\.\d{1,3})?(?![\d.])")
_OTHERS = re.compile(r"(?:[MLZ,()\s]|rotate|mm)*")


_SVG_11: Any = get_validator("full")
"""Elements, their children, attributes and values after the tables of SVG 1.1, as svgwrite keeps them."""

_BEYOND_SVG_11 = {"role", "aria-labelledby"}
"""Allowed on svg by WAI-ARIA in HTML, for screen readers; SVG 1.1 is older."""


@lru_cache(maxsize=4096)
def _check_value(name: str, key: str, value: str) -> None:
    """Once of what comes on every sheet."""
    _SVG_11.check_svg_attribute_value(name, key, value)


def _invalid_after_svg_11(root: ET.Element) -> Iterator[str]:
    for element in root.iter():
        name = element.tag.removeprefix(_SVG)
        attributes = {key: value for key, value in element.attrib.items() if key not in _BEYOND_SVG_11}
        try:
            for key, value in attributes.items():
                _check_value(name, key, value)
            for child in element:
                _SVG_11.check_valid_children(name, child.tag.removeprefix(_SVG))
        except (ValueError, TypeError, KeyError) as wrong:
            yield f"<{name}> is not SVG 1.1: {wrong}"


def svg_faults(svg: str) -> list[str]:
    """Every fault in the markup of one sheet."""
    root = ET.fromstring(svg)
    found = [fault for element in root.iter() for fault in _element_faults(element)]
    ids = Counter(element.attrib["id"] for element in root.iter() if "id" in element.attrib)
    found += [f"the id '{name}' is there {count} times" for name, count in ids.items() if count > 1]
    if re.search(r"url\(|href|<!|<\?(?!xml version)|javascript|@import", svg):
        found.append("something refers to something else")
    for name in ("title", "desc"):
        if not (root.findtext(f"{_SVG}{name}") or "").strip():
            found.append(f"there is no {name}")
    found += [*_size_faults(root), *_invalid_after_svg_11(root)]
    return found


def _size_faults(root: ET.Element) -> Iterator[str]:
    """A view box that is not the paper in millimetres, from its upper left corner."""
    width, height = root.get("width", ""), root.get("height", "")
    if root.get("viewBox") != f"0 0 {width.removesuffix('mm')} {height.removesuffix('mm')}":
        yield f"a paper of {width} by {height} has the view box {root.get('viewBox')}"


def _element_faults(element: ET.Element) -> Iterator[str]:
    name = element.tag.removeprefix(_SVG)
    if name not in _ALLOWED:
        yield f"<{name}> is not allowed"
        return
    for key, value in element.attrib.items():
        if key not in _ALLOWED[name]:
            yield f"<{name}> has the attribute {key}"
        elif key in _WORDS and value not in _WORDS[key] and not _is_tint(element, key, value):
            yield f"<{name}> has {key} '{value}'"
        elif key in _NUMERIC:
            yield from _number_faults(name, key, value)


def _is_tint(element: ET.Element, key: str, value: str) -> bool:
    """Whether it is the colour of a tinted face."""
    return key == "fill" and element.get("class") == "tint" and bool(re.fullmatch("#[0-9a-f]{6}", value))


def _number_faults(name: str, key: str, value: str) -> Iterator[str]:
    """Numbers in any but the plainest notation, or with more than three decimals."""
    if not _OTHERS.fullmatch(_NUMBER.sub("", value)):
        yield f"<{name}> has {key} '{value[:60]}'"
    elif not all(math.isfinite(float(number)) for number in _NUMBER.findall(value)):
        yield f"<{name}> has a {key} that is not finite"
