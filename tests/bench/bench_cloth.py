"""Cloth against exact answers, against itself on a finer mesh, and what it costs.

Run by `make bench`; not part of the test run. Times are of the processor. Exits with 1 where a difference is
larger than allowed, or a size takes longer than promised.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass

from schematics.garment.cloth.draping import POINTS, Hung, settled
from schematics.garment.cloth.material import Feel
from schematics.garment.cloth.worn_heights import answers
from schematics.wearer.proportions import proportioned
from tests.garment.cloth import test_closed_forms as exact
from tests.shipped import EACH_CONSTRUCTION, shipped_results

SECONDS = 3.0
"""What a size may take, both poses together."""
HALVED_CM = 0.5
"""By how much heights of the hem may change when all lengths of the mesh are halved."""
HEIGHTS = ("hem_back_cm", "hem_side_cm", "hem_front_cm", "hem_lowest_cm")


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
    for row in exact.ELASTICA:
        tip, chord = exact.held_level(row["k"])
        yield Line(f"heavy strip held level, k = {row['k']:g}: tip, degrees", row["tip_degrees"], tip, 1.0)
        yield Line(
            f"heavy strip held level, k = {row['k']:g}: chord, degrees", row["chord_degrees"], chord, 1.0
        )
    for slack, sag in exact.CATENARY:
        yield Line(f"sag over span, length {slack:g} of it", sag, exact.sag(slack), 0.01 * sag)
    found, expected = exact.hung_cone()
    yield Line("cone hung by its edge: its point sinks, cm", expected, found, 0.03 * expected)
    found, expected = exact.ring_round_a_rod()
    yield Line("ring round a rod: strain", expected, found, 0.02 * expected)


def hung(design: str, points: int) -> tuple[Hung, float]:
    """Size 6 of a design, and the seconds it took."""
    result = next(each for each in shipped_results(design) if each.size.name == "6")
    figure = proportioned(result.wearer)
    if figure is None:
        raise ValueError(f"{design} has no height")
    start = time.process_time()
    found = settled(result.garment, figure.size, Feel(), points).hung
    return found, time.process_time() - start


def on_bodies() -> Iterator[Line]:
    """Garments: the cost, and a mesh of half the lengths."""
    for design in EACH_CONSTRUCTION:
        usual, seconds = hung(design, POINTS)
        yield Line(f"{design} 6, both poses, seconds", SECONDS, seconds, 0.0, below=True)
        finer, _ = hung(design, 4 * POINTS)
        for pose in ("down", "level"):
            coarse, fine = (answers(getattr(each, pose)) for each in (usual, finer))
            for name in HEIGHTS:
                what = (
                    f"{design} 6, arms {pose}, mesh halved: {name.removesuffix('_cm').replace('_', ' ')}, cm"
                )
                yield Line(what, getattr(fine, name), getattr(coarse, name), HALVED_CM)


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
