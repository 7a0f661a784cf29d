"""Pieces as large as they go into a room with all their labels; the lettering keeps its height."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache, partial
from itertools import islice

from shapely import LineString

from schematics.design.limits import Limits
from schematics.document.lettering.text import Lettering
from schematics.drawing.bare.rooms import EDGE
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.dimension import FIRST_LANE, PAST
from schematics.drawing.ink.marks import Group, Line, Pen, Point
from schematics.drawing.ink.page import Box, block_size, pack, placed_groups
from schematics.drawing.pieces.figures_look import Words
from schematics.drawing.pieces.name_over import name_over
from schematics.drawing.pieces.piece_block import dimensioned, view_of, with_texture
from schematics.drawing.pieces.piece_texture import thinned_words
from schematics.drawing.pieces.view import View
from schematics.garment.garment import Garment, Piece
from schematics.units import NEAR

_SMALLER, _MUCH_SMALLER = 1.09, 1.15
"""A drawing that does not fit is tried smaller by this at least, one that has no room for a label by more."""

_A_LITTLE_SMALLER = 1.04
"""The same where it is looked for finely."""

_LEAST = 0.3
"""An outline less than so much of the room, both ways, shows nothing; labels in it are then letters."""

_SMALLEST = 0.2
"""The same for one with letters, which have nothing to give way to but a larger room."""

_SCALE_PARTS = 10
"""The denominator of a scale is a whole number of so many parts, so that it can be said."""


_NEARLY = 1.05
"""Scales that differ by no more than this factor compare."""

MUCH_LARGER = 1.25
"""A drawing so many times larger is worth giving up figures in it, or a table under it."""

_KEPT = 0.95
"""So much of the room round a piece its labels take at a smaller scale too."""

_EASY_LEADER = 15.0
"""A leader up to this length in mm is followed without thinking."""

_REMEMBERED = 480
"""More than are laid out of all sizes: a size is drawn where it was tried to see how large all can be."""

_MORE_TRIES = 1
_SHRUNK = 80.0
"""Millimetres of leaders beyond that which are worth a drawing smaller by a factor of e."""


@dataclass(frozen=True)
class Fitted:
    """Pieces laid out at 1:``scale``; how they look is drawn when their ``groups`` are asked for.

    The outline of one takes the ``share`` of the room's width or height, whichever is most; the longest is
    ``longest`` mm long or wide.
    """

    scale: float
    share: float
    longest: float
    laid: tuple[_Laid, ...]
    corners: tuple[Point, ...]

    @cached_property
    def effort(self) -> float:
        """How hard it is to read: how far leaders go beyond what is easy, in mm, and how small it is."""
        beyond = (max(0.0, length - _EASY_LEADER) for length in self._leaders)
        return sum(beyond) + _smallness(self.scale)

    @property
    def longest_leader(self) -> float:
        """In mm; 0 where there is none."""
        return max(self._leaders, default=0.0)

    @cached_property
    def _leaders(self) -> tuple[float, ...]:
        """The length of each, in mm."""
        marks = (mark for each in self.laid for group in each.block.groups for mark in group.marks)
        lines = (mark for mark in marks if isinstance(mark, Line) and mark.pen is Pen.LEADER)
        return tuple(LineString(line.points).length for line in lines)

    @property
    def height(self) -> float:
        """Of all that is laid out, in mm."""
        laid = zip(self.laid, self.corners, strict=True)
        return max(y + block_size(each.block)[1] for each, (_, y) in laid)

    @property
    def finished(self) -> list[tuple[Piece, Block]]:
        """Each piece with all that is drawn of it."""
        return [(each.piece, each.finished) for each in self.laid]

    @cached_property
    def groups(self) -> tuple[Group, ...]:
        """All that is drawn, with paper left round it."""
        corners = [(x + EDGE, y + EDGE) for x, y in self.corners]
        return placed_groups(zip([block for _, block in self.finished], corners, strict=True))

    @property
    def thinned(self) -> tuple[str, ...]:
        """Sentences that say of which rows or ridges not all are drawn."""
        words = dict.fromkeys(thinned_words(each.piece, each.view) for each in self.laid)
        return tuple(each for each in words if each)


def _smallness(scale: float) -> float:
    """What a drawing at 1:``scale`` costs at least in effort, in mm."""
    return _SHRUNK * math.log(scale)


def fitted(
    pieces: Sequence[Piece],
    garment: Garment,
    words: Words,
    room: Box,
    lettering: Lettering,
    limits: Limits,
    *,
    letters: bool,
    largest: float = 0.0,
    smallest: float = math.inf,
    finely: bool = False,
) -> Fitted | None:
    """The pieces of a garment as large as they find room, each with its name over it, sewn edges dashed.

    A little smaller where that spares long leaders, and never larger than 1:``largest``. None where they find
    no room while they are large enough to be read; ``letters`` may be at smaller ones. Nor are they looked
    for where they find none at 1:``smallest`` or larger. ``finely``: more scales are tried.
    """
    bounds = largest, smallest
    less = (_A_LITTLE_SMALLER,) * 2 if finely else (_SMALLER, _MUCH_SMALLER)
    lay = partial(_laid, garment=garment, words=words, lettering=lettering, limits=limits)
    tried = _fitting(pieces, garment, lay, room, lettering, letters=letters, bounds=bounds, less=less)
    return min(islice(tried, 1 + _MORE_TRIES), key=lambda each: each.effort, default=None)


def _fitting(
    pieces: Sequence[Piece],
    garment: Garment,
    lay: Callable[..., _Laid],
    room: Box,
    lettering: Lettering,
    *,
    letters: bool,
    bounds: tuple[float, float],
    less: tuple[float, float],
) -> Iterator[Fitted]:
    """Those that find room, the largest first, as far as smaller ones may be easier to read.

    The next is tried by this ``less``: by the first where one is too large, else by the second.
    """
    smaller, much_smaller = less
    (largest, smallest), wide, high = bounds, room.x1 - room.x0, room.y1 - room.y0
    sizes = drawn_sizes(pieces, garment)
    filled, longest = max(max(w / wide, h / high) for w, h in sizes), max(map(max, sizes))
    last = filled / (_SMALLEST if letters else _LEAST)
    beside, above = FIRST_LANE + PAST, FIRST_LANE + PAST + 2 * lettering.height
    scale = max(largest, *(max(w / (wide - beside), h / (high - above)) for w, h in sizes))
    last = max(last, largest)
    until = min(last, smallest)
    margins = [(0.0, 0.0)] * len(pieces)
    while scale <= until:
        scale = math.ceil(scale * _SCALE_PARTS - NEAR) / _SCALE_PARTS
        hopeless = pack([_about(*each, scale) for each in zip(sizes, margins, strict=True)], room) is None
        if hopeless and scale * much_smaller <= until:
            scale *= much_smaller
            continue
        laid: list[_Laid] = []
        for number, (piece, size) in enumerate(zip(pieces, sizes, strict=True)):
            each = lay(piece, scale=scale, widest=wide)
            laid.append(each)
            taken = block_size(each.block)
            if each.block.is_lost or taken[0] > wide or taken[1] > high:
                step = much_smaller if each.block.unplaced else smaller
                scale = max((scale * step, *_closer(size, scale, taken, (wide, high))))
                break
            margins[number] = taken[0] - size[0] / scale, taken[1] - size[1] / scale
        else:
            corners = pack([block_size(each.block) for each in laid], room)
            if corners is not None:
                yield (placed := Fitted(scale, filled / scale, longest / scale, tuple(laid), tuple(corners)))
                until = min(last, math.exp(placed.effort / _SHRUNK), scale * much_smaller)
            scale *= much_smaller if corners is None else smaller


def _about(bare: tuple[float, float], margin: tuple[float, float], scale: float) -> tuple[float, float]:
    """What a piece takes at 1:``scale`` if all that is round it keeps most of its size."""
    return bare[0] / scale + _KEPT * margin[0], bare[1] / scale + _KEPT * margin[1]


def _closer(
    bare: tuple[float, float], scale: float, taken: tuple[float, float], room: tuple[float, float]
) -> Iterator[float]:
    """The scale at which a piece would fit each way if what is round it kept its size."""
    for size, all_of_it, there in zip(bare, taken, room, strict=True):
        if all_of_it > there and there > all_of_it - size / scale:
            yield size / (there - all_of_it + size / scale)


def drawn_sizes(pieces: Sequence[Piece], garment: Garment) -> list[tuple[float, float]]:
    """Width and height of each piece's outline as it is drawn, in mm at full size."""
    return [_drawn_size(piece, garment) for piece in pieces]


