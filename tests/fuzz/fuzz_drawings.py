"""Draw random designs of every construction, read every sheet back, and say what is wrong with it.

    .venv/bin/python -m tests.fuzz.fuzz_drawings [--designs 1000] [--first 0]

The same numbers give the same designs. The exit code is 1 when a sheet has a fault; sheets that
name something they have no room for are counted, not faults.
"""

from __future__ import annotations

import argparse
import os
import re
import sys
import traceback
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

from schematics.checks.evaluation import evaluate
from schematics.garment.constructions import CONSTRUCTIONS
from tests.drawing.bare_reading import bare_sheets
from tests.drawing.designs import SIZES, as_text, random_spec, read_spec
from tests.drawing.sheets import every_sheet

_SHOWN = 5
"""Faults printed in full for one design."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """One design drawn: how many sheets, their faults, and for each sheet what found no room on it."""

    word: str
    seed: int
    sheets: int
    faults: tuple[str, ...]
    unplaced: tuple[tuple[str, tuple[str, ...]], ...]


def draw(word: str, seed: int) -> Outcome:
    """One random design, all its sheets; what it raises is a fault."""
    faults: list[str] = []
    unplaced: list[tuple[str, tuple[str, ...]]] = []
    sheets = 0
    try:
        design = read_spec(as_text(random_spec(word, seed)), f"{word}-{seed}")
        results = evaluate(design)
        for drawn in every_sheet(design, results):
            sheets += 1
            if drawn.sheet.unplaced:
                unplaced.append((drawn.stem, drawn.sheet.unplaced))
            faults += drawn.faults()
        for stem, bare_unplaced, found in bare_sheets(design, results):
            sheets += 1
            if bare_unplaced:
                unplaced.append((stem, bare_unplaced))
            faults += found
    except Exception:
        faults.append(f"{word}-{seed}: raised {traceback.format_exc()}")
    return Outcome(word, seed, sheets, tuple(faults), tuple(unplaced))


def _draw_numbered(number: int) -> Outcome:
    words = sorted(CONSTRUCTIONS)
    return draw(words[number % len(words)], number // len(words))


def main(arguments: Sequence[str] | None = None) -> int:
    """Draw the designs asked for and print what was found."""
    parser = argparse.ArgumentParser(description="Draw random designs and measure every sheet.")
    parser.add_argument("--designs", type=int, default=1000)
    parser.add_argument("--first", type=int, default=0, help="number of the first design")
    parser.add_argument("--jobs", type=int, default=os.cpu_count())
    asked = parser.parse_args(arguments)
    missing = sorted(set(CONSTRUCTIONS) - set(SIZES))
    if missing:
        say(f"tests/drawing/designs.py cannot make up: {', '.join(missing)}")
        return 1
    outcomes: list[Outcome] = []
    numbers = range(asked.first, asked.first + asked.designs)
    with ProcessPoolExecutor(asked.jobs) as pool:
        for outcome in pool.map(_draw_numbered, numbers, chunksize=4):
            outcomes.append(outcome)
            _report(outcome)
            if len(outcomes) % 100 == 0:
                say(f"{len(outcomes)} of {asked.designs} designs drawn")
    return _summary(outcomes)


def _report(outcome: Outcome) -> None:
    """The faults of a design, and its spec, so that it can be built by hand."""
    if not outcome.faults:
        return
    for fault in outcome.faults[:_SHOWN]:
        say(fault)
    if len(outcome.faults) > _SHOWN:
        say(f"... and {len(outcome.faults) - _SHOWN} more")
    say(f"The spec of {outcome.word}-{outcome.seed}:\n{as_text(random_spec(outcome.word, outcome.seed))}")


def _summary(outcomes: Sequence[Outcome]) -> int:
    sheets = sum(outcome.sheets for outcome in outcomes)
    faulty = [outcome for outcome in outcomes if outcome.faults]
    crowded = [each for outcome in outcomes for each in outcome.unplaced]
    say(f"{len(outcomes)} designs, {sheets} sheets; {len(faulty)} designs with faults:")
    for kind, count in Counter(_kind(fault) for each in faulty for fault in each.faults).most_common(40):
        say(f"  {count} x {kind}")
    say(f"{len(crowded)} sheets ({len(crowded) / max(1, sheets):.1%}) had no room for something:")
    names = Counter(f"{stem}: {_kind(name)}" for stem, unplaced in crowded for name in unplaced)
    for kind, count in names.most_common(40):
        say(f"  {count} x {kind}")
    return 1 if faulty else 0


def _kind(fault: str) -> str:
    """A fault without its design, size, words and figures, its last line where it is a traceback."""
    last = fault.strip().rsplit("\n", 1)[-1]
    plain = re.sub(r"'.*?'", "'...'", last.split(", ", 2)[-1])
    return re.sub(r"\d+(?:\.\d+)?", "#", plain)[:120]


def say(text: str) -> None:
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
