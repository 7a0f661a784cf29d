"""What comes before and after the figures: sizes that cannot be made, and the cautions."""

from __future__ import annotations

from schematics.checks.finding import Severity
from schematics.design.cautions import CAUTIONS, HEADING
from schematics.document.document import Section, listed_section, text_figure
from schematics.drawing.notes import STOPPED
from schematics.pattern.book import Book
from schematics.wearer.asking import distinct_questions, questions_of


def stops_section(book: Book) -> Section:
    """The findings that stop a size and what is asked about a wearer: nobody is to publish it unawares."""
    stops = [
        f"Size {result.size.name} {STOPPED}. {finding.sentence}"
        for result in book.results
        for finding in result.findings
        if finding.severity is Severity.STOP
    ]
    asked = [
        f"Size {result.size.name}: {sentence} It is taken as it was given."
        for result in book.results
        for sentence in distinct_questions(questions_of(result.wearer, book.design.unit))
    ]
    none = "No check stops any of these sizes; schematics check says what to mind."
    verdicts = [result.verdict.value for result in book.results]
    return listed_section(
        key="checks",
        heading="Checks",
        sentences=(*(stops or [none]), *asked),
        figures=(text_figure("checks.verdict", "worst finding", verdicts, detail=True),),
    )


def cautions_section(book: Book) -> Section:
    """The cautions that go with every output for a maker."""
    del book
    return listed_section(
        key="cautions",
        heading=HEADING,
        sentences=tuple(f"{each.sentence} ({each.source})" for each in CAUTIONS),
        figures=tuple(
            text_figure(f"caution.{number}", "caution", [each.sentence], detail=True)
            for number, each in enumerate(CAUTIONS, start=1)
        ),
    )
