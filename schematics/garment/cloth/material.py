"""How a fabric resists, from its swatch: stiff beyond the stretch it gives, soft before, heavy as weighed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from schematics.crochet.fabric import Fabric
from schematics.garment.cloth.arrays import Floats, Indices
from schematics.garment.cloth.cloth_error import ClothError

HAND_PULL_N_PER_CM = 0.5
"""The pull by which a swatch's stretch is measured: a hand's 5 N over a width of 10 cm (an assumption)."""

BENDING_LENGTH_CM = 3.0
SOFTEST_CM, STIFFEST_CM = 2.5, 5.0
"""Bending length of bulky crochet and the ends of its range (common practice, no source). The overhang at
which the chord of a strip pushed over an edge hangs at 41.5 degrees is twice as long."""

FRICTION = 0.45
SMOOTHEST, ROUGHEST = 0.3, 0.6
"""Friction of fabric on clothes (common practice, no source)."""

_LEAST_STRETCH = 0.02
_BEYOND = 10.0
"""How much stiffer fabric is beyond the stretch it gives."""
_SHEAR_SHARE = 0.3
"""Resistance to shear over the softer of those across and along (common practice, no source)."""

GRAVITY = 9.81
"""N to the kg, or m/s²."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feel:
    """What no swatch of a spec shows: how stiffly fabric bends, how it rubs."""

    bending_length_cm: float = BENDING_LENGTH_CM
    friction: float = FRICTION


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """Of each triangle ``(t,)``: weight in N/cm², and in N/cm what stretching or shearing it takes.

    ``soft`` ``(t, 2)``, across and along, is up to the strain ``limit``, ``stiff`` beyond. ``bending`` is in
    N cm.
    """

    weight: Floats
    soft: Floats
    stiff: Floats
    limit: Floats
    shear: Floats
    bending: Floats


def weight_of(fabric: Fabric) -> float:
    """The weight of a square centimetre of a fabric, in N.

    Raises:
        ClothError: its swatch was not weighed.
    """
    swatch = fabric.weighed
    if swatch.mass_g is None:
        raise ClothError(f"the swatch of {fabric.name} was not weighed")
    per_stitch = swatch.mass_g / (swatch.stitches * swatch.rows)
    return per_stitch * fabric.stitches_per_cm * fabric.rows_per_cm * GRAVITY / 1000


def unmeasured(fabrics: Sequence[Fabric]) -> tuple[list[str], list[str]]:
    """The names of the fabrics whose swatches were not weighed, and of those not pulled."""
    unweighed = [each.name for each in fabrics if each.weighed.mass_g is None]
    return unweighed, [each.name for each in fabrics if not (each.stretch_across or each.stretch_along)]


def material(fabrics: Sequence[Fabric], of: Indices, bending_length_cm: float) -> Material:
    """Of triangles of these fabrics, by their numbers; the bending length is of those without their own.

    Raises:
        ClothError: a swatch was not weighed.
    """
    weight = np.array([weight_of(each) for each in fabrics])
    bending = np.array([each.weighed.bending_length_cm or bending_length_cm for each in fabrics])
    limit = np.array([[each.stretch_across, each.stretch_along] for each in fabrics])
    limit = np.maximum(limit, _LEAST_STRETCH)
    soft = HAND_PULL_N_PER_CM / limit
    return Material(
        weight=weight[of],
        soft=soft[of],
        stiff=_BEYOND * soft[of],
        limit=limit[of],
        shear=_SHEAR_SHARE * soft.min(axis=1)[of],
        bending=(weight * bending**3)[of],
    )
