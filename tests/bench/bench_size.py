"""How long a size takes against bare shapely, and whether a thousand take a thousand times as long.

Run by `make bench`; not part of the test run, since a busy machine is no fault of the code. Seconds are of
the processor, and only ratios within one run are held against a target. Exits with 1 where one is missed.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from statistics import median

from shapely import Polygon

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.reading.design_file import read_design

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.yaml"))
ROUNDS = 40
MOST_TIMES_SHAPELY = 8.0
MANY = 1000
MOST_GROWTH = 1.1

Ring = list[tuple[float, float]]


def seconds(work: Callable[[], object]) -> float:
    """Processor seconds of one run."""
    start = time.process_time()
    work()
    return time.process_time() - start


def rings(design: Design) -> list[Ring]:
    """The outline of every polygon that working the design out makes: its pieces, and where ways run."""
    shapes = []
    for result in evaluate(design):
        shapes += [piece.outline for piece in result.garment.pieces]
        shapes += {id(walk.domain): walk.domain for walk in result.garment.walks}.values()
    return [[(x, y) for x, y in shape.exterior.coords] for shape in shapes]


def bare(outlines: Sequence[Ring]) -> float:
    """What shapely alone takes for them: each polygon made of its points, its validity, area and length."""
    total = 0.0
    for outline in outlines:
        polygon = Polygon(outline)
        total += polygon.is_valid * polygon.area + polygon.length
    return total


def against_shapely(designs: Sequence[Design]) -> tuple[float, float]:
    """Median seconds of working all designs out, wearers and checks included, and of bare shapely, in turns.

    Nothing of a garment is kept from one round to the next.
    """
    outlines = [ring for design in designs for ring in rings(design)]
    ours, theirs = [], []
    for _ in range(ROUNDS):
        ours.append(seconds(lambda: [evaluate(design) for design in designs]))
        theirs.append(seconds(lambda: bare(outlines)))
    return median(ours), median(theirs)


def many_sizes(design: Design) -> Design:
    """The design's own sizes over and over, under new names."""
    sizes = tuple(
        replace(design.sizes[number % len(design.sizes)], name=f"{number}") for number in range(MANY)
    )
    return replace(design, sizes=sizes)


def growth(design: Design) -> tuple[float, float]:
    """Seconds of many sizes in one design, and of as many designs of one size: the best of three each."""
    many = many_sizes(design)
    singles = [replace(many, sizes=(size,)) for size in many.sizes]
    taken = [
        (seconds(lambda: evaluate(many)), seconds(lambda: [evaluate(single) for single in singles]))
        for _ in range(3)
    ]
    return min(together for together, _ in taken), min(apart for _, apart in taken)


def rows() -> Iterator[tuple[str, float, str, float, float]]:
    """What is measured, against what, in seconds each, and the most that the one may be of the other."""
    designs = [read_design(path) for path in SPECS]
    sizes = sum(len(design.sizes) for design in designs)
    ours, theirs = against_shapely(designs)
    yield f"{sizes} sizes worked out", ours, "shapely alone, same polygons", theirs, MOST_TIMES_SHAPELY
    for design in designs:
        together, apart = growth(design)
        yield f"{design.slug}: {MANY} sizes", together, f"{MANY} times one", apart, MOST_GROWTH


def main() -> int:
    """Print the table; 0 where every target is kept."""
    missed = 0
    sys.stdout.write("| what | is | against | is | ratio | at most | kept |\n|---|---|---|---|---|---|---|\n")
    for what, ours, against, theirs, most in rows():
        kept = ours <= most * theirs
        missed += not kept
        sys.stdout.write(
            f"| {what} | {ours:.3f} | {against} | {theirs:.3f} | {ours / theirs:.3f} | {most:g} | "
            f"{'yes' if kept else '**no**'} |\n"
        )
        sys.stdout.flush()
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
