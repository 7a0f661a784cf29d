"""Finished measurements, with the letters of the schematic."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.wording import listed
from schematics.design.guessed import GUESSED
from schematics.document.document import Cell, Figure, Section, Table
from schematics.drawing.pieces.figures_look import FiguresLook, measurement_letters
from schematics.drawing.pieces.size_table import Measured, measured_rows
from schematics.garment.garment import ArmsOn
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """Every finished measurement that the schematic shows, of every size, laid flat, after washing."""
    look = FiguresLook(book.design.units, counts=False)
    rows = tuple(_row(each) for each in measured_rows(measurement_letters(book.results), book.results, look))
    where = "the schematic" if book.drawn else "the schematic, which is a sheet of its own"
    sizes = book.names if len(book.names) > 1 else ()
    return Section(
        "Finished measurements",
        (
            f"Washed and laid flat, without stretch. The letters are those of {where}; {_seams(book)}."
            f"{_run(book)}",
            *_guessed(book),
            Table(header=("", "measurement", *(unit.words for unit in look.units)), rows=rows, sizes=sizes),
        ),
        "finished_measurements",
    )


def _row(measured: Measured) -> tuple[Cell, ...]:
    """Letter, name, and a figure in each unit."""
    letter, name = measured.letter, measured.name
    lines = ((unit, texts if len(set(texts)) > 1 else texts[:1]) for unit, texts in measured.lines)
    return (
        letter,
        name,
        *(Figure(key=letter, name=name, unit=unit, values=texts, texts=texts) for unit, texts in lines),
    )


def _seams(book: Book) -> str:
    """Which letters the measurements leave out, as seams have them."""
    letters = sorted({seam.letter for garment in book.garments for seam in garment.seams})
    return f"{listed(letters)} are the seams"


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
