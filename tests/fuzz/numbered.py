"""Designs by their numbers, checked one after another: the command that random checks of designs share."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable, Sequence

_SHOWN = 5
"""So many faults of a design are printed."""


def check_designs(
    about: str | None, check: Callable[[int], Iterable[str]], designs: int, arguments: Sequence[str] | None
) -> int:
    """Check so many designs, if not told otherwise, and print what is wrong; 1 if anything is."""
    parser = argparse.ArgumentParser(description=about, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--designs", type=int, default=designs)
    parser.add_argument("--first", type=int, default=0)
    asked = parser.parse_args(arguments)
    bad = 0
    for number in range(asked.first, asked.first + asked.designs):
        faults = list(check(number))
        bad += bool(faults)
        for fault in faults[:_SHOWN]:
            sys.stdout.write(f"design {number}: {fault}\n")
    sys.stdout.write(f"{asked.designs} designs, {bad} with faults\n")
    return 1 if bad else 0
