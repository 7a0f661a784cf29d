"""The neck edge in the order its band is worked: from the centre back round by the wearer's left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.garment.garment import Garment
from schematics.pattern.book import Book

_SIDE = "neck side"


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgePart:
    """A part of the edge: what it is, its stitches in every size, and its row ends if it has no stitches.

    Stitches are picked up along row ends.
    """

    words: str
    stitches: tuple[int, ...]
    row_ends: tuple[int, ...] | None = None


def neck_edge(book: Book) -> tuple[EdgePart, ...]:
    """Its parts that have stitches in any size, with the right side facing, the neck at the top."""
    squared = any(edge.name == _SIDE for edge in book.garments[0].piece("body").edges)
    parts = _squared(book.garments) if squared else _curved(book.garments)
    return tuple(part for part in parts if any(part.stitches))


def _curved(garments: Sequence[Garment]) -> Iterator[EdgePart]:
    """Stitches of the body's first row, and the panel's top between them."""
    starts = [garment.neck_start.stitch for garment in garments]
    edges = [garment.piece("body").edge("neck").count for garment in garments]
    to_front = tuple(edge - start + 1 for edge, start in zip(edges, starts, strict=True))
    yield EdgePart(words="neck edge of the body, from the centre back to seam B", stitches=to_front)
    yield _panel_top(garments)
    yield EdgePart(
        words="neck edge of the body, from seam A to the centre back",
        stitches=tuple(start - 1 for start in starts),
    )


def _panel_top(garments: Sequence[Garment]) -> EdgePart:
    return EdgePart(words="top of the centre panel, from seam B to seam A", stitches=_tops(garments))


def _squared(garments: Sequence[Garment]) -> Iterator[EdgePart]:
    """A hole with corners: back neck, both sides, what was chained at the fronts, and the panel's top."""
    starts = [garment.neck_start.stitch for garment in garments]
    backs = [garment.piece("body").edge("back neck").count for garment in garments]
    rows = tuple(garment.piece("body").edge(_SIDE).count for garment in garments)
    fronts = tuple(map(_front_neck, garments))
    left = tuple(garment.neck.picked_up // 2 for garment in garments)
    right = tuple(garment.neck.picked_up - each for garment, each in zip(garments, left, strict=True))
    yield EdgePart(
        words="back neck, from the centre back to its corner on the wearer's left",
        stitches=tuple(back - start + 1 for back, start in zip(backs, starts, strict=True)),
    )
    yield EdgePart(
        words="row ends down the wearer's left side of the neck hole", stitches=left, row_ends=rows
    )
    yield EdgePart(words="front neck on the wearer's left, to seam B", stitches=fronts)
    yield _panel_top(garments)
    yield EdgePart(words="front neck on the wearer's right, from seam A", stitches=fronts)
    yield EdgePart(
        words="row ends up the wearer's right side of the neck hole", stitches=right, row_ends=rows
    )
    yield EdgePart(
        words="back neck, from its corner on the wearer's right to the centre back",
        stitches=tuple(start - 1 for start in starts),
    )


def _tops(garments: Sequence[Garment]) -> tuple[int, ...]:
    return tuple(garment.piece("centre panel").edge("top").count for garment in garments)


def _front_neck(garment: Garment) -> int:
    """Stitches chained at one front neck edge."""
    counts = [edge.count for edge in garment.piece("body").edges if edge.name == "front neck"]
    return counts[0] if counts else 0
