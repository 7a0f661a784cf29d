"""What the documents about designs share: their headings, their findings, and the cautions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from schematics.checks.finding import Finding, Severity
from schematics.checks.wording import sentence_case
from schematics.design.cautions import CAUTIONS, HEADING
from schematics.design.design import Design
from schematics.design.guessed import GUESSED, guessed
from schematics.design.missing import missing
from schematics.document.document import PROGRAM, Items, Rated, Section, Table


def design_title(design: Design) -> str:
    """Such as ``Tidepool poncho, flared (specs/tidepool.yaml)``."""
    return f"{design.title}, {design.construction} ({design.path})"


def rated(severity: Severity) -> Rated:
    """The severity's own word."""
    return Rated(severity.value, severity)


def findings_table(findings: Iterable[Finding]) -> Table:
    """Findings with their codes and sentences, in the order given."""
    return Table(
        header=("verdict", "code", "finding"),
        rows=tuple((rated(each.severity), each.code, each.full_sentence) for each in findings),
        headed=False,
    )


def uncoded_findings_table(findings: Iterable[Finding]) -> Table:
    """Findings as sentences alone, for makers, who know no codes."""
    return Table(
        header=("verdict", "finding"),
        rows=tuple((rated(each.severity), each.full_sentence) for each in findings),
        headed=False,
    )


def unfinished_sections(design: Design) -> tuple[Section, ...]:
    """What the spec guesses and what it lacks for the written pattern, each with its key; none if nothing."""
    guesses = Table(
        header=("guessed", "key of the spec"),
        rows=tuple((each.what, each.key) for each in guessed(design)),
    )
    lacking = Table(
        header=("to be added", "part of the pattern", "key of the spec"),
        rows=tuple((each.what, each.place.value, each.key) for each in missing(design)),
    )
    headed = (sentence_case(GUESSED), guesses), ("Missing for the written pattern", lacking)
    return tuple(Section(heading, (table,)) for heading, table in headed if table.rows)


def unfinished_json(design: Design) -> dict[str, Sequence[dict[str, str]]]:
    """What the spec guesses and what it lacks for the written pattern, as plain JSON values."""
    return {
        "guessed": [{"key": each.key, "what": each.what} for each in guessed(design)],
        "missing": [
            {"key": each.key, "what": each.what, "place": each.place.value} for each in missing(design)
        ],
    }


def cautions_section(key: str = "", *, young_told: bool = False) -> Section:
    """The cautions for the maker, without those for the smallest where they were told before."""
    sentences = tuple(each.sentence for each in CAUTIONS if not (young_told and each.young))
    return Section(HEADING, (Items(sentences),), key)


def cautions_json() -> Sequence[dict[str, str]]:
    """The cautions as plain JSON values."""
    return [{"sentence": each.sentence, "source": each.source} for each in CAUTIONS]


def head_json(design: Design, form: int = 1) -> dict[str, Any]:
    """What the JSON about a design begins with; ``form`` goes up by one when a key changes its meaning."""
    return {"format": form, "program": PROGRAM, "spec": design.path.name, "title": design.title}
