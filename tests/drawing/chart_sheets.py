"""Stitch charts drawn for tests, and read back from their SVG with ElementTree."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from schematics.checks.evaluation import Result
from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.fabric import CountRule, Fabric, RowRule
from schematics.design.design import Design
from schematics.drawing.charts.panel_chart import draw_panel_chart
from schematics.drawing.compose import Setting, finish
from schematics.drawing.ink.sheet import A4, Paper, Sheet
from schematics.drawing.ink.svg import to_svg

SVG = "{http://www.w3.org/2000/svg}"

ANY = CountRule()

Worked = tuple[Design, tuple[Result, ...]]
"""A design and its sizes."""

Point = tuple[float, float]
Box = tuple[float, float, float, float]

_STITCH = re.compile(
    r"(?:stitch|stitch-again)-w(?P<width>\d+)-r(?P<row>\d+)-c(?P<column>\d+)-(?P<slug>.+?)"
    r"(?:-at-r(?P<at_row>\d+)-c(?P<at_column>\d+)(?P<surface>-surface)?)?"
)


@dataclass(frozen=True)
class Symbol:
    """A stitch as it is drawn; rows and columns from 1, in ``target`` those of what it goes into or round."""

    row: int
    column: int
    slug: str
    target: tuple[int, int] | None
    on_surface: bool
    points: tuple[Point, ...]
    paths: tuple[tuple[str, tuple[Point, ...]], ...]

    def ends(self, *, low: bool) -> list[float]:
        """The x of its lowest, or highest, points."""
        edge = (max if low else min)(y for _, y in self.points)
        return [x for x, y in self.points if abs(y - edge) < 0.05]

    def middle(self, *, low: bool) -> Point:
        """The middle of its lowest, or highest, points."""
        xs = self.ends(low=low)
        return (min(xs) + max(xs)) / 2, (max if low else min)(y for _, y in self.points)


class Page:
    """One sheet as ElementTree sees it: its groups by their classes and ids."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.svg = to_svg(sheet)
        self._groups: dict[str, dict[str, ET.Element]] = {}
        self._symbols: dict[tuple[int, str], tuple[Symbol, ...]] = {}
        for group in ET.fromstring(self.svg).iter(f"{SVG}g"):
            if "id" in group.attrib:
                self._groups.setdefault(group.attrib["class"], {})[group.attrib["id"]] = group

    def groups(self, kind: str) -> dict[str, ET.Element]:
        return self._groups.get(kind, {})

    def texts(self, kind: str) -> list[str]:
        return [text.text or "" for each in self.groups(kind).values() for text in each.iter(f"{SVG}text")]

    def cells(self, width: int, row: int) -> list[Box]:
        """The row's cells from left to right."""
        group = self.groups("cells").get(f"cells-w{width}-row-{row}")
        return sorted(box_of(points(path)) for path in group.iter(f"{SVG}path")) if group is not None else []

    def symbols(self, width: int, kind: str = "stitch") -> tuple[Symbol, ...]:
        """Every stitch of the chart of that width, read once."""
        asked = width, kind
        if asked not in self._symbols:
            self._symbols[asked] = tuple(self._read(width, kind))
        return self._symbols[asked]

    def _read(self, width: int, kind: str) -> Iterator[Symbol]:
        for name, group in self.groups(kind).items():
            match = _STITCH.fullmatch(name)
            assert match, name
            if int(match["width"]) != width:
                continue
            paths = tuple((path.get("class", ""), tuple(points(path))) for path in group.iter(f"{SVG}path"))
            discs = [box_of_circle(circle) for circle in group.iter(f"{SVG}circle")]
            every = [point for _, path in paths for point in path]
            every += [((x0 + x1) / 2, y) for x0, y0, x1, y1 in discs for y in (y0, y1)]
            at = (int(match["at_row"]), int(match["at_column"])) if match["at_row"] else None
            yield Symbol(
                int(match["row"]),
                int(match["column"]),
                match["slug"],
                at,
                bool(match["surface"]),
                tuple(every),
                paths,
            )


class Drawn:
    """All sheets of a chart."""

    def __init__(self, pages: Sequence[Page]) -> None:
        self.pages = pages

    def texts(self, kind: str) -> list[str]:
        return [text for page in self.pages for text in page.texts(kind)]

    def groups(self, kind: str) -> dict[str, ET.Element]:
        return {name: group for page in self.pages for name, group in page.groups(kind).items()}

    def page(self, width: int) -> Page:
        """The one sheet that has the chart of that width."""
        (page,) = [page for page in self.pages if page.symbols(width)]
        return page

    def symbols(self, width: int) -> list[Symbol]:
        return [each for page in self.pages for each in page.symbols(width)]

    def key(self) -> dict[str, str]:
        """The words of the key by what stands first in each entry."""
        entries = [
            [text.text or "" for text in group.iter(f"{SVG}text")] for group in self.groups("key").values()
        ]
        return {name: " ".join(words) for name, *words in entries}


def points(path: ET.Element) -> list[Point]:
    numbers = [float(each) for each in re.findall(r"-?[\d.]+", path.attrib["d"])]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def box_of(path: Sequence[Point]) -> Box:
    xs, ys = zip(*path, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def box_of_circle(circle: ET.Element) -> Box:
    x, y, r = (float(circle.attrib[key]) for key in ("cx", "cy", "r"))
    return x - r, y - r, x + r, y + r


def slug(abbreviation: str) -> str:
    return re.sub(r"[^a-zA-Z0-9.-]+", "-", abbreviation)


def drawn(design: Design, results: tuple[Result, ...], paper: Paper = A4) -> Drawn:
    setting = Setting(design=design, results=results, paper=paper, scale=5)
    drawings = draw_panel_chart(setting)
    return Drawn(
        [
            Page(finish(setting, drawing, None, number, len(drawings)))
            for number, drawing in enumerate(drawings, start=1)
        ]
    )


def with_fabric(design: Design, fabric: Fabric, counts: Sequence[tuple[int, int]]) -> Design:
    """The design with another fabric in its panel, in sizes of so many stitches and rows."""
    sizes = tuple(
        replace(size, panel_stitches=stitches, panel_rows=rows)
        for size, (stitches, rows) in zip(design.sizes, counts, strict=False)
    )
    return replace(design, parts=replace(design.parts, centre_panel=fabric), sizes=sizes)


def with_chart(design: Design, chart: Chart | None, rule: CountRule, *counts: tuple[int, int]) -> Design:
    """The design with another chart in its panel, in sizes of so many stitches and repeats."""
    panel = design.parts.centre_panel
    if chart is None:
        return with_fabric(
            design, replace(panel, chart=None), [(size.panel_stitches, 28) for size in design.sizes]
        )
    row_rule = RowRule(setup=len(chart.setup), repeat=len(chart.repeat), closing=len(chart.closing))
    fabric = replace(panel, stitch_rule=rule, row_rule=row_rule, chart=chart)
    rows = [
        (stitches, row_rule.setup + repeats * row_rule.repeat + row_rule.closing)
        for stitches, repeats in counts
    ]
    return with_fabric(design, fabric, rows)


def chart_of(*repeat: str, setup: tuple[str, ...] = (), closing: tuple[str, ...] = ()) -> Chart:
    return Chart(
        setup=tuple(map(parse_row, setup)),
        repeat=tuple(map(parse_row, repeat)),
        closing=tuple(map(parse_row, closing)),
    )
