"""Tracks: arc length, normals and parallel curves, against closed forms and shapely's own offsets."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString
from shapely import Point as ShapelyPoint

from schematics.drawing.ink.track import Arc, Bent, Straight, Track
from tests.examples import examples

_coordinates = st.floats(-200, 200)
_points = st.tuples(_coordinates, _coordinates)
_straights = st.builds(Straight, _points, _points).filter(lambda line: line.length > 1)
_sweeps = st.one_of(st.floats(0.05, 6.2), st.floats(-6.2, -0.05))
_arcs = st.builds(Arc, _points, st.floats(2, 300), st.floats(-7, 7), _sweeps)
_steps = st.lists(st.tuples(st.floats(5, 60), st.floats(-1.2, 1.2)), min_size=2, max_size=6)


def _bent(steps: list[tuple[float, float]]) -> Bent:
    """A path that turns by the second of each pair, then goes on by the first."""
    x = y = heading = 0.0
    corners = [(x, y)]
    for length, turn in steps:
        heading += turn
        x, y = x + length * math.cos(heading), y + length * math.sin(heading)
        corners.append((x, y))
    return Bent(tuple(corners))


_tracks = st.one_of(_straights, _arcs, st.builds(_bent, _steps))


@examples(100)
@given(_tracks, st.floats(0, 1))
def test_a_point_is_as_far_along_as_asked(track: Track, share: float) -> None:
    drawn = LineString(track.points())
    at = ShapelyPoint(track.at(track.length * share))
    assert drawn.length == pytest.approx(track.length, rel=1e-3)
    sagitta = track.radius * (1 - math.cos(math.radians(1))) if isinstance(track, Arc) else 0.0
    assert drawn.distance(at) <= sagitta + 1e-6


@examples(100)
@given(_tracks, st.floats(0.5, 30))
def test_a_track_goes_straight_on_beyond_its_ends(track: Track, beyond: float) -> None:
    for s, way in ((0.0, -1.0), (track.length, 1.0)):
        tangent = track.tangent(s)
        x, y = track.at(s)
        on = track.at(s + way * beyond)
        assert on == pytest.approx((x + way * beyond * tangent[0], y + way * beyond * tangent[1]), abs=1e-6)


@examples(100)
@given(_tracks, st.floats(0, 1))
def test_the_free_side_is_on_the_right_as_printed(track: Track, share: float) -> None:
    """With y down, a right turn takes (1, 0) to (0, 1)."""
    tangent, normal = track.tangent(track.length * share), track.normal(track.length * share)
    assert math.hypot(*tangent) == pytest.approx(1)
    assert normal == pytest.approx((-tangent[1], tangent[0]))


@examples(100)
@given(_straights, st.floats(0.5, 50))
def test_a_straight_offset_is_parallel_at_that_distance(track: Straight, distance: float) -> None:
    moved = track.offset(distance)
    assert moved.length == pytest.approx(track.length)
    assert math.dist(moved.start, track.start) == pytest.approx(distance)
    assert LineString(moved.points()).distance(LineString(track.points())) == pytest.approx(distance)


@examples(100)
@given(_arcs, st.floats(0.5, 50))
def test_an_arc_offset_is_concentric_or_refused(track: Arc, distance: float) -> None:
    moved = track.offset(distance)
    towards_centre = track.sweep > 0
    if moved is None:
        assert towards_centre
        assert track.radius - distance <= 1
        return
    assert moved.radius == pytest.approx(track.radius + (-distance if towards_centre else distance))
    assert moved.length / moved.radius == pytest.approx(track.length / track.radius)
    for share in (0.0, 0.3, 1.0):
        normal, at = track.normal(track.length * share), track.at(track.length * share)
        there = at[0] + normal[0] * distance, at[1] + normal[1] * distance
        assert moved.at(moved.length * share) == pytest.approx(there, abs=1e-6)


_MERGED = 1e-3
"""Where a line turns by less, in radians, GEOS puts one end in place of a mitre between the sides of an
offset curve (OffsetSegmentGenerator, from memory), so that it says less than the sides do."""


@pytest.mark.slow
@examples(100)
@given(_steps, st.floats(0.5, 20))
def test_a_bent_offset_is_shapelys_mitred_one(steps: list[tuple[float, float]], distance: float) -> None:
    """Each stretch moves sideways by the distance; shapely calls the right-hand side, y down, the left."""
    track = _bent(steps)
    moved = track.offset(distance)
    if moved is None:
        return
    for a, b, c, d in zip(track.corners, track.corners[1:], moved.corners, moved.corners[1:], strict=False):
        stretch = Straight(a, b)
        normal = stretch.normal(0)
        assert (c[0] - a[0]) * normal[0] + (c[1] - a[1]) * normal[1] == pytest.approx(distance)
        assert (d[0] - b[0]) * normal[0] + (d[1] - b[1]) * normal[1] == pytest.approx(distance)
    turns = [-abs(turn) for _, turn in steps[1:]]
    if sum(turns) <= -math.pi or any(-_MERGED <= turn < 0 for turn in turns):
        return
    outside = _bent([steps[0], *((length, turn) for (length, _), turn in zip(steps[1:], turns, strict=True))])
    theirs = LineString(outside.corners).offset_curve(distance, join_style="mitre", mitre_limit=20)
    ours = outside.offset(distance)
    assert ours
    assert LineString(ours.corners).hausdorff_distance(theirs) < 1e-6


def test_a_bend_too_sharp_for_a_parallel_is_refused() -> None:
    inside = Bent(((0.0, 0.0), (3.0, 0.0), (3.0, 3.0)))
    assert inside.offset(2.0) is not None
    assert inside.offset(4.0) is None
    hairpin = Bent(((0.0, 0.0), (30.0, 0.0), (0.0, 1.0)))
    assert hairpin.offset(5.0) is None


def test_a_quarter_circle_is_measured_in_closed_form() -> None:
    arc = Arc((0.0, 0.0), 10.0, 0.0, math.pi / 2)
    assert arc.length == pytest.approx(5 * math.pi)
    assert arc.at(arc.length) == pytest.approx((0.0, 10.0))
    assert arc.at(arc.length / 2) == pytest.approx((10 / math.sqrt(2), 10 / math.sqrt(2)))


@pytest.mark.parametrize(
    ("corners", "gap", "middle"),
    [
        ([(0, 0), (30, 0), (30, 10)], 6.0, 20.0),
        ([(0, 0), (22, 0), (22, 20)], 6.0, 11.0),
        ([(0, 0), (20, 0), (20, 22)], 6.0, 31.0),
        ([(0, 0), (4, 0), (4, 5)], 6.0, 4.5),
        ([(0, 0), (10, 0), (10, 20), (20, 20)], 6.0, 20.0),
    ],
)
def test_a_gap_in_a_bent_track_takes_no_corner_away(
    corners: list[tuple[float, float]], gap: float, middle: float
) -> None:
    """At the middle, beside a corner near it on the longer leg, or across it where no leg is long enough."""
    assert Bent(tuple(corners)).off_corners(gap) == pytest.approx(middle)
