"""How long many wearers take against all sizes of a design.

100,000 next to the bare NumPy comparisons, the best of several runs; and a file of 200,000, read, judged and
reported by the whole program, next to Python's own csv and json reading and writing its numbers. Run by
`make bench`; not part of the test run, since a busy machine is no fault of the code. Times are of the
processor. Exits with 1 where it takes over twice as long as the comparisons, over three times as long as the
bare file, or over 500 MB.
"""

from __future__ import annotations

import itertools
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from schematics.checks.evaluation import evaluate
from schematics.checks.rules.garment_numbers import facts
from schematics.checks.rules.judging import judges
from schematics.checks.rules.sentence import Answer
from schematics.design.design import Design
from schematics.fitting.wearer_columns import Columns, complete, judge_all
from schematics.reading.design_file import read_design
from schematics.wearer.body import Body
from schematics.wearer.evaluator import Inputs
from schematics.wearer.over_arms import RATIO_BY_ARM_SHARE

SPECS = Path(__file__).parents[2] / "specs"
WEARERS = 100_000
TARGET = 2.0
RUNS = 7
CHILDREN = 200_000
MOST_TIMES, MOST_MB = 3.0, 500.0
HAIR = 1e-9

_MEANS = {
    Body.HEAD_GIRTH: (52.5, 1.6),
    Body.NECK_GIRTH: (26.0, 1.8),
    Body.CHEST_GIRTH: (60.0, 6.0),
    Body.UPPER_ARM_GIRTH: (18.0, 2.0),
    Body.WRIST_GIRTH: (12.5, 1.0),
    Body.HAND_GIRTH: (15.5, 1.2),
    Body.SHOULDER_BREADTH: (26.5, 2.5),
    Body.HEIGHT: (120.0, 12.0),
}
"""Means and deviations in cm of made-up children."""

_GROWTH = {Body.HEAD_GIRTH: 0.2, Body.HEIGHT: 1.0}
"""The power of the height by which a measurement grows; 0.7 of those not here."""


def crowd() -> Inputs:
    """Made-up children with eight measurements each; the others are estimated from the height."""
    random = np.random.default_rng(20260914)
    own = {body: random.normal(*figures, WEARERS).round(1) for body, figures in _MEANS.items()}
    return complete(own, np.full(WEARERS, np.nan))


def bare(design: Design, garments: list[Mapping[str, float]], known: Inputs) -> NDArray[np.uint8]:
    """The same verdicts by comparisons written out by hand: what is the same for all sizes is taken once."""
    limits = design.limits
    body: Mapping[Body, Columns] = known.body  # type: ignore[assignment]  # columns throughout
    head, neck = body[Body.HEAD_GIRTH].high_cm + 0.0, body[Body.NECK_GIRTH].high_cm + limits.neck_clearance_cm
    shoulders, hand = body[Body.SHOULDER_BREADTH].cm, body[Body.HAND_GIRTH].high_cm
    wrist, to_wrist = body[Body.WRIST_GIRTH].cm, body[Body.CENTRE_BACK_NECK_TO_WRIST].cm
    forearm = body[Body.FOREARM_LENGTH].cm * limits.reach_forearm_fraction
    chest, depth = body[Body.CHEST_GIRTH].high_cm, body[Body.ARMHOLE_DEPTH].cm
    shares, ratios = np.array(RATIO_BY_ARM_SHARE).T.copy()
    over_arms = chest * np.interp(body[Body.UPPER_ARM_GIRTH].high_cm / chest, shares, ratios)
    measured = limits.girth_body_fraction * chest
    nine_in_ten = measured + NormalDist().inv_cdf(0.9) * limits.girth_body_sd_fraction * chest
    roomy = np.minimum(over_arms, nine_in_ten) + limits.girth_ease_cm
    nape, knee = body[Body.NAPE_HEIGHT], body[Body.KNEE_HEIGHT]
    adult, child = known.adult, ~known.adult
    span, waist = to_wrist * 2, body[Body.BACK_WAIST_LENGTH].cm
    found = np.empty((len(garments), 10, WEARERS), dtype=np.uint8)
    for size, garment in enumerate(garments):
        worn = garment["drop_cm"] * (1 + limits.hem_sag_fraction)
        farthest = garment["longest_drop_cm"] * (1 + limits.hem_sag_fraction)
        rest, reach = garment["arm.rest_cm"] / wrist - 1, garment["reach_cm"]
        depths, girths = zip(
            *((garment[f"girth.{i}.depth_cm"], garment[f"girth.{i}.girth_cm"]) for i in (0, 1)), strict=True
        )
        girth = np.interp(depth, depths, girths)
        above = to_wrist - reach
        typical = nape.cm - farthest - knee.cm
        lowest = np.minimum(
            np.minimum(nape.low_cm - farthest - knee.low_cm, typical), nape.high_cm - farthest - knee.high_cm
        )
        out = found[size]
        out[0] = (head > garment["neck.full_cm"] + HAIR) * np.uint8(3)
        out[1] = (neck > garment["neck.rest_cm"] + HAIR) * np.uint8(3)
        out[2] = (garment["neck.rest_cm"] / 2 / shoulders > limits.neck_slip_fraction + HAIR) * np.uint8(2)
        out[3] = (hand > garment["arm.full_cm"] + HAIR) * np.uint8(3)
        out[4] = (
            (limits.arm_rest_low_fraction > rest + HAIR) | (rest > limits.arm_rest_high_fraction + HAIR)
        ) * np.uint8(2)
        out[5] = (
            ((above > limits.reach_wrist_cm + HAIR) & (above > forearm + HAIR))
            | ((-above > limits.reach_wrist_cm + HAIR) & (-above > limits.reach_hand_cm + HAIR))
        ) * np.uint8(2)
        out[6] = (limits.spread_fraction > garment["spread_cm"] / span + HAIR) * np.uint8(2)
        out[7] = np.maximum(
            (measured > girth + HAIR) * np.uint8(3),
            (roomy > girth + HAIR) * np.uint8(2),
        )
        out[8] = np.maximum(
            (child & (limits.knee_clearance_cm > lowest + HAIR)) * np.uint8(3),
            (adult & (limits.knee_clearance_cm > typical + HAIR)) * np.uint8(2),
        )
        out[9] = (waist - worn > limits.short_above_waist_cm + HAIR) * np.uint8(2)
    return found


