"""Ridges, increases and the panel's look on the joined and the worn garment, read back from the SVG."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from shapely import union_all

from schematics.checks.evaluation import evaluate
from schematics.drawing.sheets import Pages, setting_of
from tests.drawing.readback import Page, Stroke, read_page
from tests.drawing.sheets import Drawn, shipped_one
from tests.examples import thorough
from tests.shipped import shipped_design

FINE = ("texture", "motif", "increases")
DEMOS = ("driftwood", "sandpiper", "tidepool")


def textured(page: Page) -> list[Stroke]:
    return [stroke for kind in FINE for stroke in page.of_kind(kind)]


def ribs(drawn: Drawn, name: str) -> list[list[Stroke]]:
    """The ribs of the bands of that name, band by band."""
    groups = [group for group in drawn.page.groups("band") if name in group]
    return [
        [stroke for stroke in drawn.page.strokes if stroke.group == group and stroke.pen == "texture"]
        for group in groups
    ]


@pytest.mark.slow
@pytest.mark.parametrize("slug", ["tidepool", pytest.param("sandpiper", marks=pytest.mark.thorough)])
def test_bands_of_the_joined_garment_have_a_rib_for_every_two_rows(slug: str) -> None:
    """Front and back show the neck band's ridges once, and each arm band's; a rest at a fold may cost one."""
    drawn = shipped_one(slug, "assembly")
    assert drawn.result is not None
    garment = drawn.result.garment
    neck = sum(len(each) for each in ribs(drawn, "neck-band"))
    assert garment.neck.band_rows // 2 - 2 <= neck <= garment.neck.band_rows // 2
    arms = sum(len(each) for each in ribs(drawn, "arm-band"))
    assert garment.arm.ring.band_rows - 4 <= arms <= garment.arm.ring.band_rows


@pytest.mark.slow
@pytest.mark.parametrize("slug", DEMOS)
@pytest.mark.parametrize("kind", ["assembly", "worn"])
def test_texture_keeps_clear_of_all_that_is_read(slug: str, kind: str) -> None:
    """Half a millimetre from seam dashes, folds, dimensions and ticks, and off every word's box."""
    page = shipped_one(slug, kind).page
    apart = union_all(
        [
            stroke.shape
            for stroke in page.strokes
            if stroke.kind not in FINE
            and (stroke.pen in ("seam", "fold", "increase", "dimension", "extension", "leader"))
        ]
    )
    words = union_all([words.box for words in page.words])
    assert textured(page)
    for stroke in textured(page):
        assert stroke.shape.distance(apart) > 0.45
        assert not stroke.shape.intersects(words)


@pytest.mark.slow
def test_every_increase_is_in_one_of_the_views() -> None:
    """140 increases in size 8 of the demo, but for those under words, folds and the arrows of yarn."""
    drawn = shipped_one("tidepool", "assembly", 3)
    assert drawn.result is not None
    increases = drawn.result.garment.increases
    assert increases is not None
    total = sum(added for _, added in increases.rows)
    assert total == 140
    strokes = drawn.page.of_kind("increases")
    assert 0.75 * total <= len(strokes) <= total
    row_mm = 20 / 14 * 10 / drawn.page.scale
    assert max(stroke.shape.length for stroke in strokes) <= row_mm * 1.4


@pytest.mark.slow
@pytest.mark.parametrize("slug", DEMOS)
def test_what_is_worn_shows_half_of_each_bands_ridges_or_every_so_many(slug: str) -> None:
    """Evenly, and no nearer than 0.6 mm, on the bands; the panel's look lies inside the garment."""
    drawn = shipped_one(slug, "worn")
    assert drawn.result is not None
    page, garment = drawn.page, drawn.result.garment
    neck_rows = garment.neck.band_rows
    lines = [stroke.shape for stroke in page.of_kind("garment")]
    areas = [line.convex_hull for line in lines]
    bands = page.of_kind("texture")
    assert bands
    for stroke in bands:
        assert any(area.buffer(0.05).covers(stroke.shape) for area in areas)
    upright = sorted(
        {
            round(stroke.points[0][0], 2)
            for stroke in bands
            if abs(stroke.points[0][0] - stroke.points[-1][0]) < 1e-3
        }
    )
    gaps = [after - before for before, after in itertools.pairwise(upright)]
    assert len(upright) <= 2 * math.floor(neck_rows / 4)
    assert min(gap for gap in gaps if gap > 0.05) > 0.3
    look = page.of_kind("motif")
    assert look
    whole = union_all(lines).convex_hull
    assert all(whole.covers(stroke.shape) for stroke in look)


@pytest.mark.slow
@pytest.mark.seeds
def test_another_colour_is_shown_alike_on_pieces_joined_and_worn() -> None:
    """The fog of the panel at 45 degrees; the bands have their ribs and no line across; the body is plain."""
    plain = shipped_design("tidepool")
    colours = {"body": "sand", "centre_panel": "fog", "neck_band": "fog", "arm_bands": "moss"}
    design = replace(plain, sizes=plain.sizes[2:3], yarn_use=replace(plain.yarn_use, colours=colours))
    setting = setting_of(design, evaluate(design))
    pages = Pages(setting)
    for stem in ("pieces", "assembly", "worn") if thorough() else ("worn",):
        page = read_page(pages.draw(pages.names.index((stem, design.sizes[0].name))).svg)
        hatched = {
            name: {_slope(each) for each in page.strokes if f"{name}-colour" in each.group}
            for name in ("neck-band", "arm-band", "body")
        }
        assert hatched == {"neck-band": set(), "arm-band": set(), "body": set()}, stem
        panel = "motif-panel" if stem == "worn" else "centre-panel-colour"
        assert 45 in {_slope(each) for each in page.strokes if panel in each.group}, stem
    assert not [each for each in shipped_one("tidepool", "assembly").page.strokes if "colour" in each.group]


def _slope(stroke: Stroke) -> int:
    """The angle of a line on the sheet in degrees, y down, from -90 to 90."""
    (x0, y0), (x1, y1) = sorted((stroke.points[0], stroke.points[-1]))
    return round(math.degrees(math.atan2(y1 - y0, x1 - x0)))
