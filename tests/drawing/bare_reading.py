"""Bare drawings read back from their SVG: what is wrong with one, in sentences.

Lengths are measured on the drawn outline, times the scale that the description tells; tables are read by
where their words stand.
"""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from functools import lru_cache
from itertools import chain
from typing import Any

import pytest
import shapely

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.bare import drawings
from schematics.drawing.bare.rooms import WIDTHS
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.garment.garment import Garment
from tests.drawing.audit_layout import (
    leaders_over_extensions,
    letters_astray,
    lines_through_lines,
    misleading_leaders,
    upside_down,
    words_on_lines,
    words_on_words,
)
from tests.drawing.audit_lengths import NARROW, group_id, length_faults, measured_cm
from tests.drawing.audit_svg import svg_faults
from tests.drawing.audit_words import senseless_words
from tests.drawing.readback import Page, read_tree

SVG = "{http://www.w3.org/2000/svg}"
WIDEST_MM = {"column": 85.0, "page": 170.0, "phone": 360 / 96 * 25.4, "assembly": 50.0}
"""What was asked for: millimetres, and pixels of which there are 96 to the inch (CSS)."""

HIGHEST_MM = {"column": 240.0, "page": 240.0}
"""A4 with margins of 25 mm has 247; a phone scrolls."""

FONT_MM = {"column": 2.5 / (1493 / 2048), "page": 2.5 / (1493 / 2048), "phone": 12 / 96 * 25.4}
FONT_MM["assembly"] = FONT_MM["column"]
"""Of the font: its capitals 2.5 mm high (1493 of 2048 units in its OS/2 table), or 12 pixels."""

LAYERS = ["colours", "texture", "outline", "lines", "dimensions", "labels", "table"]


