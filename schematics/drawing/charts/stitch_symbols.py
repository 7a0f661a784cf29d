"""The symbols of a stitch chart, drawn from a stitch's strokes between where its feet and its tops stand.

Shapes as the Craft Yarn Council's chart symbols and JIS L 0201 draw them (from memory); a figure stands in a
symbol in place of more than five strands, and a cluster is straight where a bobble is round (common practice,
no source).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from schematics.crochet.stitches import Loop
from schematics.crochet.symbols import StrokeKind, Symbol
from schematics.document.lettering.text import ascent, descent, text_width
from schematics.drawing.charts.stance import SPARE, Stance
from schematics.drawing.charts.symbol_shapes import (
    ARC_ROOM,
    arc,
    figure,
    loop_arc,
    oval,
    point_down,
    round_strand,
    strand,
)
from schematics.drawing.ink.marks import Area, Circle, Line, Mark, Pen, Point, Text, along, between, unit

MOST_STRANDS = 5
"""Strands that stay apart in one cell; a symbol of more has their figure in it."""

_HALF_CAP, _HALF_CROSS, _HALF_ROOF, _HALF_BAR = 0.24, 0.21, 0.36, 0.19
_LEAF, _STRAIGHT_LEAF, _FAN, _THORN = 0.33, 0.27, 0.31, 0.13
_HOOK, _EYE = 0.13, 0.08
"""Shares of a cell's width."""

_CRESCENT = 0.66
"""How near to its axis a filled strand of a leaf reaches, over its outer edge."""

_BAR_PITCH, _THORN_PITCH = 0.19, 0.19
"""Of a cell's width, as far as the stem is long enough; bars are never less than `_APART` mm apart."""
_APART = 0.7
UNDER_HOOK = 0.74
"""Of a cell's width: how far under its cap are the bars of one that ends in a hook, if nothing is there."""
_SLANT = 0.42
_CLOSE = 4
"""Strands of a leaf from which on bars would run into one another; one fewer of a fan."""
_NARROW_CAP = 0.15
"""Half the cap of a post that reaches further down, so that the stem of the next passes it."""
_HIGH, _HIGH_DOT, _OVER_ARC = 0.24, 0.18, 0.24
"""Of a cell's width: the middle of a head under the upper end of its stem, that of a dot at the highest, and
that of a head over the room of an arc."""
_HALF_LEG_CROSS, _CROSS_DOWN = 0.17, 0.5
"""Half the stroke across a leg of single crochets together, of a cell's width, and how far down it is."""
_CIRCLE = 0.43
_MUCH_LARGER, _LARGEST_LETTER = 1.3, 0.72
_INSIDE = 0.18


def symbol_marks(symbol: Symbol, loop: Loop | None, stance: Stance, letters: str = "") -> tuple[Mark, ...]:
    """The marks of a symbol where it stands; ``letters`` is the abbreviation, for one that shows it."""
    strokes = {stroke.kind: stroke.count for stroke in symbol}
    marks: list[Mark] = []
    if loop:
        marks += [loop_arc(loop, foot, stance.width) for foot in stance.feet]
        room = ARC_ROOM * stance.width
        stance = replace(stance, feet=tuple((x, y - room) for x, y in stance.feet))
    return (*_Drawer(strokes, stance, raised=loop is not None, letters=letters).marks(), *marks)


