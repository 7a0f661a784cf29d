"""Marks of charts that a reader has to tell apart: heads from hooks, back from front, repeats."""

from __future__ import annotations

from itertools import pairwise

import pytest
from shapely import LineString, MultiLineString

from schematics.crochet.fabric import CountRule
from schematics.drawing.charts.panel_chart import SMALLEST_FLAT_CELL
from schematics.drawing.ink.marks import STROKES, Pen
from schematics.drawing.ink.sheet import A4, LETTER, Paper
from tests.drawing.audit_layout import layout_faults
from tests.drawing.chart_sheets import SVG, Drawn, Symbol, Worked, chart_of, drawn, points, with_chart
from tests.drawing.readback import read_page
from tests.examples import seeds

PEN = STROKES[Pen.SYMBOL].width
WHITE = 0.25
"""At 60 %: 0.15 mm, nearly two dots of 300 to the inch."""


def chart(tidepool: Worked, rule: CountRule, stitches: int, *rows: str, setup: tuple[str, ...]) -> Drawn:
    design, results = tidepool
    return drawn(with_chart(design, chart_of(*rows, setup=setup), rule, (stitches, 1)), results[:1])


def stem(symbol: Symbol) -> LineString:
    return max((LineString(path) for _, path in symbol.paths), key=lambda line: line.length)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("setup", "row", "post"),
    [
        *[(("sc across",), "(3 sc, 2 {} 2 rows below, 3 sc) across", post)
          for post in ("FPdc", "FPtr", "FPdtr", "BPtr")],
        *[(("sl st blo across",) * 4, "(4 sl st blo, surface {}, 4 sl st blo) across", post)
          for post in ("FPdc", "FPtr", "FPdtr")],
    ],
)  # fmt: skip
def test_the_hook_of_a_post_is_clear_of_cap_and_bars_of_the_one_below(
    tidepool: Worked, setup: tuple[str, ...], row: str, post: str
) -> None:
    plain = setup[0]
    first = "tr flo 3 rows below" if "surface" in row else post
    lowest = row.format(first) if "surface" in row else plain
    worked = row.format(f"{post} 2 rows below" if "surface" in row else post)
    rows = [plain, worked] * 3
    sheets = chart(tidepool, CountRule(multiple=8), 16, *rows, setup=(*setup, lowest))
    posts = {(each.row, each.column): each for each in sheets.symbols(16) if post in each.slug}
    stacked = [(each, posts[each.target]) for each in posts.values() if each.target in posts]
    assert len(stacked) == 2 * len(posts) / 3 > 0
    for upper, lower in stacked:
        others = [LineString(path) for _, path in lower.paths if LineString(path) != stem(lower)]
        assert len(others) == 1 + {"FPdc": 1, "FPtr": 2, "BPtr": 2, "FPdtr": 3}[post]
        assert stem(upper).distance(MultiLineString(others)) >= PEN + WHITE
        assert stem(upper).intersects(stem(lower))
        end = stem(upper).coords[-1]
        assert end[1] > max(y for x, y in min((other.coords for other in others), key=lambda c: c[0][1]))


@pytest.mark.parametrize("number", [1, 2, 3])
def test_back_strokes_are_broken_once_for_each_in_front_and_keep_their_caps(
    tidepool: Worked, number: int
) -> None:
    """Every stroke of one half of the crossing meets every stroke of the other, once."""
    first, last = ("posts", f"{number + 1} to {2 * number}"), ("posts", f"1 to {number}")
    words = [f"round {'post' if number == 1 else a} {b.split(' to ')[0] if number == 1 else b}"
             for a, b in (first, last)]  # fmt: skip
    row = (
        f"2 sc, ({number} FPtr 2 rows below {words[0]}, {number} FPtr 2 rows below {words[1]} in front), 2 sc"
    )
    width = 4 + 2 * number
    plain = f"{width} sc"
    sheets = chart(tidepool, CountRule.exactly(width), width, row, plain, setup=(plain, plain))
    posts = [each for each in sheets.symbols(width) if each.slug.startswith("FPtr")]
    pieces = []
    for post in posts:
        lines = [LineString(path) for _, path in post.paths]
        level = [line for line in lines if line.bounds[1] == line.bounds[3]]
        assert [round(cap.length, 2) for cap in level] == [round(level[0].length, 2)]
        bars = 2
        pieces.append(len(lines) - len(level) - bars)
    assert sorted(pieces) == [1] * number + [number + 1] * number


