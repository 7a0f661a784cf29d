"""Comma-separated values after RFC 4180, safe to open in a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

Value = int | float | str | None
"""A cell for programs: an exact number, a text, or nothing."""

_FORMULA_SIGNS = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""What a spreadsheet takes for the start of a formula, in both widths of letters."""

_BREAKS = ("\t", "\r", "\n")


def csv_text(rows: Iterable[Iterable[Value]]) -> str:
    """The rows as lines; None is an empty cell, numbers are left as they are.

    Every text is made safe by `safe_text` and set in quotation marks, so that one with a semicolon or a
    tab in it stays one cell wherever those part cells too.
    """
    out = io.StringIO()
    writer = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC)
    for row in rows:
        writer.writerow([safe_text(cell) if isinstance(cell, str) else cell for cell in row])
    return out.getvalue()


def safe_text(text: str) -> str:
    """The text so that no spreadsheet takes it for a formula: an apostrophe before what could begin one.

    >>> safe_text("=1+1"), safe_text("42 (46)")
    ("'=1+1", '42 (46)')
    """
    risky = text.startswith(_BREAKS) or text.lstrip().startswith(_FORMULA_SIGNS)
    return f"'{text}" if risky else text