@dataclass(frozen=True, slots=True)
class _Drawer:
    """Draws one symbol; ``raised``: there is an arc under its feet."""

    strokes: Mapping[StrokeKind, int]
    stance: Stance
    raised: bool
    letters: str

    def marks(self) -> Iterator[Mark]:
        strokes, stance = self.strokes, self.stance
        stems = [*self._stems()]
        for number, stem in enumerate(stems):
            if self._is_bold and number in (0, len(stems) - 1):
                yield Area(tuple(self._crescent(stem)), Pen.SOLID)
            else:
                yield Line(stem, Pen.SYMBOL)
        if bars := strokes.get(StrokeKind.BARS):
            yield from self._bars(stems, bars)
        yield from self._heads()
        if self._in_one_cell(StrokeKind.FAN, StrokeKind.LEAF, StrokeKind.LOOPS) > MOST_STRANDS:
            yield from figure(
                self._in_one_cell(StrokeKind.FAN, StrokeKind.LEAF, StrokeKind.LOOPS),
                self._figure_at(), 0.27 * stance.width,
            )  # fmt: skip
        if StrokeKind.EYE in strokes:
            for x, y in stance.feet:
                yield oval((x, y - _EYE * stance.width), _EYE * stance.width, _EYE * stance.width * 1.2)
        if StrokeKind.CAP in strokes:
            yield from self._caps()
        if StrokeKind.ROOF in strokes:
            left, right = stance.tops[0], stance.tops[-1]
            half = _HALF_ROOF * stance.width
            yield Line(((left[0] - half, left[1]), (right[0] + half, right[1])), Pen.SYMBOL)

    def _in_one_cell(self, *kinds: StrokeKind) -> int:
        """How many strands of one of these kinds share one cell."""
        if StrokeKind.FAN in self.strokes and len(self.stance.tops) > 1:
            return 0
        return max((self.strokes.get(kind, 0) for kind in kinds), default=0)

    def _figure_at(self) -> Point:
        share = 0.22 if StrokeKind.FAN in self.strokes else 0.5
        top = self._fan_top() if StrokeKind.FAN in self.strokes else self.stance.top
        return between(top, self.stance.foot, share)

    # stems

    def _stems(self) -> Iterator[tuple[Point, ...]]:
        """The lines between tops and feet, from the top down."""
        strokes, stance = self.strokes, self.stance
        if count := strokes.get(StrokeKind.LEGS):
            for foot in self._spread(stance.feet, count, 0.32):
                yield self._hooked(stance.top, foot)
        elif count := strokes.get(StrokeKind.FAN):
            yield from self._fan(count)
        elif count := strokes.get(StrokeKind.LEAF):
            straight = StrokeKind.ROOF in strokes
            across = _STRAIGHT_LEAF if straight else _LEAF
            for share in _shares(max(_drawn(count), 2 - straight)):
                inner = 1.0 if straight or abs(share) == 1.0 else _CRESCENT
                yield tuple(strand(stance, share * inner * across * stance.width, straight=straight))
        elif count := strokes.get(StrokeKind.LOOPS):
            for share in _shares(max(2, _drawn(count))):
                yield tuple(round_strand(stance, share * _LEAF * stance.width))
        elif StrokeKind.STEM in strokes:
            yield self._hooked(stance.top, stance.foot)
        elif self._leans:
            yield self._hooked(self._under_head(), stance.foot)

    @property
    def _is_bold(self) -> bool:
        """Whether the outer strands are filled, as those of a bobble, and not straight under a roof."""
        return StrokeKind.LEAF in self.strokes and StrokeKind.ROOF not in self.strokes

    def _crescent(self, strand: Sequence[Point]) -> Iterator[Point]:
        """A strand of a leaf, and back from its foot to its top nearer to the axis."""
        yield from strand
        axis = [between(strand[0], strand[-1], step / (len(strand) - 1)) for step in range(len(strand))]
        for outer, middle in reversed([*zip(strand, axis, strict=True)][1:-1]):
            yield between(middle, outer, _CRESCENT)

    def _fan(self, count: int) -> Iterator[tuple[Point, ...]]:
        stance = self.stance
        if len(stance.tops) > 1:
            for top in self._spread(stance.tops, count, _FAN):
                yield top, stance.foot
            return
        x, y = self._fan_top()
        for share in _shares(_drawn(count)):
            yield (x + share * _FAN * stance.width, y), stance.foot

    def _fan_top(self) -> Point:
        """The middle of where the strands end: under the crown, if there is one."""
        x, y = self.stance.top
        return x, y + (0.22 * self.stance.width if StrokeKind.CROWN in self.strokes else 0.0)

    def _spread(self, points: Sequence[Point], count: int, half: float) -> list[Point]:
        """So many points from the first to the last, or about the only one."""
        if len(points) == count:
            return list(points)
        reach = half * self.stance.width
        left, right = points[0], points[-1]
        if len(points) == 1:
            left, right = (left[0] - reach, left[1]), (left[0] + reach, left[1])
        return [between(left, right, (share + 1) / 2) for share in _shares(count)]

    @property
    def _hook(self) -> int:
        """1 for a foot hooked to the right, -1 to the left, 0 for none."""
        return (StrokeKind.HOOK_RIGHT in self.strokes) - (StrokeKind.HOOK_LEFT in self.strokes)

    def _hooked(self, start: Point, foot: Point) -> tuple[Point, ...]:
        x, y = foot
        if StrokeKind.EYE in self.strokes:
            return start, *self.stance.past, (x, y - 2.2 * _EYE * self.stance.width)
        if not self._hook:
            return start, *self.stance.past, (x, y)
        radius = _HOOK * self.stance.width
        deep, centre = 1.4 * radius, x + self._hook * radius
        if self.stance.beside:
            back = (start[0] - x) * self._hook > 0.5 * self.stance.width
            beside = radius if back else self.stance.beside
            y += 0.7 * radius * back
            centre, radius = x + self._hook * (radius - beside) / 2, (radius + beside) / 2
        begin, end = (math.pi, 0.0) if self._hook > 0 else (0.0, math.pi)
        return start, *self.stance.past, *arc((centre, y - deep), radius, deep, begin, end)

    @property
    def _leans(self) -> bool:
        """Whether a symbol without a stem needs one down to its foot."""
        if not self.strokes.keys() & {StrokeKind.CROSS, StrokeKind.DOT, StrokeKind.LETTER, StrokeKind.CROWN}:
            return False
        own, foot = self.stance.own_foot, self.stance.foot
        far = abs(foot[0] - own[0]) > 0.15 * self.stance.width or foot[1] > own[1] + 0.3 * self.stance.height
        return far or self._hook != 0 or StrokeKind.EYE in self.strokes

    # heads

    @property
    def _head(self) -> Point:
        """The middle of a cross, dot or circle: of its cell, or higher where something stands under it."""
        x, y = self.stance.centre
        high = self.stance.top[1] + _HIGH * self.stance.width
        dot = StrokeKind.DOT in self.strokes
        if self.raised and not self._leans:
            low = self.stance.own_foot[1] - (ARC_ROOM + _OVER_ARC) * self.stance.width
            return x, max(self.stance.top[1] + _HIGH_DOT * self.stance.width if dot else high, low)
        return x, high if self._leans else y

    def _under_head(self) -> Point:
        """Where a stem begins: in the middle of a cross or dot, at the edge of a circle."""
        if StrokeKind.LETTER not in self.strokes:
            return self._head
        return along(self._head, unit(self._head, self.stance.foot), _CIRCLE * self.stance.width)

    def _heads(self) -> Iterator[Mark]:
        width, (x, y) = self.stance.width, self._head
        half = _HALF_CROSS * width
        if self.strokes.keys() >= {StrokeKind.CROSS, StrokeKind.LEGS}:
            yield from self._crossed_legs()
        elif StrokeKind.CROSS in self.strokes:
            yield Line(((x - half, y - half), (x + half, y + half)), Pen.SYMBOL)
            yield Line(((x - half, y + half), (x + half, y - half)), Pen.SYMBOL)
        if StrokeKind.DOT in self.strokes:
            yield replace(oval((x, y), 0.18 * width, 0.12 * width), pen=Pen.SOLID)
        if StrokeKind.OVAL in self.strokes:
            x, y = self.stance.top
            yield oval((x, y + 0.16 * width), 0.32 * width, 0.16 * width)
        if StrokeKind.CROWN in self.strokes:
            yield self._crown()
        if StrokeKind.LETTER in self.strokes:
            yield from self._letter()

    def _crossed_legs(self) -> Iterator[Mark]:
        """A stroke square across each leg."""
        half = _HALF_LEG_CROSS * self.stance.width
        for start, end, *_ in self._stems():
            direction = unit(start, end)
            at, across = between(start, end, _CROSS_DOWN), (-direction[1], direction[0])
            yield Line((along(at, across, -half), along(at, across, half)), Pen.SYMBOL)

    def _crown(self) -> Mark:
        width, (x, y) = self.stance.width, self.stance.top
        if self.strokes.keys() & {StrokeKind.FAN, StrokeKind.LEGS, StrokeKind.LEAF, StrokeKind.STEM}:
            across = max((self.stance.tops[-1][0] - self.stance.tops[0][0]) / 2, _FAN * width)
            return oval((x, y + 0.11 * width), across, 0.11 * width)
        return oval((x, y + 0.1 * width), 0.15 * width, 0.15 * width)

    def _letter(self) -> Iterator[Mark]:
        """A circle, and in it the abbreviation; in two lines where that makes it much larger."""
        radius = _CIRCLE * self.stance.width
        x, y = self._head
        yield Circle((x, y), radius, Pen.SYMBOL)
        one, two = ((_fitting(lines, radius - _INSIDE), lines) for lines in _in_lines(self.letters))
        height, lines = two if two[0] > _MUCH_LARGER * one[0] else one
        pitch = ascent(height) + descent(height)
        for number, words in enumerate(lines):
            middle = y + (number - (len(lines) - 1) / 2) * pitch
            at = x, middle + pitch / 2 - descent(height)
            yield Text(at, words, height, anchor="middle", bold=True)

    def _caps(self) -> Iterator[Mark]:
        tops: Sequence[Point] = self.stance.tops
        count = self.strokes.get(StrokeKind.FAN, 0)
        if not count:
            tops = (self.stance.top,)
        elif len(tops) > 1:
            tops = self._spread(tops, count, _FAN)
        elif count:
            x, y = self.stance.top
            half = _FAN * self.stance.width
            yield Line(((x - half - 0.25, y), (x + half + 0.25, y)), Pen.SYMBOL)
            return
        narrow = _NARROW_CAP if self.stance.beside else _HALF_CAP
        half = narrow * self.stance.width * max(1.0, 0.4 * self.strokes.get(StrokeKind.LEGS, 0))
        if len(tops) > 1:
            half = min(half, 0.36 * (tops[1][0] - tops[0][0]))
        for x, y in tops:
            yield Line(((x - half, y), (x + half, y)), Pen.SYMBOL)

    # bars

    def _bars(self, stems: Sequence[tuple[Point, ...]], count: int) -> Iterator[Mark]:
        width = self.stance.width
        half = _HALF_BAR * width
        if StrokeKind.LEAF in self.strokes or (StrokeKind.FAN in self.strokes and len(self.stance.tops) == 1):
            yield from self._wide_bars(stems, count)
            return
        if StrokeKind.LEGS in self.strokes or StrokeKind.FAN in self.strokes:
            ends = [stem[-1 if StrokeKind.LEGS in self.strokes else 0] for stem in stems]
            if len(ends) > 1:
                half = min(half, 0.26 * abs(ends[1][0] - ends[0][0]))
        for stem in stems:
            start, end = stem[0], stem[1]
            size = math.dist(start, end)
            middle = 0.5 * size
            if StrokeKind.LEGS in self.strokes:
                middle = 0.66 * size
            elif StrokeKind.FAN in self.strokes:
                middle = 0.34 * size
            elif self.stance.beside:
                middle = self.stance.bars_down * size / (end[1] - start[1])
            elif abs(end[0] - start[0]) > 0.5 * self.stance.width:
                middle = self._under_cap(unit(start, end), count, half) + self._lowered()
            elif size > self.stance.height:
                middle = (0.5 - SPARE) * self.stance.height
            yield from self._slanting(start, end, middle, count, half)

    def _under_cap(self, direction: Point, count: int, half: float) -> float:
        """How far down a leaning stem its bars have their middle, so that they keep clear of the cap."""
        rise = abs(direction[0] - _SLANT * direction[1]) * half
        return (_APART + rise) / max(direction[1], 0.2) + (count - 1) / 2 * self._pitch(math.inf, count)

    def _lowered(self) -> float:
        """How much further down a leaning stem its bars are than right under the cap."""
        return max(0.0, 0.5 * (self.stance.bars_down - UNDER_HOOK * self.stance.width))

    def _pitch(self, size: float, count: int) -> float:
        """How far apart so many bars are on a straight stem so long, none within `_APART` of its ends."""
        room = size - 2 * (_APART + _SLANT * _HALF_BAR * self.stance.width)
        most = room / (count - 1) if count > 1 else math.inf
        return max(_APART, min(_BAR_PITCH * self.stance.width, most))

    def _slanting(self, start: Point, end: Point, middle: float, count: int, half: float) -> Iterator[Mark]:
        """Slanting bars about a place on the line from one point to another."""
        direction = unit(start, end)
        pitch = self._pitch(math.dist(start, end), count)
        across = (-direction[1] - _SLANT * direction[0], direction[0] - _SLANT * direction[1])
        for number in range(count):
            at = along(start, direction, middle + (number - (count - 1) / 2) * pitch)
            yield Line((along(at, across, -half), along(at, across, half)), Pen.SYMBOL)

    def _wide_bars(self, stems: Sequence[tuple[Point, ...]], count: int) -> Iterator[Mark]:
        """Bars across all strands; where these stand close, thorns on the outer ones alone."""
        stance = self.stance
        fan = StrokeKind.FAN in self.strokes
        top = self._fan_top() if fan else stance.top
        size = math.dist(top, stance.foot)
        share = 0.4 if fan else 0.5
        if max(self.strokes.get(StrokeKind.LEAF, 0), self.strokes.get(StrokeKind.FAN, 0)) < _CLOSE - fan:
            half = (0.42 if self._is_bold else 0.32) * stance.width
            yield from self._slanting(top, stance.foot, share * size, count, half)
            return
        pitch = _THORN_PITCH * stance.width
        for stem, outwards in ((stems[0], -1), (stems[-1], 1)):
            for number in range(count):
                at = share + (number - (count - 1) / 2) * pitch / size
                x, y = point_down(stem, top[1] + at * (stance.foot[1] - top[1]))
                out = outwards * _THORN * stance.width
                yield Line(((x, y), (x + out, y - abs(out) * _SLANT)), Pen.SYMBOL)


def _drawn(count: int) -> int:
    return count if count <= MOST_STRANDS else 2


def _shares(count: int) -> list[float]:
    """So many numbers from -1 to 1, evenly; nought for one."""
    return [2 * number / (count - 1) - 1 for number in range(count)] if count > 1 else [0.0]


def _in_lines(words: str) -> tuple[list[str], list[str]]:
    """The letters in one line, and in two of about as many each."""
    half = -(-len(words) // 2)
    return [words], [words[:half], words[half:]]


def _fitting(lines: Sequence[str], radius: float) -> float:
    """The height of the letters, in mm, with which the lines fill a circle, but no more than is usual."""
    width = max(text_width(line, 1.0, bold=True) for line in lines)
    up = len(lines) * (ascent(1.0) + descent(1.0))
    return min(_LARGEST_LETTER * radius, 2 * radius / math.hypot(width, up))
