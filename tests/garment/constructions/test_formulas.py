"""The formulas grading works with, held against garments made at random."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis.strategies import SearchStrategy
from shapely import LineString, Point

from schematics.crochet.fabric import CountRule
from schematics.garment.amounts import Count, Formula, PickedUp, value_of
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment
from tests.examples import examples, share
from tests.garment.constructions.counted import Counted, counted, tapered
from tests.garment.constructions.samples import fabric

WORDS = tuple(CONSTRUCTIONS)
Sizes = Callable[[str], SearchStrategy[Counted]]
CHORDS = 1e-4
"""Share of a length by which arcs drawn as chords may come out otherwise."""
SAG = 2e-3
"""The same of a distance from such a chord, which lies inside its arc."""


MOST_OUTWARDS = math.radians(15)
"""For panels that widen upwards faster than anyone makes them, the closed forms are estimates."""
PANELS = pytest.mark.parametrize("sizes", [counted, tapered], ids=["level panel", "tapering panel"])


@pytest.mark.slow
@PANELS
@pytest.mark.parametrize("word", WORDS)
def test_lengths_and_rings_are_those_of_the_garment(word: str, sizes: Sizes) -> None:
    @given(sizes(word))
    @examples(60, part=10)
    def agree(size: Counted) -> None:
        made, formulas, columns = size.make(), size.formulas, size.columns
        finished = {each.key: each.length_cm for each in made.finished}
        assert [each.key for each in formulas.measures] == list(finished)
        for each in formulas.measures:
            assert each.at(columns) == pytest.approx(finished[each.key]), each.key
            if each.intended and sizes is counted:
                assert sloped(each, size.counts) == pytest.approx(finished[each.key]), each.key
        for ring, of_ring in ((made.neck, formulas.neck), (made.arm.ring, formulas.arm)):
            assert of_ring.edge_count.at(columns) == ring.edge_count
            for name in ("edge_cm", "edge_full_cm", "band_cm", "band_full_cm"):
                assert getattr(of_ring, name).at(columns) == pytest.approx(getattr(ring, name)), name

    agree()


def neck_and_corners(made: Garment) -> tuple[LineString, list[tuple[float, ...]]]:
    """The neck edge at and behind the shoulders to the centre back; the hem's places, centre back first."""
    edges = {edge.name: edge.path for edge in made.piece("body").edges}
    if "hem" in edges:
        return edges["neck"], list(edges["hem"].coords)
    behind = [(x, y) for x, y in (*edges["neck side"].coords, *edges["back neck"].coords) if y <= 0]
    (x, _), *_ = edges["neck side"].coords
    return LineString([(x, 0.0), *behind]), [*edges["back hem"].coords, edges["side"].coords[-1]]


@pytest.mark.slow
@pytest.mark.parametrize("word", WORDS)
def test_the_angle_a_body_opens_to_is_the_one_between_its_front_edges(word: str) -> None:
    """Of the polygon, whose right half starts on the fold at the back and ends at the front edge."""

    @given(counted(word))
    @examples(60, part=10)
    def agree(size: Counted) -> None:
        made, opening = size.make(), size.formulas.opening
        if opening is None:
            assert made.opening_angle is None
            return
        (angle,) = opening(size.columns)
        assert angle == pytest.approx(made.opening_angle)
        if {**size.counts, **size.settings}.get("body.increase_until") is None:
            (lower, upper) = made.piece("body").edge("front").path.coords
            turn = math.atan2(lower[0] - upper[0], upper[1] - lower[1])
            assert math.remainder(angle / 2 - turn, math.tau) == pytest.approx(0, abs=1e-6)

    agree()


@pytest.mark.slow
@PANELS
@pytest.mark.parametrize("word", WORDS)
def test_drops_and_girths_are_those_of_the_garment(word: str, sizes: Sizes) -> None:
    @given(sizes(word))
    @examples(60, part=10)
    def agree(size: Counted) -> None:
        made, formulas, columns = size.make(), size.formulas, size.columns
        neck, corners = neck_and_corners(made)
        assert formulas.drop.at(columns) == pytest.approx(math.dist(neck.coords[-1], corners[0]), rel=CHORDS)
        farthest = max(neck.distance(Point(each)) for each in corners)
        assert formulas.longest_drop.at(columns) == pytest.approx(farthest, rel=SAG)
        assert formulas.drop.at(columns) == pytest.approx(made.drop_cm)
        assert formulas.longest_drop.at(columns) == pytest.approx(made.longest_drop_cm)
        points = formulas.girths(columns)
        assert bool(points) is bool(made.girths)
        if points:
            depths, girths = ([float(each[0]) for each in side] for side in zip(*points, strict=True))
            made_depths, made_girths = zip(*made.girths, strict=True)
            for depth in np.linspace(0, made.drop_cm * 1.2, 7):
                expected = np.interp(depth, made_depths, made_girths)
                assert np.interp(depth, depths, girths) == pytest.approx(expected, rel=CHORDS)

    agree()


@PANELS
@pytest.mark.slow
@pytest.mark.parametrize("word", WORDS)
def test_ways_are_those_found_on_the_polygons(word: str, sizes: Sizes) -> None:
    """Closed forms against the shortest paths in the garment's own polygons."""
    measured = []

    @given(sizes(word))
    @examples(150, part=20)
    def agree(size: Counted) -> None:
        made = size.make()
        assume(leans_outwards(made) < MOST_OUTWARDS)
        freedom, paths = arm_freedom(made), size.formulas.arm_paths(size.columns)
        found = [float(np.asarray(each).ravel()[0]) for each in (paths.reach, paths.back, paths.front)]
        if freedom is None:
            return
        measured.append(size)
        band = freedom.band_depth_cm
        expected = (
            freedom.reach_cm - band,
            freedom.spread_back_cm - 2 * band,
            freedom.spread_front_cm - 2 * band,
        )
        for name, one, other in zip(("reach", "back", "front"), found, expected, strict=True):
            assert one == pytest.approx(other, rel=5 * CHORDS), name

    agree()
    assert len(measured) > share(50, part=10)


def leans_outwards(made: Garment) -> float:
    """How far each side of the panel leans outwards on its way up, in radians."""
    panel = made.piece("centre panel")
    wider = panel.edge("top").length_cm - panel.edge("lower").length_cm
    return math.atan2(wider / 2, panel.outline.bounds[3])


def sloped(length: Formula, counts: Mapping[str, int]) -> float:
    """A length as the sum of its counts, each times its slope."""
    picked = {str(each): value_of(each, counts) for each in length.walk() if isinstance(each, PickedUp)}
    others = [slope for name, slope in length.slopes.items() if name not in counts]
    assert len(others) == len(picked)
    known = sum(slope * counts[name] for name, slope in length.slopes.items() if name in counts)
    return float(known + sum(map(math.prod, zip(others, picked.values(), strict=True))))


def test_picked_up_counts_are_the_nearest_of_the_right_parity() -> None:
    by_the_cm = fabric(10, 10)
    picked = Formula(PickedUp(Count("exact"), by_the_cm, Count("besides")))
    for exact in np.arange(0.1, 12, 0.1):
        for besides in range(4):
            expected = CountRule(multiple=2, plus=besides % 2).nearest(float(exact))
            columns = {"exact": np.array([exact]), "besides": np.array([besides])}
            assert picked.at(columns) == expected, (exact, besides)
            assert math.isclose(float(picked.at({"exact": exact, "besides": besides})), expected)
