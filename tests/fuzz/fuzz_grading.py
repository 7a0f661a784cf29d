"""Two hundred small random gradings, each against every possible answer. Run by `make fuzz`."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.grading.exhaustive import SmallProblem
from tests.grading.test_exhaustive import check

PROBLEMS = 200


def main() -> None:
    """Stops with the first answer that is not the best."""
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(PROBLEMS):
            check(SmallProblem(seed), Path(folder))
    sys.stdout.write(f"{PROBLEMS} gradings: none can be bettered\n")


if __name__ == "__main__":
    main()
