"""The fabric against closed forms and against exact shapes worked out by other means."""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

from schematics.garment.cloth.arrays import Floats, Indices
from schematics.garment.cloth.contact import CLEARANCE_CM, STIFFNESS, Contact
from schematics.garment.cloth.hanging import fabric_3d
from tests.garment.cloth.sheets import (
    WEIGHT,
    at_rest,
    cut_as_garments_are,
    flat_fabric,
    grid,
    hexagonal_strip,
    made,
)

SLOW = pytest.mark.slow

ELASTICA = [
    {key: float(value) for key, value in row.items()}
    for row in csv.DictReader((Path(__file__).parent / "elastica.csv").read_text("utf-8").splitlines())
]
"""Exact shapes of a heavy strip held level at one end: k = w L³ / B, integrated twice by independent code."""

CATENARY = [(1.05, 0.1393), (1.2, 0.2923), (1.5, 0.5026), (2.0, 0.7964)]
"""Length over span, and sag over span, of a chain: 2a sinh(1/2a) = length, a (cosh(1/2a) - 1) = sag."""


def stretched_strip(rows: int = 12) -> tuple[float, float]:
    """How much longer a strip gets that hangs by its end, and w L² / 2K."""
    length, stiffness = 60.0, 1.0
    points, cut = grid(np.linspace(0, 6, 3), -np.linspace(0, length, rows + 1))
    cut = cut[:, ::-1]
    held = np.zeros((len(points), 3), bool)
    held[points[:, 1] == 0] = True
    cloth = flat_fabric(points, cut, held, made(len(cut), stiffness=stiffness, bending=0.0))
    rest = at_rest(cloth, np.column_stack([points, np.zeros(len(points))]))
    return -float(rest[:, 1].min()) - length, WEIGHT * length**2 / (2 * stiffness)


LENGTH, WIDTH = 6.0, 2.25
"""Of a heavy strip held level, in cm."""

CUTS = {
    f"rows {way} it, {segments} segments": hexagonal_strip(LENGTH, WIDTH, LENGTH / segments, along=along)
    for segments in (16, 32)
    for way, along in (("along", True), ("across", False))
}
"""A regular grid of triangles in two directions, and of half the lengths."""


def held_level(k: float, strip: tuple[Floats, Indices]) -> tuple[float, float]:
    """The slope at the tip and of the chord of a heavy strip held level, in degrees below level.

    It is half of one that lies across an edge, held along that. The tip is where the curve of the last
    quarter, of the third degree along the strip, ends.
    """
    points, cut = strip
    length, bending = LENGTH, WEIGHT * LENGTH**3 / k
    clamped = points[:, 0] < 1e-9
    held = np.repeat(clamped[:, None], 3, axis=1)
    fabric = made(len(cut), stiffness=30.0, bending=bending)
    cloth = fabric_3d(cut, points[cut], fabric, held, step_s=3.0, on_plane=clamped)
    start = np.column_stack([points[:, 0], np.zeros(len(points)), points[:, 1]])
    rest = at_rest(cloth, start)
    last = points[:, 0] > 0.75 * length
    x, y = (np.polynomial.Polynomial.fit(points[last, 0], rest[last, axis], 3) for axis in (0, 1))
    tip = math.degrees(math.atan2(-y.deriv()(length), x.deriv()(length)))
    return tip, math.degrees(math.atan2(-y(length), x(length)))


def sag(slack: float, segments: int = 24) -> float:
    """The sag over the span of fabric that hangs from both ends and hardly resists bending."""
    span = 40.0
    xs = np.linspace(0, slack * span, segments + 1)
    points, cut = grid(xs, np.array([0.0, 2.0]))
    held = np.zeros((len(points), 3), bool)
    held[(points[:, 0] == 0) | (points[:, 0] == xs[-1])] = True
    cloth = flat_fabric(points, cut, held, made(len(cut), stiffness=100.0, bending=1e-6), step_s=3.0)
    share = points[:, 0] / xs[-1]
    deep = span * 0.5 * math.sqrt(slack**2 - 1)
    start = np.column_stack([share * span, -deep * (1 - np.abs(2 * share - 1)), points[:, 1]])
    return -float(at_rest(cloth, start)[:, 1].min()) / span