def seconds(work: Callable[[], object]) -> float:
    """The best of several runs."""
    work()
    taken = []
    for _ in range(RUNS):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


def report() -> Iterator[tuple[str, bool]]:
    """Each line to print, and whether it keeps its target."""
    known = crowd()
    for path in sorted(SPECS.glob("*.yaml")):
        design = read_design(path)
        garments: list[Mapping[str, float]] = [facts(each.garment, each.freedom) for each in evaluate(design)]
        by_hand = bare(design, garments, known)
        by_rules = judge_all(design.limits, garments, fresh(known))
        alike = bool((by_hand == by_rules).all())
        hand = seconds(lambda design=design, garments=garments: bare(design, garments, known))  # type: ignore[misc]
        rules = seconds(
            lambda design=design, garments=garments: judge_all(design.limits, garments, fresh(known))  # type: ignore[misc]
        )
        stopped = float((by_rules.max(axis=1) == Answer.STOP).mean())
        yield (
            f"{path.stem}: {WEARERS} wearers, {len(garments)} sizes, {len(judges(design.limits))} rules "
            f"({stopped:.0%} stop): {rules * 1000:.0f} ms, bare comparisons {hand * 1000:.0f} ms, "
            f"{rules / hand:.2f} times (at most {TARGET:g}){'' if alike else '; THE VERDICTS DIFFER'}",
            alike and rules <= TARGET * hand,
        )


_BARE = """
import csv, json, sys
with open(sys.argv[1], encoding="utf-8") as file:
    header, *rows = csv.reader(file)
for name, *cells in rows:
    numbers = [float(cell.removesuffix(" cm")) for cell in cells]
    sys.stdout.write(json.dumps(dict(zip(header, [name, *numbers], strict=True)), indent=2))
"""
"""Reads the numbers of a file of children and writes them, and judges nobody."""


def children() -> str:
    """Made-up children as a CSV file: every age another, hands with their unit.

    They grow from 86 cm at two years by 6.2 cm a year, girths and breadths by less (common practice, no
    source), so that few are odd enough to be asked about.
    """
    random = np.random.default_rng(20260915)
    ages = random.uniform(2, 14, CHILDREN)
    grown = (86.0 + 6.2 * (ages - 2)) / _MEANS[Body.HEIGHT][0]
    columns = [
        (
            grown ** _GROWTH.get(body, 0.7)
            * (mean + deviation / 2 * random.normal(size=CHILDREN).clip(-3, 3))
        ).round(1)
        for body, (mean, deviation) in _MEANS.items()
    ]
    units = [" cm" if body is Body.HAND_GIRTH else "" for body in _MEANS]
    lines = [",".join(["name", "age", *_MEANS])]
    for number, row in enumerate(zip(*(column.tolist() for column in columns), strict=True)):
        cells = ",".join(f"{cell}{unit}" for cell, unit in zip(row, units, strict=True))
        lines.append(f"Child {number},{ages[number]:.6f},{cells}")
    return "\n".join(lines) + "\n"


def group_report() -> Iterator[tuple[str, bool]]:
    """The program by itself on a file of children, in each of its forms of report."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "children.csv"
        path.write_text(children(), encoding="utf-8")
        command = ["-m", "schematics", "fit", str(SPECS / "tidepool.yaml"), "--group", str(path)]
        for form in ("text", "csv", "json"):
            bare_taken, _, _ = run("-c", _BARE, str(path))
            taken, megabytes, code = run(*command, "--format", form)
            yield (
                f"tidepool, a file of {CHILDREN} children as {form}: {taken:.1f} s, bare {bare_taken:.1f} s, "
                f"{taken / bare_taken:.1f} times (at most {MOST_TIMES:g}), {megabytes:.0f} MB "
                f"(at most {MOST_MB:g}), exit code {code}",
                code in (0, 1) and taken <= MOST_TIMES * bare_taken and megabytes <= MOST_MB,
            )


def run(*arguments: str) -> tuple[float, float, int]:
    """Python's seconds of the processor, its most megabytes and its exit code."""
    process = subprocess.Popen([sys.executable, *arguments], stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, process.returncode


def fresh(known: Inputs) -> Inputs:
    """The same wearers, nothing worked out yet."""
    return Inputs(body=known.body, gaps=known.gaps, adult=known.adult, age_years=known.age_years)


def main() -> int:
    """Print the report; 0 where every target is kept."""
    missed = 0
    for line, kept in itertools.chain(report(), group_report()):
        missed += not kept
        sys.stdout.write(f"{'ok  ' if kept else 'SLOW'} {line}\n")
        sys.stdout.flush()
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
