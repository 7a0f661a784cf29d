"""What of a line in space is seen: hidden parts are left out, and surfaces have their outlines."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from schematics.drawing.draped.over_triangles import OverTriangles, runs_where
from schematics.drawing.draped.surfaces import Surface
from schematics.drawing.draped.views import LookedFrom
from schematics.garment.cloth.arrays import Flags, Floats, Indices

STEP = 0.5
"""Lines are looked at in steps of no more than this, in cm."""

_LEAST = 3
"""What is seen of a line in fewer steps than this is not drawn."""


@dataclass(frozen=True, eq=False)
class Scene:
    """Surfaces, each of which hides what is behind it, seen from one side."""

    surfaces: Sequence[Surface]
    view: LookedFrom

    @cached_property
    def _corners(self) -> Floats:
        """Corners of all triangles as seen, (t, 3, 3)."""
        return np.concatenate([self.view.seen(each.vertices)[each.triangles] for each in self.surfaces])

    @cached_property
    def _flat(self) -> OverTriangles:
        return OverTriangles(self._corners[..., :2])

    def seen_parts(self, path: Floats, clear_cm: float) -> list[Floats]:
        """What is seen of a path (k, 3), as paths in space (m, 3).

        Only what is nearer by more than ``clear_cm`` hides: a line lies on the surface it belongs to.
        """
        points = stepped(path)
        return self._seen(points, self.view.seen(points), clear_cm)

    def seen_outlines(self, surface: Surface, clear_cm: float) -> list[Floats]:
        """What is seen of where a surface turns away from who looks, as paths in space (m, 3).

        It is looked at ``clear_cm`` outside, where the surface itself does not hide it.
        """
        looked_at = ((stepped(points), stepped(points, beside=out)) for points, out in self.outlines(surface))
        return [
            part
            for points, out in looked_at
            for part in self._seen(points, self.view.seen(points + clear_cm * out), clear_cm)
        ]

    def _seen(self, points: Floats, looked_at: Floats, clear_cm: float) -> list[Floats]:
        return runs_where(~self._hidden(looked_at, clear_cm), points, _LEAST)

    def _hidden(self, points: Floats, clear_cm: float) -> Flags:
        """Whether some triangle is before each point."""
        point, triangle, shares = self._flat.under(points[:, :2])
        depth = np.einsum("nk,nk->n", shares, self._corners[triangle, :, 2])
        hidden = np.zeros(len(points), dtype=bool)
        hidden[point[depth > points[point, 2] + clear_cm]] = True
        return hidden

    def outlines(self, surface: Surface) -> list[tuple[Floats, Floats]]:
        """Where a surface turns away from who looks: its outline, and those of its folds.

        Along them the normal is square to the direction of looking. It is taken straight along each edge,
        which makes them smooth on a coarse surface, too.

        Returns:
            Paths in space (k, 3), and the directions out of the surface along them (k, 3).

        References:
            A. Hertzmann, D. Zorin, Illustrating smooth surfaces, SIGGRAPH 2000, from memory.
        """
        normals = surface.normals
        facing = self.view.seen(normals)[:, 2]
        towards = facing[surface.triangles] > 0
        turning = surface.triangles[towards.any(axis=1) & ~towards.all(axis=1)]
        sides = np.stack([turning[:, [0, 1]], turning[:, [1, 2]], turning[:, [2, 0]]], axis=1)
        crossed = (facing[sides] > 0)[..., 0] != (facing[sides] > 0)[..., 1]
        edges, number = np.unique(np.sort(sides[crossed], axis=1), axis=0, return_inverse=True)
        near, far = facing[edges].T
        share = (near / (near - far))[:, None]
        places, out = (
            each[edges[:, 0]] * (1 - share) + each[edges[:, 1]] * share
            for each in (surface.vertices, normals)
        )
        return [(places[run], out[run]) for run in chained(number.reshape(-1, 2))]


def stepped(path: Floats, beside: Floats | None = None) -> Floats:
    """The path through points at equal distances along it, no farther apart than a step.

    What is given ``beside`` each of its points is taken there instead.
    """
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(path, axis=0), axis=1))])
    places = np.linspace(0.0, along[-1], int(np.ceil(along[-1] / STEP)) + 1)
    taken = path if beside is None else beside
    return np.stack([np.interp(places, along, coordinate) for coordinate in taken.T], axis=1)


def chained(links: Indices) -> list[Indices]:
    """Links between two places each (n, 2), put together to long runs; a ring ends where it begins."""
    beside: dict[int, list[int]] = defaultdict(list)
    for one, other in links.tolist():
        beside[one].append(other)
        beside[other].append(one)
    ends = [place for place, others in beside.items() if len(others) == 1]
    return [np.array(run) for start in [*ends, *beside] for run in _runs(beside, start)]


def _runs(beside: dict[int, list[int]], start: int) -> Iterator[list[int]]:
    """What can be walked from a place; each link is taken once."""
    while beside[start]:
        run = [start]
        while beside[run[-1]]:
            here = run[-1]
            there = beside[here].pop()
            beside[there].remove(here)
            run.append(there)
        yield run
