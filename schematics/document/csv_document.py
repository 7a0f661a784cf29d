"""The figures as comma-separated values: one line a figure, one column a size."""

from __future__ import annotations

from schematics.document.csv_text import csv_text
from schematics.document.document import Document, Value
from schematics.document.json_text import number

HEADER = ("section", "key", "figure", "unit")


def to_csv(document: Document) -> str:
    """Every figure with its exact value in each size; a size without it has an empty cell."""
    header = (*HEADER, *(f"size {name}" for name in document.sizes))
    sizes = range(len(document.sizes))
    lines = (
        (section.key, figure.key, figure.name, figure.unit, *(_cell(figure.value(index)) for index in sizes))
        for section, figure in document.figures
    )
    return csv_text([header, *lines])


def _cell(value: Value) -> Value:
    return value if isinstance(value, str) else number(value)
