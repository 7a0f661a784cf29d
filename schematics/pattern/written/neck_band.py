"""The neck band: the edge it is worked onto, where yarn is joined, its ribbing, and how the ring closes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.crochet.spacing import join
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.document import Row, Section, Table, Words
from schematics.pattern.book import Book
from schematics.pattern.written.neck_edge import EdgePart, neck_edge
from schematics.pattern.written.picked_up import HOW, pick_up_table
from schematics.pattern.written.ribbing import ribbing_of
from schematics.pattern.written.worked_with import worked_with


def section(book: Book) -> Section:
    """How the neck band is worked, in order."""
    return Section("Neck band", tuple(_blocks(book)), "neck_band")


def _blocks(book: Book) -> Iterator[Words | Row | Table]:
    parts, rings = neck_edge(book), [garment.neck for garment in book.garments]
    edge = in_sizes([ring.edge_count for ring in rings])
    start = in_sizes([garment.neck_start.stitch for garment in book.garments])
    picked_up = [part for part in parts if part.row_ends]
    hook = worked_with(book.design, "neck_band")
    yield (
        f"Work the neck band sideways onto the {edge} sts of the neck edge, {hook}, two ribbing rows to "
        "every two edge sts. Hold the poncho with the right side facing you and the neck edge at the top. "
        "These are the edge sts, in the order they are worked:"
    )
    yield Table(
        header=("part of the neck edge", "sts"),
        rows=(*((part.words, in_sizes(part.stitches)) for part in parts), ("in all", edge)),
    )
    if picked_up:
        fronts = any(part.words.startswith("front neck") for part in parts)
        chained = "those of the front neck the bottoms of the chains made there, " if fronts else ""
        yield (
            f"Join yarn in st {start} of the back neck, counted from its corner on the wearer's right, "
            "where the first is 1: this is the centre back. The sts of the back neck are those left unworked "
            f"between the shoulders, {chained}those of the panel's top the sts of its last row."
        )
        yield from _pick_up(book, picked_up)
        yield Row(
            "Pick-up rnd (RS)",
            "Sl st loosely in each st, and in the row ends as told, in the order of the first table, "
            "beginning in the st where yarn is joined; join with sl st in the first sl st. These sl sts are "
            "the edge sts, in the order they are made.",
            f"{edge} sts",
        )
    else:
        yield (
            f"Join yarn in st {start} of the body's neck edge, counted from seam A, where the first is 1: "
            "this is the centre back, and the first edge st. Along the body work into the foundation "
            "chain, one edge st under each st of Row 1; along the top of the panel work into the sts of "
            "its last row."
        )
    yield from ribbing_of(book, "neck band", rings).blocks


def _pick_up(book: Book, parts: Sequence[EdgePart]) -> Iterator[Words | Table]:
    yield HOW
    if len({(part.stitches, part.row_ends) for part in parts}) == 1 and len(parts) == 2:
        named = [("Row ends along each side of the neck hole", parts[0])]
    else:
        named = [(f"Along the {part.words}", part) for part in parts]
    for caption, part in named:
        assert part.row_ends is not None
        joins = [join(rows, max(sts, 1)) for rows, sts in zip(part.row_ends, part.stitches, strict=True)]
        yield pick_up_table(book, caption, joins)
