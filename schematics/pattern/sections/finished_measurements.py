"""Finished measurements in both units, with their counts."""

from __future__ import annotations

from schematics.document.document import (
    Cell,
    Figure,
    Section,
    Table,
    cm_figure,
    count_figure,
    inch_figure,
    listed_section,
)
from schematics.garment.garment import Finished, Garment
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """Every finished measurement, and the length at the centre back."""
    rows: list[tuple[Cell, ...]] = []
    figures: list[Figure] = []
    for key in book.keys(lambda garment: (item.key for item in garment.finished)):
        items = [_item(result.garment, key) for result in book.results]
        name, counted = next((item.name, item.counted) for item in items if item is not None)
        lengths = [None if item is None else item.length_cm for item in items]
        cm, inches = cm_figure(key, name, lengths), inch_figure(key, name, lengths)
        figures += (cm, inches)
        count: Cell = ""
        if counted is not None:
            counts = [None if item is None else item.count for item in items]
            count = count_figure(f"{key}.count", name, counted.value, counts)
            figures.append(count)
        rows.append((name, cm, inches, count, counted.value if counted else ""))
    drop = book.each(lambda garment: garment.drop_cm)
    cm, inches = cm_figure("drop", _DROP, drop), inch_figure("drop", _DROP, drop)
    rows.append((_DROP, cm, inches, "", ""))
    return listed_section(
        key="measurements",
        heading="Finished measurements",
        sentences=("To 0.5 cm and 1/4 in (common practice); the counts are exact.",),
        tables=(
            Table(
                caption="Finished measurements, laid flat",
                header=("measurement", "cm", "inches", "count", "of"),
                rows=tuple(rows),
            ),
        ),
        figures=(*figures, cm, inches),
    )


_DROP = "centre back, neck edge to hem"


def _item(garment: Garment, key: str) -> Finished | None:
    return next((item for item in garment.finished if item.key == key), None)
