"""Leaders: lines with an arrow to what a label names. Where labels find room on one, best first."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np
import shapely
from numpy.typing import NDArray

from schematics.drawing.ink.block import CLEAR, Block
from schematics.drawing.ink.boxes import box_sides, meets_box
from schematics.drawing.ink.marks import Label, Line, Mark, Pen, Point
from schematics.drawing.ink.taken import Shapes, straight_lines

_REACH, _HURRIED_REACH = 60, 46
"""Leaders are shorter than this, in mm."""

_NEAREST, _NEXT, _AT_ONCE = 6, 4, 5
"""The shortest leader, from each to the next longer one, in mm, and how many lengths are tried at once."""

_SEARCHES = 9
"""Places are looked for alone for the first of several tips and labels, for so many others at once."""

_LANDING = 1.5
"""Length in mm of the level end of a leader, next to the label."""

_STEEP = math.cos(math.radians(50))
"""Leaders steeper than that may land to either side."""

_ALONGSIDE, _ON_PIECE, _EXTENSION, _OUTLINE = 2, 6, 17, 30
"""What a leader alongside an extension line of a dimension, a label on the piece, if hurried, and a leader
across an extension line or an outline are as bad as, in lines crossed.
"""

FEW, MANY, ANY = (0, 2, 4), (0, 2, 4, 16), (0, 2, 4, 16, 50)
"""How many lines a leader may cross, each tried in turn."""

_TURNS = tuple(
    math.radians(back + 15 * step) for back in (0, 180) for step in (0, 1, -1, 2, -2, 3, -3, 4, -4)
)
"""Directions of a leader, from straight off the fabric, best first."""

FROM_OWN = 0.9 * CLEAR
"""Least distance in mm between a label and what is drawn with it."""

KeepsClear = Callable[[Shapes, Shapes], NDArray[np.bool_]]
"""Which leaders, given with boxes `FROM_OWN` round their labels, are clear of what is drawn with them."""

Tips = Sequence[tuple[Point, Point]]
"""Points where an arrow may end, best first, each with the direction away from the fabric there."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a label may go: its middle, its angle in degrees, and the ``line`` drawn to it, if any."""

    centre: Point
    angle: float = 0.0
    line: tuple[Point, ...] = ()

    def marks(self, label: Label) -> list[Mark]:
        """The line to the label, and its words."""
        line = [Line(self.line, Pen.LEADER)] if self.line else []
        return [*line, *label.texts(self.centre, self.angle)]


def leader_spots(
    block: Block,
    tips: Tips,
    labels: Sequence[Label],
    crossings: Sequence[int],
    reaches: Sequence[float] = (math.inf,),
    keeps_clear: KeepsClear | None = None,
) -> Iterator[tuple[Label, Spot]]:
    """Free spots on leaders: those that cross few lines first, then the short ones, then as listed."""
    searches = _Searches(
        block, [(*tip, label) for tip in tips for label in labels], max(crossings), keeps_clear
    )
    for most, reach, (number, (_, _, label)) in product(crossings, reaches, enumerate(searches.asked)):
        for spot in searches.crossing(number, most, reach):
            yield label, spot


_Asked = tuple[Point, Point, Label]
"""A tip, the direction away from the fabric there, and what is to be written."""


@dataclass(frozen=True, slots=True)
class _Leaders:
    """Free places on leaders, best first: their tips, elbows and ends, and the middles of their labels.

    Each with how many lines it crosses and how long it is to its elbow, in mm.
    """

    points: NDArray[np.float64]
    centres: NDArray[np.float64]
    lengths: NDArray[np.float64]
    crossed: NDArray[np.int_]

    def spots(self, most: int, reach: float) -> Iterator[Spot]:
        """Those that cross at most so many lines and go no farther than ``reach`` mm."""
        for place in np.flatnonzero((self.crossed <= most) & (self.lengths <= reach)).tolist():
            (x, y), line = self.centres[place].tolist(), self.points[place].tolist()
            yield Spot((x, y), line=tuple((x, y) for x, y in line))

    def among(self, places: NDArray[np.bool_]) -> _Leaders:
        """Those of some places."""
        return _Leaders(self.points[places], self.centres[places], self.lengths[places], self.crossed[places])


