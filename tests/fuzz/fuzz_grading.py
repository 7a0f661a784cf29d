"""Three hundred small random gradings, each against every possible answer. Run by `make fuzz`."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.grading.test_exhaustive import fault

PROBLEMS = 300


def main() -> int:
    """Tells each fault; 1 if there are any."""
    faults = 0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(PROBLEMS):
            if found := fault(number, Path(folder)):
                faults += 1
                sys.stdout.write(f"grading {number}: {found}\n")
    sys.stdout.write(f"{PROBLEMS} gradings against every answer: {faults} faults\n")
    return int(faults > 0)


if __name__ == "__main__":
    sys.exit(main())
