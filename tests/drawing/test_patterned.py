"""Borders and motifs on the pieces sheet, read back from the SVG and measured against the gauge."""

from __future__ import annotations

import math
from functools import cache
from itertools import pairwise

import pytest
from shapely import LineString
from shapely import Point as ShapelyPoint

from schematics.checks.evaluation import evaluate
from schematics.drawing.assembly.assembly import draw_assembly
from schematics.drawing.compose import finish
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import setting_of
from tests.borders_for_tests import EDGING, YOKE
from tests.drawing.designs import read_spec
from tests.drawing.drawing_sheets import pieces_sheet
from tests.drawing.readback import Page, Stroke, read_page
from tests.specs_for_tests import SPEC

STRANDS = """\
    multiple: {of: 4, plus: 2}
    row_repeat: {rows: 2}
    chart:
      repeat:
        - hdc across
        - hdc, (hdc, BPdc, 2 hdc) across, hdc
"""
CABLE = "    stitch: cables on half double crochet\n"
RIB = "    stitch: half double crochet in the back loop\n"
PANEL = SPEC.replace(CABLE, CABLE + STRANDS).replace("panel: {stitches: 12,", "panel: {stitches: 14,")
CLOSE = PANEL.replace("(hdc, BPdc, 2 hdc)", "(2 BPdc, 2 hdc)")
FLARED = SPEC.replace("sizes:\n", f"{EDGING}{YOKE}sizes:\n").replace(
    "rows: 30}\n    arms", "rows: 30, increase_every: 7, increase_until: 23}\n    arms"
)
FOLDED = (
    SPEC[: SPEC.index("sizes:\n")].replace("construction: flared", "construction: folded")
    + EDGING
    + """\
sizes:
  "4":
    wearer: child/4
    body: {width: 124, front_rows: 34, back_rows: 32, neck: 28, neck_front_rows: 5, neck_back_rows: 2,
      slot: 12}
    arms: {rows: 20}
    panel: {stitches: 12, rows: 29}
    neck_band: {stitches: 6}
    arm_bands: {stitches: 8}
"""
)
STITCH_CM, ROW_CM = 10 / 14, 1.0
"""Of the body: 14 stitches and 10 rows to 10 cm."""


@cache
def drawn(text: str, scale: int = 10) -> Page:
    """The pieces sheet of the first size."""
    design = read_spec(text, "lake")
    return read_page(to_svg(pieces_sheet(design, evaluate(design)[0], scale)))


def assembly(text: str) -> Page:
    """The assembly sheet of the first size."""
    design = read_spec(text, "lake")
    setting = setting_of(design, evaluate(design)[:1])
    (result,) = setting.results
    return read_page(to_svg(finish(setting, draw_assembly(setting, result), result, 1, 1)))


def of_piece(page: Page, kind: str, name: str) -> list[Stroke]:
    return [each for each in page.of_kind(kind) if name in each.group]


def uprights(strokes: list[Stroke]) -> list[float]:
    """Where strokes that run straight up stand, left to right."""
    places = {
        round(each.points[0][0], 3)
        for each in strokes
        if max(x for x, _ in each.points) - min(x for x, _ in each.points) < 1e-3
    }
    return sorted(places)


@pytest.mark.slow
@pytest.mark.parametrize("scale", [10, 20])
def test_a_repeat_of_the_panel_is_its_multiple_over_the_gauge_wide(scale: int) -> None:
    """14 stitches of 16 to 10 cm: three repeats of 4, with 1 at either side; the strand is its second "
    "stitch."""
    page = drawn(PANEL, scale)
    stitch_mm = 100 / 16 / scale
    left = min(x for x, _ in page.outlines["outline-centre-panel"].exterior.coords)
    expected = [left + (1 + 4 * repeat + 1.5) * stitch_mm for repeat in range(3)]
    assert uprights(of_piece(page, "motif", "centre-panel")) == pytest.approx(expected, abs=0.002)


def test_strands_are_as_high_as_the_rows_they_cross() -> None:
    """Each from the middle of a row to the middle of the next, once in two rows of 1 cm: 15 in the first "
    "repeat."""
    page = drawn(PANEL)
    outline = page.outlines["outline-centre-panel"]
    foot = max(y for _, y in outline.exterior.coords)
    first, *_ = uprights(of_piece(page, "motif", "centre-panel"))
    strands = [
        each.points
        for each in of_piece(page, "motif", "centre-panel")
        if abs(each.points[0][0] - first) < 0.01
    ]
    spans = sorted(sorted(round(foot - y, 2) for _, y in points) for points in strands)
    assert spans == [[row + 0.5, row + 1.5] for row in range(0, 30, 2)]


