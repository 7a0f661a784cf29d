"""How long seven and twenty sizes take to grade, against the seconds that were promised, and the gap left.

Run by `make bench`; not part of the test run. Times are of the processor. Exits with 1 where it takes longer.
A grading that takes twelve times what was promised is stopped. Nothing is promised of the last twenty sizes:
their intents were meant for other bodies.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np

from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve

SPEC = Path(__file__).parents[2] / "specs" / "sandpiper.yaml"
ROWS = (2, 4, 6, 8, 10, 12, 14)
"""The chart rows of its sizes."""
SEVEN_S, TWENTY_S = 2.0, 10.0
HARD = "20 sizes by age, not promised"
PATIENCE = 12
"""A grading is stopped after so many times the processor time promised for it."""
ONE = """
import sys, time
from pathlib import Path
from schematics.grading.grade import grade
from schematics.spec import read_draft
draft = read_draft(Path(sys.argv[1]))
start = time.process_time()
found = grade(draft).found
print(f"{time.process_time() - start} {found.cost_cm:.1f} cm, gap {found.gap_cm:.1f} cm")
"""


def twenty_sizes() -> str:
    """The demo's sample and nineteen sizes more, evenly between its smallest and its largest."""
    text = SPEC.read_text("utf-8")
    head, sizes = text.split("sizes:\n", 1)
    sample = sizes[sizes.index('  "6":') : sizes.index('  "8":')]
    rows = [resolve(WearerSpec(chart=f"child/{row}"), str(row)) for row in ROWS]
    lines = []
    for at in range(20):
        row = ROWS[0] + (ROWS[-1] - ROWS[0]) * at / 19
        known = {each: [wearer.get(each) for wearer in rows] for each in Body}
        between = {
            each.value: float(np.interp(row, ROWS, [value.cm for value in values if value]))
            for each, values in known.items()
            if all(values)
        }
        nearest = min(ROWS, key=lambda each: abs(each - row))
        body = ", ".join(f"{name}: {length:.1f}" for name, length in between.items())
        lines.append(f'  "{at}": {{wearer: {{chart: child/{nearest}, {body}}}}}\n')
    lines[6] = sample.replace('"6"', '"sample"')
    return head.replace('sample: "6"', "sample: sample") + "sizes:\n" + "".join(lines)


def twenty_ages() -> str:
    """The demo's sample and nineteen sizes by age from 2 to 16 years: in most of them a check refuses what is
    meant, and many counts are looked at to find what comes near it."""
    head, sizes = SPEC.read_text("utf-8").split("sizes:\n", 1)
    sample = sizes[sizes.index('  "6":') : sizes.index('  "8":')]
    ages = [2 + 14 * at / 19 for at in range(20)]
    lines = [f'  "{at}": {{wearer: {{age: {age:.2f}}}}}\n' for at, age in enumerate(ages)]
    lines[6] = sample.replace('"6"', '"sample"').replace("child/6", "{age: 6.42}")
    return head.replace('sample: "6"', "sample: sample") + "sizes:\n" + "".join(lines)


def graded(path: Path, seconds: float) -> tuple[float | None, str]:
    """Seconds of processor time and what was found; None and why not."""
    most = int(PATIENCE * seconds) + 1
    done = subprocess.run(
        [sys.executable, "-c", ONE, str(path)],
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (most, most)),
    )
    if done.returncode:
        last = done.stderr.strip().splitlines()[-1:]
        return None, f"stopped after {most} s" if done.returncode < 0 else "".join(last)
    took, words = done.stdout.split(" ", 1)
    return float(took), f"cost {words.strip()}"


def main() -> int:
    """Print the times; 1 where one of them is over."""
    late = False
    with tempfile.TemporaryDirectory() as folder:
        rows, ages = (Path(folder) / f"{name}.yaml" for name in ("rows", "ages"))
        rows.write_text(twenty_sizes(), "utf-8")
        ages.write_text(twenty_ages(), "utf-8")
        for sizes, path, seconds in (
            ("7 sizes", SPEC, SEVEN_S),
            ("20 sizes between them", rows, TWENTY_S),
            (HARD, ages, TWENTY_S),
        ):
            took, words = graded(path, seconds)
            late |= sizes != HARD and (took is None or took > seconds)
            share = f"{took:.1f} s, {took / seconds:.2f} of {seconds:g} s" if took else f"over {seconds:g} s"
            sys.stdout.write(f"grading {sizes}: {share}; {words}\n")
    return int(late)


if __name__ == "__main__":
    sys.exit(main())
