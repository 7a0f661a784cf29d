"""Cloth against exact answers, against itself on a finer mesh, and what it costs.

Run by `make bench`; not part of the test run. Times are of the processor. Exits with 1 where a difference is
larger than allowed, or a size takes longer than promised.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from schematics.checks.evaluation import Result
from schematics.garment.cloth.arrays import Floats
from schematics.garment.cloth.draped import draped
from schematics.garment.cloth.draping import POINTS, Settled, fabric_of, settled
from schematics.garment.cloth.material import Feel
from schematics.garment.cloth.one_thread import one_thread
from schematics.garment.cloth.posing import OnBody, settle
from schematics.garment.cloth.ranges import FINER_CM, Ranged, ranges
from schematics.garment.cloth.seamed_mesh import PARTS, SeamedMesh, seamed_mesh
from schematics.garment.cloth.worn_heights import Answers, answers
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.proportions import proportioned
from tests.garment.cloth import test_closed_forms as exact
from tests.shipped import EACH_CONSTRUCTION, shipped_results

SECONDS = 3.0
"""What a size may take, both poses together."""
HALVED_CM = 0.5
"""By how much heights of the hem may change when fabric at rest is cut into triangles half as long."""
STILL_CM = 0.02
"""At rest, both before and after: no point moves farther in a step."""
HEIGHTS = {
    "hem_back_cm": "hem back",
    "hem_side_cm": "hem side",
    "hem_front_cm": "hem front",
    "hem_lowest_cm": "hem lowest",
}


@dataclass(frozen=True)
class Line:
    """A row of the table; what may be off is in the unit of the values."""

    what: str
    reference: float
    found: float
    most: float
    below: bool = False

    @property
    def kept(self) -> bool:
        """Whether it is near enough."""
        off = self.found - self.reference
        return (off if self.below else abs(off)) <= self.most

    @property
    def text(self) -> str:
        """As a row."""
        off = self.found - self.reference
        kept = "yes" if self.kept else "NO"
        return f"| {self.what} | {self.reference:.4g} | {self.found:.4g} | {off:+.2g} | {kept} |\n"


def closed_forms() -> Iterator[Line]:
    """Fabric alone."""
    found, expected = exact.stretched_strip()
    yield Line("own-weight stretch of a strip, cm", expected, found, 0.01 * expected)
    for row in exact.ELASTICA[1::3]:
        for cut, strip in exact.CUTS.items():
            for name, slope in zip(("tip", "chord"), exact.held_level(row["k"], strip), strict=True):
                what = f"heavy strip held level, k = {row['k']:g}, {cut}: {name}, degrees"
                yield Line(what, row[f"{name}_degrees"], slope, 1.0)
    for slack, sag in exact.CATENARY:
        yield Line(f"sag over span, length {slack:g} of it", sag, exact.sag(slack), 0.01 * sag)
    found, expected = exact.hung_cone()
    yield Line("cone hung by its edge: its point sinks, cm", expected, found, 0.03 * expected)
    found, expected = exact.ring_round_a_rod()
    yield Line("ring round a rod: strain", expected, found, 0.02 * expected)


def size_6(design: str) -> tuple[Result, FigureSize]:
    """It, and the body it hangs on."""
    result = next(each for each in shipped_results(design) if each.size.name == "6")
    figure = proportioned(result.wearer)
    if figure is None:
        raise ValueError(f"{design} has no height")
    return result, figure.size


def on_finer(coarse: SeamedMesh, points: Floats, finer: SeamedMesh) -> Floats:
    """Where the points of a finer mesh are on triangles of a coarser one, beyond their edges if need be."""
    found = np.zeros((len(finer.place), 3))
    for part in range(len(PARTS)):
        own, cut = np.flatnonzero(finer.piece == part), np.flatnonzero(coarse.part == part)
        if not len(own):
            continue
        first, second, third = coarse.flat[cut].transpose(1, 0, 2)
        one, other, off = second - first, third - first, finer.place[own][:, None] - first
        double = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
        along = (off[..., 0] * other[:, 1] - off[..., 1] * other[:, 0]) / double
        across = (one[:, 0] * off[..., 1] - one[:, 1] * off[..., 0]) / double
        shares = np.stack([1 - along - across, along, across], axis=2)
        best = shares.min(axis=2).argmax(axis=1)
        corners = points[coarse.triangles[cut[best]]]
        found[own] = np.einsum("nk,nki->ni", shares[np.arange(len(own)), best], corners)
    found[finer.on_plane, 0] = 0.0
    return found


def halved(result: Result, usual: Settled) -> Iterator[tuple[str, Answers, Answers]]:
    """Each pose at rest, and from there at rest again on triangles half as long."""
    feel = Feel()
    finer = seamed_mesh(result.garment, 4 * POINTS)
    cloths = [fabric_of(result.garment, mesh, feel) for mesh in (usual.mesh, finer)]
    for pose in ("down", "level"):
        with one_thread():
            before = settle(cloths[0], getattr(usual, pose), feel.friction, STILL_CM)
            start = OnBody(points=on_finer(usual.mesh, before.points, finer), body=before.body)
            after = settle(cloths[1], start, feel.friction, STILL_CM)
        yield pose, answers(draped(usual.mesh, before)), answers(draped(finer, after))


def on_bodies() -> Iterator[Line]:
    """Garments: the cost; the same rest on a finer mesh; one put on anew there, against the ranges."""
    for design in EACH_CONSTRUCTION:
        result, figure = size_6(design)
        start = time.process_time()
        usual = settled(result.garment, figure, Feel())
        yield Line(f"{design} 6, both poses, seconds", SECONDS, time.process_time() - start, 0.0, below=True)
        for pose, coarse, fine in halved(result, usual):
            for name, words in HEIGHTS.items():
                what = f"{design} 6, arms {pose}, at rest on triangles half as long: {words}, cm"
                yield Line(what, getattr(fine, name), getattr(coarse, name), HALVED_CM)
        spans = ranges(result.garment, figure)
        anew = settled(result.garment, figure, Feel(), 4 * POINTS).hung
        both: Mapping[str, tuple[Ranged, Answers]] = {
            "down": (spans.down, answers(anew.down)),
            "level": (spans.level, answers(anew.level)),
        }
        for pose, (span, fine) in both.items():
            for name, words in HEIGHTS.items():
                height = getattr(fine, name)
                nearest = min(max(height, getattr(span.lowest, name)), getattr(span.highest, name))
                what = f"{design} 6, arms {pose}, triangles half as long, against the range: {words}, cm"
                yield Line(what, nearest, height, FINER_CM)


def main() -> int:
    """Print the table; 0 if all is kept."""
    failed = False
    sys.stdout.write("| | reference | found | difference | kept |\n|---|---|---|---|---|\n")
    for line in (*closed_forms(), *on_bodies()):
        failed = failed or not line.kept
        sys.stdout.write(line.text)
        sys.stdout.flush()
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
