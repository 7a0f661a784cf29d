"""Shortest paths on the fabric in closed form, for columns of garments: by them grading judges the arms.

The polygons of a garment say the same, see `tests/garment/constructions/test_formulas.py`; here an arc is an
arc. The neck edge is convex, so a path either runs straight or first hugs it and leaves it along a tangent.

References:
    The shortest path round a disc: two tangents and the arc between them, as in any handbook of mensuration.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from schematics.garment.amounts import Numbers
from schematics.garment.constructions.formulas import ArmPaths

_FLAT = 1e-9
"""A body that opens to less than this angle, in radians, is a rectangle."""


def paths_on_sector(
    neck_cm: Numbers, hem_cm: Numbers, depth_cm: Numbers, share: Numbers, panel_cm: tuple[Numbers, Numbers]
) -> ArmPaths:
    """The paths on a ring sector.

    Args:
        neck_cm: length of the neck edge.
        hem_cm: length of the hem.
        depth_cm: length of the front edge.
        share: where the middle of the arm run lies on the half hem, 0 at centre back and 1 at the front.
        panel_cm: width and length of the panel.
    """
    opening = np.asarray((hem_cm - neck_cm) / depth_cm, dtype=float)
    turn = np.maximum(opening, _FLAT)
    inner = neck_cm / turn
    outer, back = inner + depth_cm, share * turn / 2
    front = turn / 2 - back
    width, length = panel_cm
    measured = (share > 0) & (share < 1) & (opening <= 2 * math.tau) & (back < math.tau) & (front < math.tau)
    valid = np.where(measured, 1.0, np.nan)
    return ArmPaths(
        reach=valid * _to_corner(inner, outer, back),
        back=valid * 2 * _to_edge(inner, outer, back, depth_cm),
        front=valid * (2 * _to_edge(inner, outer, front, length) + width),
    )


def _to_corner(inner: Numbers, outer: Numbers, angle: Numbers) -> Numbers:
    """From a place of the outer arc to one of the inner that far round the centre."""
    free = np.arccos(inner / outer)
    chord = np.sqrt((outer - inner) ** 2 + 4 * inner * outer * np.sin(np.minimum(angle, free) / 2) ** 2)
    return np.where(angle <= free, chord, np.sqrt(outer**2 - inner**2) + inner * (angle - free))


def _to_edge(inner: Numbers, outer: Numbers, angle: Numbers, length_cm: Numbers) -> Numbers:
    """From a place of the outer arc to a straight edge that far round, ``length_cm`` long."""
    down = (outer - inner) - 2 * outer * np.sin(angle / 2) ** 2
    off = outer * np.sin(angle)
    seen = np.where(down <= length_cm, off, np.hypot(down - length_cm, off))
    return np.where((down >= 0) & (angle < math.pi / 2), seen, _to_corner(inner, outer, angle))


def paths_on_trapezoids(
    widths_cm: Sequence[Numbers],
    grow_cm: Numbers,
    depth_cm: Numbers,
    share: Numbers,
    panel_cm: tuple[Numbers, Numbers],
    *,
    line_at_fold: bool,
) -> ArmPaths:
    """The paths on trapezoids side by side.

    Args:
        widths_cm: neck widths of the sections of the half, centre back first, one the fold halves by half.
        grow_cm: what a section grows by at each line it lies next to.
        depth_cm: length of the front edge.
        share: where the middle of the arm run lies on the half hem, 0 at centre back and 1 at the front.
        panel_cm: width and length of the panel.
        line_at_fold: whether a line of increases runs down the centre back.
    """
    lean, line_cm = np.arctan2(grow_cm, depth_cm), np.hypot(grow_cm, depth_cm)
    last = len(widths_cm) - 1
    turns = [(2 * at + int(line_at_fold)) * lean for at in range(last + 1)]
    zero = np.zeros_like(np.asarray(grow_cm, dtype=float))
    neck = [(zero, zero)]
    hem = [(zero, -(line_cm if line_at_fold else depth_cm) + zero)]
    lengths = []
    for at, (width, turn) in enumerate(zip(widths_cm, turns, strict=True)):
        x, y = neck[-1]
        corner = x + width * np.cos(turn), y + width * np.sin(turn)
        neck.append(corner)
        down, way = (depth_cm, turn) if at == last else (line_cm, turn + lean)
        hem.append((corner[0] + down * np.sin(way), corner[1] - down * np.cos(way)))
        lines = (at > 0 or line_at_fold) + (at < last)
        lengths.append(width + lines * grow_cm)
    x, y = _along(hem, lengths, share)
    turn = _turn_along(turns, lengths, share)
    around_back = _hugging(neck[:-1], turns, turn, x, y)
    top = neck[-1]
    sine, cosine = np.sin(turns[-1]), np.cos(turns[-1])
    down = (x - top[0]) * sine - (y - top[1]) * cosine
    off = -(x - top[0]) * cosine - (y - top[1]) * sine
    width, length = panel_cm
    seen = np.where(down <= length, off, np.hypot(down - length, off))
    around_front = _hugging(neck[:0:-1], turns[::-1], turn, x, y)
    opening = 2 * (2 * last + int(line_at_fold)) * lean
    measured = (share > 0) & (share < 1) & (opening <= 2 * math.tau)
    valid = np.where(measured, 1.0, np.nan)
    return ArmPaths(
        reach=valid * around_back,
        back=valid * 2 * np.where((y <= 0) & (x >= 0) & (turn < math.pi), x, around_back),
        front=valid
        * (2 * np.where((down >= 0) & (off >= 0) & (turns[-1] - turn < math.pi), seen, around_front) + width),
    )


def _along(
    corners: Sequence[tuple[Numbers, Numbers]], lengths: Sequence[Numbers], share: Numbers
) -> tuple[Numbers, Numbers]:
    """The point a share of the way along a bent line whose stretches are so long."""
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
    """The turn of the stretch that a share of the way leads to."""
    rest = share * sum(lengths)
    found = turns[0]
    for turn, length in zip(turns, lengths, strict=True):
        found = np.where(rest > 0, turn, found)
        rest = rest - length
    return found


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
    found: Numbers = None
    walked, done = 0.0, False
    for at, ((x0, y0), turn) in enumerate(zip(corners, turns, strict=True)):
        straight = walked + np.hypot(x - x0, y - y0)
        found = straight if found is None else np.where(done, found, straight)
        beyond = np.cos(turn) * (y - y0) - np.sin(turn) * (x - x0) > 0
        done = done | ~(beyond | (np.abs(turn_there - turn) > math.pi))
        if at + 1 < len(corners):
            x1, y1 = corners[at + 1]
            walked = walked + np.hypot(x1 - x0, y1 - y0)
    return found
