"""The figures as comma-separated values after RFC 4180: one line a figure, one column a size."""

from __future__ import annotations

import csv
import io

from schematics.figures.document import Document, Value
from schematics.report.json_text import number

HEADER = ("section", "key", "figure", "unit")

_FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r", "\n")


def safe_text(text: str) -> str:
    """The text so that no spreadsheet takes it for a formula: an apostrophe before what could begin one.

    >>> safe_text("=1+1"), safe_text("42 (46)")
    ("'=1+1", '42 (46)')
    """
    return f"'{text}" if text.lstrip(" \N{NO-BREAK SPACE}").startswith(_FORMULA_SIGNS) else text


def to_csv(document: Document) -> str:
    """Every figure with its exact value in each size; a size without it has an empty cell."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow([*HEADER, *(safe_text(f"size {name}") for name in document.sizes)])
    for section, figure in document.figures:
        about = (section.key, figure.key, figure.name, figure.unit)
        values = [_cell(figure.value(index)) for index in range(len(document.sizes))]
        writer.writerow([*(safe_text(each) for each in about), *values])
    return out.getvalue()


def _cell(value: Value) -> Value:
    if isinstance(value, str):
        return safe_text(value)
    return "" if value is None else number(value)