def drawings_in(
    widths: Sequence[str], design: Design, results: Sequence[Result], size: str | None
) -> Generator[tuple[str, Sheet]]:
    """The bare drawings in those widths alone."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drawings, "WIDTHS", {width: WIDTHS[width] for width in widths})
        yield from drawings.bare_drawings(design, results, size)


def one_drawing(design: Design, results: Sequence[Result], size: str | None, stem: str) -> Sheet:
    """That of such a stem, as `body-column`, with no other drawn before it."""
    kind, _, width = stem.rpartition("-")
    every = drawings._whole if size is None else drawings._of_size

    def that_alone(*of: Any) -> dict[str, drawings.Draw]:
        return {kind: every(*of)[kind]}

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drawings, every.__name__, that_alone)
        drawn = drawings_in((width,), design, results, size)
        found, sheet = next(drawn)
        drawn.close()
    assert found == stem
    return sheet


@dataclass(frozen=True, slots=True)
class BarePage(Page):
    """A drawing whose scale is told in its description; None where it is a table alone."""

    told_scale: float | None = None

    @property
    def scale(self) -> float:  # type: ignore[override]
        assert self.told_scale is not None
        return self.told_scale


@lru_cache(maxsize=16)
def read_bare(svg: str) -> BarePage:
    """The drawing with its layers taken apart, and the words of every dimension with its lines again."""
    root = ET.fromstring(svg)
    (everything,) = root.findall(f"{SVG}g")
    layers = {layer.get("id"): layer for layer in everything}
    whole = {group.get("id"): group for layer in layers.values() for group in layer}
    for layer in layers.values():
        del layer.attrib["id"]
        for group in list(layer):
            name = (group.get("id") or "").removeprefix("label-")
            of = next((whole[each] for kind in KINDS if (each := f"{kind}-{name}") in whole), None)
            if group.get("class") == "label" and of is not None and of is not group:
                layer.remove(group)
                of.extend(group)
    page = read_tree(root)
    told = re.search(r"drawn at 1:(\d+(?:\.\d)?)", root.findtext(f"{SVG}desc") or "")
    known = {each.name: getattr(page, each.name) for each in fields(Page)}
    return BarePage(**known, told_scale=float(told[1]) if told else None)


KINDS = ("dimension", "leader", "note")


def bare_faults(svg: str, width: str, result: Result | None, pieces: Sequence[str] = ()) -> list[str]:
    """Every fault of a drawing in that width, of those pieces of a size if it is not of all sizes."""
    page = read_bare(svg)
    found = chain(svg_faults(svg), markup_faults(svg, width), paper_faults(page, width), letters_astray(page))
    layout = chain(words_on_words(page), words_on_lines(page), upside_down(page), lines_through_lines(page))
    leaders = [*misleading_leaders(page), *leaders_over_extensions(page)]
    faults = [*found, *layout, *leaders, *senseless_words(page)]
    if result is None:
        return faults
    shown = tuple(piece for piece in result.garment.pieces if piece.name in pieces)
    garment = replace(result.garment, pieces=shown)
    if page.texts("table"):
        return [*faults, *lettered_faults(page, garment, read_table(svg))]
    return faults + length_faults(page, garment)


def markup_faults(svg: str, width: str) -> Iterator[str]:
    """What a reader of screens, an editor or a printer would miss."""
    root = ET.fromstring(svg)
    if root.get("role") != "img":
        yield "it is not an image to readers of screens"
    told = [
        element.get("id")
        for element in (root.find(f"{SVG}title"), root.find(f"{SVG}desc"))
        if element is not None
    ]
    if (root.get("aria-labelledby") or "").split() != told:
        yield f"it is labelled by {root.get('aria-labelledby')}, not by {told}"
    if root.findall(f".//{SVG}rect"):
        yield "there is paper under it"
    layers = [group.get("id") for group in root.findall(f"{SVG}g/{SVG}g")]
    if layers != [each for each in LAYERS if each in layers]:
        yield f"its layers are {layers}"
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    if len(ids) != len(set(ids)):
        yield "an id is there twice"
    texts = root.findall(f".//{SVG}text")
    for size in {text.get("font-size") for text in texts}:
        if abs(float(size or 0) - FONT_MM[width]) > 6e-4:
            yield f"words are {size} mm high"
    desc = root.findtext(f"{SVG}desc") or ""
    for text in texts:
        words = text.text or ""
        for figure in re.findall(r"\d+(?: \d+/\d+|/\d+|\.\d+)? (?:cm|in|sts?|rows?)\b", words):
            if figure not in desc:
                yield f"{figure!r} is drawn and not told"


def paper_faults(page: Page, width: str) -> Iterator[str]:
    """A drawing wider than asked, or with marks off its paper."""
    if page.width > WIDEST_MM[width] + 1e-3:
        yield f"it is {page.width} mm wide"
    if width in HIGHEST_MM and page.height > HIGHEST_MM[width]:
        yield f"it is {page.height} mm high"
    shapes = [*(stroke.shape for stroke in page.strokes), *(words.box for words in page.words)]
    for x0, y0, x1, y1 in shapely.bounds(shapes):
        if min(x0, y0) < 0 or x1 > page.width or y1 > page.height:
            yield f"something is off the paper, at {x0:.1f}, {y0:.1f}"


def lettered_faults(page: BarePage, garment: Garment, table: DrawnTable) -> Iterator[str]:
    """Letters that are not at a measurement as long as the table says, or that it does not say."""
    letters = {name: letter for letter, name in table.names.items()}
    finished = {item.key: item for item in garment.finished}
    for span in (span for piece in garment.pieces for span in piece.spans):
        item = finished[span.key]
        ((_, said),) = table.values.get(letters.get(item.name, ""), [("", {})])
        if not said or any(said[unit] != expected_figure(item.key, item.length_cm, unit) for unit in said):
            yield f"{item.name} is {said} in the table"
        groups = [group_id(kind, span.key) for kind in ("dimension", "leader")]
        drawn = [page.label(group) for group in groups if page.label(group)]
        if drawn != [letters.get(item.name)]:
            yield f"{item.name} has the letters {drawn}, in the table {letters.get(item.name)}"
    for dimension in page.dimensions():
        item, drawn_cm = measured_cm(page, dimension, garment)
        if not math.isclose(drawn_cm, item.length_cm, rel_tol=1e-3, abs_tol=0.02):
            yield f"{dimension.group}: {drawn_cm:.3f} cm is drawn where {item.length_cm:.3f} cm is meant"


@dataclass(frozen=True, slots=True)
class DrawnTable:
    """What a table says: the name of each letter, and by letter and line the value of each size.

    Where it has no letters names stand for them.
    """

    names: dict[str, str]
    values: dict[str, list[tuple[str, dict[str, str]]]]

    def value(self, letter: str, unit: str, size: str) -> str:
        """The value of a size in that unit; a table in parts has a line for each."""
        return next(line[size] for name, line in self.values[letter] if name == unit and size in line)


def read_table(svg: str) -> DrawnTable:
    """The table by where its words stand: a value is of the size it ends under, or of all under its line."""
    table = ET.fromstring(svg).find(f".//{SVG}g[@id='table']")
    assert table is not None
    texts = list(table.iter(f"{SVG}text"))
    page = read_bare(svg)
    boxes = [words.box.bounds for words in page.words if words.kind == "table"]
    dashes = [stroke.shape.bounds for stroke in page.strokes if stroke.kind == "table"]
    found = DrawnTable({}, {})
    heading_y, letter, name, is_named = -1.0, "", "", False
    ends: dict[str, float] = {}
    for text, (left, _, right, _) in zip(texts, boxes, strict=True):
        words, y = text.text or "", float(text.get("y", ""))
        if words.startswith("A value between lines"):
            break
        if text.get("font-weight") == "bold":
            if words.startswith("Size"):
                heading_y, ends = y, {}
            elif y == heading_y:
                ends[words] = right
            else:
                letter, is_named = words, False
        elif words in ("cm", "in", "sts", "rows") and heading_y >= 0:
            if not letter:
                found.names[name], is_named = name, False
            found.values.setdefault(letter or name, []).append((words, {}))
        elif re.search("[a-z]{3}", words) and not re.match(r"\d", words):
            name, is_named = f"{name} {words}" if is_named else words, True
            if letter:
                found.names[letter] = name
        elif ends:
            level = y - float(text.get("font-size", "")) * 1493 / 2048 / 2
            beside = [(x0, x1) for x0, y0, x1, y1 in dashes if abs((y0 + y1) / 2 - level) < 0.1]
            near = [(x0, x1) for x0, x1 in beside if abs(x1 - left) < 1.8 or abs(x0 - right) < 1.8]
            first, last = min([left, *(x0 for x0, _ in near)]), max([right, *(x1 for _, x1 in near)])
            found.values.setdefault(letter or name, [("", {})])[-1][1].update(
                {size: words for size, end in ends.items() if first < end < last + 0.7}
            )
    return found


def expected_figure(key: str, length_cm: float, unit: str) -> str:
    """A length rounded half up as a table prints it: to 0.5 cm and 1/4 in, finer if narrow."""
    per, parts = (1.0, 2) if unit == "cm" else (2.54, 4)
    if key in NARROW:
        parts *= 2
    whole, rest = divmod(math.floor(length_cm / per * parts + 0.5 + 1e-9), parts)
    if unit == "cm":
        return f"{whole + rest / parts:g}"
    shared = math.gcd(rest, parts)
    fraction = f"{rest // shared}/{parts // shared}" if rest else ""
    return " ".join(each for each in (str(whole) if whole or not rest else "", fraction) if each)


def bare_sheets(
    design: Design, results: Sequence[Result]
) -> Iterator[tuple[str, tuple[str, ...], list[str]]]:
    """Every bare drawing of a design: its stem, what it has no room for, and its faults."""
    for result in (None, *results):
        size = result.size.name if result else None
        for stem, sheet in drawings.bare_drawings(design, results, size):
            found = [] if sheet.unplaced else sheet_faults(stem, sheet, result)
            yield stem, sheet.unplaced, [f"{design.slug}, {size}, {fault}" for fault in found]


def sheet_faults(stem: str, sheet: Sheet, result: Result | None) -> list[str]:
    """Every fault of one, which is of that size, of the whole design if None."""
    whole = re.sub(r"-(\d+|key)$", "", stem)
    width = next(width for width in (*WIDTHS, "assembly") if f"-{whole}".endswith(f"-{width}"))
    kind = whole.removesuffix(f"-{width}")
    names = [piece.name for piece in result.garment.pieces] if result else []
    shown = [name for name in names if kind in ("all-pieces", name.replace(" ", "-"))]
    return [f"{stem}: {fault}" for fault in bare_faults(to_svg(sheet), width, result, shown)]
