"""The figures, read back from their Markdown, make up the garment again.

``python -m tests.fuzz.fuzz_figures`` does the same for 500 designs.
"""

from __future__ import annotations

import random
import re

import pytest

from tests.examples import seeds, share
from tests.fuzz.fuzz_figures import check, markdown
from tests.pattern.audit import audit
from tests.pattern.designs import WORDS, dressed_spec
from tests.pattern.reading import read_page
from tests.pattern.rule_reading import is_rule

_UNCHECKED = ("## Abbreviations", "## Before", "## Checks", "## Sizes")
_HEADERS = re.compile(r"\| (fabric|measurement|piece|figure|size|row|step|pattern|marker|part|yarn) \|")


@pytest.mark.slow
@pytest.mark.parametrize("number", seeds(range(48)))
def test_the_figures_reproduce_the_garment(number: int) -> None:
    assert check(number) == []


def test_the_constructions_take_turns() -> None:
    words = [dressed_spec(number)["construction"] for number in range(len(WORDS))]
    assert sorted(words) == sorted(WORDS)
    assert {"flared", "mitred", "folded"} <= set(words)


@pytest.mark.slow
@pytest.mark.parametrize("number", seeds([1, 2, 3, 4, 6, 7]))
def test_no_number_can_be_altered_unnoticed(number: int) -> None:
    """What proves that the audit looks: any number of a table or rule, made larger by 7, is found out."""
    text, spec = markdown(number), dressed_spec(number)
    lines = text.split("\n")
    places = random.Random(number).sample(_numbers(lines), share(40))
    assert [lines[at] for at, start in places if not _noticed(spec, lines, at, start)] == []


def _numbers(lines: list[str]) -> list[tuple[int, int]]:
    """Line and column of every number in a table or a rule that is a figure of the design."""
    found = []
    heading = ""
    for at, line in enumerate(lines):
        if line.startswith("## "):
            heading = line
        if (
            not (line.startswith("| ") or is_rule(line.removeprefix("- ")))
            or heading.startswith(_UNCHECKED)
            or _HEADERS.match(line)
        ):
            continue
        found += [(at, match.start()) for match in re.finditer(r"\d+", line)]
    return found


def _noticed(spec: dict[str, object], lines: list[str], at: int, start: int) -> bool:
    line = lines[at]
    number = re.compile(r"\d+").match(line, start)
    assert number
    altered = line[:start] + str(int(number[0]) + 7) + line[number.end() :]
    try:
        return bool(list(audit(spec, read_page("\n".join([*lines[:at], altered, *lines[at + 1 :]])))))
    except (AssertionError, ValueError, KeyError):
        return True
