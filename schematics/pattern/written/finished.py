"""Finished measurements, with the letters of the schematic."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.wording import listed
from schematics.design.guessed import GUESSED
from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.document.document import NONE, Section, Table
from schematics.drawing.pieces.piece_block import measurement_letters
from schematics.garment.garment import ArmsOn, Finished
from schematics.garment.printed_lengths import finished_figure
from schematics.pattern.book import Book
from schematics.pattern.written.sizes import units_in_order
from schematics.units import Unit


def section(book: Book) -> Section:
    """Every finished measurement that the schematic shows, of every size, laid flat, after washing."""
    letters, units = measurement_letters(book.results), units_in_order(book)
    by_size = [{item.key: item for item in garment.finished} for garment in book.garments]
    rows = []
    for key, letter in letters.items():
        items = [each.get(key) for each in by_size]
        name = next(item.name for item in items if item)
        rows.append((letter, name, *(_lengths(items, unit) for unit in units)))
    return Section(
        "Finished measurements",
        (
            f"Washed and laid flat, without stretch. The letters are those of the schematic.{_run(book)}",
            *_guessed(book),
            Table(header=("", "measurement", *(unit.words for unit in units)), rows=tuple(rows)),
        ),
        "finished_measurements",
    )


def _run(book: Book) -> str:
    """What an arm run is, where there are any."""
    on_hem = book.garments[0].arm.on is ArmsOn.HEM
    return " An arm run is the part of the hem that an arm band is worked onto." if on_hem else ""


def _guessed(book: Book) -> Iterator[str]:
    """Where the gauge is guessed, what follows from it is too."""
    parts = book.design.parts
    guesses = [parts.named_for(fabric) for fabric in parts.fabrics.values() if fabric.swatch.guessed]
    if guesses:
        yield f"Those of the {listed(guesses)} follow from a gauge that is {GUESSED}."


def _lengths(items: list[Finished | None], unit: Unit) -> str:
    return texts_in_sizes([finished_figure(item, unit, bare=True) if item else NONE for item in items])
