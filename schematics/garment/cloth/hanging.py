"""Fabric that hangs: its energy, and steps to rest, each the least of one energy, by Newton's method."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from schematics.garment.cloth.arrays import Evaluated, Flags, Floats, Indices
from schematics.garment.cloth.banded import Band, band
from schematics.garment.cloth.bending import Sparse, bending_forms
from schematics.garment.cloth.contact import Load
from schematics.garment.cloth.material import GRAVITY, Material
from schematics.garment.cloth.membrane import Membrane, membrane

_ENOUGH = 1e-4
"""Of the descent that the slope promises, so much has to come of a step."""
_SHORTEST = 1e-7
_FARTHEST_CM = 2.0
"""No point moves farther in a Newton step: it could pass through an arm."""

Solver: TypeAlias = Callable[[], Callable[[Floats], Floats]]
"""Factors a Hessian, and gives what solves with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric3d:
    """Points' weights ``(n,)`` in N and areas in cm², stretching, bending and which coordinates are ``held``.

    ``drag`` is what a step resists being moved, in N/cm of each point, besides its forces.
    """

    weight: Floats
    area: Floats
    stretch: Membrane
    forms: tuple[Sparse, Sparse]
    held: Flags
    drag: Floats
    band: Band

    def at(self, points: Floats) -> Evaluated:
        """Of stretching, bending and height; its Hessian is that of stretching, ``(t, 9, 9)``."""
        energy, gradient, hessian = self.stretch.at(points)
        bent = np.column_stack([self.forms[0] @ points[:, 0], self.forms[1] @ points[:, 1:]])
        gradient = gradient + bent
        gradient[:, 1] += self.weight
        return (
            energy + 0.5 * float((points * bent).sum()) + float(self.weight @ points[:, 1]),
            gradient,
            hessian,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Stepped:
    """Where points have got to, and how many Newton steps it took."""

    points: Floats
    iterations: int
    evaluations: int


def fabric_3d(
    triangles: Indices,
    rest: Floats,
    material: Material,
    held: Flags,
    *,
    step_s: float,
    on_plane: Flags | None = None,
) -> Fabric3d:
    """Fabric of triangles ``(t, 3)`` with corners at rest ``(t, 3, 2)``; coordinates ``(n, 3)`` may be held.

    A step takes so many seconds of a fall that has just begun: its mass resists as much.
    """
    count = len(held)
    stretch = membrane(triangles, rest, material, count)
    on_plane = np.zeros(count, dtype=bool) if on_plane is None else on_plane
    area = np.bincount(triangles.ravel(), np.repeat(stretch.area / 3, 3), count).astype(float)
    shares = np.repeat(material.weight * stretch.area / 3, 3)
    weight = np.bincount(triangles.ravel(), shares, count).astype(float)
    forms = bending_forms(triangles, rest, material.bending, on_plane, count)
    drag = weight / (100 * GRAVITY * step_s**2)
    return Fabric3d(
        weight=weight, area=area, stretch=stretch, forms=forms, held=held, drag=drag,
        band=band(triangles, held, forms, drag),
    )  # fmt: skip


def step(
    cloth: Fabric3d,
    points: Floats,
    *,
    loads: Sequence[Load] = (),
    anchor: Floats | None = None,
    gravity: float = 1.0,
    tolerance: float = 1e-3,
    most: int = 30,
) -> Stepped:
    """One step: the least of energy and of what it takes to move the points from where they are.

    Args:
        cloth: the fabric.
        points: where they start from, ``(n, 3)``.
        loads: what acts on them.
        anchor: where they are dragged from, if not from ``points``.
        gravity: the share of their weight that pulls.
        tolerance: the force left over at which the least is found, over the weight.
        most: the largest number of Newton steps.
    """
    start = points if anchor is None else anchor
    free = ~cloth.held
    weight = float(np.sqrt((cloth.weight**2).sum()))
    lightened = (1 - gravity) * cloth.weight

    def worked_out(at: Floats) -> tuple[float, Floats, Solver]:
        energy, gradient, stretching = cloth.at(at)
        moved = at - start
        pulled = cloth.drag[:, None] * moved
        energy += 0.5 * float((pulled * moved).sum()) - float(lightened @ at[:, 1])
        gradient += pulled
        gradient[:, 1] -= lightened
        evaluated = [load.at(at) for load in loads]
        for more, slope, _ in evaluated:
            energy += more
            gradient += slope

        def solver() -> Callable[[Floats], Floats]:
            on_points = sum((hessian() for _, _, hessian in evaluated), np.zeros((len(at), 3, 3)))
            return cloth.band.solver(stretching(), on_points)

        return energy, np.where(free, gradient, 0.0), solver

    at, evaluations = points, 1
    energy, gradient, solver = worked_out(at)
    for iteration in range(most):
        if float(np.sqrt((gradient**2).sum())) / weight < tolerance:
            return Stepped(points=at, iterations=iteration, evaluations=evaluations)
        ahead = -solver()(gradient)
        slope = float((gradient * ahead).sum())
        share = min(1.0, _FARTHEST_CM / max(float(np.abs(ahead).max()), _FARTHEST_CM))
        while True:
            tried = at + share * ahead
            energy_there, there, solver_there = worked_out(tried)
            evaluations += 1
            if energy_there <= energy + _ENOUGH * share * slope:
                at, energy, gradient, solver = tried, energy_there, there, solver_there
                break
            share /= 2
            if share < _SHORTEST:
                return Stepped(points=at, iterations=iteration, evaluations=evaluations)
    return Stepped(points=at, iterations=most, evaluations=evaluations)
