"""What is seen, against shapes whose shadows and outlines are known: a square, a ball, a ring of links."""

from __future__ import annotations

import random
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from schematics.drawing.draped.hidden_lines import STEP, Scene, chained
from schematics.drawing.draped.surfaces import Surface, smoothed
from schematics.drawing.draped.views import LookedFrom
from tests.examples import examples

OCTAHEDRON = Surface(
    vertices=np.array([(1.0, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)]) * 10,
    triangles=np.array(
        [(0, 2, 4), (2, 1, 4), (1, 3, 4), (3, 0, 4), (2, 0, 5), (1, 2, 5), (3, 1, 5), (0, 3, 5)]
    ),
    lines={},
)


def ball(radius: float) -> Surface:
    """A ball: an octahedron made finer, with every point brought to the radius."""
    finer = smoothed(OCTAHEDRON, 4)
    out = finer.vertices / np.linalg.norm(finer.vertices, axis=1)[:, None]
    return Surface(vertices=out * radius, triangles=finer.triangles, lines={})


def triangle_at(corners: list[tuple[float, float]], depth: float) -> Surface:
    """A triangle square to who looks from the front."""
    points = np.array([(x, y, depth) for x, y in corners])
    return Surface(vertices=points, triangles=np.array([(0, 1, 2)]), lines={})


@pytest.mark.slow
@given(
    corners=st.lists(st.tuples(st.floats(-20, 20), st.floats(-20, 20)), min_size=3, max_size=3),
    ends=st.tuples(*[st.floats(-30, 30)] * 4),
    depth=st.sampled_from([-5.0, 5.0]),
)
@examples(60)
def test_a_line_is_hidden_where_a_triangle_is_before_it(
    corners: list[tuple[float, float]], ends: tuple[float, float, float, float], depth: float
) -> None:
    """Against shapely's difference of line and triangle, to a step at each end of what is seen."""
    x0, y0, x1, y1 = ends
    shape, line = Polygon(corners), LineString([(x0, y0), (x1, y1)])
    if shape.area < 1 or line.length < 5:
        return
    scene = Scene([triangle_at(corners, depth)], LookedFrom.FRONT)
    parts = scene.seen_parts(np.array([(x0, y0, 0.0), (x1, y1, 0.0)]), 0.1)
    seen = sum(LineString(part).length for part in parts)
    expected = line.difference(shape).length if depth > 0 else line.length
    assert seen == pytest.approx(expected, abs=4 * STEP + 1e-6)


@pytest.mark.parametrize("view", LookedFrom)
def test_the_outline_of_a_ball_is_a_circle_and_half_of_what_is_drawn_on_it_is_hidden(
    view: LookedFrom,
) -> None:
    surface = ball(10.0)
    scene = Scene([surface], view)
    ((outline, out),) = scene.outlines(surface)
    across, up, near = scene.view.seen(outline).T
    assert out == pytest.approx(outline / 10, abs=0.02)
    assert len(np.concatenate(scene.seen_outlines(surface, 0.3))) == pytest.approx(
        20 * np.pi / STEP, rel=0.05
    )
    assert np.hypot(across, up) == pytest.approx(np.full(len(outline), 10), abs=0.05)
    assert near == pytest.approx(np.zeros(len(outline)), abs=0.2)
    turns = np.linspace(0, 2 * np.pi, 400)
    equator = np.stack([10 * np.cos(turns), np.zeros(400), 10 * np.sin(turns)], axis=1)
    seen = np.concatenate(scene.seen_parts(equator, 0.2))
    assert len(seen) == pytest.approx(10 * np.pi / STEP, rel=0.1)
    assert np.ptp(view.seen(seen)[:, 0]) == pytest.approx(20, abs=0.3)


def test_each_view_turns_the_figure() -> None:
    """The wearer's left is at the right in front, at the left at the back; from her left she looks left."""
    left, face = np.array([[1.0, 2.0, 0.0]]), np.array([[0.0, 2.0, 1.0]])
    places = {view: (view.seen(left)[0].round(9), view.seen(face)[0].round(9)) for view in LookedFrom}
    assert [each.tolist() for each in places[LookedFrom.FRONT]] == [[1, 2, 0], [0, 2, 1]]
    assert [each.tolist() for each in places[LookedFrom.BACK]] == [[-1, 2, 0], [0, 2, -1]]
    assert [each.tolist() for each in places[LookedFrom.SIDE]] == [[0, 2, 1], [-1, 2, 0]]


@given(sizes=st.lists(st.integers(2, 8), min_size=1, max_size=4), seed=st.integers(0, 99), ring=st.booleans())
@examples(60)
def test_links_in_any_order_make_their_runs(sizes: list[int], seed: int, ring: bool) -> None:
    links: list[tuple[int, int]] = []
    first = 0
    for size in sizes:
        run = [*range(first, first + size), *([first] if ring and size > 2 else [])]
        links += pairwise(run)
        first += size
    mixed = random.Random(seed)
    mixed.shuffle(links)
    turned = [pair if mixed.random() < 0.5 else pair[::-1] for pair in links]
    runs = chained(np.array(turned))
    assert len(runs) == len(sizes)
    walked = [tuple(sorted(pair)) for run in runs for pair in pairwise(run.tolist())]
    assert sorted(walked) == sorted(tuple(sorted(pair)) for pair in links)