@pytest.mark.slow
def test_where_strands_would_run_into_one_as_many_are_drawn_as_stay_apart() -> None:
    """Three side by side at 1:20 are 0.3125 mm apart, of each three the first and third 0.625 mm."""
    close = CLOSE.replace("(2 BPdc, 2 hdc)", "(3 BPdc, hdc)")
    page = drawn(close, 20)
    stitch_mm = 100 / 16 / 20
    left = min(x for x, _ in page.outlines["outline-centre-panel"].exterior.coords)
    expected = [
        left + (1 + 4 * repeat + at) * stitch_mm for repeat in range(3) for at in (0.5, 2.5)
    ]  # right side rows run from right to left
    found = uprights(of_piece(page, "motif", "centre-panel"))
    assert found == pytest.approx(expected, abs=0.002)


@pytest.mark.slow
def test_where_strands_would_clog_the_outlines_of_repeats_are_drawn() -> None:
    """Strands side by side at 1:50 are 0.125 mm apart; every 4th repeat is 2 mm wide."""
    page = drawn(CLOSE.replace("panel: {stitches: 14,", "panel: {stitches: 38,"), 50)
    stitch_mm = 100 / 16 / 50
    left = min(x for x, _ in page.outlines["outline-centre-panel"].exterior.coords)
    upright = uprights(of_piece(page, "motif", "centre-panel"))
    repeats = [left + (1 + 16 * each) * stitch_mm for each in range(3)]
    assert len(upright) > 1
    assert all(min(abs(at - each) for each in repeats) < 0.002 for at in upright)


@pytest.mark.slow
def test_the_outline_of_a_repeat_is_broken_at_the_arrow_of_work_not_left_out() -> None:
    """Repeats of 2 rows of 1 cm, at 1:20 outlined every 4 rows, from one side to the other.

    28 stitches to 10 cm are 0.18 mm apart there: of three strands side by side not even one has room.
    The body's 30 rows are joined to the upper 30: up to the dashes along the sides there.
    """
    fine = CLOSE.replace("stitches: 16, rows: 10, width", "stitches: 28, rows: 10, width")
    page = drawn(fine.replace("panel: {stitches: 14, rows: 30", "panel: {stitches: 66, rows: 60"), 20)
    assert of_piece(page, "work", "centre-panel")
    left, _, right, foot = page.outlines["outline-centre-panel"].bounds
    rows: dict[int, list[float]] = {}
    for each in of_piece(page, "motif", "centre-panel"):
        if len({round(y, 3) for _, y in each.points}) == 1:
            rows.setdefault(round((foot - each.points[0][1]) * 2), []).extend(x for x, _ in each.points)
    assert sorted(rows) == list(range(4, 60, 4))
    for row, xs in rows.items():
        inside = 1.5 if row > 30 else 0.0
        assert (min(xs), max(xs)) == pytest.approx(
            (left + inside, right - inside), abs=0.07 if inside else 0.002
        )


@pytest.mark.slow
def test_a_band_shows_its_chart_on_its_side() -> None:
    """Worked sideways: its strands run along it, from row to row; 6 stitches are one repeat."""
    page = drawn(
        SPEC.replace(RIB, RIB + STRANDS).replace("arm_bands: {stitches: 8}", "arm_bands: {stitches: 6}"),
    )
    strands = of_piece(page, "motif", "neck-band")
    top = min(y for _, y in page.outlines["outline-neck-band"].exterior.coords)
    heights = [y for each in strands for _, y in each.points]
    assert heights == pytest.approx([top + 2.5 * 100 / 14 / 10] * len(heights), abs=0.002)


