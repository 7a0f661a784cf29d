"""Designs whose every name is hostile, and what must hold of all that is made of them."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from xml.etree import ElementTree as ET

import html5lib

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.document.writers import file_content
from schematics.drawing.compose import finish
from schematics.drawing.cover import draw_cover
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import setting_of
from schematics.fitting.page.fit_page import fit_page
from schematics.pattern import figures
from schematics.reading.design_file import read_design
from tests.hostile.names import plain, spec_of

TEXTS = 14
"""How many a spec bears."""

_LONG_ONES = (0, 1, 10, 11, 12, 13)
"""The places, in `spec_of`, of texts that may be longer than forty characters."""

_SVG = "{http://www.w3.org/2000/svg}"
_SVG_TAGS = {"svg", "title", "desc", "defs", "g", "path", "rect", "circle", "text"}
_FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r")


def places(names: Sequence[str]) -> list[list[str]]:
    """The names in groups as specs bear them, none too long for its place; the last is filled up."""
    long_ones = [name for name in names if len(name) > 40]
    short_ones = [name for name in names if len(name) <= 40]
    groups = []
    while long_ones or short_ones:
        group = plain(TEXTS)
        for place in (*_LONG_ONES, *(each for each in range(TEXTS) if each not in _LONG_ONES)):
            source = long_ones if long_ones and place in _LONG_ONES else short_ones
            if source:
                group[place] = source.pop(0)
        groups.append(group)
    return groups


def design(folder: Path, texts: Sequence[str], sizes: Sequence[str]) -> Design:
    """The design that bears these names."""
    path = folder / "lake.yaml"
    path.write_text(spec_of(texts, sizes), encoding="ascii")
    return read_design(path)


def cover(made: Design) -> str:
    """The sheet that has most of the names."""
    setting = setting_of(made, evaluate(made))
    return to_svg(finish(setting, draw_cover(setting), None, 1, 1))


def htmls(made: Design) -> dict[str, str]:
    """Both pages, by their files' names."""
    results = evaluate(made)
    return {
        "figures.html": file_content(figures(made, results), "html").decode(),
        "fit.html": fit_page(made, results),
    }


def check_svg(text: str, title: str) -> None:
    """It is XML, of harmless elements, and its title is what the spec says."""
    root = ET.fromstring(text)
    for element in root.iter():
        assert element.tag.removeprefix(_SVG) in _SVG_TAGS
        assert not any(key.startswith("on") or "href" in key for key in element.attrib)
    assert title in root.findtext(f"{_SVG}title", "")


def tags(page: str) -> Counter[str]:
    """How many elements of each kind a page has; it must be HTML without a fault."""
    document = html5lib.HTMLParser(strict=True).parse(page)
    return Counter(str(each.tag) for each in document.iter() if isinstance(each.tag, str))


@cache
def plain_tags(sizes: int) -> dict[str, Counter[str]]:
    """The elements of the same pages where every name is plain."""
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        made = design(Path(folder), plain(TEXTS), [f"{number}" for number in range(sizes)])
        return {name: tags(page) for name, page in htmls(made).items()}


def check_csv(text: str, names: Sequence[str]) -> None:
    """No cell is a formula, however a spreadsheet parts them, and the names are all there."""
    rows = list(csv.reader(io.StringIO(text)))
    cells = [cell for row in rows for cell in row]
    for cell in cells:
        assert not cell.lstrip().startswith(_FORMULA_SIGNS) or _is_number(cell), cell
    whole = "\n".join(cell.removeprefix("'") for cell in cells)
    assert all(name in whole for name in names)


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
