"""A document with blocks of most kinds, and the look of its pages."""

from __future__ import annotations

from datetime import date

from schematics.checks.finding import Severity
from schematics.document.document import Document, Items, Picture, Rated, Row, Section, Table
from schematics.document.page_look import PageLook

A4 = PageLook(
    width_mm=210,
    height_mm=297,
    size_pt=9,
    margin_mm=20,
    foot="Lake · US terms",
    author="Ida",
    date=date(2024, 3, 1),
)
SVG = "<svg xmlns='http://www.w3.org/2000/svg' width='40' height='20'><path d='M0,0 L40,20'/></svg>"
PICTURE = Picture(shows="A line from corner to corner.", width_mm=40, height_mm=20, svg=SVG, png=lambda: b"")
ROWS = (
    Row("Foundation", "Ch 12 (14, 16)."),
    Row("Row 1 (RS)", "Hdc in 3rd ch from hook and in each ch to end, turn.", "10 (12, 14) sts"),
)
TABLE = Table(header=("", "cm"), rows=(("neck", "36 (38, 38)"), ("hem", Rated("120", Severity.MIND))))
LAKE = Document(
    title="Lake poncho",
    lead=("Designed by Ida.",),
    sections=(
        Section("Sizes", ("Sizes 2 (4, 6).", TABLE), "sizes"),
        Section("Body", (*ROWS, Section("Shoulders", (Items(("One.", "Two."), "In turn"),))), "body"),
        Section("Schematic", ("Laid flat.", PICTURE), "schematic"),
    ),
)