@pytest.mark.slow
def test_the_strips_of_a_flared_body_are_concentric() -> None:
    """60 and 176 stitches, 30 rows: radii from the neck's by 1 cm a row; the edging's lower side is the "
    "hem."""
    page = drawn(FLARED)
    turn = (176 - 60) * STITCH_CM / (30 * ROW_CM)
    inner = 60 * STITCH_CM / turn
    outline = page.outlines["outline-body"]
    x0, _, x1, _ = outline.bounds
    middle = (x0 + x1) / 2
    hem = max(y for x, y in outline.exterior.coords if abs(x - middle) < 1e-3)
    centre = ShapelyPoint(middle, hem - (inner + 30) * 1.0)
    rings = [
        sorted(centre.distance(ShapelyPoint(point)) for point in each.points)
        for each in page.of_kind("border")
    ]
    radii = sorted(ring[len(ring) // 2] for ring in rings)
    assert all(ring[-1] - ring[0] < 0.02 for ring in rings)
    assert radii == pytest.approx([inner + 2, inner + 8, inner + 24], abs=0.02)


@pytest.mark.slow
def test_a_border_at_the_hem_shows_a_repeat_as_wide_as_it_is_worked() -> None:
    """Shells of 8 stitches, 22 of them; those of row 26 open 25 rows, 25 cm, below the neck, on an arc."""
    page = drawn(FLARED)
    turn = (176 - 60) * STITCH_CM / 30
    inner = 60 * STITCH_CM / turn
    x0, _, x1, _ = page.outlines["outline-body"].bounds
    middle = (x0 + x1) / 2
    hem = max(y for x, y in page.outlines["outline-body"].exterior.coords if abs(x - middle) < 1e-3)
    top = hem - inner - 30
    polar = [
        (math.hypot(x - middle, y - top), math.atan2(x - middle, y - top))
        for each in of_piece(page, "motif", "hem-edging")
        for x, y in each.points
    ]
    turns = sorted({round(angle, 3) for radius, angle in polar if abs(radius - inner - 25) < 0.02})
    steps = [after - before for before, after in pairwise(turns)]
    assert min(steps) == pytest.approx(turn / 22, abs=0.002)


@pytest.mark.slow
def test_the_strips_of_a_folded_body_are_as_high_as_their_rows() -> None:
    page = drawn(FOLDED)
    x0, y0, x1, y1 = page.outlines["outline-body"].bounds
    strips = sorted(page.of_kind("border"), key=lambda each: (each.points[0][1], each.points[0][0]))
    assert [len(each.points) for each in strips] == [2, 2, 2]
    left, right, back = ([*map(tuple, each.points)] for each in strips)
    slot = 12 * STITCH_CM / 2
    assert sorted(x for x, _ in left) == pytest.approx([x0, (x0 + x1) / 2 - slot], abs=0.002)
    assert sorted(x for x, _ in right) == pytest.approx([(x0 + x1) / 2 + slot, x1], abs=0.002)
    assert [y for _, y in (*left, *right)] == pytest.approx([y0 + 6 * ROW_CM] * 4, abs=0.002)
    assert sorted(x for x, _ in back) == pytest.approx([x0, x1], abs=0.002)
    assert [y for _, y in back] == pytest.approx([y1 - 6 * ROW_CM] * 2, abs=0.002)


@pytest.mark.slow
def test_the_caption_tells_where_borders_are() -> None:
    captions = " ".join(drawn(FLARED).texts("caption"))
    assert "hem edging on rows 25 to 30 (176 sts); yoke on rows 3 to 8 (89 sts)" in captions
    captions = " ".join(drawn(FOLDED).texts("caption"))
    assert "hem edging, back, on rows 1 to 6 (124 sts)" in captions
    assert "hem edging, each front, on rows 61 to 66 (56 sts)" in captions


@pytest.mark.slow
@pytest.mark.parametrize("text", [PANEL, FLARED, FOLDED])
def test_no_stroke_touches_a_word_or_leaves_its_piece(text: str) -> None:
    page = drawn(text)
    motifs = page.of_kind("motif")
    assert motifs
    fabric = [outline.buffer(0.01) for outline in page.outlines.values()]
    for stroke in motifs:
        assert not any(stroke.shape.intersects(words.box) for words in page.words if words.kind != "title")
        assert any(outline.covers(stroke.shape) for outline in fabric)


@pytest.mark.slow
def test_half_a_body_shows_its_half_of_a_border() -> None:
    """A body that opens over a full circle is drawn by half, and so is its border."""
    wide = SPEC.replace("sizes:\n", f"{EDGING}sizes:\n").replace(
        "body: {neck: 60, hem: 176, rows: 30}", "body: {neck: 60, hem: 368, rows: 30, increase_until: 23}"
    )
    page = drawn(wide, 20)
    fold = min(x for x, _ in page.outlines["outline-body"].exterior.coords)
    assert page.of_kind("motif")
    (strip,) = page.of_kind("border")
    ends = strip.points[0], strip.points[-1]
    fold_line = LineString(next(each.points for each in page.of_kind("fold")))
    assert min(fold_line.distance(ShapelyPoint(end)) for end in ends) < 0.01
    assert fold <= min(x for x, _ in strip.points) + 0.01


@pytest.mark.slow
def test_assembly_shows_the_panels_motif_in_place_of_waves() -> None:
    page = assembly(PANEL)
    assert not page.of_kind("texture")
    upright = uprights(of_piece(page, "motif", "centre-panel"))
    assert [b - a for a, b in pairwise(upright)] == pytest.approx([4 * 100 / 16 / page.scale] * 2, abs=0.002)
    assert assembly(SPEC).of_kind("texture")


@pytest.mark.slow
def test_the_second_colour_is_hatched_where_it_is_worked() -> None:
    """Of 12 stitches the 6 worked last on the right side are on the left: only there are lines."""
    halves = """\
    multiple: {exactly: 12}
    row_repeat: {rows: 2}
    chart:
      colours: {A: sand, B: fog}
      repeat: ["with A, 6 sc, with B, 6 sc", "with B, 6 sc, with A, 6 sc"]
"""
    page = drawn(SPEC.replace(CABLE, CABLE + halves))
    x0, y0, x1, y1 = page.outlines["outline-centre-panel"].bounds
    lines = of_piece(page, "motif", "centre-panel")
    xs = [x for each in lines for x, _ in each.points]
    ys = [y for each in lines for _, y in each.points]
    assert min(xs) >= x0 - 0.002
    assert max(xs) == pytest.approx((x0 + x1) / 2, abs=0.02)
    assert [min(ys), max(ys)] == pytest.approx([y0, y1], abs=1.0)
    assert "sand plain, fog hatched" in " ".join(page.texts("caption"))
    slopes = {round((b[1] - a[1]) / (b[0] - a[0]), 2) for each in lines for a, b in pairwise(each.points)}
    assert len(slopes) == 1
