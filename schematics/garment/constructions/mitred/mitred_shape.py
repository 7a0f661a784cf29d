"""A mitred body laid flat: trapezoids side by side, and the shortest paths on them.

Sections of the right half are numbered from the centre back; one that the fold halves counts by half.
"""

from __future__ import annotations

import bisect
import itertools
import math
from collections.abc import Iterator, Sequence
from typing import TypeAlias

import numpy as np

from schematics.garment.amounts import Numbers
from schematics.garment.constructions.base import Array
from schematics.garment.constructions.demands import TWO_CIRCLES
from schematics.garment.constructions.neck_down.shape import Shape
from schematics.garment.constructions.panel_formulas import PanelCm
from schematics.garment.constructions.path_formulas import ArmPaths
from schematics.garment.garment import Vertex
from schematics.units import HAIR

_Points: TypeAlias = list[tuple[Numbers, Numbers]]


def _corners(
    widths_cm: Sequence[Numbers], grow_cm: Numbers, depth_cm: Numbers, *, line_at_fold: bool
) -> tuple[_Points, _Points, list[Numbers]]:
    """The corners of neck and hem from the fold on, and the turn of each section; of one or of columns."""
    lean, line_cm = np.arctan2(grow_cm, depth_cm), np.hypot(grow_cm, depth_cm)
    turns = [(2 * at + line_at_fold) * lean for at in range(len(widths_cm))]
    zero = 0 * lean
    neck, hem = [(zero, zero)], [(zero, zero - (line_cm if line_at_fold else depth_cm))]
    for width, turn in zip(widths_cm, turns, strict=True):
        x, y = neck[-1][0] + width * np.cos(turn), neck[-1][1] + width * np.sin(turn)
        neck.append((x, y))
        down, heading = (depth_cm, turn) if len(neck) > len(turns) else (line_cm, turn + lean)
        hem.append((x + down * np.sin(heading), y - down * np.cos(heading)))
    return neck, hem, turns


def opening_of_trapezoids(lines: int, grow_cm: Numbers, depth_cm: Numbers) -> Numbers:
    """The angle between both front edges, in radians, of a body that leans on both sides of so many lines."""
    return 2 * lines * np.arctan2(grow_cm, depth_cm)


class Trapezoids(Shape):
    """The right half: trapezoids of one depth side by side, fold on x = 0 downwards from the origin.

    ``widths_cm`` are its sections at the neck. A section grows by ``grow_cm`` towards the hem at each
    line it lies next to; that side leans by ``atan(grow_cm / depth_cm)``, and the two sections next to a line
    share it.
    """

    def __init__(
        self, widths_cm: Sequence[float], grow_cm: float, depth_cm: float, *, line_at_fold: bool
    ) -> None:
        self.depth = depth_cm
        lines = 2 * len(widths_cm) - 2 + line_at_fold
        self.opening = float(opening_of_trapezoids(lines, grow_cm, depth_cm))
        neck, hem, _ = _corners(widths_cm, grow_cm, depth_cm, line_at_fold=line_at_fold)
        self._neck, self._hem = ([(float(x), float(y)) for x, y in corners] for corners in (neck, hem))
        lengths = [math.dist(*pair) for pair in itertools.pairwise(self._hem)]
        self._shares = [0.0, *(each / sum(lengths) for each in itertools.accumulate(lengths))]
        self._shares[-1] = 1.0

    @property
    def lines(self) -> list[tuple[Vertex, Vertex]]:
        """From corner to corner; the first pair is a line where it is longer than the depth."""
        corners = list(zip(self._neck, self._hem, strict=True))[:-1]
        return corners if self._hem[0][1] < -self.depth * (1 + HAIR) else corners[1:]

    def _at(self, share: float, *, hem: bool) -> Vertex:
        corners = self._hem if hem else self._neck
        section = min(max(bisect.bisect_right(self._shares, share), 1), len(corners) - 1)
        low, high = self._shares[section - 1], self._shares[section]
        part = (share - low) / (high - low)
        (x0, y0), (x1, y1) = corners[section - 1], corners[section]
        return x0 * (1 - part) + x1 * part, y0 * (1 - part) + y1 * part

    def _stops(self, start: float, end: float, through: Sequence[float]) -> Sequence[float]:
        shares = [start]
        for share in sorted([*self._shares, *through]):
            if shares[-1] + HAIR < share < end - HAIR:
                shares.append(share)
        return [*shares, end]

    def _lines(self, shares: Sequence[float], *hems: bool) -> Iterator[Array]:
        return (np.array([self._at(share, hem=hem) for share in shares]) for hem in hems)


