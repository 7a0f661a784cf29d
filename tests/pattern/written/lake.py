"""A flared design in three sizes whose figures are worked out by hand, and a folded one, for these tests."""

from __future__ import annotations

from pathlib import Path

from schematics.checks.evaluation import Result, evaluate
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.document import Document, Section
from schematics.document.writers import file_content
from schematics.pattern.book import Book
from tests.specs_for_tests import SPEC, read

PATTERN = """\
pattern:
  designer: Ida Example
  copyright: © 2024 Ida Example
  level: easy
  seam: {stitch: slip stitch, sides: right sides together}
  notions: [4 markers, yarn needle]
  care: [Wash by hand.]
  notes: [The cables lean to the left.]
"""

THREE = (
    SPEC.replace(
        "yarn: {name: plain wool}",
        "yarn: {name: plain wool, fibre: 100 % wool, weight: 4, ball_mass: 50, ball_length: 100}",
    )
    + """\
  "8":
    wearer: child/8
    body: {neck: 68, hem: 208, rows: 38}
    arms: {from_front: 48, stitches: 24}
    panel: {stitches: 12, rows: 40}
    neck_band: {stitches: 7}
    arm_bands: {stitches: 9}
"""
    + PATTERN
)
"""Sizes 4, 6 years and 8."""

ONE = THREE[: THREE.index('  "6 years":')] + PATTERN
"""Size 4 alone."""

FOLDED = (
    ONE[: ONE.index("sizes:")].replace("flared", "folded")
    + """\
sizes:
  "4":
    wearer: child/4
    body:
      {width: 91, front_rows: 30, back_rows: 32, neck: 21, neck_front_rows: 5, neck_back_rows: 2, slot: 13}
    arms: {rows: 14}
    panel: {stitches: 15, rows: 25}
    neck_band: {stitches: 5}
    arm_bands: {stitches: 7}
"""
    + PATTERN
)


def book_of(tmp_path: Path, text: str, terms: Terms = Terms.US) -> Book:
    """The book of a spec, which is read and worked out once in a process."""
    if text not in _WORKED_OUT:
        design = read(tmp_path, text)
        _WORKED_OUT[text] = design, evaluate(design)
    design, results = _WORKED_OUT[text]
    return Book(design=design, results=results, terms=terms)


_WORKED_OUT: dict[str, tuple[Design, tuple[Result, ...]]] = {}


def text_of(section: Section | None) -> str:
    """The section as Markdown, its lines that are not empty."""
    assert section is not None
    document = Document(title="title", sections=(section,))
    lines = file_content(document, "md").decode().splitlines()
    return "\n".join(line for line in lines[1:] if line)
