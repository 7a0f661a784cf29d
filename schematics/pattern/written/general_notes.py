"""Notes: how the poncho is made, how sizes are read, turning chains, terms."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.design.size_string import size_string
from schematics.document.document import Items, Section
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import ArmsOn
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """What holds for the whole pattern, the designer's own notes last."""
    return Section("Notes", (Items(tuple(_notes(book))),), "notes")


def making(book: Book) -> tuple[str, str, str]:
    """How the poncho is made, in three sentences."""
    sides = any(len(garment.seams) > 2 for garment in book.garments)
    seams = ", and the sides are seamed below the arm openings" if sides else ""
    return (
        f"The body is {CONSTRUCTIONS[book.design.construction].summary}; it is open down the centre front.",
        f"The centre panel is worked from the hem up and joined between the body's front edges{seams}.",
        "The neck band and arm bands are ribbing, worked sideways onto the edges and closed to rings.",
    )


def _notes(book: Book) -> Iterator[str]:
    yield " ".join(making(book))
    if len(book.names) > 1:
        yield (
            f"Figures are given for size {book.names[0]}, those for the larger sizes in brackets, in the "
            f"order {size_string(book.names)}; a single figure holds for all sizes."
        )
    yield "A number in square brackets at the end of a row is the number of sts it has."
    yield (
        "Chains at the beginning of a row, and those skipped at the beginning of Row 1, do not count as "
        "sts: the first st of a row goes into the first st of the row below. Sl sts that join a band to "
        "its edge are not counted either."
    )
    yield "A row end is where a row meets the edge of its piece; every row has one at either edge."
    yield f"Stitch names are in {book.terms.value} terms throughout, in the drawings too."
    on_hem = book.garments[0].arm.on is ArmsOn.HEM
    lies = "neck at the top" if on_hem else "back hem at the bottom"
    yield (
        "Wearer's right and left are those of the person who wears the poncho: with the right side of the "
        f"body facing you and its {lies}, the wearer's right is at your right. The pattern is written for "
        "right-handed makers, who work from right to left; left-handed makers work its mirror image and "
        "read right for left and left for right."
    )
    yield from book.design.publication.notes