def paths_on_trapezoids(
    widths_cm: Sequence[Numbers],
    grow_cm: Numbers,
    depth_cm: Numbers,
    share: Numbers,
    panel: PanelCm,
    *,
    line_at_fold: bool,
) -> ArmPaths:
    """The paths on trapezoids side by side.

    Args:
        widths_cm: neck widths of the sections of the half, centre back first, one the fold halves by half.
        grow_cm: what a section grows by at each line it lies next to.
        depth_cm: length of the front edge.
        share: where the middle of the arm run lies on the half hem, 0 at centre back and 1 at the front.
        panel: the panel.
        line_at_fold: whether a line of increases runs down the centre back.
    """
    last = len(widths_cm) - 1
    neck, hem, turns = _corners(widths_cm, grow_cm, depth_cm, line_at_fold=line_at_fold)
    lengths = [
        width + ((at > 0 or line_at_fold) + (at < last)) * grow_cm for at, width in enumerate(widths_cm)
    ]
    x, y = _along(hem, lengths, share)
    turn = _turn_along(turns, lengths, share)
    around_back = _hugging(neck[:-1], turns, turn, x, y)
    off, down = _from_front(neck[-1], turns[-1], x, y)
    around_front = _hugging(neck[:0:-1], turns[::-1], turn, x, y)
    seen = (off >= 0) & (turns[-1] - turn < math.pi)
    if panel.tapers:
        front = 2 * _to_panel(neck[:0:-1], turns[::-1], turn, (x, y), seen, panel, depth_cm)
    else:
        past = np.where(down <= panel.length, off, np.hypot(down - panel.length, off))
        front = 2 * np.where((down >= 0) & seen, past, around_front) + panel.top
    measured = (share > 0) & (share < 1) & (2 * turns[-1] <= TWO_CIRCLES)
    valid = np.where(measured, 1.0, np.nan)
    return ArmPaths(
        reach=valid * around_back,
        back=valid * 2 * np.where((y <= 0) & (x >= 0) & (turn < math.pi), x, around_back),
        front=valid * front,
    )


def _from_front(
    corner: tuple[Numbers, Numbers], turn: Numbers, x: Numbers, y: Numbers
) -> tuple[Numbers, Numbers]:
    """How far a place is from the line of the front edge, and how far down along it from its upper corner."""
    sine, cosine = np.sin(turn), np.cos(turn)
    across, up = x - corner[0], y - corner[1]
    return -across * cosine - up * sine, across * sine - up * cosine


def _to_panel(
    corners: Sequence[tuple[Numbers, Numbers]],
    turns: Sequence[Numbers],
    turn_there: Numbers,
    point: tuple[Numbers, Numbers],
    seen: Numbers,
    panel: PanelCm,
    depth_cm: Numbers,
) -> Numbers:
    """From a point to the middle of a panel that tapers: square to it, or first round the neck.

    ``corners`` are those of the neck edge, front first. Of those between the panel and the point, in the
    first quarter turn, the one that lies lowest along the panel's middle is the last that a path goes round;
    it hides what lies above it.
    """
    x, y = point
    far = panel.to_middle(*_from_front(corners[0], turns[0], x, y))
    turned = turns[0] - turn_there >= math.pi / 2
    lowest: Numbers = 0.0
    around: Numbers = 0.0
    for at, corner in enumerate(corners):
        off, down = _from_front(corners[0], turns[0], *corner)
        near, level = panel.to_middle(off, down), panel.along_middle(off, down)
        walked = _hugging(corners[at:], turns[at:], turn_there, x, y) + panel.path(off, down, depth_cm)
        between = (turned | (near < far)) & (turns[0] - turns[at - 1] < math.pi / 2)
        lower = (level > lowest) & between if at else level == lowest
        lowest, around = np.where(lower, level, lowest), np.where(lower, walked, around)
    off, down = _from_front(corners[0], turns[0], x, y)
    return np.where(seen & (panel.along_middle(off, down) >= lowest), panel.path(off, down, depth_cm), around)


def _along(
    corners: Sequence[tuple[Numbers, Numbers]], lengths: Sequence[Numbers], share: Numbers
) -> tuple[Numbers, Numbers]:
    """The point a share of the length along a bent line whose stretches are so long."""
    rest = share * sum(lengths)
    x, y = corners[0]
    for at, length in enumerate(lengths):
        part = np.clip(rest / length, 0.0, 1.0)
        (x0, y0), (x1, y1) = corners[at], corners[at + 1]
        here = part > 0
        x, y = np.where(here, x0 + part * (x1 - x0), x), np.where(here, y0 + part * (y1 - y0), y)
        rest = rest - length
    return x, y


def _turn_along(turns: Sequence[Numbers], lengths: Sequence[Numbers], share: Numbers) -> Numbers:
    """The turn of the stretch that a share of the length leads to."""
    rest = share * sum(lengths)
    result = turns[0]
    for turn, length in zip(turns, lengths, strict=True):
        result = np.where(rest > 0, turn, result)
        rest = rest - length
    return result


def _hugging(
    corners: Sequence[tuple[Numbers, Numbers]],
    turns: Sequence[Numbers],
    turn_there: Numbers,
    x: Numbers,
    y: Numbers,
) -> Numbers:
    """From the first corner to a point: along the neck edge as far as it hides the point, then straight.

    It hides a point that lies beyond the edge, or half a turn and more from it, at ``turn_there``.
    """
    result: Numbers = None
    walked, done = 0.0, False
    for at, ((x0, y0), turn) in enumerate(zip(corners, turns, strict=True)):
        straight = walked + np.hypot(x - x0, y - y0)
        result = straight if result is None else np.where(done, result, straight)
        beyond = np.cos(turn) * (y - y0) - np.sin(turn) * (x - x0) > 0
        done = done | ~(beyond | (np.abs(turn_there - turn) > math.pi))
        if at + 1 < len(corners):
            x1, y1 = corners[at + 1]
            walked = walked + np.hypot(x1 - x0, y1 - y0)
    return result
