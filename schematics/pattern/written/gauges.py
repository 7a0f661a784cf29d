"""The gauge of every fabric, to 10 cm or 4 in."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.wording import listed, sentence_case
from schematics.crochet.charts.count_rules import multiple_words
from schematics.crochet.fabric import Counted, Fabric
from schematics.design.guessed import marked
from schematics.document.document import Items, Section
from schematics.pattern.book import Book

_MEASURED = "Measured on a swatch that has been washed and dried as the poncho will be."
_OWN = (
    "This is your own gauge, and all counts are found for it: it holds for a swatch that has been washed and "
    "dried as the poncho will be."
)
_RECKONED = " (taken from the body's, not measured)"


def section(book: Book) -> Section:
    """The gauges, a line for each fabric."""
    return Section(
        "Gauge",
        (
            _OWN if any(map(book.design.is_at_own_gauge, book.design.parts.by_name.values())) else _MEASURED,
            Items(tuple(_lines(book))),
            *_charted(book),
        ),
        "gauge",
    )


def _charted(book: Book) -> Iterator[str]:
    """On how many stitches a swatch is worked from the rows of a chart."""
    for part, fabric in book.design.parts.by_name.items():
        rule = fabric.stitch_rule
        if fabric.chart and rule.multiple > 1 and not rule.only:
            yield (
                f"For a swatch of the {part} work its rows, as they are told below, on a multiple of "
                f"{multiple_words(rule)} sts."
            )


def _lines(book: Book) -> Iterator[str]:
    parts: dict[Fabric, list[str]] = {}
    for name, fabric in book.design.parts.by_name.items():
        parts.setdefault(fabric, []).append(name)
    unit, (_, span) = book.design.unit_first, book.design.unit_first.gauge_span
    for fabric, names in parts.items():
        stitches, rows = (unit.gauge_figure(fabric.gauge(counted)) for counted in Counted)
        gauge = marked(f"{stitches} sts and {rows} rows to {span}", guess=fabric.swatch.guessed)
        gauge += _RECKONED if fabric.swatch.reckoned else ""
        yield f"{sentence_case(listed(names))}: {gauge}, {fabric.stitch}"
