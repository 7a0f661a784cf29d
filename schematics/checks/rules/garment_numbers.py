"""What the rules need of a garment: plain numbers by name, cm unless the name says otherwise."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from schematics.garment.arm_freedom import ArmFreedom
from schematics.garment.garment import Garment, Ring
from schematics.garment.printed_lengths import grain_of
from schematics.units import AnyGrain, Grain
from schematics.wearer.evaluator import Numbers
from schematics.wearer.expr import Expr, Fact, least

GIRTH_POINTS = 3
"""Points of the garment's girth by depth that the rules read; every construction has at most these."""


SMALLER_OF_TWO: Mapping[str, Expr] = {
    **{
        f"{ring}.{name}_cm": least(Fact(f"{ring}.edge{full}_cm"), Fact(f"{ring}.band{full}_cm"))
        for ring in ("neck", "arm")
        for name, full in (("rest", ""), ("full", "_full"))
    },
    "spread_cm": least(Fact("spread_back_cm"), Fact("spread_front_cm")),
}
"""Facts that are the smaller of two others."""

_FINISHED: Mapping[str, str] = {"neck.rest_cm": "neck.edge", "arm.rest_cm": "arm.run"}
"""Facts that are finished measurements, whichever of edge and band is the smaller: the key of one of them."""


def grain_of_tree(tree: Expr) -> AnyGrain:
    """How finely a length that a rule goes by is printed: a finished one as in tables of those."""
    finished = _FINISHED.get(tree.name) if isinstance(tree, Fact) else None
    return Grain.USUAL if finished is None else grain_of(finished)


def facts(garment: Garment, freedom: ArmFreedom | None) -> dict[str, float]:
    """The facts of one size.

    - ``neck.`` and ``arm.`` followed by ``edge_cm``, ``edge_full_cm``, ``band_cm``, ``band_full_cm``,
      ``rest_cm``, ``full_cm``: as of `Ring`;
    - ``drop_cm``: centre-back length; ``longest_drop_cm``: the hem's farthest place from the neck edge;
    - ``arms.on_edge``: 1, or 0 where the arm run does not lie on its edge; ``band_depth_cm``: of the arm
      bands;
    - ``arms.measured``: 1, or 0 where the four that follow cannot be worked out; ``reach_cm``,
      ``spread_back_cm``, ``spread_front_cm``, ``spread_cm``: as of `ArmFreedom`;
    - ``girth.closed``: 1, or 0 where the sides are open; ``girth.0.depth_cm``, ``girth.0.girth_cm``, ...:
      the points of `Garment.girths`; what is missing to `GIRTH_POINTS` lies at multiples of the
      last depth, where the girth stays.

    Args:
        garment: the garment.
        freedom: its reach and spread, None where they cannot be measured.

    Returns:
        Facts by name; not a number where there is none.
    """
    return {
        **_ring("neck", garment.neck),
        **_ring("arm", garment.arm.ring),
        "drop_cm": garment.drop_cm,
        "longest_drop_cm": garment.longest_drop_cm,
        "arms.on_edge": float(garment.arm.middle is not None),
        "band_depth_cm": garment.arm.ring.band_depth_cm,
        **_freedom(freedom),
        **_girths(garment),
    }


def _ring(name: str, ring: Ring) -> dict[str, float]:
    keys = ("edge_cm", "edge_full_cm", "band_cm", "band_full_cm", "rest_cm", "full_cm")
    return {f"{name}.{key}": getattr(ring, key) for key in keys}


def _freedom(freedom: ArmFreedom | None) -> dict[str, float]:
    keys = ("reach_cm", "spread_back_cm", "spread_front_cm", "spread_cm")
    return {
        "arms.measured": float(freedom is not None),
        **{key: math.nan if freedom is None else getattr(freedom, key) for key in keys},
    }


def _girths(garment: Garment) -> dict[str, float]:
    numbers = {"girth.closed": float(bool(garment.girths))}
    for number, (depth, girth) in enumerate(padded(garment.girths)):
        numbers[f"girth.{number}.depth_cm"] = depth
        numbers[f"girth.{number}.girth_cm"] = girth
    return numbers


def padded(girths: Sequence[tuple[Numbers, Numbers]]) -> list[tuple[Numbers, Numbers]]:
    """Depths and girths of `GIRTH_POINTS`, of one garment or of columns; beyond the last the girth stays."""
    points = girths or ((math.nan, math.nan),)
    deepest, last = points[-1]
    return [*points, *((deepest * times, last) for times in range(2, 2 + GIRTH_POINTS - len(points)))]
