"""What is done at the end, and how the poncho is cared for."""

from __future__ import annotations

from schematics.design.missing import marks
from schematics.document.document import Items, Row, Section
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """What is done to finish the garment, in order."""
    del book
    return Section(
        "Finishing",
        (
            Row(
                "Try on",
                "Before the ends are woven in, see that the neck band goes over the head and each arm band "
                "over the hand with ease. If one does not, undo it and work it more loosely, with as many "
                "rows.",
            ),
            Row(
                "Ends",
                "Take out all markers. Weave in all ends on the wrong side, along ribbing rows and seams.",
            ),
            Row(
                "Block",
                "Wash like the swatch. Lay flat to the finished measurements, the ribbing unstretched, to "
                "dry.",
            ),
        ),
        "finishing",
    )


def care_section(book: Book) -> Section:
    """How to care for it, in the designer's words."""
    care = book.design.publication.care or (marks(book.design)["pattern.care"],)
    return Section("Care", (Items(care),), "care")
