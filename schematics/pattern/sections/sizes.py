"""Whom each size is for: the body measurements a poncho is chosen by."""

from __future__ import annotations

from schematics.checks.wording import listed
from schematics.document.document import Cell, Figure, Section, Table, cm_figure, inch_figure, listed_section
from schematics.pattern.book import Book
from schematics.wearer.body import Body, BodyValue

_CHOSEN_BY = (Body.HEAD_GIRTH, Body.CHEST_GIRTH, Body.HEIGHT)


def section(book: Book) -> Section:
    """Typical measurements of each size's wearer, as far as they are known."""
    known = {body: values for body in _CHOSEN_BY if any(values := _values(book, body))}
    rows: list[tuple[Cell, ...]] = []
    figures: list[Figure] = []
    for body, values in known.items():
        key, name = f"to_fit.{body.value}", f"to fit {body.words}"
        lengths = [None if value is None else value.cm for value in values]
        cm, inches = cm_figure(key, name, lengths), inch_figure(key, name, lengths)
        figures += (cm, inches)
        rows.append((body.words, cm, inches))
    labels = "; ".join(f"size {result.size.name}, {result.wearer.label}" for result in book.results)
    borrowed = [
        body.words for body, values in known.items() if any(each and each.borrowed for each in values)
    ]
    sentences = [f"Body measurements, not those of the poncho: {labels}."]
    if borrowed:
        sentences.append(f"From tables by age or estimated, not from the size's own row: {listed(borrowed)}.")
    return listed_section(
        key="to_fit",
        heading="Sizes",
        sentences=tuple(sentences),
        tables=(
            (Table(caption="To fit", header=("body measurement", "cm", "inches"), rows=tuple(rows)),)
            if rows
            else ()
        ),
        figures=tuple(figures),
    )


def _values(book: Book, body: Body) -> list[BodyValue | None]:
    return [result.wearer.get(body) for result in book.results]