@lru_cache(maxsize=64)
def _drawn_size(piece: Piece, garment: Garment) -> tuple[float, float]:
    """Width and height of the outline as it is drawn, in mm at full size."""
    xs, ys = zip(*view_of(piece, garment, 1.0).outline(piece), strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


@dataclass(frozen=True)
class _Laid:
    """A piece laid out with its labels; how it looks comes last, where nothing else is."""

    piece: Piece
    block: Block
    view: View

    @cached_property
    def finished(self) -> Block:
        """The block with how the piece looks."""
        return with_texture(self.block, self.piece, self.view)


@lru_cache(maxsize=_REMEMBERED)
def _laid(
    piece: Piece,
    *,
    garment: Garment,
    scale: float,
    words: Words,
    widest: float,
    lettering: Lettering,
    limits: Limits,
) -> _Laid:
    empty = Block(widest=widest, hurried=True)
    block = dimensioned(
        piece, garment, scale, words, joins=limits, work=True, block=empty, lettering=lettering
    )
    view = view_of(piece, garment, scale)
    block.add("caption", piece.name, name_over(piece, block, lettering))
    return _Laid(piece, block, view)


def at_scale(scale: float, draw: Callable[..., Fitted | None]) -> Fitted | None:
    """What is drawn at 1:``scale``; as large as it can be where it has no room there or scale is 0."""
    drawn = draw(largest=scale, smallest=_NEARLY * scale) if scale else None
    return drawn or draw()
