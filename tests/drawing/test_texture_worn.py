"""Ridges, increases and the panel's look on the joined and the worn garment, read back from the SVG."""

from __future__ import annotations

import itertools
import math

import pytest
from shapely import union_all

from tests.drawing.readback import Page, Stroke
from tests.drawing.sheets import Drawn, shipped_one

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


@pytest.mark.parametrize("slug", ["sandpiper", "tidepool"])
def test_bands_of_the_joined_garment_have_a_rib_for_every_two_rows(slug: str) -> None:
    """Front and back show the neck band's ridges once, and each arm band's; a rest at a fold may cost one."""
    drawn = shipped_one(slug, "assembly")
    assert drawn.result is not None
    garment = drawn.result.garment
    neck = sum(len(each) for each in ribs(drawn, "neck-band"))
    assert garment.neck.band_rows // 2 - 2 <= neck <= garment.neck.band_rows // 2
    arms = sum(len(each) for each in ribs(drawn, "arm-band"))
    assert garment.arm.ring.band_rows - 4 <= arms <= garment.arm.ring.band_rows


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
