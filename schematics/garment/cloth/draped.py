"""A garment as it hangs on a body."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from schematics.garment.cloth.arrays import Floats, Indices
from schematics.garment.cloth.posing import OnBody
from schematics.garment.cloth.seamed_mesh import ARM_BAND, PARTS, SeamedMesh
from schematics.garment.cloth.solid_body import SolidBody

ARM_BAND_RIGHT, ARM_BAND_LEFT = f"{ARM_BAND} right", f"{ARM_BAND} left"
PART_NAMES = (*PARTS[:-1], ARM_BAND_RIGHT, ARM_BAND_LEFT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draped:
    """The whole garment at rest on a body, outside out, right and left being the wearer's.

    ``vertices`` ``(n, 3)`` are in cm: x to the wearer's left, to the right as seen from the front, y up from
    the floor, z to the front. ``triangles`` ``(t, 3)`` run counter-clockwise seen from outside; ``part``
    ``(t,)`` are places in `PART_NAMES`, ``flat`` ``(t, 3, 2)`` their corners on the piece as `Garment` has
    it, the left half of a piece on the fold at x < 0. ``lines`` are chains of vertices to be joined in order;
    of a closed one the first comes again as the last: ``hem``, ``neck edge``, ``neck band end``, and with
    ``right`` or ``left``: ``panel seam``, ``arm band edge``, ``arm band end``, ``side fold``. The hem runs
    from the centre back by the right side to the centre front; where the arm bands are on it, past them.

    ``moved_cm`` is how far the last step moved any vertex.
    """

    vertices: Floats
    triangles: Indices
    part: Indices
    flat: Floats
    lines: Mapping[str, Indices]
    body: SolidBody
    moved_cm: float
    steps: int


def draped(mesh: SeamedMesh, worn: OnBody) -> Draped:
    """Both halves of fabric on a body, of which the right was worked out at x >= 0."""
    count = len(worn.points)
    apart = np.flatnonzero(~mesh.on_plane)
    left = np.arange(count)
    left[apart] = count + np.arange(len(apart))
    sign = np.array([-1.0, 1.0, 1.0])
    right_points = worn.points * sign
    right_points[mesh.on_plane, 0] = 0.0
    arm = PARTS.index(ARM_BAND)
    flipped = mesh.triangles[:, [0, 2, 1]]
    mirrored = mesh.flat[:, [0, 2, 1]] * np.array([-1.0, 1.0])
    return Draped(
        vertices=np.concatenate([right_points, worn.points[apart]]),
        triangles=np.concatenate([mesh.triangles, left[flipped]]),
        part=np.concatenate([mesh.part, mesh.part + (mesh.part == arm)]),
        flat=np.concatenate([mesh.flat, mirrored]),
        lines=_lines(mesh, left),
        body=worn.body,
        moved_cm=worn.moved_cm,
        steps=worn.steps,
    )


def _lines(mesh: SeamedMesh, left: Indices) -> Mapping[str, Indices]:
    """Those through both planes of symmetry as one, the others on either side."""
    neck, end, arm = mesh.neck_rows[0], mesh.neck_rows[-1], mesh.arm_rows
    whole = {"hem": mesh.lines["hem"], "neck edge": neck[::-1], "neck band end": end[::-1]}
    sides = {
        "panel seam": mesh.lines["panel seam"],
        "side fold": mesh.lines["side fold"],
        "arm band edge": np.append(arm[0], arm[0][0]),
        "arm band end": np.append(arm[-1], arm[-1][0]),
    }
    lines = {name: _once(np.concatenate([chain, left[chain[::-1]]])) for name, chain in whole.items()}
    for name, chain in sides.items():
        lines[f"{name} right"], lines[f"{name} left"] = _once(chain), _once(left[chain])
    return lines


def _once(chain: Indices) -> Indices:
    """A point that follows on itself comes once."""
    kept: Indices = chain[np.concatenate([[True], chain[1:] != chain[:-1]])]
    return kept
