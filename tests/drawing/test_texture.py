"""Ridges, rows, increases and joined edges on the pieces sheet, read back from the SVG."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from shapely import LineString, union_all
from shapely import Point as ShapelyPoint

from schematics.drawing.ink.texture import LEAST_APART, every_nth, nth_words
from tests.drawing.readback import Page, Stroke
from tests.drawing.test_patterned import FLARED, FOLDED, PANEL, drawn, of_piece
from tests.specs_for_tests import SPEC

LINES = SPEC.replace("hem: 176, rows: 30}", "hem: 180, rows: 30, increase_every: 2, increase_until: 24}")
"""The 60 stitches of the neck grow by 10 on rows 2, 4 to 24."""

STITCH_CM, ROW_CM = 10 / 14, 1.0
FINE = ("texture", "motif", "increases")


def textured(page: Page) -> list[Stroke]:
    return [stroke for kind in FINE for stroke in page.of_kind(kind)]


def places(strokes: list[Stroke], axis: int) -> list[float]:
    """Where lines across the other axis stand, those in several parts once."""
    found = sorted({round(stroke.points[0][axis], 2) for stroke in strokes})
    assert all(abs(stroke.points[0][axis] - stroke.points[-1][axis]) < 1e-3 for stroke in strokes)
    return [at for at, before in zip(found, [-math.inf, *found], strict=False) if at - before > 0.05]


@pytest.mark.slow
@pytest.mark.parametrize("scale", [10, 20])
def test_a_band_has_a_line_for_every_ridge(scale: int) -> None:
    """60 stitches of the neck and 12 of the panel: 72 rows of 10 / 14 cm, two of them to a ridge."""
    page = drawn(SPEC, scale)
    left, top, right, bottom = page.outlines["outline-neck-band"].bounds
    ridges = of_piece(page, "texture", "neck-band")
    row_mm = 100 / 14 / scale
    expected = [left + row_mm * (2 * at + 1) for at in range(36)]
    assert places(ridges, 0) == pytest.approx(expected, abs=0.02)
    heights = [y for each in ridges for _, y in each.points]
    assert (min(heights), max(heights)) == pytest.approx((top, bottom), abs=0.002)
    assert "ridge" not in " ".join(page.texts("caption"))
    arm = page.outlines["outline-arm-band"]
    assert len(places(of_piece(page, "texture", "arm-band"), 0)) == 10
    assert right - left == pytest.approx(72 * row_mm, abs=0.01)
    assert arm.bounds[2] - arm.bounds[0] == pytest.approx(20 * row_mm, abs=0.01)


@pytest.mark.slow
def test_where_ridges_would_run_into_one_every_so_many_are_drawn_and_the_caption_says_so() -> None:
    """At 1:50 a ridge is 0.286 mm wide: every third one, 0.857 mm from the next, 12 of 36."""
    page = drawn(SPEC, 50)
    ridges = places(of_piece(page, "texture", "neck-band"), 0)
    assert [b - a for a, b in pairwise(ridges)] == pytest.approx([6 * 100 / 14 / 50] * 11, abs=0.02)
    assert "every 3rd ridge drawn" in " ".join(page.texts("caption"))


@pytest.mark.slow
def test_a_panel_without_a_chart_shows_its_rows() -> None:
    """30 rows of 1 cm: 29 lines between them; at 1:20 every second one is 1 mm from the next."""
    page = drawn(SPEC)
    left, _, right, foot = page.outlines["outline-centre-panel"].bounds
    rows = of_piece(page, "texture", "centre-panel")
    assert places(rows, 1) == pytest.approx([foot - row for row in range(29, 0, -1)], abs=0.02)
    xs = [x for each in rows for x, _ in each.points]
    assert left < min(xs) < left + 2
    assert right - 2 < max(xs) < right
    page = drawn(SPEC, 20)
    heights = places(of_piece(page, "texture", "centre-panel"), 1)
    assert len(heights) == 14
    assert "every 2nd row drawn" in " ".join(page.texts("caption"))


def test_how_many_go_by_is_the_least_that_keeps_lines_apart() -> None:
    for apart in (0.05, 0.1, 0.25, 0.3, 0.59, 0.6, 0.7, 3.0):
        nth = every_nth(apart)
        assert nth * apart >= LEAST_APART - 1e-9
        assert nth == 1 or (nth - 1) * apart < LEAST_APART
    assert [nth_words(each) for each in (2, 3, 4, 11, 21)] == [
        f"every {each}" for each in ("2nd", "3rd", "4th", "11th", "21st")
    ]


def closed_form() -> list[tuple[float, float]]:
    """Radius of the foot in cm and angle of the head from the right front edge, of every increase.

    Rows 2, 6, 10 ...: ten brackets, the increase in the last stitch of each. Rows 4, 8 ...: half a bracket
    off, so many plain stitches before the first as make up half of the others. All are worked back, so
    from the right, and the ring sector opens to what the hem is longer than the neck over its depth.
    """
    opening = 120 * STITCH_CM / (30 * ROW_CM)
    inner = 60 * STITCH_CM / opening
    found = []
    for turn in range(12):
        before = 60 + 10 * turn
        bracket = before // 10
        first = bracket if turn % 2 == 0 else (bracket - 1) // 2 + 1
        for at in range(10):
            made = first + bracket * at + at
            found.append((inner + (1 + 2 * turn) * ROW_CM, opening * made / (before + 10)))
    return found


@pytest.mark.slow
def test_increases_are_drawn_where_they_are_worked() -> None:
    """By closed form; those that are not drawn lie under something that is read."""
    page = drawn(LINES)
    outline = page.outlines["outline-body"]
    x0, _, x1, _ = outline.bounds
    middle = (x0 + x1) / 2
    opening = 120 * STITCH_CM / 30
    hem = max(y for x, y in outline.exterior.coords if abs(x - middle) < 1e-3)
    centre_y = hem - (60 * STITCH_CM / opening + 30)
    expected = []
    for radius, angle in closed_form():
        turn = opening / 2 - angle
        head = (middle + (radius + 1) * math.sin(turn), centre_y + (radius + 1) * math.cos(turn))
        expected.append(head)
    strokes = page.of_kind("increases")
    assert len(strokes) > 80
    ends = [ShapelyPoint(point) for stroke in strokes for point in stroke.points]
    drawn_heads = [head for head in expected if any(end.distance(ShapelyPoint(head)) < 0.02 for end in ends)]
    read = union_all(
        [words.box.buffer(1.5) for words in page.words]
        + [
            stroke.shape.buffer(1.7)
            for stroke in page.strokes
            if stroke.kind not in (*FINE, "outline", "frame")
        ]
    )
    hidden = [head for head in expected if head not in drawn_heads]
    assert all(read.distance(ShapelyPoint(head)) < 0.01 for head in hidden)
    assert len(drawn_heads) + len(hidden) == 120
    for stroke in strokes:
        assert min(LineString(stroke.points).distance(ShapelyPoint(head)) for head in expected) < 0.95
    assert "each increase a fine stroke" in " ".join(page.texts("caption"))


@pytest.mark.slow
@pytest.mark.parametrize("text", [SPEC, LINES, PANEL, FLARED, FOLDED])
def test_texture_stays_on_its_piece_and_off_what_is_read(text: str) -> None:
    """Half a millimetre from dashes, arrows and ticks, and off every word's box."""
    page = drawn(text)
    fabric = [outline.buffer(0.01) for outline in page.outlines.values()]
    read = [
        stroke.shape
        for stroke in page.strokes
        if stroke.kind in ("joined", "work", "marker", "leader", "crease", "fold", "dimension")
    ]
    apart = union_all(read)
    assert textured(page)
    for stroke in textured(page):
        assert any(outline.covers(stroke.shape) for outline in fabric)
        assert stroke.shape.distance(apart) > 0.45
        assert not any(stroke.shape.intersects(words.box) for words in page.words)


