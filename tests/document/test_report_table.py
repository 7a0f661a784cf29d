"""Tables for the terminal: what they say, and how they look where there is little room."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import pytest
from rich.console import RenderableType

from schematics.checks import EXPLANATIONS, FAMILIES
from schematics.checks.evaluation import Result, evaluate
from schematics.checks.finding import Finding, Severity
from schematics.design.design import Design
from schematics.design.limits import Limits
from schematics.document.table import codes_parts, columns, design_tables, explanation_parts, say
from tests.specs_for_tests import read


@pytest.fixture
def design(tmp_path: Path) -> Design:
    return read(tmp_path)


def printed(capsys: pytest.CaptureFixture[str], parts: Iterable[RenderableType]) -> list[str]:
    say(parts)
    return capsys.readouterr().out.splitlines()


def of_size_4(lines: list[str]) -> list[str]:
    """From the size's own line on: the heading may wrap, as it names a file."""
    start = next(i for i, line in enumerate(lines) if line.startswith("Size 4"))
    return lines[start:]


def with_findings(design: Design, *severities: Severity) -> list[Result]:
    first = evaluate(design)[0]
    findings = tuple(
        Finding(code=f"CODE-{i}", severity=severity, size="4", place="neck", sentence=f"Sentence {i}.")
        for i, severity in enumerate(severities)
    )
    return [replace(first, findings=findings)]


def test_stops_come_first_and_good_ones_are_counted(
    design: Design, capsys: pytest.CaptureFixture[str]
) -> None:
    results = with_findings(design, Severity.GOOD, Severity.MIND, Severity.STOP, Severity.MIND)
    lines = of_size_4(printed(capsys, design_tables(design, results, show_all=False)))
    assert lines[0] == "Size 4, chart row child/4: stop (1 stop, 2 mind, 1 good)"
    assert [line.split() for line in lines[1:4]] == [
        ["stop", "CODE-2", "Sentence", "2."],
        ["mind", "CODE-1", "Sentence", "1."],
        ["mind", "CODE-3", "Sentence", "3."],
    ]
    assert not any("CODE-0" in line for line in lines)


def test_all_shows_the_good_ones_last(design: Design, capsys: pytest.CaptureFixture[str]) -> None:
    results = with_findings(design, Severity.GOOD, Severity.MIND)
    lines = of_size_4(printed(capsys, design_tables(design, results, show_all=True)))
    assert [line.split()[0] for line in lines[1:3]] == ["mind", "good"]


def test_a_size_without_a_finding_to_show_has_its_verdict(
    design: Design, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = of_size_4(
        printed(capsys, design_tables(design, with_findings(design, Severity.GOOD), show_all=False))
    )
    assert lines[0] == "Size 4, chart row child/4: good (1 good)"


def test_nothing_but_plain_text_in_80_columns(design: Design, capsys: pytest.CaptureFixture[str]) -> None:
    lines = printed(capsys, design_tables(design, evaluate(design), show_all=True))
    assert len(lines) > 20
    for line in lines:
        assert len(line) <= 80
        assert line == line.rstrip()
        assert "\x1b" not in line
        assert not any("\u2500" <= character <= "\u259f" for character in line), "no box drawing"


def test_sentences_are_complete_however_narrow(
    design: Design, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    results = evaluate(design)
    text = " ".join(" ".join(printed(capsys, design_tables(design, results, show_all=True))).split())
    words = " ".join(finding.sentence for finding in results[0].findings).split()
    assert [word for word in words if len(word) < 12 and word not in text] == []


def test_markup_in_a_title_is_text(capsys: pytest.CaptureFixture[str]) -> None:
    assert printed(capsys, [columns([["[bold]a[/bold]", ":smile: [red]"]])]) == [
        "  [bold]a[/bold]  :smile: [red]"
    ]


def test_every_code_is_listed(capsys: pytest.CaptureFixture[str]) -> None:
    text = "\n".join(printed(capsys, codes_parts(FAMILIES)))
    assert [code for code in EXPLANATIONS if code not in text] == []


@pytest.mark.parametrize("code", EXPLANATIONS)
def test_an_explanation_has_all_its_parts_and_limits(code: str, capsys: pytest.CaptureFixture[str]) -> None:
    explanation = EXPLANATIONS[code]
    text = " ".join(" ".join(printed(capsys, explanation_parts(explanation))).split())
    assert text.startswith(f"{code}: {explanation.title}")
    for part in (explanation.meaning, explanation.cure, explanation.origin):
        assert " ".join(part.split()) in text
    for name in explanation.limits:
        assert f"{name} {getattr(Limits(), name):g}" in text
