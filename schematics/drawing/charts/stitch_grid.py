"""The grid of a stitch chart: a cell a stitch, rows bottom to top, as seen from the right side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from schematics.crochet.charts.chart import Chart, Passing, Side
from schematics.crochet.charts.placed_stitches import PlacedStitch, Target
from schematics.crochet.symbols import StrokeKind
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.lettering.text import SMALL, line_pitch, text_width
from schematics.drawing.charts.chart_colours import ChartColours, cell_corners
from schematics.drawing.charts.chart_layout import (
    ChartLayout,
    lay_out,
    seen_loop,
    seen_passing,
    seen_symbol,
)
from schematics.drawing.charts.chart_views import ChartView, SectionShown
from schematics.drawing.charts.over_and_under import Layer, Stems, broken
from schematics.drawing.charts.stance import Stance
from schematics.drawing.charts.stitch_repeats import StitchRepeats, stitch_repeats
from schematics.drawing.charts.stitch_symbols import symbol_marks
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Area, Group, Line, Mark, Pen, Text, arrowhead, bounds

_GAP = 1.6
_ARROW = 5.0
_TICK = 2.0
_LABEL_GAP = 1.0
_OVER = 3.0
_BARS_DOWN = (0.74, 0.66, 0.58, 0.82, 0.9, 0.98, 1.06, 1.14, 1.22, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2.0)
"""How far under its cap a leaning stem may have its bars, over the width of a cell."""


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A stitch with its marks, and where the middle of its tops is, in mm."""

    row: int
    placed: PlacedStitch
    x: float
    marks: tuple[Mark, ...]
    box: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Window:
    """The part of a chart in one block: rows from ``first`` up to ``end``, x from ``left`` to ``right``.

    The ``again`` rows under the first have been shown before; they are drawn so that what reaches down is
    seen whole.
    """

    first: int
    end: int
    left: float
    right: float
    again: int = 0

    @property
    def lowest(self) -> int:
        """The first row that is drawn."""
        return self.first - self.again