def test_joined_edges_are_dashed_inside_them() -> None:
    """Both fronts and both sides of the panel are 30 cm long; dashes keep 1 mm from the edge and its ends."""
    page = drawn(SPEC)
    dashes = page.of_kind("joined")
    assert [round(stroke.shape.length, 2) for stroke in dashes] == [28.0] * 4
    outlines = list(page.outlines.values())
    for stroke in dashes:
        assert stroke.pen == "seam"
        away = min(outline.exterior.distance(stroke.shape) for outline in outlines)
        assert away == pytest.approx(1.0, abs=0.02)
        assert any(outline.contains(stroke.shape) for outline in outlines)


@pytest.mark.slow
def test_a_panel_longer_than_the_body_is_dashed_as_far_as_it_is_joined() -> None:
    """36 rows against 30: the 6 at the foot hang free."""
    page = drawn(SPEC.replace("panel: {stitches: 12, rows: 30}", "panel: {stitches: 12, rows: 36}"))
    panel = page.outlines["outline-centre-panel"]
    _, top, _, _ = panel.bounds
    for stroke in (each for each in page.of_kind("joined") if panel.contains(each.shape)):
        ys = sorted(y for _, y in stroke.points)
        assert ys == pytest.approx([top + 1, top + 29], abs=0.01)


@pytest.mark.slow
def test_edges_that_meet_when_the_longer_is_eased_in_are_dashed_whole() -> None:
    """31 rows against 30: a row of 1 cm eases in, so all 31 mm of the panel's sides are joined."""
    page = drawn(SPEC.replace("panel: {stitches: 12, rows: 30}", "panel: {stitches: 12, rows: 31}"))
    assert sorted(round(stroke.shape.length, 2) for stroke in page.of_kind("joined")) == [28, 28, 29, 29]


@pytest.mark.slow
def test_parts_in_another_colour_than_the_bodys_are_hatched_or_ribbed_and_named() -> None:
    """Lines of 45 degrees on the panel; none in the body, which is plain, nor across the ribs of bands."""
    colours = "yarn_use:\n  colours: {body: sand, centre_panel: moss, neck_band: fog, arm_bands: moss}\n"
    page = drawn(SPEC + colours)
    ways = {}
    for piece in ("body", "centre-panel", "neck-band", "arm-band"):
        lines = [each.points for each in page.strokes if each.group == f"texture-{piece}-colour"]
        ways[piece] = {round((b[1] - a[1]) / (b[0] - a[0]), 1) for (a, b) in lines}
    assert ways == {"body": set(), "centre-panel": {1.0}, "neck-band": set(), "arm-band": set()}
    headings = [words.text for words in page.words if words.kind == "caption" and words.text.startswith(
        ("body", "centre panel", "neck band", "arm band"))]  # fmt: skip
    assert sorted(headings) == [
        "arm band (make 2), in moss, ribbed",
        "body, in sand",
        "centre panel, in moss, hatched",
        "neck band, in fog, ribbed",
    ]
