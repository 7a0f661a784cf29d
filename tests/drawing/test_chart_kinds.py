"""Chart sheets of what the shipped ripple has not: cables, tapers, colours, odd repeats, own stitches."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from shapely import LineString

from schematics.crochet.charts.chart import Chart, Side
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.fabric import CountRule
from schematics.crochet.stitch_list import TRADE
from schematics.crochet.stitches import Height, Stitch
from schematics.crochet.symbols import read_symbol
from schematics.drawing.charts.panel_chart import SMALLEST_CELL
from tests.drawing.audit_layout import layout_faults
from tests.drawing.chart_sheets import ANY, SVG, Worked, box_of, chart_of, drawn, points, with_chart
from tests.drawing.readback import read_page
from tests.shipped import shipped_design, shipped_results

WIDE = (
    "sc, ((2 FPtr 2 rows below round posts 5 and 6, 2 sc, 2 FPtr 2 rows below round posts 1 and 2 in front), "
    "2 sc) across, sc"
)


@pytest.mark.slow
def test_a_wide_and_long_chart_goes_on_over_several_sheets_and_nothing_is_left_out(
    tidepool: Worked,
) -> None:
    design, results = tidepool
    chart = chart_of(*[WIDE, "sc across"] * 7, setup=("sc across", "sc across"))
    sheets = drawn(with_chart(design, chart, CountRule(multiple=8, plus=2), (74, 1)), results[:1])
    places = sorted((each.row, each.column) for each in sheets.symbols(74))
    assert places == [(row, column) for row in range(1, 17) for column in range(1, 75)]
    assert len(sheets.pages) == 4
    for page in sheets.pages:
        assert layout_faults(read_page(page.svg)) == []
        widths = [cell[2] - cell[0] for row in range(1, 17) for cell in page.cells(74, row)]
        assert min(widths, default=SMALLEST_CELL) >= SMALLEST_CELL - 0.001
        own, again = list(page.symbols(74)), list(page.symbols(74, "stitch-again"))
        reached = {each.target[0] for each in own if each.target}
        assert reached <= {each.row for each in (*own, *again)}


CABLE = (
    "4 sc, (2 FPtr 2 rows below round posts 5 and 6, 2 sc, 2 FPtr 2 rows below round posts 1 and 2 {}), 4 sc",
    "14 sc",
)


@pytest.mark.parametrize(("passing", "front"), [("in front", {5, 6}), ("behind", {9, 10})])
def test_what_passes_behind_is_broken_and_what_passes_in_front_is_whole(
    tidepool: Worked, passing: str, front: set[int]
) -> None:
    """Row 3 is worked from right to left: columns 10 and 9 first, round 6 and 5; the others over them."""
    design, results = tidepool
    chart = chart_of(*(row.format(passing) for row in CABLE), setup=("14 sc", "14 sc"))
    sheets = drawn(with_chart(design, chart, CountRule.exactly(14), (14, 2)), results)
    posts = {each.column: each for each in sheets.symbols(14) if each.slug.startswith("FPtr")}
    assert {column: posts[column].target for column in posts} == {
        5: (1, 9),
        6: (1, 10),
        9: (1, 5),
        10: (1, 6),
    }
    lines = {
        column: [LineString(path) for _, path in post.paths if LineString(path).length > 1.6]
        for column, post in posts.items()
    }
    longest = {column: max(line.length for line in each) for column, each in lines.items()}
    whole = {column for column in posts if longest[column] > 0.9 * max(longest.values())}
    assert whole == front
    for over in front:
        stem = max(lines[over], key=lambda line: line.length)
        for under in posts.keys() - front:
            assert all(stem.distance(line) > 0.5 for line in lines[under])


def test_a_taper_steps_in_at_both_edges_and_is_drawn_in_full(tidepool: Worked) -> None:
    design, results = tidepool
    chart = replace(chart_of("sc2tog, sc across, sc2tog", "sc across", setup=("sc across",)), adds=(0, -2, 0))
    sheets = drawn(with_chart(design, chart, ANY, (14, 4)), results)
    page = sheets.page(14)
    ends = [(row[0][0], row[-1][2]) for row in (page.cells(14, number) for number in range(1, 10))]
    side = page.cells(14, 1)[0][2] - ends[0][0]
    left = [round((end[0] - ends[0][0]) / side, 3) for end in ends]
    right = [round((ends[0][1] - end[1]) / side, 3) for end in ends]
    assert left == right == [0, 1, 1, 2, 2, 3, 3, 4, 4]
    assert [text for text in page.texts("section") if "of" in text] == [
        f"{each} of 4" for each in (1, 2, 3, 4)
    ]
    assert "stitches at the top: 6" in sheets.texts("chart-sizes")
    assert [text for text in page.texts("row") if text.isdigit()] == [str(row) for row in range(1, 10)]


def test_rows_have_the_same_numbers_beside_them_and_in_words(tidepool: Worked) -> None:
    """Closing rows after a repeat that keeps the width have two; after one that tapers, the rows' "
    "own alone."""
    design, results = tidepool
    level = chart_of("sc across", "hdc across", setup=("sc across",), closing=("dc across",))
    tapered = replace(level, repeat=chart_of("sc2tog, sc across", "hdc across").repeat, adds=(0, -1, 0))
    for chart, beside, words in (
        (level, ["1", "2", "3", "4"], "Row 8 (WS), chart row 4: dc in each st to end."),
        (tapered, [str(row) for row in range(1, 9)], "Row 8 (WS): dc in each st to end."),
    ):
        one = replace(design, sizes=design.sizes[:1])
        sheets = drawn(with_chart(one, chart, ANY, (9, 3)), results[:1])
        assert [text for text in sheets.texts("row") if text.isdigit()] == beside
        assert words in " ".join(sheets.texts("chart-rows"))


