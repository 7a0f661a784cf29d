"""How long seven and twenty sizes take to grade, against the seconds that were promised, and the gap left.

Run by `make bench`; not part of the test run. Times are of the processor. Exits with 1 where it takes longer.
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path

from schematics.grading.grade import grade
from schematics.spec import read_draft

SPEC = Path(__file__).parents[2] / "specs" / "sandpiper.yaml"
SEVEN_S, TWENTY_S = 2.0, 10.0


def twenty_sizes() -> str:
    """The demo's sample and nineteen sizes by age from 2 to 16 years."""
    text = SPEC.read_text("utf-8")
    head, sizes = text.split("sizes:\n", 1)
    sample = sizes[sizes.index('  "6":') : sizes.index('  "8":')]
    ages = [2 + 14 * at / 19 for at in range(20)]
    lines = [f'  "{at}": {{wearer: {{age: {age:.2f}}}}}\n' for at, age in enumerate(ages)]
    lines[6] = sample.replace('"6"', '"sample"').replace("child/6", "{age: 6.42}")
    return head.replace('sample: "6"', "sample: sample") + "sizes:\n" + "".join(lines)


def main() -> int:
    """Print the times; 1 where one of them is over."""
    late = False
    with tempfile.TemporaryDirectory() as folder:
        many = Path(folder) / "twenty.yaml"
        many.write_text(twenty_sizes(), "utf-8")
        for path, seconds in ((SPEC, SEVEN_S), (many, TWENTY_S)):
            draft = read_draft(path)
            start = time.process_time()
            found = grade(draft).found
            took = time.process_time() - start
            late |= took > seconds
            sys.stdout.write(
                f"grading {len(draft.sizes)} sizes: {took:.1f} s, {took / seconds:.2f} of {seconds:g} s; "
                f"cost {found.cost_cm:.1f} cm, gap {found.gap_cm:.1f} cm\n"
            )
    return int(late)


if __name__ == "__main__":
    sys.exit(main())
