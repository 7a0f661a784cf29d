"""One drawing of every size of a design, so that sizes compare: none is drawn larger than a larger one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.design.limits import Limits
from schematics.document.lettering.text import Lettering
from schematics.drawing.bare.pieces_in_room import Fitted, drawn_sizes, fitted
from schematics.drawing.ink.page import Box
from schematics.drawing.pieces.figures_look import Words
from schematics.garment.garment import Garment, Piece

_ENOUGH = 0.52
"""An outline that takes so much of the room's width or height is large enough."""

_ALIKE = 1.2
"""Where labels have no room at the scale that was meant, one up to so many times smaller is tried."""

_ALL_SMALLER = 1.35
"""If that does not do, all sizes may be up to so many times smaller."""


@dataclass(frozen=True, slots=True)
class ToFit:
    """The pieces of one size, their labels and their room; without figures they have ``letters``.

    By the ``limits`` two edges of a seam end level or not.
    """

    pieces: Sequence[Piece]
    garment: Garment
    words: Words
    room: Box
    lettering: Lettering
    limits: Limits
    letters: bool

    def at(self, scale: float) -> Fitted | None:
        """Drawn at 1:``scale``; None where labels have no room there."""
        return self.between(scale, scale)

    def between(self, largest: float, smallest: float) -> Fitted | None:
        """As large as it can be from 1:``largest`` to 1:``smallest``; looked for finely if need be."""
        return next(
            filter(None, (self._fitted(largest, smallest, finely=each) for each in (False, True))), None
        )

    def _fitted(self, largest: float, smallest: float, *, finely: bool) -> Fitted | None:
        return fitted(
            self.pieces,
            self.garment,
            self.words,
            self.room,
            self.lettering,
            self.limits,
            letters=self.letters,
            largest=largest,
            smallest=smallest,
            finely=finely,
        )

    def alone(self) -> Fitted | None:
        """As large as it can be."""
        return self._fitted(0.0, math.inf, finely=False)

    @property
    def longest(self) -> float:
        """The length or width of an outline, whichever is most, in mm at full size."""
        return max(map(max, drawn_sizes(self.pieces, self.garment)))

    @property
    def share(self) -> float:
        """The most an outline at full size takes of the room's width or height."""
        wide, high = self.room.x1 - self.room.x0, self.room.y1 - self.room.y0
        return max(max(w / wide, h / high) for w, h in drawn_sizes(self.pieces, self.garment))


def drawn_alike(sizes: Sequence[ToFit], scale: float = 0.0) -> Iterator[tuple[int, Fitted | None]]:
    """Sizes at the scale of the largest, those too small there larger; None for one that has no room.

    That scale is 1:``scale`` if it is given, else the largest size is as large as it can be.
    They come with their places in ``sizes``, the largest first.

    Such are drawn no larger than is enough, so that none is longer on paper than one that is longer. One
    whose labels have no room is as large as it can be below that, or a little smaller.
    """
    longest = 0.0
    for at in sorted(range(len(sizes)), key=lambda at: (-sizes[at].longest, at)):
        size = sizes[at]
        if not scale:
            each = size.alone()
            scale = each.scale if each else 0.0
        else:
            least = size.longest / longest if longest else scale
            meant = max(least, min(scale, size.share / _ENOUGH))
            each = size.at(meant) or size.between(least, meant * _ALIKE)
        longest = each.longest if each else longest
        yield at, each


def all_drawn(sizes: Sequence[ToFit]) -> dict[int, Fitted]:
    """All of them alike by their places, the largest first; none if one has no room with all smaller."""
    drawn, lost = _until_lost(sizes)
    if lost and drawn:
        scale = next(iter(drawn.values())).scale
        smaller = lost.between(scale * _ALIKE, scale * _ALL_SMALLER)
        if smaller:
            drawn, lost = _until_lost(sizes, smaller.scale)
    return {} if lost else drawn


def _until_lost(sizes: Sequence[ToFit], scale: float = 0.0) -> tuple[dict[int, Fitted], ToFit | None]:
    """Those before the first that has no room, and that one."""
    drawn: dict[int, Fitted] = {}
    for at, each in drawn_alike(sizes, scale):
        if each is None:
            return drawn, sizes[at]
        drawn[at] = each
    return drawn, None
