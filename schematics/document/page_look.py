"""How the pages of a document look that is printed or edited."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time

PAGED_FORMS = ("pdf", "docx")
"""The forms that have pages: a PDF, and a file for a word processor."""

LEADING_MM, PHOTO_MM = 90.0, 80.0
"""No higher are a designer's images: one at the top, and any other."""

LOGO_WIDTH_MM, LOGO_HEIGHT_MM = 45.0, 16.0
"""Nor larger is the mark."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageLook:
    """How the pages of a document look.

    ``width_mm`` and ``height_mm`` are those of the paper; ``size_pt`` is that of the text. ``foot`` stands
    at the foot of every page. A ``large`` document has its tables as lists, a line a cell. ``accent``
    is the colour of its headings, ``#rrggbb``.
    """

    width_mm: float
    height_mm: float
    size_pt: float
    margin_mm: float
    foot: str
    large: bool = False
    author: str = ""
    date: date | None = None
    accent: str = "#1a1a1a"

    @property
    def created(self) -> datetime:
        """Written into the file: the start of its date, without one 1980; never when it was really made."""
        return datetime.combine(self.date or date(1980, 1, 1), time(), UTC)
