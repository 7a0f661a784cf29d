"""Write the patterns of random designs of every construction, and work them stitch by stitch.

    .venv/bin/python -m tests.fuzz.fuzz_patterns [--designs 300] [--first 0]

The same numbers give the same designs. The exit code is 1 when a text cannot be worked, or ends with other
counts than those of its spec.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence

from tests.fuzz.numbered import check_designs
from tests.pattern.reader.complaint import CannotWorkError
from tests.pattern.reader.expected import faults
from tests.pattern.reader.maker import make
from tests.pattern.reader.measures import wrong_measures
from tests.pattern.reader.patterns import random_pattern
from tests.pattern.reader.yarn_bought import wrong_materials


def check(number: int) -> Iterator[str]:
    """What is wrong with the pattern of the design of that number."""
    written = random_pattern(number)
    for size, counts in written.sizes.items():
        try:
            made = make(written.markdown, size)
            found = [
                *faults(made, counts),
                *wrong_measures(written.markdown, size, made),
                *wrong_materials(written.markdown, size, made, written.spec),
            ]
        except CannotWorkError as problem:
            found = [str(problem)]
        yield from (f"size {size}: {fault}" for fault in found)


def main(arguments: Sequence[str] | None = None) -> int:
    """Check so many designs and print what is wrong."""
    return check_designs(__doc__, check, 300, arguments)


if __name__ == "__main__":
    sys.exit(main())
