"""Increases spread evenly along a row, exactly: in stitch numbers and in a maker's words.

From one increase to the next the plain stitches differ by at most one, the end of the row running on into its
beginning; the longer distances lie together in the middle, so that few numbers make a row, and it is the same
from either front edge. Seen from one front edge, a phase of a quarter and of three quarters in turn keeps the
increases off the seams and off those of the row before; as a row worked back is begun at the other edge, its
phase is turned about. Where increases are crowded, a half keeps them off the seams.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

_PHASES = (Fraction(1, 4), Fraction(3, 4))
_CROWDED = 4
"""Fewer stitches than this to an increase leave none at the seam for a phase of a quarter."""

_LONGEST_BLOCK = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class EvenSpread:
    """Increases along a row: ``plain`` stitches before the first, between two, and after the last."""

    plain: tuple[int, ...]

    @property
    def increases(self) -> int:
        """How many increases the row has."""
        return len(self.plain) - 1

    @property
    def before(self) -> int:
        """Stitches of the row below; each increase uses one of them."""
        return sum(self.plain) + self.increases

    @property
    def after(self) -> int:
        """Stitches of the row made; each increase makes two."""
        return sum(self.plain) + 2 * self.increases

    @property
    def stitches(self) -> tuple[int, ...]:
        """The stitches of the row below that are increased in; the first is 1."""
        ends = itertools.accumulate(gap + 1 for gap in self.plain[:-1])
        return tuple(ends)

    @property
    def words(self) -> str:
        """In working order: ``4 sts, [inc, 8 sts] × 6, inc, 3 sts``."""
        first, *rest = self.plain
        opening = [stitch_words(first)] if first else []
        return ", ".join([*opening, *_written(tuple(rest))]) or stitch_words(0)


def staggered(turn: int, row: int, count: int, stitches: int) -> Fraction:
    """The phase of an increase row in working order.

    It is the share of the distance between two increases that lies before the first.

    Args:
        turn: counts the increase rows from 0.
        row: the row's number; odd rows are worked out, even ones back.
        count: increases in the row.
        stitches: stitches of the row below.
    """
    if stitches < _CROWDED * count:
        return Fraction(1, 2)
    return _PHASES[(turn + row) % 2]


def increase_evenly(count: int, stitches: int, phase: Fraction = Fraction(1, 2)) -> EvenSpread:
    """``count`` increases spread over a row of ``stitches``.

    >>> increase_evenly(7, 60).words
    '4 sts, inc, 7 sts, [inc, 8 sts] × 3, [inc, 7 sts] × 2, inc, 4 sts'
    >>> increase_evenly(7, 60).stitches
    (5, 13, 22, 31, 40, 48, 56)

    Raises:
        ValueError: there is not a stitch for each increase, or the phase is not from 0 to under 1.
    """
    if not 0 <= count <= stitches:
        raise ValueError(f"cannot make {count} increases in {stitches} stitches, at most one in each")
    if not 0 <= phase < 1:
        raise ValueError(f"a phase of {phase} is not from 0 to under 1")
    if count == 0:
        return EvenSpread(plain=(stitches,))
    short, longer = stitches // count - 1, stitches % count
    ends, inside = short + (longer > 0), max(0, longer - 1)
    outer, half = count - 1 - inside, Fraction(1, 2)
    off_middle = Fraction(stitches, count) * abs(half - phase)
    nearer = max(0, math.floor(half * ends - off_middle + half))
    first = nearer if phase <= half else ends - nearer
    between = [short] * (outer // 2) + [short + 1] * inside + [short] * (outer - outer // 2)
    return EvenSpread(plain=(first, *between, ends - first))


def in_brackets(turn: int, count: int, stitches: int, *, turned: bool = False) -> EvenSpread:
    """An increase row of a body that has as many increases in every one, in brackets that are alike.

    A bracket has ``stitches // count`` stitches and an increase in its last; what is over is parted between
    both ends of the row, and stays the same in all increase rows. In every other one the increases lie half
    a bracket off those of the row before.

    >>> in_brackets(0, 7, 60).words
    '9 sts, [inc, 7 sts] × 6, inc, 2 sts'
    >>> in_brackets(1, 7, 67).words
    '6 sts, [inc, 8 sts] × 6, inc, 6 sts'

    Args:
        turn: counts the increase rows from 0.
        count: increases in the row.
        stitches: stitches of the row below.
        turned: the row is begun at the other front edge than the first increase row.

    Raises:
        ValueError: there is no increase, or not a stitch for each.
    """
    if not 1 <= count <= stitches:
        raise ValueError(f"cannot make {count} brackets of {stitches} stitches")
    (bracket, over), last = divmod(stitches, count), stitches // count - 1
    first, end = over // 2, over - over // 2
    if turn % 2 == 0:
        return EvenSpread(plain=(first + last, *[last] * (count - 1), end))
    first, end = (end, first) if turned else (first, end)
    before = bracket // 2 if turned else last // 2
    return EvenSpread(plain=(first + before, *[last] * (count - 1), end + last - before))


def line_increases(sections: Sequence[int]) -> EvenSpread:
    """One increase on each side of every line between the sections, in the stitches next to it.

    >>> line_increases((5, 11, 5)).words
    '4 sts, inc, inc, 9 sts, inc, inc, 4 sts'

    Raises:
        ValueError: a section has no stitch for each of its increases.
    """
    if len(sections) < 2:
        raise ValueError("there is no line between fewer than two sections")
    first, *inner, last = sections
    plain = (first - 1, 0, *(gap for section in inner for gap in (section - 2, 0)), last - 1)
    if min(plain) < 0:
        raise ValueError(f"sections of {', '.join(map(str, sections))} have no stitch for every increase")
    return EvenSpread(plain=plain)


def stitch_words(count: int) -> str:
    """``1 st``, ``4 sts``."""
    return f"{count} st{'' if count == 1 else 's'}"


def _written(gaps: tuple[int, ...]) -> list[str]:
    """``inc`` and what follows it, for each gap, with repeats in brackets."""
    parts: list[str] = []
    for block, times in _blocks(gaps):
        words = [f"inc, {stitch_words(gap)}" if gap else "inc" for gap in block]
        if times == 1:
            parts += words
        elif block == (0,):
            parts.append(f"inc × {times}")
        else:
            parts.append(f"[{', '.join(words)}] × {times}")
    return parts


def _blocks(gaps: tuple[int, ...]) -> list[tuple[tuple[int, ...], int]]:
    """The gaps as repeated blocks, in the fewest units written; of equals, more repeats first."""
    size = len(gaps)
    alike = [[0] * (size + 1) for _ in range(_LONGEST_BLOCK + 1)]
    units, length, times = [0] * (size + 1), [0] * size, [0] * size
    for start in range(size - 1, -1, -1):
        options: list[tuple[int, int, int]] = []
        for block in range(1, min(_LONGEST_BLOCK, size - start) + 1):
            same = start + block < size and gaps[start] == gaps[start + block]
            alike[block][start] = alike[block][start + 1] + 1 if same else 0
            repeats = 1 + alike[block][start] // block
            tried = {1, repeats} if block == 1 else {repeats} - {1}
            options += [(block + units[start + each * block], -each, block) for each in tried]
        units[start], fewer, length[start] = min(options)
        times[start] = -fewer
    blocks, at = [], 0
    while at < size:
        blocks.append((gaps[at : at + length[at]], times[at]))
        at += length[at] * times[at]
    return blocks