def hung_cone(rows: int = 10) -> tuple[float, float]:
    """How far the point of a cone sinks that hangs by its edge, and w S² / 4 K cos² of half its angle.

    At a slant distance s from its point a cone carries the weight below it, w s / 2 cos to the centimetre.
    """
    slant, half, stiffness, around = 30.0, math.radians(25), 0.5, 24
    opening = math.tau * math.sin(half)
    flat, points, number = [], [[0.0, -slant * math.cos(half), 0.0]], np.zeros((rows + 1, around), int)
    for i in range(1, rows + 1):
        for j in range(around):
            s, turn = slant * i / rows, math.tau * j / around
            number[i, j] = len(points)
            points.append(
                [
                    s * math.sin(half) * math.cos(turn),
                    -s * math.cos(half),
                    s * math.sin(half) * math.sin(turn),
                ]
            )
    points[0] = [0.0, 0.0, 0.0]
    cut, rest = [], []
    for i in range(rows):
        for j in range(around):
            ids = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)]
            for corner in ((0, 1, 2), (0, 2, 3)) if i else ((0, 1, 2),):
                cut.append([number[ids[c][0], ids[c][1] % around] for c in corner])
                turned = [(ids[c][1] - j - 0.5) * opening / around for c in corner]
                flat = [slant * ids[c][0] / rows for c in corner]
                rest.append([(s * math.sin(t), s * math.cos(t)) for s, t in zip(flat, turned, strict=True)])
    placed = np.array(points) * [1, -1, 1] - [0, slant * math.cos(half), 0]
    held = np.zeros((len(placed), 3), bool)
    held[number[rows]] = True
    triangles = np.array(cut)
    cloth = fabric_3d(
        triangles, np.array(rest), made(len(cut), stiffness=stiffness, bending=0.0), held, step_s=1.0
    )
    sunk = float(placed[0, 1] - at_rest(cloth, placed)[0, 1])
    return sunk, WEIGHT * slant**2 / (4 * stiffness * math.cos(half) ** 2)


@dataclass(frozen=True)
class Rod:
    """An endless upright rod."""

    radius: float

    def parts(self, points: Floats) -> tuple[Floats, Floats]:
        """Exact."""
        flat = points * [1.0, 0.0, 1.0]
        off = np.linalg.norm(flat, axis=1)
        return (off - self.radius)[None], (flat / off[:, None])[None]


def ring_round_a_rod(around: int = 32) -> tuple[float, float]:
    """How much a tight ring is stretched round a rod, and the strain at which hoop pull and push are equal.

    A pull T in a ring of radius R pushes with T/R.
    """
    girth, radius, stiffness = 15.0, 3.0, 1.5
    xs = np.linspace(0, girth, around + 1)
    points, cut = grid(xs, np.array([0.0, 1.0, 2.0]))
    welded = np.arange(len(points)) % (3 * around)
    turn = math.tau * points[: 3 * around, 0] / girth
    start = np.column_stack([4 * np.cos(turn), points[: 3 * around, 1], 4 * np.sin(turn)]) + np.array(
        [20.0, 0.0, 0.0]
    )
    triangles, held = welded[cut], np.zeros((3 * around, 3), bool)
    held[:, 1] = True
    fabric = made(len(cut), stiffness=stiffness, bending=0.0, weight=1e-6)
    cloth = fabric_3d(triangles, points[cut], fabric, held, step_s=0.02)

    @dataclass(frozen=True)
    class Aside:
        def parts(self, at: Floats) -> tuple[Floats, Floats]:
            return Rod(radius).parts(at - [20.0, 0.0, 0.0])

    rest = at_rest(cloth, start, [Contact(solid=Aside(), area=cloth.area)]) - [20.0, 0.0, 0.0]
    found = float(np.linalg.norm(rest[:, [0, 2]], axis=1).mean())
    low, high = radius, radius + CLEARANCE_CM
    for _ in range(60):
        middle = (low + high) / 2
        pull = stiffness * (math.tau * middle / girth - 1)
        if pull * math.tau > STIFFNESS * girth * (radius + CLEARANCE_CM - middle):
            high = middle
        else:
            low = middle
    return math.tau * found / girth - 1, math.tau * low / girth - 1


def test_a_strip_stretches_by_its_own_weight() -> None:
    found, expected = stretched_strip()
    assert found == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize("cut", [pytest.param(cut, marks=SLOW if "32" in cut else ()) for cut in CUTS])
@pytest.mark.parametrize("row", ELASTICA, ids=lambda row: f"k = {row['k']:g}")
def test_a_heavy_strip_held_level(row: dict[str, float], cut: str) -> None:
    assert held_level(row["k"], CUTS[cut]) == pytest.approx(
        (row["tip_degrees"], row["chord_degrees"]), abs=1.0
    )


@pytest.mark.parametrize("segments", [16, pytest.param(32, marks=SLOW)])
@pytest.mark.parametrize("row", ELASTICA, ids=lambda row: f"k = {row['k']:g}")
def test_a_heavy_strip_cut_as_garments_are(row: dict[str, float], segments: int) -> None:
    """Triangles at its rim are not regular: it is up to a sixth stiffer."""
    strip = cut_as_garments_are(LENGTH, WIDTH, LENGTH / segments)
    found = held_level(row["k"], strip)
    assert found == pytest.approx((row["tip_degrees"], row["chord_degrees"]), abs=3.0)


@pytest.mark.parametrize(("slack", "expected"), CATENARY)
def test_fabric_sags_like_a_chain(slack: float, expected: float) -> None:
    assert sag(slack) == pytest.approx(expected, rel=0.01)


def test_a_cone_hung_by_its_edge() -> None:
    found, expected = hung_cone()
    assert found == pytest.approx(expected, rel=0.03)


def test_a_ring_round_a_rod() -> None:
    found, expected = ring_round_a_rod()
    assert found == pytest.approx(expected, rel=0.02)
