"""Plane model against cloth: how the smallest, a middle and the largest size of every design hang, by both.

`python -m tests.bench.bench_hang [DESIGN]...` prints the table, a row for each size as soon as it is
known; not part of the test run.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from schematics.analysis.drape.hang_report import SizeHang, size_hangs
from schematics.checks.cloth_findings import TwoModels
from schematics.checks.finding import Severity
from tests.shipped import SPECS, shipped_design, shipped_results

_HEADER = (
    "size", "down: back", "front", "lowest", "level: back", "front", "neck edge down", "out", "knee", "waist",
    "on cloth", "by the plane model",
)  # fmt: skip


def rows(name: str) -> Iterator[tuple[str, ...]]:
    """The row of each of the three sizes; every length as ``plane: cloth (least to most)`` in cm."""
    results = shipped_results(name)
    for result in (results[0], results[len(results) // 2], results[-1]):
        (hang,) = size_hangs(shipped_design(name), [result])
        yield (f"{name} {result.size.name}", *_cells(hang))


def _cells(hang: SizeHang) -> Iterator[str]:
    lengths = hang.lengths
    if lengths is None:
        yield hang.without
        return
    for each in (
        lengths.back, lengths.front, lengths.lowest, lengths.level_back, lengths.level_front,
        lengths.neck_back, lengths.neck_beside,
    ):  # fmt: skip
        yield _told(each)
    yield from (f"{cm:.1f}" for cm in (lengths.knee_cm, lengths.waist_cm))
    worries = [each for each in hang.found if each.finding.severity is not Severity.GOOD]
    yield (
        hang.without
        or ", ".join(f"{each.finding.code} {each.finding.severity}" for each in worries)
        or "good"
    )
    hangs = [
        each
        for each in hang.result.findings
        if each.code in ("HANG-KNEE", "HANG-WHERE", "NECK-SLIP") and each.severity is not Severity.GOOD
    ]
    yield ", ".join(f"{each.code} {each.severity}" for each in hangs) or "good"


def _told(told: TwoModels) -> str:
    cloth = told.cloth
    on_cloth = "" if cloth is None else f": {cloth.usual_cm:.1f} ({cloth.low_cm:.1f} to {cloth.high_cm:.1f})"
    return f"{told.plane_cm:.1f}{on_cloth}"


def main(names: list[str]) -> None:
    """Print the table."""
    sys.stdout.write(f"| {' | '.join(_HEADER)} |\n|{'---|' * len(_HEADER)}\n")
    for name in names or [path.stem for path in SPECS if path.stem != "first-draft"]:
        for row in rows(name):
            sys.stdout.write(f"| {' | '.join(row)} |\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
