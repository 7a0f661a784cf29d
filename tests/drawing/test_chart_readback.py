"""Drawn charts read back: every stitch where a maker who works the panel by hand has it, and its foot too."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import product

import pytest

from schematics.drawing.ink.sheet import A4, LETTER, Paper
from tests.crochet.panels import PANELS
from tests.crochet.panels.by_hand import Made, Row, Step, Token
from tests.crochet.panels.panel import Panel
from tests.drawing.audit_layout import layout_faults
from tests.drawing.chart_sheets import SVG, Box, Drawn, Symbol, drawn, slug, with_fabric
from tests.drawing.readback import read_page
from tests.examples import seeds, thorough
from tests.shipped import shipped_design, shipped_results

each_panel = pytest.mark.parametrize(
    "panel",
    [
        pytest.param(panel, marks=[pytest.mark.seeds, *([pytest.mark.slow] if at % 5 else [])])
        for at, panel in enumerate(PANELS)
    ],
    ids=lambda panel: panel.name.replace(" ", "-"),
)


@cache
def _drawn_panel(name: str, paper: Paper) -> Drawn:
    design, results = shipped_design("tidepool"), shipped_results("tidepool")[:1]
    (panel,) = [each for each in PANELS if each.name == name]
    rows = len(panel.setup) + 2 * len(panel.repeat) + len(panel.closing)
    counts = [(width, rows) for width in widths(panel)]
    return drawn(with_fabric(design, panel.fabric, counts), results, paper)


def widths(panel: Panel) -> list[int]:
    """All by `make fuzz`, else the widest."""
    return [*panel.counts] if thorough() else [max(panel.counts)]


def drawn_panel(panel: Panel, paper: Paper = A4) -> Drawn:
    """The panel in its widths, with its repeat worked twice."""
    return _drawn_panel(panel.name, paper)


def by_hand(panel: Panel, width: int, symbols: list[Symbol]) -> list[Row]:
    """As many rows as are drawn, worked by hand."""
    rows = max(symbol.row for symbol in symbols)
    repeats, over = divmod(rows - len(panel.setup) - len(panel.closing), len(panel.repeat))
    assert over == 0
    return list(panel.worked_by_hand(width, repeats))


def worked(row: Row) -> Iterator[tuple[Step, list[Made], int]]:
    """Each step with what it made, and the first column over which it stands."""
    made = list(row.made)
    for step in row.steps:
        own, made = made[: step.token.makes], made[step.token.makes :]
        beside = own or made[:1] or row.made[-1:]
        yield step, own, min(each.column for each in beside)


def abbreviation(token: Token) -> str:
    parts = ["surface" if token.surface else "", token.name, token.loop]
    return " ".join([*filter(None, parts), *([f"{token.depth} rows below"] if token.depth > 1 else [])])


@pytest.mark.slow
@each_panel
def test_the_stitches_are_those_worked_by_hand(panel: Panel) -> None:
    sheets = drawn_panel(panel)
    for width in widths(panel):
        symbols = sheets.symbols(width)
        read = sorted((each.row, each.column, each.slug, each.target) for each in symbols)
        expected = [
            (number, column + 1, slug(abbreviation(step.token)),
             (step.round.row + 1, step.round.column + 1) if step.round else None)
            for number, row in enumerate(by_hand(panel, width, symbols), start=1)
            for step, _, column in worked(row)
        ]  # fmt: skip
        assert read == sorted(expected, key=lambda each: each[:3])


@each_panel
def test_counts_stand_at_the_ends_and_numbers_at_the_beginnings_of_rows(panel: Panel) -> None:
    sheets = drawn_panel(panel)
    for width in widths(panel):
        page = sheets.page(width)
        rows = by_hand(panel, width, sheets.symbols(width))
        for number, row in enumerate(rows, start=1):
            group = page.groups("row")[f"row-w{width}-row-{number}"]
            name, count = (
                (text.text or "", float(text.attrib["x"].split()[0])) for text in group.iter(f"{SVG}text")
            )
            cells = page.cells(width, number)
            assert count[0] == f"[{len(row.made)}]"
            assert len(cells) == len(row.made)
            left, right = cells[0][0], cells[-1][2]
            begins, ends = name[1], count[1]
            assert (begins > right and ends < left) if row.right else (begins < left and ends > right)


@each_panel
def test_tops_stand_over_their_columns_and_feet_where_they_are_worked(panel: Panel) -> None:
    """From the strokes alone: the highest tells the column, the lowest the row and column of the foot.

    What goes round a stitch on the surface does so where it lies, half a cell towards the row's beginning.
    """
    sheets = drawn_panel(panel)
    for width in widths(panel):
        page = sheets.page(width)
        symbols = {(each.row, each.column, each.slug): each for each in page.symbols(width)}
        rows = by_hand(panel, width, list(symbols.values()))
        cells = [page.cells(width, number) for number in range(1, len(rows) + 1)]
        for number, row in enumerate(rows, start=1):
            for step, own, column in worked(row):
                symbol = symbols[number, column + 1, slug(abbreviation(step.token))]
                if own:
                    expected = _mean(cells[number - 1], [each.column for each in own])
                    side = cells[0][0][2] - cells[0][0][0]
                    assert symbol.middle(low=False)[0] == pytest.approx(expected, abs=0.1 * side), symbol
                if step.token.name not in ("ch", "picot"):
                    _check_foot(step, symbol, number, cells)


def _check_foot(step: Step, symbol: Symbol, number: int, cells: list[list[Box]]) -> None:
    x, y = symbol.middle(low=True)
    into = [step.round] if step.round and len(step.into) < 2 else step.into
    below = into[0].row
    if below < 0:
        return
    side = cells[0][0][2] - cells[0][0][0]
    reached = next(place for place, row in enumerate(cells) if row[0][1] - 0.01 <= y <= row[0][3] + 0.01)
    own = reached == number - 1
    assert reached == below or (own and below == number - 2), symbol
    columns = sorted({each.column for each in into})
    if "tog" in symbol.slug and not step.token.loop and not step.round:
        feet = sorted({_nearest(cells[below], each) for each in symbol.ends(low=True)})
        assert feet == columns
        return
    beside = side / 2 if symbol.on_surface else 0.0
    assert x - beside == pytest.approx(_mean(cells[below], columns), abs=0.45 * side), symbol


def _mean(row: list[Box], columns: list[int]) -> float:
    return sum((row[column][0] + row[column][2]) / 2 for column in columns) / len(columns)


def _nearest(row: list[Box], x: float) -> int:
    return min(range(len(row)), key=lambda column: abs((row[column][0] + row[column][2]) / 2 - x))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("panel", "paper"),
    seeds([*product(PANELS, (A4, LETTER))]),
    ids=lambda each: each.name.replace(" ", "-"),
)
def test_nothing_touches_a_label_and_nothing_is_left_out(panel: Panel, paper: Paper) -> None:
    for page in drawn_panel(panel, paper).pages:
        assert layout_faults(read_page(page.svg)) == []
        assert page.sheet.unplaced == ()
