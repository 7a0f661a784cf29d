"""Write the figures of random designs of every construction, read them back, and make the garment anew.

    .venv/bin/python -m tests.fuzz.fuzz_figures [--designs 500] [--first 0]

The same numbers give the same designs. The exit code is 1 when a figure is not what its spec makes it.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

from schematics.checks.evaluation import evaluate
from schematics.document.writers import file_content
from schematics.pattern import figures
from tests.fuzz.numbered import check_designs
from tests.pattern.audit import audit
from tests.pattern.designs import design_of, dressed_spec
from tests.pattern.reading import read_page


def markdown(number: int) -> str:
    """The figures of the design of that number."""
    design = design_of(dressed_spec(number), number)
    return file_content(figures(design, evaluate(design)), "md").decode()


def check(number: int) -> list[str]:
    """What is wrong with its figures."""
    return list(audit(dressed_spec(number), read_page(markdown(number))))


def main(arguments: Sequence[str] | None = None) -> int:
    """Check so many designs and print what is wrong."""
    return check_designs(__doc__, check, 500, arguments)


if __name__ == "__main__":
    sys.exit(main())
