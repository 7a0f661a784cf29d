"""Where on an edge an arrow that names it may end: away from corners, from dimensions and from the fold."""

from __future__ import annotations

from schematics.drawing.ink.block import Block
from schematics.drawing.ink.leaders import Tips
from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.track import Track

_HURRIED_SHARES = (0.5, 0.36, 0.64, 0.22, 0.78)
_SHARES = (0.5, 0.44, 0.56, 0.36, 0.64, 0.25, 0.75, 0.14, 0.86)

_ENDS, _SHORT = (0.02, 0.98), 2.0
"""On an edge that is shorter, in mm, an arrow may end at its ends, too: all of it is close to them."""

_SHARES_OF_STRETCH = (0.5, 0.3, 0.7)
_LEAST_STRETCH = 5.0
"""In the middle of a stretch between corners that is shorter, in mm, an arrow is close to them."""

_BESIDE_TIP, _BESIDE_FOLD = 4.0, 2.5
"""Within so many mm of an arrow's end no line of a dimension should begin and no fold should be."""


def edge_tips(track: Track, *, hurried: bool) -> list[tuple[Point, Point]]:
    """Where an arrow to a whole edge may end, its middle first, and the direction off the fabric there."""
    places = _off_corners(track) if len(track.stretches()) > 1 else ()
    shares = _HURRIED_SHARES if hurried else (*_SHARES, *(_ENDS if track.length < _SHORT else ()))
    return [(track.at(at), track.normal(at)) for at in places or [track.length * share for share in shares]]


def _off_corners(track: Track) -> list[float]:
    """Places along an edge that bends: in the stretch nearest its middle, then half way along others."""
    middle = track.length / 2
    first, *others = sorted(
        track.stretches(),
        key=lambda each: (each[1] - each[0] < _LEAST_STRETCH, round(abs(sum(each) / 2 - middle), 6)),
    )
    in_first = [first[0] + (first[1] - first[0]) * share for share in _SHARES_OF_STRETCH]
    return in_first + [sum(each) / 2 for each in others]


def clear_first(block: Block, tips: Tips, *, on_fold: bool) -> Tips:
    """First those where an arrow could be taken for one to no dimension, and of these not to the fold."""
    beside = dict(zip(tips, block.beside_a_line([at for at, _ in tips], _BESIDE_TIP), strict=True))
    return sorted(tips, key=lambda tip: (beside[tip], on_fold and abs(tip[0][0]) < _BESIDE_FOLD))
