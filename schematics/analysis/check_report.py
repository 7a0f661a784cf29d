"""What the checks say of a design, as a document."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from schematics.analysis.measurements import measurements
from schematics.analysis.surer import surer_in_counts
from schematics.checks.evaluation import SEVERITIES, Result
from schematics.checks.finding import Finding, Severity
from schematics.checks.rules.size_rules import size_rules
from schematics.checks.tape import Tape
from schematics.design.design import Design
from schematics.design.guessed import guessed
from schematics.design.missing import missing
from schematics.document.common import (
    cautions_section,
    design_title,
    findings_table,
    rated,
    unfinished_sections,
)
from schematics.document.csv_text import Value
from schematics.document.document import Document, Section, Words
from schematics.document.in_terms import document_in_terms
from schematics.wearer.asking import ASK, distinct_questions, questions_of
from schematics.wearer.body import Origin, Stage
from schematics.wearer.neck_to_wrist import ARM, far_words, surveyed_cm


def check_document(design: Design, results: Sequence[Result], *, show_all: bool) -> Document:
    """For each size its verdict and its findings, those that stop first.

    Findings that are good are only counted unless ``show_all``. What is asked about the wearer's own
    measurements comes after them and counts for nothing.
    """
    document = Document(
        title=design_title(design),
        sections=(
            *(_size_section(design, result, show_all) for result in results),
            *unfinished_sections(design),
        ),
        closing=(
            Section("", ("schematics explain CODE says what a finding means and how to cure it.",)),
            cautions_section(),
        ),
        data=lambda: measurements(design, results),
        records=lambda: _records(design, results, show_all),
    )
    return document_in_terms(document, design.terms)


def _records(design: Design, results: Sequence[Result], show_all: bool) -> Iterator[Sequence[Value]]:
    """A line for each size, then one for each of its findings that are shown; last what is unfinished."""
    yield "size", "wearer", "verdict", "code", "place", "sentence"
    for result in results:
        size = (result.size.name, result.wearer.label)
        yield *size, result.verdict.value, None, None, _counted(result)
        for each in _shown(result, show_all):
            yield *size, each.severity.value, each.code, each.place, _explained(design, result, each)
        for body, sentence in questions_of(result.wearer, design.unit).items():
            yield *size, ASK, None, body.words, sentence
    for guess in guessed(design):
        yield None, None, "guessed", None, guess.key, guess.what
    for lacking in missing(design):
        yield None, None, "missing", None, lacking.key, lacking.what


def _counted(result: Result) -> str:
    counts = Counter(finding.severity for finding in result.findings)
    return ", ".join(f"{counts[severity]} {severity.value}" for severity in SEVERITIES if counts[severity])


def _shown(result: Result, show_all: bool) -> list[Finding]:
    """The findings that are shown, those that stop first; what is minded for certain before what may hold."""
    shown = [each for each in result.findings if show_all or each.severity is not Severity.GOOD]
    return sorted(shown, key=lambda finding: (SEVERITIES.index(finding.severity), finding.unsure))


def _explained(design: Design, result: Result, finding: Finding) -> str:
    """The finding, what else to know of it, and where it is only not sure, what other counts would do."""
    counts = surer_in_counts(design, result, finding) if finding.unsure else ""
    return " ".join(filter(None, (finding.full_sentence, counts, _surveyed(design, result, finding))))


_SURVEYED = (
    "The chart's {words} is {far} the {length} of measured children; to go by that, write {name}: {length}."
)


def _surveyed(design: Design, result: Result, finding: Finding) -> str:
    """Where a worry hangs on the trade's neck to wrist, and that is far from the survey's: both."""
    wearer = result.wearer
    value, age = wearer.get(ARM), wearer.age_years
    hangs = any(rule.code == finding.code and ARM in rule.needs for rule in size_rules(design.limits))
    if finding.severity is Severity.GOOD or not hangs or value is None or age is None:
        return ""
    far = far_words(value, age) if value.origin is Origin.CHART and wearer.stage is not Stage.ADULT else ""
    length = Tape(design.unit).length(surveyed_cm(age)) if far else ""
    return _SURVEYED.format(words=ARM.words, far=far, length=length, name=ARM.value) if far else ""


def _size_section(design: Design, result: Result, show_all: bool) -> Section:
    heading: Words = (
        f"Size {result.size.name}, {result.wearer.label}: ",
        rated(result.verdict),
        f" ({_counted(result)})" if result.findings else "",
    )
    shown = _shown(result, show_all)
    table = findings_table(shown)
    rows = [(*row[:2], _explained(design, result, each)) for row, each in zip(table.rows, shown, strict=True)]
    asked = tuple(
        (ASK, "", sentence) for sentence in distinct_questions(questions_of(result.wearer, design.unit))
    )
    table = replace(table, rows=(*rows, *asked))
    return Section(heading, (table,) if table.rows else ())