def borders(sheets: Drawn, width: int) -> dict[int, list[float]]:
    """Heavy lines of each row, in cells from the left edge of row 1."""
    page = sheets.page(width)
    left, _, right, _ = page.cells(width, 1)[0]
    return {
        int(name.rsplit("-", 1)[1]): sorted(
            round((points(path)[0][0] - left) / (right - left), 2) for path in group.iter(f"{SVG}path")
        )
        for name, group in page.groups("borders").items()
    }


def test_a_bracket_stands_for_all_rows_only_where_it_is_true_of_all(tidepool: Worked) -> None:
    """Rows of one stitch all across leave it true; another edge, or another repeat, do not."""
    rule, row = CountRule(multiple=4, plus=2), "dc, (2 FPdc, 2 dc) across, dc"
    same = chart(tidepool, rule, 10, row, "dc across", row, "dc across", setup=("dc across",))
    assert (same.texts("stitch-repeat"), borders(same, 10)) == (["2 times"], {})
    other = chart(tidepool, rule, 10, row, "2 dc, (2 FPdc, 2 dc) across", setup=("dc across",))
    assert other.texts("stitch-repeat") == []
    assert borders(other, 10) == {2: [1, 5, 9], 3: [0, 4, 8]}
    assert "Heavy lines" in " ".join(other.texts("chart-heading"))
    assert "Heavy lines" not in " ".join(same.texts("chart-heading"))


def test_repeats_of_a_row_are_counted_in_the_stitches_it_makes(tidepool: Worked) -> None:
    """Two stitches become three in row 2, and three become two in row 3."""
    sheets = chart(tidepool, CountRule(multiple=2), 6, "(dc, 2 dc in next st) across", "(dc, dc2tog) across",
                   setup=("dc across",))  # fmt: skip
    page = sheets.page(6)
    assert [len(page.cells(6, row)) for row in (1, 2, 3)] == [6, 9, 6]
    for row, each in ((2, 3), (3, 2)):
        edges = [*[cell[0] for cell in page.cells(6, row)][::each], page.cells(6, row)[-1][2]]
        group = page.groups("borders")[f"borders-w6-row-{row}"]
        xs = sorted(points(path)[0][0] for path in group.iter(f"{SVG}path"))
        assert xs == pytest.approx(edges, abs=0.003)
    assert sheets.texts("stitch-repeat") == []


def test_increases_and_decreases_stand_over_their_feet(tidepool: Worked) -> None:
    """Of two that make up for one another, each is midway over what it goes into."""
    sheets = chart(tidepool, CountRule(multiple=4), 12, "(sc3tog, 3 sc in next st) across", "sc across",
                   setup=("sc across",))  # fmt: skip
    cells = sheets.page(12).cells(12, 2)
    for each in sheets.symbols(12):
        if each.row == 2 and each.slug == "sc3tog":
            xs = [x for x, _ in each.points]
            left, _, right, _ = cells[each.column - 1]
            assert (min(xs) + max(xs)) / 2 == pytest.approx((left + right) / 2, abs=0.01)
            crosses = [path for _, path in each.paths if LineString(path).length < 0.5 * (right - left)]
            assert len(crosses) == 3


def test_a_row_in_which_few_stitches_move_stands_on_the_one_below(tidepool: Worked) -> None:
    """A decrease beside an increase among 11 plain stitches, again and again: the piece stays upright."""
    rows = ("4 sc, sc2tog, 2 sc in next st, 7 sc", "14 sc") * 3
    sheets = chart(tidepool, CountRule.exactly(14), 14, *rows, setup=("14 sc",))
    lefts = {round(sheets.page(14).cells(14, row)[0][0], 2) for row in range(1, 8)}
    assert len(lefts) == 1


