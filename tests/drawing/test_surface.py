"""Ribs: areas and places by closed form."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from schematics.drawing.ink.surface import Strip, depth_that_fits, has_rim, strip
from tests.examples import examples


def arc(radius: float, angle: float) -> LineString:
    """A curve open at the top, its lowest point at the origin, from the left to the right."""
    count = max(2, math.ceil(2 * angle / 0.01))
    turns = (angle * (2 * i / count - 1) for i in range(count + 1))
    return LineString([(radius * math.sin(turn), radius - radius * math.cos(turn)) for turn in turns])


def band(base: LineString, depth: float, *, on_left: bool) -> Strip:
    return strip(base, depth, on_left=on_left, starts_folded=False, ends_folded=False)


@examples(40)
@given(radius=st.floats(2, 40), angle=st.floats(0.3, 3), share=st.floats(0.05, 0.9), on_left=st.booleans())
def test_a_strip_on_an_arc_is_a_ring_sector(radius: float, angle: float, share: float, on_left: bool) -> None:
    """Area of a ring sector between r and r - d, or r + d, over the angle 2a."""
    depth = radius * share
    far = radius - depth if on_left else radius + depth
    made = band(arc(radius, angle), depth, on_left=on_left)
    assert made.shape.is_valid
    assert made.shape.area == pytest.approx(abs(radius**2 - far**2) * angle, rel=0.02)
    assert made.rim.length == pytest.approx(2 * depth + 2 * angle * far, rel=0.02)


@pytest.mark.parametrize("on_left", [True, False])
def test_the_rim_goes_from_the_bases_end_round_to_its_start(on_left: bool) -> None:
    base = LineString([(0, 0), (10, 0)])
    made = band(base, 3, on_left=on_left)
    height = 3 if on_left else -3
    assert list(made.rim.coords) == [(10, 0), (10, height), (0, height), (0, 0)]


@pytest.mark.parametrize("deep", [1.5, 2.5, 3.0, 5.0])
def test_a_band_deeper_than_its_sides_are_long_has_no_notches(deep: float) -> None:
    """On a squared neck two deep and ten wide: all of the hole up to the band's free edge."""
    made = band(LineString([(-5, 0), (-5, -2), (5, -2), (5, 0)]), deep, on_left=True)
    sides = max(0.0, 2 - deep) * deep * 2
    assert made.shape.area == pytest.approx(10 * deep + sides)
    if deep > 2:
        assert list(made.rim.coords) == [(5, 0), (5, deep - 2), (-5, deep - 2), (-5, 0)]


def test_ribs_are_as_far_apart_as_asked_and_even_about_the_middle() -> None:
    made = band(LineString([(0, 0), (10, 0)]), 3, on_left=True)
    places = sorted(rib.coords[0][0] for rib in made.ribs(1.5))
    assert places == pytest.approx([1.25, 2.75, 4.25, 5.75, 7.25, 8.75])
    assert all(rib.coords[1][1] == pytest.approx(3) for rib in made.ribs(1.5))


def test_ribs_round_a_corner_do_not_cross() -> None:
    base = LineString([(-9, 6), (-9, 0), (9, 0), (9, 6)])
    ribs = band(base, 5, on_left=True).ribs(0.9)
    assert not any(one.intersects(other) for one, other in itertools.combinations(ribs, 2))
    assert len(ribs) >= 18 / 0.9 - 1


@pytest.mark.parametrize(
    ("radius", "depth", "drawn"), [(10, 4, 4), (10, 9.4, 9.4), (4, 6, 3.8), (1, 30, 0.95)]
)
def test_a_band_is_drawn_no_deeper_than_the_circle_it_stands_in(
    radius: float, depth: float, drawn: float
) -> None:
    assert depth_that_fits([arc(radius, 1.5)], depth) == pytest.approx(drawn, rel=1e-3)


def test_a_band_across_a_wide_square_neck_is_drawn_in_full() -> None:
    """A neck 18 cm wide and 6 cm deep: the circle through its upper corners has a radius of 9.75 cm."""
    square = LineString([(-9, 6), (-9, 0), (9, 0), (9, 6)])
    assert depth_that_fits([square], 5) == 5
    assert depth_that_fits([square], 20) == pytest.approx(0.95 * 9.75)


def test_a_band_that_would_hide_its_own_base_is_drawn_less_deep() -> None:
    square = LineString([(-1, 40), (-1, 0), (1, 0), (1, 40)])
    depth = depth_that_fits([square], 12)
    made = band(square, depth, on_left=True)
    assert depth < 12
    assert all(made.shape.exterior.distance(LineString([p, p])) < 1e-6 for p in square.coords)


def test_a_base_that_winds_round_the_band_leaves_it_no_free_edge() -> None:
    """A neck edge of two mitred sections whose ends pass each other, and the same with them apart."""
    corners = [(0.19, 5.05), (-2.38, 2.34), (0.0, 0.0), (2.38, 2.34), (-0.19, 5.05)]
    assert not has_rim(LineString(corners), 1.84)
    assert has_rim(LineString([(-3.0, 5.05), *corners[1:4], (3.0, 5.05)]), 1.0)
