"""Documents on the terminal: what they say, and how they look where there is little room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from schematics.analysis.check_report import check_document
from schematics.analysis.explanations import codes_document, explanation_document
from schematics.checks import EXPLAINED, EXPLANATIONS, TOPICS
from schematics.checks.evaluation import Result, evaluate
from schematics.checks.finding import Finding, Severity
from schematics.design.design import Design
from schematics.design.limits import Limits
from schematics.document.document import Document, Quantity, Rated, Section, Table
from schematics.document.terminal import write
from tests.specs_for_tests import read


@pytest.fixture
def design(tmp_path: Path) -> Design:
    return read(tmp_path)


def printed(document: Document) -> list[str]:
    return "".join(write([document], "")).splitlines()


def checked(design: Design, results: Sequence[Result], *, show_all: bool) -> list[str]:
    return printed(check_document(design, results, show_all=show_all))


def of_size_4(lines: list[str]) -> list[str]:
    """From the size's own line on: the heading may wrap, as it names a file."""
    start = next(i for i, line in enumerate(lines) if line.startswith("Size 4"))
    return lines[start:]


def with_findings(design: Design, *severities: Severity) -> list[Result]:
    first = evaluate(design)[0]
    findings = tuple(
        Finding(code=f"CODE-{i}", severity=severity, size="4", place="neck", words=f"Sentence {i}.")
        for i, severity in enumerate(severities)
    )
    return [replace(first, findings=findings)]


def test_stops_come_first_and_good_ones_are_counted(design: Design) -> None:
    results = with_findings(design, Severity.GOOD, Severity.MIND, Severity.STOP, Severity.MIND)
    lines = of_size_4(checked(design, results, show_all=False))
    assert lines[0] == "Size 4, chart row child/4: stop (1 stop, 2 mind, 1 good)"
    assert [line.split() for line in lines[1:4]] == [
        ["stop", "CODE-2", "Sentence", "2."],
        ["mind", "CODE-1", "Sentence", "1."],
        ["mind", "CODE-3", "Sentence", "3."],
    ]
    assert not any("CODE-0" in line for line in lines)


def test_all_shows_the_good_ones_last(design: Design) -> None:
    results = with_findings(design, Severity.GOOD, Severity.MIND)
    lines = of_size_4(checked(design, results, show_all=True))
    assert [line.split()[0] for line in lines[1:3]] == ["mind", "good"]


def test_a_size_without_a_finding_to_show_has_its_verdict(design: Design) -> None:
    lines = of_size_4(checked(design, with_findings(design, Severity.GOOD), show_all=False))
    assert lines[0] == "Size 4, chart row child/4: good (1 good)"


@pytest.mark.slow
def test_nothing_but_plain_text_in_80_columns(design: Design) -> None:
    lines = checked(design, evaluate(design), show_all=True)
    assert len(lines) > 20
    for line in lines:
        assert len(line) <= 80
        assert line == line.rstrip()
        assert "\x1b" not in line
        assert not any("\u2500" <= character <= "\u259f" for character in line), "no box drawing"


@pytest.mark.slow
def test_sentences_are_complete_however_narrow(design: Design, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    results = evaluate(design)
    text = " ".join(" ".join(checked(design, results, show_all=True)).split())
    words = " ".join(finding.sentence for finding in results[0].findings).split()
    assert [word for word in words if len(word) < 12 and word not in text] == []


def document(table: Table) -> Document:
    return Document(title="[bold]Lake[/bold] :smile:", sections=(Section("", (table,)),))


def test_markup_is_text() -> None:
    table = Table(header=("a", "b"), rows=(("[bold]a[/bold]", ":smile: [red]"),), headed=False)
    assert printed(document(table)) == ["[bold]Lake[/bold] :smile:", "  [bold]a[/bold]  :smile: [red]"]


def numbers(count: int, width: int) -> Table:
    """A table of a name and so many columns of numbers of that width."""
    names = tuple(f"{number}".rjust(width, "c") for number in range(count))
    return Table(header=("", *names), rows=(("body", *(Quantity(1.0, "1") for _ in names)),))


def test_a_table_of_numbers_that_is_too_wide_is_parted_with_its_names_before_each_part() -> None:
    """80 columns hold 2 of indent, 4 of the name and 8 columns of 7 with 2 blanks before each, and 2 more."""
    fitting = printed(document(numbers(8, 7)))[1:]
    assert len(fitting) == 2
    assert fitting[1] == "  body" + "        1" * 8
    closer = printed(document(numbers(9, 7)))[1:]
    assert closer[1] == "  body" + "       1" * 9
    parted = printed(document(numbers(10, 7)))[1:]
    assert [line.split()[0] for line in parted] == ["cccccc0", "body", "cccccc8", "body"]
    assert all(len(line) <= 80 for line in parted)


def test_words_that_need_it_are_wrapped_in_every_column() -> None:
    table = Table(header=("long", "longer"), rows=(("word " * 30, "words " * 30),))
    lines = printed(document(table))
    assert all(len(line) <= 80 for line in lines)
    assert " ".join(lines).split().count("words") == 30


def test_a_verdict_has_its_colour_on_a_terminal_only(monkeypatch: pytest.MonkeyPatch) -> None:
    table = Table(header=("a",), rows=((Rated("stop", Severity.STOP),),), headed=False)
    assert printed(document(table))[1] == "  stop"
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert "\x1b[1;31mstop" in "".join(write([document(table)], ""))


def test_every_code_is_listed() -> None:
    text = "\n".join(printed(codes_document(TOPICS)))
    assert [code for code in EXPLAINED if code not in text] == []


@pytest.mark.parametrize("code", EXPLANATIONS)
def test_an_explanation_has_all_its_parts_and_limits(code: str) -> None:
    explanation = EXPLANATIONS[code]
    text = " ".join(" ".join(printed(explanation_document(explanation))).split())
    assert text.startswith(f"{code}: {explanation.title}")
    for part in (explanation.meaning, explanation.cure, explanation.origin):
        assert " ".join(part.split()) in text
    for name in explanation.limits:
        assert f"{name} {getattr(Limits(), name):g}" in text