@pytest.mark.parametrize("spike", ["sc 2 rows below", "sc 3 rows below", "dc 3 rows below"])
def test_a_spike_passes_beside_the_stitches_it_covers_and_ends_over_its_own(
    tidepool: Worked, spike: str
) -> None:
    row = f"sc, ({spike}, 3 sc) across, sc"
    sheets = chart(tidepool, CountRule(multiple=4, plus=2), 10, row, setup=("sc across",) * 3)
    symbols = {(each.row, each.column): each for each in sheets.symbols(10)}
    spikes = [each for each in symbols.values() if each.target]
    assert len(spikes) == 2
    for each in spikes:
        assert each.target
        low, column = each.target
        line = stem(each)
        for between in range(low, each.row):
            covered = MultiLineString([path for _, path in symbols[between, column].paths])
            assert line.distance(covered) >= PEN + WHITE
        left, top, right, _ = sheets.page(10).cells(10, low)[column - 1]
        x, y = line.coords[-1]
        assert x == pytest.approx((left + right) / 2, abs=0.01)
        assert top < y < symbols[low, column].middle(low=False)[1]


def test_rows_that_move_to_one_side_stay_near_the_foundation(tidepool: Worked) -> None:
    rows = ("dc, (3 dc in next st, dc3tog) across", "dc, (dc3tog, 3 dc in next st) across") * 3
    sheets = chart(tidepool, CountRule(multiple=4, plus=1), 9, *rows, setup=("dc across",))
    cells = [sheets.page(9).cells(9, row)[0] for row in range(1, 8)]
    side = cells[0][2] - cells[0][0]
    moved = [round((cell[0] - cells[0][0]) / side, 2) for cell in cells]
    assert {abs(upper - lower) for lower, upper in pairwise(moved)} <= {0, 1}
    assert moved == [0, -1, -2, -2, -2, -2, -2]


def test_what_is_worked_in_a_space_ends_below_the_chain_and_what_is_in_the_chain_above_it(
    tidepool: Worked,
) -> None:
    mesh = "sc, (ch, sk, sc) across"
    for row, below in (("sc, (sc in ch-1 sp, sc) across", True), ("sc across", False)):
        sheets = chart(tidepool, CountRule(multiple=2, plus=1), 9, mesh, row, setup=("sc across",))
        symbols = {(each.row, each.column): each for each in sheets.symbols(9)}
        for column in (2, 4, 6, 8):
            chain, above = symbols[2, column], symbols[3, column]
            assert chain.slug == "ch"
            edge = max(y for _, y in chain.points) if below else min(y for _, y in chain.points)
            foot = max(y for _, y in above.points)
            assert (foot > edge + PEN + WHITE) == below
            assert (foot < edge - PEN - WHITE) == (not below)
        assert ("goes round the chain" in " ".join(sheets.texts("chart-heading"))) == below


STRAND = "sl st blo across, 3 sl st blo, {}, sl st blo, {}, 4 sl st blo, sl st blo across"


@pytest.mark.slow
@pytest.mark.parametrize(("paper", "most"), seeds([(A4, 4), (LETTER, 6)]))
def test_charts_of_many_widths_are_packed_and_the_key_is_with_the_first(
    tidepool: Worked, paper: Paper, most: int
) -> None:
    """Four widths of twenty rows: on A4 two to a page but for the first, beside which the key is."""
    design, results = tidepool
    plain, post = "sl st blo across", STRAND.format(*["surface FPtr 2 rows below"] * 2)
    setup = (*[plain] * 4, STRAND.format(*["surface tr flo 3 rows below"] * 2), plain)
    rows = chart_of(*[post, plain] * 7, setup=setup)
    widths = (16, 20, 26, 30)
    packed = with_chart(design, rows, CountRule(multiple=2, plus=8), *[(width, 2) for width in widths])
    sheets = drawn(packed, results, paper)
    assert sheets.pages[0].groups("key")
    assert len(sheets.pages) <= most
    for page in sheets.pages:
        assert layout_faults(read_page(page.svg)) == []
        assert page.sheet.unplaced == ()
    for width in widths:
        assert len([each for each in sheets.symbols(width) if "surface" not in each.slug]) == 20 * width
        cell = sheets.page(width).cells(width, 1)[0]
        assert cell[2] - cell[0] >= SMALLEST_FLAT_CELL - 0.001
