"""How long 7, 12 and 20 sizes take to grade in every construction, against the seconds promised, and the gap.

Run by `make bench`; not part of the test run. The specs are those that `new` writes from a swatch. Times are
of the processor. Exits with 1 where one takes longer, or is not proven to within 1 % of its cost.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from click.testing import CliRunner

from schematics.cli import main as program
from schematics.garment.constructions import CONSTRUCTIONS

CHILDREN = [f"child/{age}" for age in (2, 4, 6, 8, 10, 12, 14)]
WOMEN = [f"woman/{size}" for size in ("XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X")]
BABIES = [f"baby/{age} mo" for age in (6, 12, 18)]
SIZES = {
    "7 sizes": (CHILDREN, 2.0),
    "12 sizes": ([*CHILDREN, *WOMEN[:5]], 5.0),
    "20 sizes, baby to adult": ([*BABIES, *CHILDREN, "child/16", *WOMEN], 10.0),
    "20 sizes by age, 2 to 16": ([], 10.0),
}
"""The wearers, and the seconds promised."""
MOST_GAP = 0.01
PATIENCE_S = 300
ONE = """
import sys, time
from pathlib import Path
from schematics.grading.grade import grade
from schematics.reading.design_file import read_draft
draft = read_draft(Path(sys.argv[1]))
start = time.process_time()
found = grade(draft).solution
print(time.process_time() - start, found.cost_cm, found.gap_cm)
"""


def write(path: Path, construction: str, rows: list[str]) -> None:
    """A spec as `new` writes it; without rows, of twenty ages."""
    flags = ["--construction", construction, "--swatch", "26 sts 20 rows over 20 cm", "--row-repeat", "4"]
    made = CliRunner().invoke(program, ["new", str(path), *flags, "--sizes", ", ".join(rows or CHILDREN)])
    assert made.exit_code == 0, made.output
    if not rows:
        head = path.read_text("utf-8").partition("sizes:\n")[0]
        body = ", body: {lines: 4}" if construction == "mitred" else ""
        sizes = [f'  "{at}": {{wearer: {{age: {2 + 14 * at / 19:.2f}}}{body}}}\n' for at in range(20)]
        path.write_text(f"{head}sizes:\n{''.join(sizes)}", encoding="utf-8")


def measured(folder: Path) -> Iterator[tuple[str, str, str, bool]]:
    """What was graded, the seconds it took, what was found, and whether the promise was kept."""
    for construction in CONSTRUCTIONS:
        for name, (rows, promised) in SIZES.items():
            path = folder / "lake.yaml"
            path.unlink(missing_ok=True)
            write(path, construction, rows)
            done = subprocess.run(
                [sys.executable, "-c", ONE, str(path)],
                capture_output=True, text=True, check=False, timeout=PATIENCE_S,
            )  # fmt: skip
            what = f"{construction}, {name}"
            if done.returncode:
                yield what, "-", done.stderr.strip().rpartition("\n")[2], False
                continue
            seconds, cost, gap = map(float, done.stdout.split())
            kept = seconds <= promised and gap <= MOST_GAP * cost
            yield what, f"{seconds:.2f} of {promised:g} s", f"cost {cost:.1f}, gap {gap:.2f}", kept


def main() -> int:
    """Print the table; 0 if all promises were kept."""
    failed = False
    with tempfile.TemporaryDirectory() as folder:
        sys.stdout.write("| graded | processor time | found | kept |\n|---|---|---|---|\n")
        for what, seconds, found, kept in measured(Path(folder)):
            failed = failed or not kept
            sys.stdout.write(f"| {what} | {seconds} | {found} | {'yes' if kept else 'NO'} |\n")
            sys.stdout.flush()
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
