"""A drawing whose like groups are drawn once is the same drawing, every group in its place under its id."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby
from pathlib import Path

import pytest

from schematics.document.chart_words.chart_piece import ChartPiece
from schematics.drawing.bare.charts import bare_charts
from schematics.drawing.charts.chart_views import chart_views
from schematics.drawing.ink.marks import Area, Circle, Group, Line, Pen, Text
from schematics.drawing.ink.sheet import A4, Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.reading.design_file import read_draft
from tests.drawing.test_second_renderer import likeness, theirs
from tests.examples import thorough
from tests.shipped import shipped_pattern

SPECS = Path(__file__).parents[2] / "specs"
_SVG, _HREF = "{http://www.w3.org/2000/svg}", "{http://www.w3.org/1999/xlink}href"
Drawn = tuple[str, tuple[float, ...], tuple[tuple[str, str], ...]]


def star(x: float, y: float, pen: Pen = Pen.SYMBOL) -> Group:
    """A stitch, its middle at that point."""
    marks = (
        Line(((x - 1, y - 1), (x + 1, y + 1)), pen),
        Area(((x, y), (x + 0.3333, y), (x, y + 0.3333)), Pen.SOLID),
        Circle((x, y), 0.75),
    )
    return Group("stitch", "sc", marks)


STARS = Sheet(
    paper=A4,
    scale=None,
    title="Stars",
    description="Stars in a row.",
    groups=(
        *(star(10 + 7.77777 * number, 20 + number / 3) for number in range(9)),
        star(100, 100, Pen.OUTLINE),
        Group("row", "1", (Text((1, 1), "one"),)),
        Group("row", "1", (Text((1, 9), "one"),)),
    ),
)


def marks_of(svg: str) -> dict[str, list[Drawn]]:
    """By the id of a group, each mark of it where it is on the paper, and how it is drawn."""
    root = ET.fromstring(svg)
    shapes = {each.get("id"): each for each in root.findall(f"{_SVG}defs/{_SVG}g")}
    everything = root.find(f"{_SVG}g")
    assert everything is not None
    found: dict[str, list[Drawn]] = {}
    for element in (each for layer in everything for each in layer):
        dx, dy = float(element.get("x", "0")), float(element.get("y", "0"))
        group = shapes[element.attrib[_HREF].removeprefix("#")] if _HREF in element.attrib else element
        kind = group.attrib["class"]
        assert element.attrib["id"].startswith(kind)
        found[element.attrib["id"]] = list(_joined(_drawn(mark, dx, dy) for mark in group))
    return found


def _joined(marks: Iterator[Drawn]) -> Iterator[Drawn]:
    """Marks drawn alike that follow each other as one."""
    for (tag, attributes), those in groupby(marks, lambda mark: (mark[0], mark[2])):
        yield tag, tuple(number for _, numbers, _ in those for number in numbers), attributes


def _drawn(mark: ET.Element, dx: float, dy: float) -> Drawn:
    attributes = dict(mark.attrib)
    where = [attributes.pop(name) for name in ("d", "cx", "cy", "x", "y") if name in attributes]
    numbers = [float(each) for each in re.findall(r"-?[\d.]+", " ".join(where))]
    if mark.tag != f"{_SVG}text":
        numbers = [each + (dy if index % 2 else dx) for index, each in enumerate(numbers)]
    return mark.tag, tuple(numbers), tuple(sorted(attributes.items()))


def assert_alike(sheet: Sheet) -> None:
    plain, shared = marks_of(to_svg(sheet)), marks_of(to_svg(sheet, shared=True))
    assert list(plain) == list(shared)
    for name, marks in plain.items():
        for mark, other in zip(marks, shared[name], strict=True):
            assert (mark[0], mark[2]) == (other[0], other[2])
            assert all(abs(a - b) <= 0.011 for a, b in zip(mark[1], other[1], strict=True))


def test_every_mark_is_where_it_was() -> None:
    """To a hundredth of a millimetre, within which shapes are taken for alike."""
    assert_alike(STARS)
    svg = to_svg(STARS, shared=True)
    assert svg.count("<use") == 9
    assert svg.count("<circle") == 2
    assert svg.count("<text") == 2


def test_nothing_is_shared_that_stands_alone() -> None:
    assert "<use" not in to_svg(replace(STARS, groups=STARS.groups[8:]), shared=True)


@pytest.mark.thorough
def test_a_chart_of_a_demo_is_drawn_alike_and_six_of_them_are_no_burden() -> None:
    """By resvg, a renderer of its own, but for lines that two cells share, which are drawn once.

    `make fuzz` looks at the widest of kelp, else it is the narrowest; and at the pattern's page, whose charts
    may weigh 600 kB, its words and other pictures 200 kB.
    """
    design = read_draft(SPECS / "kelp.yaml").head
    fabric = design.parts.centre_panel
    assert fabric.chart
    stitches = 30 if thorough() else 16
    views = chart_views(fabric, [ChartPiece(size="2", stitches=stitches, rows=60)])
    *_, chart = bare_charts(fabric.chart, "centre panel", views, design.terms)
    assert_alike(chart)
    plain, shared = to_svg(chart), to_svg(chart, shared=True)
    assert len(shared) < len(plain) / 4
    assert likeness(theirs(plain, chart.paper.width), theirs(shared, chart.paper.width)) > 0.99
    if not thorough():
        return
    page = shipped_pattern("kelp", "html").decode()
    charts = sum(map(len, re.findall(r'src="([^"]+)" alt="Stitch chart', page)))
    assert 0 < charts < 600_000
    assert len(page) - charts < 200_000
