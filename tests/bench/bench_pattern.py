"""How long typesetting a pattern takes beside writing it and drawing what is in it, in processor seconds.

Run by `make bench`; not part of the test run. Exits with 1 where a design takes more than a second.
"""

from __future__ import annotations

import sys
from functools import partial
from statistics import median

from schematics.checks.evaluation import evaluate
from schematics.drawing.ink.sheet import A4, LETTER
from schematics.pattern.pattern_files import document_content, page_look, pattern_document
from schematics.reading.design_file import read_design
from tests.bench.bench_size import SPECS, seconds

ROUNDS = 5
MOST_SECONDS = 1.0
EDITIONS = ((A4, False), (LETTER, False), (A4, True))


def main() -> int:
    """Print the seconds of each edition of every design; 1 if one takes too long."""
    worst = 0.0
    for path in SPECS:
        design = read_design(path)
        document = pattern_document(design, evaluate(design), "pdf")
        for paper, large in EDITIONS:
            typeset = partial(document_content, document, "pdf", page_look(design, paper, large=large))
            took = median(seconds(typeset) for _ in range(ROUNDS))
            worst = max(worst, took)
            edition = f"{paper.name}{', large print' if large else ''}"
            sys.stdout.write(f"{path.stem}, {edition}: {took:.2f} s\n")
    sys.stdout.write(f"at most {worst:.2f} s, and {MOST_SECONDS:g} allowed\n")
    return int(worst > MOST_SECONDS)


if __name__ == "__main__":
    sys.exit(main())
