"""Foundation chains, stitches and rows of every piece."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.crochet.fabric import Counted
from schematics.design.guessed import GUESSED
from schematics.document.document import Figure, Section, Table, count_figure, listed_section
from schematics.garment.garment import Piece
from schematics.pattern.book import Book


def piece_rows(piece: Piece) -> int:
    """Rows worked in a piece, from its foundation chain to its last row."""
    return max(edge.count for edge in piece.edges if edge.counted is Counted.ROWS and not edge.partial)


def section(book: Book) -> Section:
    """What to chain and how many rows to work, piece by piece."""
    figures: list[Figure] = []
    rows: list[tuple[str | Figure, ...]] = []
    for piece in book.pieces:
        shown = _piece_figures(book, piece.name)
        figures += shown
        rows.append((piece.name, str(piece.quantity), *shown))
    columns = ("foundation chain", "stitches in the first row", "turning chain", "rows")
    return listed_section(
        key="pieces",
        heading="Foundation chains and rows",
        sentences=(
            "The foundation chain is the stitches of the first row and the turning chain. The turning chain "
            "counts as no stitch (common practice): after one of 2, work the first stitch into the 3rd chain "
            "from the hook.",
            *_guesses(book),
        ),
        tables=(Table(caption="Every piece", header=("piece", "make", *columns), rows=tuple(rows)),),
        figures=tuple(figures),
    )


def _guesses(book: Book) -> Iterator[str]:
    for fabric in dict.fromkeys(piece.fabric for piece in book.pieces):
        if fabric.turning_chains_guessed:
            yield f"Turning chains of the {book.design.parts.named_for(fabric)}: {GUESSED}."


def _piece_figures(book: Book, name: str) -> tuple[Figure, ...]:
    pieces = [garment.piece(name) for garment in book.garments]
    chains = [each.fabric.foundation_chain(each.foundation_stitches) for each in pieces]
    stitches = [each.foundation_stitches for each in pieces]
    key = name.replace(" ", "_")
    return (
        count_figure(f"{key}.chain", f"{name}: foundation chain", "ch", chains),
        count_figure(f"{key}.stitches", f"{name}: stitches in the first row", "sts", stitches),
        count_figure(f"{key}.turning", f"{name}: turning chain", "ch", [pieces[0].fabric.turning_chains]),
        count_figure(f"{key}.rows", f"{name}: rows", "rows", map(piece_rows, pieces)),
    )
