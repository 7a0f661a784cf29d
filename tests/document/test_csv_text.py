"""CSV that is safe to open in a spreadsheet.

Which cells a spreadsheet runs: OWASP, "CSV Injection" (owasp.org/www-community/attacks/CSV_Injection), from
memory: those that begin with = + - @, a tab, a carriage return or a line feed, in either width of letters.
"""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.document.csv_text import csv_text, safe_text
from tests.examples import ANY

PACKAGE = Path(__file__).parents[2] / "schematics"
RUN = tuple("=+-@\t\r\n＝＋－＠")


def rows_of(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline="")))


@pytest.mark.parametrize(
    "text",
    ["=1", "+1", "-1", "@a", "\t1", "\r1", "\n1", " =1", "\xa0@a", "\u2003-1", "＝1", "＋1", "－1", "＠a"],
)
def test_text_that_could_begin_a_formula_gets_an_apostrophe(text: str) -> None:
    assert safe_text(text) == f"'{text}"


@pytest.mark.parametrize("text", ["'=1", "42 (46)", "a=b", "6-7", ""])
def test_other_text_stays_as_it_is(text: str) -> None:
    assert safe_text(text) == text


@pytest.mark.slow
@given(st.lists(st.lists(st.text(ANY, max_size=6), min_size=1, max_size=3), min_size=1, max_size=3))
def test_any_text_comes_back_and_none_is_run(rows: list[list[str]]) -> None:
    read = rows_of(csv_text(rows))
    assert [[cell.removeprefix("'") for cell in row] for row in read] == [
        [cell.removeprefix("'") for cell in row] for row in rows
    ]
    assert not any(cell.startswith(RUN) or cell.strip().startswith(RUN) for row in read for cell in row)


def test_numbers_stay_numbers_and_lines_end_as_rfc_4180_has_them() -> None:
    assert csv_text([["a", -1, None, 2.5]]) == '"a",-1,"",2.5\r\n'


def test_a_text_stays_one_cell_where_semicolons_part_them() -> None:
    assert csv_text([["fog;=1+1"]]) == '"fog;=1+1"\r\n'


def test_every_csv_is_written_by_the_one_function() -> None:
    writers = [
        path.relative_to(PACKAGE).as_posix()
        for path in PACKAGE.rglob("*.py")
        if re.search(r"\bcsv\.(?:writer|DictWriter)\b|from csv import", path.read_text("utf-8"))
    ]
    assert writers == ["document/csv_text.py"]
