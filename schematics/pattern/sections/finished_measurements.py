"""Finished measurements in both units, with their counts."""

from __future__ import annotations

from schematics.checks.wording import sentence_case
from schematics.document.document import (
    Cell,
    Figure,
    Section,
    Table,
    count_figure,
    length_figures,
    listed_section,
)
from schematics.garment.constructions.formulas import DROP
from schematics.garment.printed_lengths import STEPS_IN_WORDS, grain_of
from schematics.pattern.book import Book, if_any


def section(book: Book) -> Section:
    """Every finished measurement, and the length at the centre back."""
    rows: list[tuple[Cell, ...]] = []
    figures: list[Figure] = []
    for key in book.keys(lambda garment: (item.key for item in garment.finished)):
        items = [{item.key: item for item in garment.finished}.get(key) for garment in book.garments]
        name, counted = next((item.name, item.counted) for item in items if item is not None)
        lengths = length_figures(key, name, if_any(items, lambda item: item.length_cm), grain_of(key))
        figures += lengths
        count: Cell = ""
        if counted is not None:
            counts = [None if item is None else item.count for item in items]
            count = count_figure(f"{key}.count", name, counted.value, counts)
            figures.append(count)
        rows.append((name, *lengths, count, counted.value if counted else ""))
    drop = length_figures("drop", DROP, [garment.drop_cm for garment in book.garments])
    rows.append((DROP, *drop, "", ""))
    return listed_section(
        key="measurements",
        heading="Finished measurements",
        sentences=(f"{sentence_case(STEPS_IN_WORDS)} (common practice); the counts are exact.",),
        tables=(
            Table(
                caption="Finished measurements, laid flat",
                header=("measurement", "cm", "inches", "count", "of"),
                rows=tuple(rows),
            ),
        ),
        figures=(*figures, *drop),
    )
