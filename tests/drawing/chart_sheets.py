"""Stitch charts drawn for tests, and read back from their SVG with ElementTree."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

from schematics.checks.evaluation import Result
from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.fabric import CountRule, RowRule
from schematics.design.design import Design
from schematics.drawing.charts.panel_chart import draw_panel_chart
from schematics.drawing.compose import Setting, finish
from schematics.drawing.ink.sheet import A4, Paper, Sheet
from schematics.drawing.ink.svg import to_svg

SVG = "{http://www.w3.org/2000/svg}"

Box = tuple[float, float, float, float]


class Drawn:
    """One sheet as ElementTree sees it: its grid, and the groups by their classes and ids."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self._groups: dict[str, dict[str, ET.Element]] = {}
        for group in ET.fromstring(to_svg(sheet)).iter(f"{SVG}g"):
            if "id" in group.attrib:
                self._groups.setdefault(group.attrib["class"], {})[group.attrib["id"]] = group
        self.rows = len(self.groups("cells"))
        self._stitches: dict[int, list[tuple[Box, str]]] = {}
        for name, group in self.groups("stitch").items():
            match = re.fullmatch(r"stitch-(\d+)-(\d+)-([a-zA-Z0-9-]+)", name)
            assert match, name
            mark = around([ink(path) for path in group.iter(f"{SVG}path")])
            self._stitches.setdefault(int(match[1]), []).append((mark, match[3]))

    def groups(self, kind: str) -> dict[str, ET.Element]:
        return self._groups.get(kind, {})

    def texts(self, kind: str) -> list[str]:
        return [text.text or "" for each in self.groups(kind).values() for text in each.iter(f"{SVG}text")]

    def cells(self, row: int) -> list[Box]:
        """The row's cells from left to right."""
        return sorted(ink(path) for path in self.groups("cells")[f"cells-row-{row}"].iter(f"{SVG}path"))

    def stitches(self, row: int) -> list[tuple[str, Box]]:
        """Abbreviation and ink of each stitch of the row, from left to right."""
        return [(name, mark) for mark, name in sorted(self._stitches[row])]


def points(path: ET.Element) -> list[tuple[float, float]]:
    numbers = [float(each) for each in re.findall(r"-?[\d.]+", path.attrib["d"])]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def ink(path: ET.Element) -> Box:
    """The path's box with half its stroke; a cell's is its line's middle."""
    xs, ys = zip(*points(path), strict=True)
    half = 0.0 if path.get("class") == "thin" else float(path.get("stroke-width", "0")) / 2
    return min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half


def around(boxes: list[Box]) -> Box:
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return min(x0), min(y0), max(x1), max(y1)


def drawn(design: Design, results: tuple[Result, ...], paper: Paper = A4) -> Drawn:
    setting = Setting(design=design, results=results, paper=paper, scale=5)
    drawing = draw_panel_chart(setting)
    assert drawing is not None
    return Drawn(finish(setting, drawing, None, 1, 1))


def with_chart(design: Design, chart: Chart | None, multiple: int, plus: int) -> Design:
    """The design with another chart in its panel; its counts may then break the fabric's rules."""
    panel = design.parts.centre_panel
    if chart is not None:
        panel = replace(
            panel,
            stitch_rule=CountRule(multiple=multiple, plus=plus),
            row_rule=RowRule(setup=len(chart.setup), repeat=len(chart.repeat), closing=len(chart.closing)),
        )
    return replace(design, parts=replace(design.parts, centre_panel=replace(panel, chart=chart)))


def chart_of(*repeat: str, setup: tuple[str, ...] = (), closing: tuple[str, ...] = ()) -> Chart:
    return Chart(
        setup=tuple(map(parse_row, setup)),
        repeat=tuple(map(parse_row, repeat)),
        closing=tuple(map(parse_row, closing)),
    )
