"""The designer's workbook in words: what is wrong, guessed and missing, and how figures were worked out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.analysis.workings.workings_tables import workings_document
from schematics.checks.evaluation import WORRIES, Result
from schematics.checks.finding import Severity
from schematics.design.design import Design
from schematics.document.common import rated, unfinished_sections
from schematics.document.document import Document, Section, Table
from schematics.document.page_look import PageLook
from schematics.drawing.ink.sheet import Paper
from schematics.wearer.asking import ASKED_HEADING, distinct_questions, questions_of

_SIZE_PT, _MARGIN_MM = 8.0, 18.0

FINDINGS = "findings"
"""The bookmark of what comes before the working sheets."""


def workbook_title(title: str) -> str:
    """What the workbook of a design is called."""
    return f"{title}: the designer's workbook"


def findings_document(design: Design, results: Sequence[Result]) -> Document:
    """The findings of all sizes, worst first; what the spec guesses, and what the pattern still lacks."""
    return Document(
        title=workbook_title(design.title),
        lead=(
            "For the designer and the technical editor; the pattern is what customers get.",
            f"Made from {design.path.name}{f', {design.date.isoformat()}' if design.date else ''}. Findings "
            "come first, worst first; then what is guessed or missing, the working sheets, and the "
            "workings of every figure.",
        ),
        sections=(
            _verdicts(results),
            *_findings(results),
            *_questions(design, results),
            *unfinished_sections(design),
        ),
    )


def workings_documents(design: Design, results: Sequence[Result]) -> Iterator[tuple[str, Document]]:
    """Every figure as arithmetic, after the working sheets: the bookmark and the document of each size."""
    for result in results:
        workings = workings_document(design, (result,), lines=False)
        name = result.size.name
        title = f"{design.title}, size {name}: workings"
        yield f"size {name}, workings", Document(title=title, lead=workings.lead, sections=workings.sections)


def workbook_look(design: Design, paper: Paper) -> PageLook:
    """How its pages look: small and plain."""
    return PageLook(
        width_mm=paper.width,
        height_mm=paper.height,
        size_pt=_SIZE_PT,
        margin_mm=_MARGIN_MM,
        foot=f"{design.title} · designer's workbook",
        date=design.date,
    )


def _verdicts(results: Sequence[Result]) -> Section:
    rows = tuple((each.size.name, each.wearer.label, rated(each.verdict)) for each in results)
    return Section("Sizes", (Table(header=("size", "wearer", "verdict"), rows=rows),))


def _findings(results: Sequence[Result]) -> Iterator[Section]:
    """A table for each severity that is to be seen to, or that none is."""
    if all(result.verdict is Severity.GOOD for result in results):
        yield Section("Findings", ("Nothing stops, and nothing is to be minded.",))
    for severity in WORRIES:
        rows = tuple(
            (result.size.name, finding.code, finding.full_sentence)
            for result in results
            for finding in result.findings
            if finding.severity is severity
        )
        if rows:
            yield Section(_HEADINGS[severity], (Table(header=("size", "code", "finding"), rows=rows),))


def _questions(design: Design, results: Sequence[Result]) -> Iterator[Section]:
    rows = tuple(
        (result.size.name, sentence)
        for result in results
        for sentence in distinct_questions(questions_of(result.wearer, design.unit))
    )
    if rows:
        yield Section(ASKED_HEADING, (Table(header=("size", "question"), rows=rows),))


_HEADINGS = {
    Severity.STOP: "What stops",
    Severity.MIND: "What is to be minded",
}