def test_a_growing_panel_stands_over_what_it_grows_from(tidepool: Worked) -> None:
    design, results = tidepool
    chart = replace(
        chart_of("2 dc in next st, dc across, 2 dc in next st", "dc across", setup=("dc across",)),
        adds=(0, 2, 0),
    )
    page = drawn(with_chart(design, chart, ANY, (6, 2)), results).page(6)
    first, second = page.cells(6, 1), page.cells(6, 2)
    assert len(second) == 8
    assert [cell[0] for cell in second[1:-1]] == pytest.approx([cell[0] for cell in first], abs=0.003)


def test_colours_are_told_by_the_way_of_their_hatching_as_well(tidepool: Worked) -> None:
    """The first is plain; the others have lines at angles of their own, in the chart and in the key."""
    design, results = tidepool
    rows = [parse_row(f"with {letter}, sc across", colours=frozenset("ABC")) for letter in "ABC"]
    colours = (("A", "sand"), ("B", "sea"), ("C", "night"))
    chart = Chart(repeat=(*rows, rows[0]), colours=colours, carried=False)
    sheets = drawn(with_chart(design, chart, ANY, (8, 1)), results)
    page = sheets.page(8)
    (hatching,) = page.groups("colour").values()
    angles: dict[int, set[int]] = {row: set() for row in (1, 2, 3, 4)}
    for path in hatching.iter(f"{SVG}path"):
        (x0, y0), (x1, y1) = points(path)
        if math.dist((x0, y0), (x1, y1)) < 1:
            continue
        row = next(
            each for each in angles if page.cells(8, each)[0][1] <= (y0 + y1) / 2 <= page.cells(8, each)[0][3]
        )
        angles[row].add(round(math.degrees(math.atan2(y1 - y0, x1 - x0))) % 180)
    assert (angles[1], angles[4]) == (set(), set())
    assert len(angles[2]) == len(angles[3]) == 1
    assert angles[2] != angles[3]
    for name, row in (("A", 1), ("B", 2), ("C", 3)):
        box, *lines = [points(path) for path in sheets.groups("key")[f"key-colour-{name}"].iter(f"{SVG}path")]
        assert len(box) == 4
        long = [(a, b) for a, b in lines if math.dist(a, b) > 1]
        ways = {round(math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))) % 180 for a, b in long}
        assert ways == angles[row]
    assert [each for each in sheets.key().items() if each[0] in "ABC"] == list(colours)
    assert {"1 A", "2 B", "3 C"} <= set(page.texts("row"))
    assert "C is night; cut the yarn at each change." in " ".join(sheets.texts("chart-rows"))


def test_a_panel_that_begins_on_the_wrong_side_is_read_from_the_left_first(tidepool: Worked) -> None:
    design, results = tidepool
    chart = replace(chart_of("sc, (dc, hdc) across", "sc across"), first_side=Side.WRONG)
    sheets = drawn(with_chart(design, chart, CountRule(multiple=2, plus=1), (7, 1)), results)
    names = [each.slug for each in sorted(sheets.symbols(7), key=lambda each: each.column) if each.row == 1]
    assert names == ["sc", *["dc", "hdc"] * 3]
    assert "Row 1 (WS): sc, [dc, hdc] to end; turn." in " ".join(sheets.texts("chart-rows"))


