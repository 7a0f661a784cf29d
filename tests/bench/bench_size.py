"""How long one size takes, and whether a thousand take a thousand times as long.

Run by `make bench`; not part of the test run, since a busy machine is no fault of the code. Times are
of the processor, so other programs disturb them little. Exits with 1 where a target is missed.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from statistics import median

from schematics.checks import check_size
from schematics.checks.evaluation import evaluate
from schematics.checks.finding import Case
from schematics.design.design import Design, Size
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import read_design
from schematics.wearer.resolve import resolve

SPECS = Path(__file__).parents[2] / "specs"
TARGET_MS = 2.0
MANY = 1000
TARGET_SHARE = 0.1


def milliseconds(work: Callable[[], object], times: int) -> float:
    """Median over ``times`` runs after one to warm up."""
    work()
    taken = []
    for _ in range(times):
        start = time.process_time()
        work()
        taken.append((time.process_time() - start) * 1000)
    return median(taken)


def one_size(design: Design, size: Size) -> dict[str, float]:
    """Milliseconds for the parts of one size's work."""
    build = CONSTRUCTIONS[design.construction].build
    garment, wearer = build(size, design.parts), resolve(size.wearer, size.name)

    def case() -> Case:
        made = build(size, design.parts)
        return Case(
            design=design,
            size=size,
            garment=made,
            freedom=arm_freedom(made),
            wearer=wearer,
            limits=design.limits,
        )

    ready = case()
    return {
        "geometry": milliseconds(lambda: build(size, design.parts), 100),
        "ways": milliseconds(lambda: arm_freedom(garment), 100),
        "checks": milliseconds(lambda: check_size(ready), 100),
        "together": milliseconds(lambda: check_size(case()), 100),
    }


def many_sizes(design: Design) -> Design:
    """The design's own sizes over and over, under new names."""
    sizes = tuple(
        replace(design.sizes[number % len(design.sizes)], name=f"{number}") for number in range(MANY)
    )
    return replace(design, sizes=sizes)


def growth(design: Design) -> float:
    """Time of many sizes in one design over that of as many designs of one size: the best of three each."""
    many = many_sizes(design)
    singles = [replace(many, sizes=(size,)) for size in many.sizes]

    def seconds(work: Callable[[], object]) -> float:
        start = time.process_time()
        work()
        return time.process_time() - start

    taken = [
        (seconds(lambda: [evaluate(single) for single in singles]), seconds(lambda: evaluate(many)))
        for _ in range(3)
    ]
    return min(together for _, together in taken) / min(one_by_one for one_by_one, _ in taken)


def report() -> Iterator[tuple[str, bool]]:
    """Each line to print, and whether it keeps its target."""
    for path in sorted(SPECS.glob("*.yaml")):
        design = read_design(path)
        for size in design.sizes:
            times = one_size(design, size)
            told = ", ".join(f"{name} {taken:.2f}" for name, taken in times.items())
            kept = times["together"] <= TARGET_MS
            yield f"{path.stem} {size.name}: {told} ms (at most {TARGET_MS:g} together)", kept
        ratio = growth(design)
        kept = ratio <= 1 + TARGET_SHARE
        yield (
            f"{path.stem}: {MANY} sizes take {MANY} x {ratio:.3f} times one (at most {1 + TARGET_SHARE:g})",
            kept,
        )


def main() -> int:
    """Print the report; 0 where every target is kept."""
    missed = 0
    for line, kept in report():
        missed += not kept
        sys.stdout.write(f"{'ok  ' if kept else 'SLOW'} {line}\n")
        sys.stdout.flush()
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
