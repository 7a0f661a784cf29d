"""The rows that a text names, counted size by size: each once, in order, as many as the spec has.

Labels alone are read: ``Row 5 (RS)``, ``Rows 6 (8) to 9``, ``Sizes A and C only, row 3``, and of one rule
``Rows 6, 10 and so on``, told within ``Rows 5 to 20``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from schematics.checks.evaluation import Result, evaluate
from schematics.crochet.terms import Terms
from schematics.document.document import Row, Section
from schematics.pattern.book import Book
from schematics.pattern.sections.piece_sizes import piece_rows
from schematics.pattern.written import body_piece, centre_panel
from schematics.reading.design_file import read_design
from tests.drawing.designs import as_text
from tests.examples import seeds
from tests.pattern.designs import dressed_spec
from tests.shipped import demos, shipped_design, shipped_results

SPECS = Path(__file__).parents[3] / "specs"
STRING = r"(\d+(?: \([\d, ]+\))?)"
ONLY = re.compile(r"Sizes? (.+) only, (.*)")
ROWS = re.compile(rf"[Rr]ows? {STRING}(?: (?:to|and) {STRING})?(?:,? \(?(?:RS|WS).*)?")
REST = (
    "Foundation",
    "Markers",
    "Marker",
    "Increase row",
    "Even row",
)


def numbers(text: str, sizes: int) -> list[int]:
    found = [int(each) for each in re.findall(r"\d+", text)]
    return found * sizes if len(found) == 1 else found


def named(row: Row, names: Sequence[str]) -> Iterator[tuple[str, int, int]]:
    """Each size that a label is for, with its first row and its last."""
    label, sizes = row.label, list(names)
    if only := ONLY.fullmatch(label):
        sizes, label = re.split(", | and ", only[1]), only[2]
    match = ROWS.fullmatch(label)
    assert match, row.label
    firsts = numbers(match[1], len(sizes))
    lasts = numbers(match[2], len(sizes)) if match[2] else firsts
    assert len(firsts) == len(lasts) == len(sizes), row.label
    yield from zip(sizes, firsts, lasts, strict=True)


def last_rows(blocks: Sequence[object], names: Sequence[str], at: dict[str, int]) -> dict[str, int]:
    """The last row of each size, each after the one before; rules are taken at their last increase row."""
    at, within = dict(at), False
    for block in blocks:
        if (
            not isinstance(block, Row)
            or block.label in REST
            or ", " in ROWS.sub("", block.label.split(" only, ")[-1])
        ):
            continue
        if re.fullmatch(r"Rows? \d+( and \d+|, .*)?", block.label) and "each time" in block.work:
            if not within:
                at = dict.fromkeys(at, int(block.label.removeprefix("Row ")))
            continue
        within = "as told below" in block.work
        for name, first, last in named(block, names):
            assert first == at[name] + 1, (block.label, name, at[name])
            assert last >= first
            at[name] = last
    return at


def ends(section: Section, names: Sequence[str]) -> list[dict[str, int]]:
    """Where the piece ends; of one that divides, where each part does."""
    parts = [each for each in section.blocks if isinstance(each, Section)]
    whole = last_rows(section.blocks, names, dict.fromkeys(names, 0))
    return [last_rows(part.blocks, names, whole) for part in parts] or [whole]


def check(results: tuple[Result, ...], design: object) -> None:
    book = Book(design=design, results=results, terms=Terms.US)  # type: ignore[arg-type]
    listed = body_piece.section(book)
    if not listed.tables:
        rows = {each.size.name: piece_rows(each.garment.piece("body")) for each in results}
        for at in ends(listed, book.names):
            assert at == rows
    panel = {each.size.name: piece_rows(each.garment.piece("centre panel")) for each in results}
    if all(book.design.parts.centre_panel.row_rule.rule.allows(each) for each in panel.values()):
        assert ends(centre_panel.section(book), book.names) == [panel]


@pytest.mark.slow
@pytest.mark.parametrize("name", demos())
def test_the_rows_of_the_demos(name: str) -> None:
    design, results = shipped_design(name), shipped_results(name)
    check(results, design)
    for result in results:
        check((result,), design)


@pytest.mark.slow
@pytest.mark.parametrize("number", seeds(range(60)))
def test_the_rows_of_random_designs(number: int, tmp_path: Path) -> None:
    path = tmp_path / "random.yaml"
    path.write_text(as_text(dressed_spec(number)), encoding="utf-8")
    design = read_design(path)
    check(evaluate(design), design)
