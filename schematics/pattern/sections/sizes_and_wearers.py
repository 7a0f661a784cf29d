"""Whom each size is for: the body measurements a poncho is chosen by."""

from __future__ import annotations

from schematics.checks.wording import listed
from schematics.document.document import Cell, Figure, Section, Table, length_figures, listed_section
from schematics.pattern.book import Book, if_any
from schematics.wearer.body import Body

_CHOSEN_BY = (Body.HEAD_GIRTH, Body.CHEST_GIRTH, Body.HEIGHT)


def section(book: Book) -> Section:
    """Typical measurements of each size's wearer, as far as they are known."""
    values_of = {body: [result.wearer.get(body) for result in book.results] for body in _CHOSEN_BY}
    by_body = {body: values for body, values in values_of.items() if any(values)}
    rows: list[tuple[Cell, ...]] = []
    figures: list[Figure] = []
    for body, values in by_body.items():
        lengths_cm = if_any(values, lambda value: value.cm)
        lengths = length_figures(f"to_fit.{body.value}", f"to fit {body.words}", lengths_cm)
        figures += lengths
        rows.append((body.words, *lengths))
    labels = "; ".join(f"size {result.size.name}, {result.wearer.label}" for result in book.results)
    borrowed = [
        body.words for body, values in by_body.items() if any(each and each.borrowed for each in values)
    ]
    sentences = [f"Body measurements, not those of the poncho: {labels}."]
    if borrowed:
        sentences.append(f"From tables by age or estimated, not from the size's own row: {listed(borrowed)}.")
    table = Table(caption="To fit", header=("body measurement", "cm", "inches"), rows=tuple(rows))
    return listed_section(
        key="to_fit",
        heading="Sizes",
        sentences=tuple(sentences),
        tables=(table,) if rows else (),
        figures=tuple(figures),
    )
