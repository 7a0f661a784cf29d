"""Gradients and Hessians against differences, and energy that falls."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import numpy as np
import pytest

from schematics.garment.cloth.arrays import Floats, Indices
from schematics.garment.cloth.contact import CLEARANCE_CM, Contact
from schematics.garment.cloth.hanging import step
from schematics.garment.cloth.solid_body import arm_direction, solid_arm, solid_body
from schematics.wearer.proportions import proportioned
from tests.garment.cloth.sheets import flat_fabric, grid, made
from tests.shipped import shipped_results

RANDOM = np.random.default_rng(20)


def differences(energy: Callable[[Floats], float], at: Floats) -> Floats:
    """The gradient by central differences."""
    found = np.empty_like(at)
    for place in np.ndindex(at.shape):
        off = np.zeros_like(at)
        off[place] = 1e-5
        found[place] = (energy(at + off) - energy(at - off)) / 2e-5
    return found


def crumpled() -> tuple[Floats, Indices, Floats]:
    points, cut = grid(np.linspace(0, 8, 5), np.linspace(0, 6, 4))
    at = np.column_stack([points, np.zeros(len(points))]) * 1.1
    return points, cut, at + RANDOM.normal(0, 0.4, at.shape)


def test_the_gradient_of_fabric_is_that_of_its_energy() -> None:
    points, cut, at = crumpled()
    held = np.zeros((len(points), 3), bool)
    cloth = flat_fabric(points, cut, held, made(len(cut), stiffness=1.5, bending=0.02))
    assert cloth.at(at)[1] == pytest.approx(differences(lambda each: cloth.at(each)[0], at), abs=1e-6)


def test_the_hessian_of_pulled_fabric_is_that_of_its_energy() -> None:
    points, cut, _ = crumpled()
    held = np.zeros((len(points), 3), bool)
    stretch = flat_fabric(points, cut, held, made(len(cut), stiffness=1.5, bending=0.0)).stretch
    at = np.column_stack([points * [1.3, 1.2], np.zeros(len(points))])
    whole = np.zeros((at.size, at.size))
    for triangle, block in zip(cut, stretch.at(at)[2](), strict=True):
        rows = (3 * triangle[:, None] + np.arange(3)).ravel()
        whole[np.ix_(rows, rows)] += block
    across: Floats = np.asarray(RANDOM.normal(0, 1, at.shape))
    later, before = (stretch.at(at + off * across)[1] for off in (1e-5, -1e-5))
    expected = np.ravel(later - before) / 2e-5
    assert whole @ across.ravel() == pytest.approx(expected, abs=1e-5)


def a_child() -> Contact:
    wearer = next(each for each in shipped_results("tidepool") if each.size.name == "6").wearer
    found = proportioned(wearer)
    assert found is not None
    body = solid_body(found.size, solid_arm(found.size, arm_direction(0.6)))
    return Contact(solid=body, area=np.full(400, 3.0))


@pytest.mark.slow
def test_contact_and_friction_have_the_gradients_of_their_energies() -> None:
    contact = a_child()
    points = RANDOM.uniform([0.5, 50, -10], [35, 110, 12], (9_000, 3))
    apart, _ = contact.solid.parts(points)
    near = points[(apart.min(axis=0) > -0.5) & (apart.min(axis=0) < CLEARANCE_CM - 0.01)][:400]
    assert len(near) == 400
    rubbing = contact.rubbing(near, near + RANDOM.normal(0, 0.1, near.shape), 0.4)
    for load in (contact, rubbing):
        _, gradient, _ = load.at(near)
        for axis in range(3):
            off = np.zeros_like(near)
            off[::2, axis] = 1e-6
            moved = (load.at(near + off)[0] - load.at(near - off)[0]) / 2e-6
            assert moved == pytest.approx(gradient[::2, axis].sum(), rel=1e-4, abs=1e-4)


def test_energy_falls_with_every_step() -> None:
    points, cut = grid(np.linspace(0, 12, 13), np.linspace(0, 3, 4))
    held = np.zeros((len(points), 3), bool)
    held[points[:, 0] == 0] = True
    cloth = flat_fabric(points, cut, held, made(len(cut), stiffness=1.5, bending=0.01), step_s=0.2)
    at, energies = np.column_stack([points[:, 0], np.zeros(len(points)), points[:, 1]]), []
    for _ in range(12):
        energies.append(cloth.at(at)[0])
        at = step(cloth, at).points
    assert all(later <= before for before, later in itertools.pairwise(energies))
    assert energies[-1] < energies[0] - 0.01


def test_the_distance_to_a_tapered_arm() -> None:
    contact = a_child()
    arm = contact.solid.arm  # type: ignore[attr-defined]
    middle, off = arm.at(arm.length_cm / 2), np.array([math.cos(0.6), math.sin(0.6), 0.0])
    lean = math.asin((arm.upper_radius_cm - arm.wrist_radius_cm) / arm.length_cm)
    mean = (arm.upper_radius_cm + arm.wrist_radius_cm) / 2
    far, _ = contact.solid.parts((middle + 5 * off)[None])
    assert far[1, 0] == pytest.approx(5 * math.cos(lean) - mean, abs=1e-9)
