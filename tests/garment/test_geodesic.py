"""Shortest paths against brute force in exact arithmetic, the disc's closed form, and their own laws."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Callable
from typing import TypeVar

import pytest
from shapely import LineString, Point, Polygon
from shapely.affinity import rotate, scale

from schematics.garment.geodesic import Path, shortest_paths
from tests.examples import seeds
from tests.garment.journey import shortest_path
from tests.visibility import Rings, blocks, points_in, sees, shortest_lengths, star

Shape = TypeVar("Shape", Point, Polygon)
SEEDS = seeds(range(25), step=11)
MAKERS = pytest.mark.parametrize("make", [star, blocks])


def polygon(rings: Rings) -> Polygon:
    return Polygon(rings[0], rings[1:])


def assert_a_path_inside(domain: Polygon, path: Path) -> None:
    line = LineString(path.points) if len(path.points) > 1 else Point(path.points[0])
    assert path.length_cm == pytest.approx(line.length)
    assert domain.buffer(1e-5).covers(line)
    assert all(math.dist(*leg) > 0 for leg in itertools.pairwise(path.points))


@pytest.mark.slow
@MAKERS
@pytest.mark.parametrize("seed", SEEDS)
def test_as_short_as_brute_force(make: Callable[[random.Random], Rings], seed: int) -> None:
    rng = random.Random(seed)
    rings = make(rng)
    domain, points = polygon(rings), points_in(rings, rng, 5)
    lengths = shortest_lengths(rings, points)
    for start, goal in itertools.permutations(points, 2):
        if start == goal:
            continue
        path = shortest_path(domain, Point(start), Point(goal))
        assert path.length_cm == pytest.approx(lengths[start, goal], rel=1e-9)
        assert (path.points[0], path.points[-1]) == (start, goal)
        assert_a_path_inside(domain, path)
        if sees(rings, start, goal):
            assert path.length_cm == pytest.approx(math.dist(start, goal), rel=1e-12)
        else:
            assert path.length_cm > math.dist(start, goal)


@pytest.mark.slow
@MAKERS
@pytest.mark.parametrize("seed", SEEDS)
def test_there_and_back_are_equal_and_no_detour_is_shorter(
    make: Callable[[random.Random], Rings], seed: int
) -> None:
    rng = random.Random(1000 + seed)
    rings = make(rng)
    domain = polygon(rings)

    def length(one: tuple[int, int], other: tuple[int, int]) -> float:
        return shortest_path(domain, Point(one), Point(other)).length_cm

    for a, b, c in itertools.combinations(points_in(rings, rng, 4), 3):
        assert length(a, b) == pytest.approx(length(b, a), rel=1e-12)
        assert length(a, c) <= length(a, b) + length(b, c) + 1e-9


@pytest.mark.parametrize("seed", SEEDS)
def test_turned_shrunk_and_mirrored_it_is_the_same_path(seed: int) -> None:
    """Turned, the edges that a path runs along are no longer straight to the last bit."""
    rng = random.Random(2000 + seed)
    rings = blocks(rng)
    domain = polygon(rings)
    start, goal = (Point(each) for each in points_in(rings, rng, 2))
    angle, factor = rng.uniform(0, 360), rng.uniform(0.1, 20)

    def moved(shape: Shape) -> Shape:
        turned = rotate(shape, angle, origin=(0, 0))
        return scale(turned, -factor, factor, origin=(0, 0))

    before = shortest_path(domain, start, goal)
    after = shortest_path(moved(domain), moved(start), moved(goal))
    assert after.length_cm == pytest.approx(factor * before.length_cm, rel=1e-6)


@pytest.mark.slow
@MAKERS
@pytest.mark.parametrize("seed", SEEDS)
def test_a_goal_line_is_reached_where_it_is_nearest(
    make: Callable[[random.Random], Rings], seed: int
) -> None:
    """Against points close together along the line: none nearer, and the nearest as near as their spacing."""
    rng = random.Random(3000 + seed)
    rings = make(rng)
    domain = polygon(rings)
    at = rng.randrange(len(rings[0]))
    ring = [*rings[0], *rings[0]]
    goal = LineString(ring[at : at + rng.randint(2, 3)])
    (start,) = points_in(rings, rng, 2)[1:]
    path = shortest_path(domain, Point(start), goal)
    assert goal.distance(Point(path.points[-1])) < 1e-9
    assert_a_path_inside(domain, path)
    spacing = goal.length / 50
    sampled = min(
        shortest_path(domain, Point(start), goal.interpolate(i * spacing)).length_cm for i in range(51)
    )
    assert sampled - spacing <= path.length_cm <= sampled + 1e-9


def test_many_journeys_are_each_as_one() -> None:
    rng = random.Random(4000)
    rings = blocks(rng)
    domain = polygon(rings)
    ends = [Point(each) for each in points_in(rings, rng, 5)]
    journeys: list[tuple[Point, Point | LineString]] = [*itertools.permutations(ends, 2)]
    journeys.append((ends[1], LineString(rings[0][:2])))
    assert shortest_paths(domain, journeys) == tuple(shortest_path(domain, *each) for each in journeys)
    assert shortest_paths(domain, []) == ()


def round_a_disc(q: float, r1: float, r2: float, t: float) -> float:
    """The shortest way from (r1, 0) to (r2, t) round a disc of radius q, polar coordinates."""
    wrap = t - math.acos(q / r1) - math.acos(q / r2)
    if wrap <= 0:
        return math.sqrt(r1**2 + r2**2 - 2 * r1 * r2 * math.cos(t))
    return math.sqrt(r1**2 - q**2) + math.sqrt(r2**2 - q**2) + q * wrap


def ring_sector(q: float, r: float, angle: float, vertices: int) -> Polygon:
    turns = [angle * i / vertices for i in range(vertices + 1)]
    outer = [(r * math.cos(t), r * math.sin(t)) for t in turns]
    return Polygon([*outer, *((q * math.cos(t), q * math.sin(t)) for t in reversed(turns))])


@pytest.mark.parametrize("seed", seeds(range(20)))
def test_round_a_disc(seed: int) -> None:
    rng = random.Random(seed)
    q, angle = rng.uniform(5, 20), rng.uniform(0.3, 6.2)
    r = q + rng.uniform(5, 60)
    domain = ring_sector(q, r, angle, 200)
    r1, near = rng.choice([(q, (q, 0.0)), (r, (r, 0.0))])
    r2 = rng.choice([q, r])
    path = shortest_path(domain, Point(near), Point(r2 * math.cos(angle), r2 * math.sin(angle)))
    # An arc's vertices lie on it: its chords fall short by a 24th of the angle between them squared.
    assert path.length_cm == pytest.approx(round_a_disc(q, r1, r2, angle), rel=(angle / 200) ** 2 / 24)


def test_a_path_along_a_slanting_edge_with_vertices_on_it_is_straight() -> None:
    ends = (0.0, 0.0), (3.3, 7.7)
    along = [(3.3 * i / 7, 7.7 * i / 7) for i in range(8)]
    path = shortest_path(Polygon([*along, (-9, 5)]), Point(ends[0]), Point(ends[1]))
    assert path.points == ends
    assert path.length_cm == pytest.approx(math.hypot(3.3, 7.7))


@pytest.mark.parametrize("hair", [0.0, 1e-13, 1e-10, 1e-7])
def test_a_corner_given_twice_is_still_a_corner(hair: float) -> None:
    ell = Polygon([(0, 0), (4, 0), (4, 1), (1 + hair, 1), (1, 1 + hair), (1, 4), (0, 4)])
    assert shortest_path(ell, Point(4, 1), Point(1, 4)).length_cm == pytest.approx(6, abs=1e-5)


def test_the_direction_of_the_outline_and_its_holes_does_not_matter() -> None:
    outer, hole = [(0, 0), (9, 0), (9, 9), (0, 9)], [(2, 2), (7, 2), (7, 7), (2, 7)]
    lengths = {
        round(shortest_path(Polygon(one, [other]), Point(1, 3), Point(8, 3)).length_cm, 9)
        for one in (outer, outer[::-1])
        for other in (hole, hole[::-1])
    }
    assert lengths == {round(5 + 2 * math.sqrt(2), 9)}


def test_holes_that_touch_leave_no_way_between_them_but_the_point() -> None:
    squares = [[(3, 3), (3, 5), (5, 5), (5, 3)], [(5, 5), (5, 7), (7, 7), (7, 5)]]
    domain = Polygon([(0, 0), (10, 0), (10, 10), (0, 10)], squares)
    path = shortest_path(domain, Point(4, 6), Point(8, 4))
    assert path.points == ((4, 6), (5, 5), (8, 4))


def test_a_start_on_the_goal_is_no_way_at_all() -> None:
    square = Polygon([(0, 0), (4, 0), (4, 4), (0, 4)])
    nowhere = Path(length_cm=0, points=((4, 2),))
    assert shortest_path(square, Point(4, 2), Point(4, 2)) == nowhere
    assert shortest_path(square, Point(4, 2), LineString([(4, 0), (4, 4)])) == nowhere


@pytest.mark.parametrize(
    ("start", "goal", "sentence"),
    [
        (Point(5, 1), Point(1, 1), "the start POINT (5 1) lies outside the domain"),
        (Point(2, 2), Point(1, 1), "the start POINT (2 2) lies outside the domain"),
        (Point(1, 1), Point(-0.001, 1), "the goal POINT (-0.001 1) lies outside the domain"),
        (
            Point(1, 1),
            LineString([(3, 3), (3, 5)]),
            "the goal LINESTRING (3 3, 3 5) lies outside the domain",
        ),
    ],
)
def test_outside_is_said_plainly(start: Point, goal: Point | LineString, sentence: str) -> None:
    holed = Polygon([(0, 0), (4, 0), (4, 4), (0, 4)], [[(1.5, 1.5), (2.5, 1.5), (2.5, 2.5), (1.5, 2.5)]])
    with pytest.raises(ValueError, match="lies outside the domain") as caught:
        shortest_path(holed, start, goal)
    assert str(caught.value) == sentence


def test_a_hair_outside_is_inside() -> None:
    square = Polygon([(0, 0), (4, 0), (4, 4), (0, 4)])
    assert shortest_path(square, Point(-1e-9, 1), Point(4 + 1e-9, 1)).length_cm == pytest.approx(4)


def test_an_outline_that_crosses_itself_is_refused() -> None:
    bow = Polygon([(0, 0), (4, 4), (4, 0), (0, 4)])
    with pytest.raises(ValueError, match=r"the domain is not a valid polygon: Self-intersection\[2 2\]"):
        shortest_path(bow, Point(1, 1), Point(3, 1))
