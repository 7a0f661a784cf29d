"""What the fabric lets the arms do: how far down an arm a band comes, how far the arms spread."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from schematics.garment.garment import Garment
from schematics.garment.geodesic import Path, shortest_paths, straight_paths
from schematics.garment.walks import WalkName


@dataclass(frozen=True, slots=True, kw_only=True)
class ArmFreedom:
    """The shortest paths on the fabric, in the coordinates of the body's right half, and the band's depth.

    Fabric is taken not to stretch. Lengths in cm, arm bands included.
    """

    paths: Mapping[WalkName, Path]
    band_depth_cm: float

    @property
    def reach_cm(self) -> float:
        """The length from the centre back neck to the free edge of an arm band."""
        return self.paths[WalkName.REACH].length_cm + self.band_depth_cm

    @property
    def spread_back_cm(self) -> float:
        """The length from band edge to band edge across the back: from one arm to the fold, twice."""
        return 2 * (self.paths[WalkName.ACROSS_BACK].length_cm + self.band_depth_cm)

    @property
    def spread_front_cm(self) -> float:
        """The length from band edge to band edge across the front, over the panel: half of it, twice."""
        return 2 * (self.paths[WalkName.ACROSS_FRONT].length_cm + self.band_depth_cm)

    @property
    def spread_cm(self) -> float:
        """How far the bands come apart before back or front pulls: the smaller of the two."""
        return min(self.spread_back_cm, self.spread_front_cm)


def arm_freedom(garment: Garment) -> ArmFreedom | None:
    """Reach and spread of a garment; None where it has no walks."""
    return arm_freedoms([garment])[0]


def arm_freedoms(garments: Sequence[Garment]) -> list[ArmFreedom | None]:
    """The freedom of the arms in several garments: straight paths are worked out at once."""
    walks = [walk for garment in garments for walk in garment.walks]
    straight = iter(straight_paths([(walk.domain, walk.start, walk.goal) for walk in walks]))
    return [_freedom(each, [next(straight) for _ in each.walks]) for each in garments]


def _freedom(garment: Garment, straight: Sequence[Path | None]) -> ArmFreedom | None:
    """With those paths that are known to be straight."""
    if not garment.walks:
        return None
    paths = [path for path in straight if path is not None]
    if len(paths) < len(garment.walks):
        paths = [
            path
            for domain, shared in itertools.groupby(garment.walks, key=lambda walk: walk.domain)
            for path in shortest_paths(domain, [(walk.start, walk.goal) for walk in shared])
        ]
    named = {walk.name: path for walk, path in zip(garment.walks, paths, strict=True)}
    return ArmFreedom(paths=MappingProxyType(named), band_depth_cm=garment.arm.ring.band_depth_cm)
