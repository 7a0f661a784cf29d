"""Stitches picked up along row ends, so that a band can be worked onto them."""

from __future__ import annotations

from schematics.crochet.spacing import Join
from schematics.document.document import Table
from schematics.pattern.book import Book
from schematics.pattern.written.schedules import EdgeUnit, row_ends, schedule_table

STITCHES = EdgeUnit("st", "sts")
HOW = (
    "The table goes in the direction of work. Where it tells sts to each row end, work so many sl sts in "
    "each row end, one row end after the other; where it tells row ends to each st, skip all but the "
    "last of them and work one sl st in that."
)


def pick_up_table(book: Book, caption: str, joins: list[Join]) -> Table:
    """How many stitches each row end of the body takes, in the direction of work."""
    return schedule_table(caption, book.names, joins, row_ends("body"), STITCHES)