class _Searches:
    """Spots for each of what is ``asked`` that cross at most so many lines, found when first asked for."""

    def __init__(
        self, block: Block, asked: Sequence[_Asked], most: int, keeps_clear: KeepsClear | None
    ) -> None:
        self.asked = asked
        self._block, self._most, self._keeps_clear = block, most, keeps_clear
        self._lengths = range(_NEAREST, _HURRIED_REACH if block.hurried else _REACH, _NEXT)
        self._kept: dict[tuple[int, int], _Leaders] = {}

    def crossing(self, number: int, most: int, reach: float) -> Iterator[Spot]:
        """Those whose leader crosses at most so many lines and goes no farther than ``reach`` mm."""
        for first in range(0, len(self._lengths), _AT_ONCE):
            band = self._lengths[first : first + _AT_ONCE]
            if band[0] > reach:
                return
            if (number, first) not in self._kept:
                numbers = range(number, min(number + _SEARCHES if number else 1, len(self.asked)))
                asked = [self.asked[each] for each in numbers]
                leaders = _round_tips(self._block, asked, tuple(band), self._most, self._keeps_clear)
                self._kept.update(((each, first), free) for each, free in zip(numbers, leaders, strict=True))
            yield from self._kept[number, first].spots(most, reach)


def _round_tips(
    block: Block,
    asked: Sequence[_Asked],
    lengths: tuple[int, ...],
    most: int,
    keeps_clear: KeepsClear | None,
) -> list[_Leaders]:
    """Upright labels on leaders of those lengths, on the free side of a tip if possible, never grazing.

    Their leaders cross no label, no line that they could be taken to belong to, and at most so many others.
    """
    round_each = [_round_tip(math.atan2(away[1], away[0]), lengths) for _, away, _ in asked]
    directions, long, landings = (np.concatenate(each) for each in zip(*round_each, strict=True))
    owner = np.repeat(np.arange(len(asked)), [len(each) for each, *_ in round_each])
    width, height = np.array([label.size for *_, label in asked])[owner].T
    tips = np.array([tip for tip, *_ in asked])[owner]
    elbows = tips + directions * long[:, None]
    ends, centres = elbows.copy(), elbows.copy()
    ends[:, 0] += landings
    centres[:, 0] += np.sign(landings) * (width / 2 + _LANDING + CLEAR)
    worse = _ON_PIECE * block.on_pieces(centres) if block.hurried else np.zeros(len(tips), dtype=int)
    own = meets_box(tips, elbows, box_sides(centres, width, height, CLEAR / 2))
    places = np.flatnonzero((worse <= most) & ~own)
    places = places[block.free_places(box_sides(centres[places], width[places], height[places], CLEAR))]
    leaders = np.stack((tips, elbows, ends), axis=1)
    past_tips = leaders.copy()
    past_tips[:, 0] += directions * 0.5
    worse[places] += _OUTLINE * block.outlines_crossed(straight_lines(past_tips[places]))
    places = places[worse[places] <= most]
    for blocked in (block.on_labels, block.misleads):
        places = places[~blocked(straight_lines(leaders[places]))]
    worse[places] += _EXTENSION * block.on_extensions(straight_lines(leaders[places]))
    worse[places] += _ALONGSIDE * block.beside_extensions(straight_lines(leaders[places]))
    places = places[worse[places] <= most]
    if keeps_clear and len(places):
        boxes = shapely.box(*box_sides(centres[places], width[places], height[places], FROM_OWN))
        places = places[keeps_clear(straight_lines(leaders[places]), np.asarray(boxes))]
    crossed = block.all_crossings(straight_lines(past_tips[places])) + worse[places]
    candidates = _Leaders(leaders[places], centres[places], long[places], crossed)
    return [candidates.among(owner[places] == number) for number in range(len(asked))]


@lru_cache(maxsize=256)
def _round_tip(ahead: float, lengths: tuple[int, ...]) -> tuple[NDArray[np.float64], ...]:
    """Direction, length and landing of leaders of those lengths; steep ones land to both sides."""
    turns = np.array([(math.cos(ahead + turn), math.sin(ahead + turn)) for turn in _TURNS])
    onward = np.where(turns[:, 0] >= 0, _LANDING, -_LANDING)
    is_steep = np.abs(turns[:, 0]) < _STEEP
    turns, landings = np.concatenate([turns, turns[is_steep]]), np.concatenate([onward, -onward[is_steep]])
    long = np.repeat(np.array(lengths, dtype=float), len(turns))
    return np.tile(turns, (len(lengths), 1)), long, np.tile(landings, len(lengths))