def test_a_repeat_of_odd_rows_is_drawn_from_either_side(tidepool: Worked) -> None:
    design, results = tidepool
    chart = chart_of("sc, (dc, hdc) across", setup=("sc across",), closing=("sc across",))
    for repeats, shown in ((1, 1), (2, 2), (4, 2), (5, 3)):
        sheets = drawn(with_chart(design, chart, CountRule(multiple=2, plus=1), (7, repeats)), results)
        rows = {
            number: [each.slug for each in sheets.symbols(7) if each.row == number] for number in range(1, 7)
        }
        assert len([row for row in rows.values() if row]) == 2 + shown
        if shown > 1:
            by_column = {(each.row, each.column): each.slug for each in sheets.symbols(7)}
            second = [by_column[2, column] for column in range(1, 8)]
            third = [by_column[3, column] for column in range(1, 8)]
            assert second == third[::-1]
        assert "The repeat has an odd number of rows:" in " ".join(sheets.texts("chart-heading"))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("(sk, ch) across", "A skipped stitch has nothing worked into it"),
        ("(sc 2 rows below, sc) across", "however far down"),
        ("hdc blo across", "the back loop has the arc of the front loop"),
        ("(dc in st 2, dc in st 1 behind) across", "what is worked in front passes behind"),
        ("(7-dc bo, sc) across", "A figure in a symbol"),
        ("(FPdc, surface FPtr, hdc) across", "Surface stitches lie on the fabric"),
    ],
)
def test_what_a_reader_must_know_is_said_where_it_is_so(
    tidepool: Worked, said_of_tidepool: str, row: str, words: str
) -> None:
    design, results = tidepool
    chart, rule = chart_of("hdc across", row, setup=("hdc across",) * 2), CountRule(multiple=2)
    said = drawn(with_chart(design, chart, rule, (8, 2)), results).texts("chart-heading")
    assert words in " ".join(said)
    assert words not in said_of_tidepool


@pytest.fixture(scope="module")
def said_of_tidepool() -> str:
    design, results = shipped_design("tidepool"), shipped_results("tidepool")[:1]
    return " ".join(drawn(design, results).texts("chart-heading"))


def test_own_stitches_are_drawn_from_their_strokes_and_stand_in_the_key(tidepool: Worked) -> None:
    design, results = tidepool
    own = Stitch(
        abbreviation="knot",
        words="a knot",
        symbol=read_symbol("letter"),
        height=Height.NONE,
        definition="knot",
    )
    book = TRADE.with_own([own])
    chart = Chart(repeat=(parse_row("(sc, knot) across", book), parse_row("sc across", book)))
    sheets = drawn(with_chart(design, chart, CountRule(multiple=2), (8, 2)), results)
    assert sheets.key()["knot"] == "knot a knot"
    assert [each.slug for each in sheets.symbols(8) if each.row == 1].count("knot") == 4


@pytest.mark.slow
def test_strands_on_the_surface_show_their_own_colour_between_stitches_of_another(tidepool: Worked) -> None:
    """Read back: in each row, which colour hatches each cell, and each narrow cell of a strand."""
    design, results = tidepool
    letters = frozenset("ABC")
    rows = [
        parse_row("with A, sc across", colours=letters),
        parse_row("with B, sc across", colours=letters),
        parse_row(
            "with A, sc, (with A, sc, with C, surface FPdc 2 rows below, with A, sc) across, sc",
            colours=letters,
        ),
        parse_row("with C, sc across", colours=letters),
    ]
    colours = (("A", "sand"), ("B", "sea"), ("C", "night"))
    rule = CountRule(multiple=2, plus=2)
    sheets = drawn(with_chart(design, Chart(repeat=tuple(rows), colours=colours), rule, (10, 1)), results)
    page = sheets.page(10)
    key = {
        name: {way(path) for path in group.iter(f"{SVG}path")} - {None}
        for name in "ABC" for group in [sheets.groups("key")[f"key-colour-{name}"]]
    }  # fmt: skip
    assert key["A"] == set()
    strands = page.groups("colour-between")
    assert len(strands) == 4
    for name, group in strands.items():
        assert "-r3-" in name
        outline, *lines = group.iter(f"{SVG}path")
        box = box_of(points(outline))
        assert {way(line) for line in lines} - {None} == key["C"]
        assert all(box[0] - 0.01 <= x <= box[2] + 0.01 for line in lines for x, _ in points(line))
    (fabric,) = page.groups("colour").values()
    low, high = page.cells(10, 3)[0][1], page.cells(10, 3)[0][3]
    assert not [path for path in fabric.iter(f"{SVG}path") if all(low < y < high for _, y in points(path))]
    assert "3 AC" in page.texts("row")
    facts = " ".join(sheets.texts("chart-heading"))
    assert "A stitch between others has a narrow cell of its own for it." in facts


def way(path: ET.Element) -> int | None:
    """The angle of a stroke, in degrees; None if it is short or no single stroke."""
    ends = points(path)
    if len(ends) != 2 or math.dist(*ends) < 0.6:
        return None
    (x0, y0), (x1, y1) = ends
    return round(math.degrees(math.atan2(y1 - y0, x1 - x0))) % 180
