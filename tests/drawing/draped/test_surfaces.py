"""Smoothing against Loop's rules, from memory, worked by hand, and against shapes that it keeps."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from schematics.drawing.draped.surfaces import Surface, smoothed

HEXAGON = [(np.cos(turn), np.sin(turn), 0.0) for turn in np.linspace(0, 2 * np.pi, 6, endpoint=False)]
FAN = np.array([(0, k + 1, (k + 1) % 6 + 1) for k in range(6)])


def grid(high: object, *, creases: bool = False) -> Surface:
    """Seven by seven points a centimetre apart, as high as is said; the middle row is a line."""
    x, y = (each.reshape(-1) for each in np.meshgrid(np.arange(7.0), np.arange(7.0)))
    numbers = np.arange(49).reshape(7, 7)
    a, b, c, d = (
        each.reshape(-1) for each in (numbers[:-1, :-1], numbers[:-1, 1:], numbers[1:, 1:], numbers[1:, :-1])
    )
    return Surface(
        vertices=np.stack([x, y, high(x, y)], axis=1),  # type: ignore[operator]
        triangles=np.concatenate([np.stack([a, b, c], axis=1), np.stack([a, c, d], axis=1)]),
        lines={"middle": numbers[3]},
        creases=frozenset({"middle"} if creases else ()),
    )


def test_a_point_among_six_and_the_middles_of_its_edges() -> None:
    """The point keeps five eighths, a middle gets three eighths of each end and an eighth of each across."""
    fan = Surface(vertices=np.array([(0.0, 0.0, 8.0), *HEXAGON]), triangles=FAN, lines={})
    once = smoothed(fan, 1)
    assert once.vertices[0] == pytest.approx([0, 0, 5])
    spokes = once.vertices[7:][once.vertices[7:, 2] > 0]
    assert spokes[:, 2] == pytest.approx([3] * 6)
    assert len(once.triangles) == 24


def test_an_open_edge_moves_with_its_own_points_alone() -> None:
    fan = Surface(vertices=np.array([(0.0, 0.0, 8.0), *HEXAGON]), triangles=FAN, lines={})
    edge = smoothed(fan, 1).vertices[1:7]
    assert edge == pytest.approx(np.array(HEXAGON) * (3 / 4 + 1 / 8))


def test_what_is_flat_stays_flat_and_as_large() -> None:
    flat = smoothed(grid(lambda x, y: 0.5 * x - y), 2)
    x, y, z = flat.vertices.T
    assert z == pytest.approx(0.5 * x - y)
    a, b, c = (flat.vertices[flat.triangles[:, corner]] for corner in range(3))
    whole = np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2
    assert whole == pytest.approx(36 * np.sqrt(1 + 0.25 + 1), rel=0.02)


def test_a_crease_stays_sharp_and_any_other_ridge_is_rounded() -> None:
    ridges = [smoothed(grid(lambda x, y: -abs(y - 3), creases=crease), 3) for crease in (True, False)]
    sharp, rounded = (ridge.path("middle") for ridge in ridges)
    assert sharp[:, 1:] == pytest.approx(np.tile([3.0, 0.0], (len(sharp), 1)))
    assert len(sharp) == 49
    assert rounded[1:-1, 2].max() < -0.1


def test_lines_follow_their_edges() -> None:
    finer = smoothed(grid(lambda x, y: np.sin(x)), 2)
    steps = np.diff(finer.path("middle"), axis=0)
    edges = {tuple(sorted(pair)) for a, b, c in finer.triangles.tolist() for pair in ((a, b), (b, c), (c, a))}
    line = finer.lines["middle"].tolist()
    assert all(tuple(sorted(pair)) in edges for pair in pairwise(line))
    assert (steps[:, 0] > 0).all()


def test_normals_of_a_slope() -> None:
    slope = grid(lambda x, y: 2 * x)
    assert slope.normals == pytest.approx(np.tile(np.array([-2, 0, 1]) / np.sqrt(5), (49, 1)))
