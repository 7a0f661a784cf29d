"""The mesh of a garment against the garment: areas, edges that meet, one surface with holes for arms."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest

from schematics.cloth.seamed_mesh import ARM_BAND, BODY, PARTS, SeamedMesh, seamed_mesh
from schematics.garment.garment import Garment
from tests.shipped import EACH_CONSTRUCTION, shipped_results


def garment_of(design: str, size: str = "6") -> Garment:
    return next(each.garment for each in shipped_results(design) if each.size.name == size)


def edges_of(mesh: SeamedMesh) -> set[tuple[int, int]]:
    pairs = itertools.chain.from_iterable(itertools.permutations(each, 2) for each in mesh.triangles.tolist())
    return {pair for pair in pairs if pair[0] < pair[1]}


@pytest.mark.parametrize("design", EACH_CONSTRUCTION)
def test_the_pieces_are_all_there(design: str) -> None:
    garment, mesh = garment_of(design), seamed_mesh(garment_of(design), 300)
    one, other = mesh.flat[:, 1] - mesh.flat[:, 0], mesh.flat[:, 2] - mesh.flat[:, 0]
    area = 0.5 * (one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
    assert area.min() > 0
    for at, name in enumerate(PARTS):
        outline = garment.piece(name).outline.area
        half = outline if name in (BODY, ARM_BAND) else outline / 2
        assert area[mesh.part == at].sum() == pytest.approx(half, rel=0.005)


@pytest.mark.parametrize("design", EACH_CONSTRUCTION)
def test_the_right_half_is_one_sheet_with_a_hole_for_the_arm(design: str) -> None:
    """Points less edges plus triangles are 1 for a disc, one less for each hole (Euler)."""
    mesh = seamed_mesh(garment_of(design), 300)
    edges = edges_of(mesh)
    assert len(mesh.place) - len(edges) + len(mesh.triangles) == 0
    sides = np.sort(np.concatenate([mesh.triangles[:, [a, (a + 1) % 3]] for a in range(3)]), axis=1)
    assert np.unique(sides, axis=0, return_counts=True)[1].max() == 2


@pytest.mark.parametrize("design", EACH_CONSTRUCTION)
def test_lines_run_along_edges_of_triangles(design: str) -> None:
    mesh = seamed_mesh(garment_of(design), 300)
    edges = edges_of(mesh)
    for chain in mesh.lines.values():
        pairs = [(min(pair), max(pair)) for pair in itertools.pairwise(chain.tolist()) if pair[0] != pair[1]]
        assert edges.issuperset(pairs)


def test_stitches_run_across_along_the_rows() -> None:
    """A ring sector's rows are arcs about its centre: across is square to the radius."""
    garment = garment_of("tidepool", "M")  # its increases go on to the hem
    mesh = seamed_mesh(garment, 300)
    body = mesh.part == 0
    neck, hem = (garment.piece(BODY).edge(name).length_cm for name in ("neck", "hem"))
    inner = neck / ((hem - neck) / garment.drop_cm)
    towards = mesh.flat[body].mean(axis=1) - [0.0, inner]
    turn = np.arctan2(towards[:, 0], -towards[:, 1])
    flat, rest = mesh.flat[body], mesh.rest[body]
    one, turned = flat[:, 1] - flat[:, 0], rest[:, 1] - rest[:, 0]
    expected = one[:, 0] * np.cos(turn) + one[:, 1] * np.sin(turn)
    assert turned[:, 0] == pytest.approx(expected, abs=0.25)


def test_a_finer_mesh_has_as_many_more_points() -> None:
    coarse, fine = (seamed_mesh(garment_of("saltmarsh"), points) for points in (200, 800))
    assert math.isclose(len(fine.place), 4 * len(coarse.place), rel_tol=0.3)


@pytest.mark.slow
@pytest.mark.parametrize("design", ["kelp", "tidepool"])
def test_fabric_is_as_large_as_its_stitches(design: str) -> None:
    """Of a body whose increases end above the hem the outline is a taper, smaller than what is worked."""
    garment = garment_of(design)
    mesh = seamed_mesh(garment, 300)
    one, other = mesh.rest[:, 1] - mesh.rest[:, 0], mesh.rest[:, 2] - mesh.rest[:, 0]
    area = 0.5 * (one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
    assert area[mesh.part == 0].sum() == pytest.approx(garment.piece(BODY).area_cm2 / 2, rel=0.03)