class StitchGrid:
    """A view of a chart in cells ``side`` mm wide, from which windows are cut."""

    def __init__(self, chart: Chart, view: ChartView, side: float) -> None:
        self.view = view
        self.layout = lay_out(view.rows, side)
        self._chart = chart
        self._repeats = stitch_repeats(chart, self.layout)
        self._stitches = _draw(self.layout)

    @property
    def extent(self) -> tuple[float, float]:
        """The left and right ends of the widest row, in mm."""
        edges = [self.layout.edges(row) for row in range(len(self.view.rows))]
        return min(left for left, _ in edges), max(right for _, right in edges)

    def whole(self) -> Window:
        """The window that shows the whole grid."""
        return Window(0, len(self.view.rows), *self.extent)

    def cuts(self, widest: float) -> list[tuple[float, float]]:
        """Ranges of x no wider than that, in mm, between which as few strokes pass as can be."""
        left, right = self.extent
        side = self.layout.side
        ranges: list[tuple[float, float]] = []
        while right - left > widest + 1e-6:
            number = -(-(right - left) // widest)
            even = (right - left) / number
            places = [left + side * step for step in range(1, int(widest / side) + 1)]
            near = [x for x in places if abs(x - left - even) <= 3.01 * side] or places[-1:]
            cut = min(near, key=lambda x: (self._passing(x), abs(x - left - even)))
            ranges.append((left, cut))
            left = cut
        return [*ranges, (left, right)]

    def _passing(self, x: float) -> int:
        return sum(each.box[0] < x < each.box[2] for each in self._stitches)

    def block(self, window: Window, heading: Sequence[str], part: str) -> Block:
        """The window under its heading, with labels of its rows and brackets of sections and stitch repeats.

        The heading is in lines; ``part`` says which part of the chart it is, if it is one.
        """
        block = Block()
        layout = self.layout
        shown = [
            each for each in self._stitches
            if window.lowest <= each.row < window.end and window.left <= each.x <= window.right
        ]  # fmt: skip
        if self._chart.colours:
            hatchings = ChartColours(
                self._chart, layout, [(each.row, each.placed, each.marks) for each in shown]
            )
            block.add("colour", self._name("hatching"), hatchings.of_fabric())
            for each, marks in zip(shown, hatchings.of_strands(), strict=True):
                if marks:
                    block.add("colour-between", self._stitch_name(each), marks)
        for row in range(window.lowest, window.end):
            block.add("cells", self._name(f"row-{row + 1}"), self._cells(row, window))
            edges = [x for each in self._repeats.common for x in each.edges] if self.view.across else ()
            meet = (*self._repeats.borders[row], *edges)
            if borders := [x for x in meet if window.left <= x <= window.right]:
                block.add("borders", self._name(f"row-{row + 1}"), self._borders(row, borders))
        for each in shown:
            kind = "stitch" if each.row >= window.first else "stitch-again"
            block.add(kind, self._stitch_name(each), each.marks)
        reach = _Reach(layout, window, shown)
        sides = [self._row_label(block, row, *reach.of(row)) for row in range(window.lowest, window.end)]
        left, right = min(side[0] for side in sides), max(side[1] for side in sides)
        floor = max(layout.foot(window.lowest), reach.floor) + _GAP
        block.add("side", "wrong side", [Text((left, floor + SMALL), "WS")])
        block.add("side", "right side", [Text((right, floor + SMALL), "RS", anchor="end")])
        self._add_sections(block, window, right + _GAP)
        self._add_repeats(block, self._repeats.common, window, floor)
        roof = min(layout.foot(window.end), *(each.box[1] for each in shown)) - _OVER
        above = [(line, True) for line in heading] + [(part, False)] * bool(part)
        block.add("view", " ".join(heading), [
            Text((left, roof - up * line_pitch(SMALL)), line, bold=bold)
            for up, (line, bold) in reversed(list(enumerate(reversed(above))))
        ])  # fmt: skip
        return block

    def _name(self, what: str) -> str:
        return f"w{self.view.stitches}-{what}"

    def _stitch_name(self, drawn: _Drawn) -> str:
        """Row, column, abbreviation and target, rows and columns counted from 1."""
        placed = drawn.placed
        name = self._name(f"r{drawn.row + 1}-c{placed.column + 1}-{placed.worked.abbreviation}")
        if target := placed.target:
            name += f"-at-r{target.row + 1}-c{target.column + 1}{'-surface' if target.surface else ''}"
        return name

    def _cells(self, row: int, window: Window) -> Iterator[Mark]:
        layout = self.layout
        for column in range(self.view.rows[row].stitch_count):
            if window.left <= layout.x(row, column) <= window.right:
                yield Area(cell_corners(layout, row, column), Pen.GRID)

    def _borders(self, row: int, xs: Sequence[float]) -> Iterator[Mark]:
        """Heavy lines between cells where a row's own repeats meet."""
        for x in xs:
            yield Line(((x, self.layout.foot(row)), (x, self.layout.foot(row + 1))), Pen.OUTLINE)

    def _row_label(self, block: Block, row: int, left: float, right: float) -> tuple[float, float]:
        """The row's number where it begins, an arrow, and its count where it ends; the ends of it all."""
        worked = self.view.rows[row]
        colours = "".join(dict.fromkeys(placed.worked.colour for placed in worked.stitches))
        number = f"{self.view.numbers[row]}{f' {colours}' if colours else ''}"
        y = (self.layout.foot(row) + self.layout.foot(row + 1)) / 2
        edge, end, outwards = (right, left, 1) if worked.side is Side.RIGHT else (left, right, -1)
        tip, tail = edge + outwards * _GAP, edge + outwards * (_GAP + _ARROW)
        start = tail + outwards * _LABEL_GAP
        begin, finish = ("start", "end") if outwards > 0 else ("end", "start")
        count = "" if self.view.across else f"[{worked.stitch_count}]"
        marks: list[Mark] = [
            Line(((tail, y), (tip, y)), Pen.THIN),
            arrowhead((tip, y), (tip - tail, 0.0)),
            Text((start, y + SMALL / 2), number, anchor=begin, bold=True),
            *([Text((end - outwards * _GAP, y + SMALL / 2), count, anchor=finish)] if count else []),
        ]
        block.add("row", self._name(f"row-{row + 1}"), marks)
        wide = text_width(number, SMALL, bold=True)
        outer = start + outwards * wide, end - outwards * (_GAP + text_width(count))
        return min(outer), max(outer)

    def _add_sections(self, block: Block, window: Window, x: float) -> None:
        if window.again:
            again = SectionShown(section=self.view.sections[0].section, first=window.lowest, end=window.first)
            block.add("section", self._name("again"), self._bracket(again, x, ["again"]))
        for each in self.view.sections:
            first, end = max(each.first, window.first), min(each.end, window.end)
            if first >= end:
                continue
            part = SectionShown(section=each.section, first=first, end=end)
            words = [each.section.words, *each.lines]
            block.add(
                "section", self._name(f"{each.section.words}-{each.first + 1}"), self._bracket(part, x, words)
            )

    def _bracket(self, part: SectionShown, x: float, words: Sequence[str]) -> Iterator[Mark]:
        low, high = self.layout.foot(part.first) - 0.5, self.layout.foot(part.end) + 0.5
        yield Line(((x, low), (x + _TICK, low), (x + _TICK, high), (x, high)), Pen.OUTLINE)
        lines = list(words)
        if len(words) * line_pitch(SMALL) > low - high:
            lines = [", ".join(words)] if len(words) == 2 else lines[:1]
        y = (low + high) / 2 + SMALL / 2 - (len(lines) - 1) * line_pitch(SMALL) / 2
        for number, line in enumerate(lines):
            yield Text((x + _TICK + _GAP, y + number * line_pitch(SMALL)), line)

    def _add_repeats(self, block: Block, repeats: Sequence[StitchRepeats], window: Window, y: float) -> None:
        taken = [float("-inf")] * 3
        for number, each in enumerate(repeats, start=1):
            left, right = max(each.edges[0], window.left), min(each.edges[-1], window.right)
            if right - left < self.layout.side / 2:
                continue
            inner = [x for x in each.edges[1:-1] if left < x < right] if each.unit > 1 else []
            marks: list[Mark] = [
                Line(((left, y), (left, y + _TICK), (right, y + _TICK), (right, y)), Pen.OUTLINE)
            ]
            marks += [Line(((x, y), (x, y + _TICK)), Pen.THIN) for x in inner]
            cut_off = right - left < each.edges[-1] - each.edges[0] - 0.01
            words = f"{in_sizes(self.view.across)} times" if self.view.across else each.words
            words = f"{words} in all" if cut_off else words
            width = text_width(words)
            middle = (left + right) / 2
            lane = next((lane for lane, end in enumerate(taken) if middle - width / 2 > end + _GAP), 2)
            taken[lane] = middle + width / 2
            at = middle, y + _TICK + _GAP + SMALL + lane * line_pitch(SMALL)
            marks.append(Text(at, words, anchor="middle"))
            block.add("stitch-repeat", self._name(f"stitch-repeat-{number}"), marks)


class _Reach:
    """How far the strokes of a window go to the left and right at the height of each row."""

    def __init__(self, layout: ChartLayout, window: Window, shown: Sequence[_Drawn]) -> None:
        self._ends: dict[int, tuple[float, float]] = {}
        for row in range(window.lowest, window.end):
            left, right = layout.edges(row)
            self._ends[row] = max(left, window.left), min(right, window.right)
        self.floor = layout.foot(window.lowest)
        for each in shown:
            left, top, right, bottom = each.box
            self.floor = max(self.floor, bottom)
            for row in range(window.lowest, window.end):
                if top < layout.foot(row) and bottom > layout.foot(row + 1):
                    ends = self._ends[row]
                    self._ends[row] = min(ends[0], left), max(ends[1], right)

    def of(self, row: int) -> tuple[float, float]:
        return self._ends[row]


def _draw(layout: ChartLayout) -> list[_Drawn]:
    """Every stitch of the piece, what lies behind broken by what lies in front; those in front come last."""
    stitches = [
        (number, placed, _layer(layout, number, placed, order))
        for number, row in enumerate(layout.rows)
        for order, placed in enumerate(row.stitches) if placed.worked.stitch.symbol
    ]  # fmt: skip
    stems = Stems([layer for *_, layer in stitches])
    stitches = [
        (number, placed, replace(layer, marks=stems.clear(layer, _bar_heights(layout, number, placed))))
        if layer.reaches and (placed.worked.surface or layout.leans(number, placed))
        else (number, placed, layer)
        for number, placed, layer in stitches
    ]  # fmt: skip
    cut = broken([layer for _, _, layer in stitches])
    drawn = [
        (
            layer.level,
            _Drawn(
                number, placed, layout.stance(number, placed).top[0], marks, bounds([Group("", "", marks)])
            ),
        )
        for (number, placed, layer), marks in zip(stitches, cut, strict=True)
    ]
    return [each for _, each in sorted(drawn, key=lambda pair: pair[0])]


def _marks(layout: ChartLayout, row: int, placed: PlacedStitch, stance: Stance) -> tuple[Mark, ...]:
    stitch, side = placed.worked.stitch, layout.rows[row].side
    return symbol_marks(
        seen_symbol(stitch.symbol, side), seen_loop(placed.worked.loop, side), stance, stitch.abbreviation
    )  # fmt: skip


def _bar_heights(layout: ChartLayout, row: int, placed: PlacedStitch) -> Iterator[tuple[Mark, ...]]:
    """The marks with their bars higher or lower on the stem, best first."""
    stance = layout.stance(row, placed)
    for down in _BARS_DOWN:
        yield _marks(layout, row, placed, replace(stance, bars_down=down * layout.side))


def _layer(layout: ChartLayout, row: int, placed: PlacedStitch, order: int) -> Layer:
    """Stitches that reach down lie over the fabric; round back posts, as seen from the right side, behind."""
    worked, side = placed.worked, layout.rows[row].side
    passing = seen_passing(placed.passing, side)
    far = placed.target is not None and (worked.rows_below > 1 or worked.surface)
    level = 1.0
    if far:
        kinds = {stroke.kind for stroke in seen_symbol(worked.stitch.symbol, side)}
        behind = StrokeKind.HOOK_LEFT in kinds if worked.stitch.post else False
        level = 0.0 if behind else 2.0
    if passing:
        level += (0.2 + order / 10_000) * (1 if passing is Passing.FRONT else -1)
    place = Target(row=row, column=placed.column, surface=worked.surface)
    reaches = far or passing is not None or layout.leans(row, placed)
    return Layer(
        _marks(layout, row, placed, layout.stance(row, placed)), level, place, placed.target, reaches
    )
