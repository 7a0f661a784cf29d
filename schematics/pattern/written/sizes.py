"""The sizes, and whom each is to fit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from types import MappingProxyType

from schematics.design.size_string import size_string
from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.document.document import NONE, Section, Table, Words
from schematics.pattern.book import Book
from schematics.units import Grain, Unit, figure
from schematics.wearer.body import Body, Origin, Wearer

MADE_TO_MEASURE = "made to measure"

NOT_MEASURED: Mapping[Origin, str] = MappingProxyType(
    {
        Origin.AGE_TABLE: " (not measured: typical at this age)",
        Origin.ESTIMATE: " (not measured: estimated from the rest)",
    }
)

_CHOSEN_BY = (
    (Body.HEAD_GIRTH, "round the head"),
    (Body.CHEST_GIRTH, "round the chest"),
    (Body.HEIGHT, "height"),
)


def whose_sizes(book: Book) -> str:
    """``children's sizes 2 (4, 6), women's sizes S (M)``; empty where some size is of no table.

    Of a design that has one size, for one person: ``made to measure``.
    """
    if len(book.design.sizes) == 1 and book.results[0].wearer.person:
        return MADE_TO_MEASURE
    groups = [
        (whose, [result.size.name for result in those])
        for whose, those in groupby(book.results, lambda result: result.wearer.whose)
    ]
    if not all(whose for whose, _ in groups):
        return ""
    return ", ".join(
        f"{whose} size{'s' if len(names) > 1 else ''} {size_string(names)}" for whose, names in groups
    )


def section(book: Book) -> Section:
    """Sizes in their order, and the body each is to fit, as far as it is known."""
    return Section("Sizes", tuple(_blocks(book)), "sizes")


def _blocks(book: Book) -> Iterator[Words | Table]:
    units = book.design.units
    rows = []
    for body, words in _CHOSEN_BY:
        values = [result.wearer.get(body) for result in book.results]
        if any(values):
            rows.append(
                (
                    f"{words}{_how_known(book, body)}",
                    *(
                        texts_in_sizes([_length(result.wearer, body, unit) for result in book.results])
                        for unit in units
                    ),
                )
            )
    if len(book.names) > 1:
        yield f"Sizes {size_string(book.names)}."
    else:
        yield f"One size: {book.names[0]}."
    if rows:
        yield Table(
            caption="To fit a body that measures",
            header=("", *(unit.words for unit in units)),
            rows=tuple(rows),
        )


def _length(wearer: Wearer, body: Body, unit: Unit) -> str:
    """A measurement that sizes are chosen by; one person's as finely as wherever else it is told."""
    value = wearer.get(body)
    if value is None:
        return NONE
    return figure(value.cm, unit, Grain.USUAL if wearer.person else Grain.COARSE)


def _how_known(book: Book, body: Body) -> str:
    """What is said of a measurement of the one person it is made for that nobody took."""
    if whose_sizes(book) != MADE_TO_MEASURE:
        return ""
    value = book.results[0].wearer.get(body)
    return NOT_MEASURED.get(value.origin, "") if value else ""
