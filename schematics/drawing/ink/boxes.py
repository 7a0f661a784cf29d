"""Upright boxes, many at once, as arrays of their sides."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Sides: TypeAlias = tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]
"""Left, top, right and bottom of several upright boxes."""


def box_sides(
    centres: NDArray[np.float64], width: NDArray[np.float64], height: NDArray[np.float64], margin: float
) -> Sides:
    """Boxes of those sizes about ``centres``, with a margin on each side."""
    x, y = centres[:, 0], centres[:, 1]
    left, top = -width / 2 - margin, -height / 2 - margin
    return x + left, y + top, x - left, y - top


def meeting(sides: Sequence[NDArray[np.float64]], others: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether boxes have a point in common: a row for each of ``others``, their x0, y0, x1 and y1."""
    left, top, right, bottom = sides
    x0, y0, x1, y1 = others.T[..., None]
    return np.asarray((left <= x1) & (right >= x0) & (top <= y1) & (bottom >= y0))


def meets_box(starts: NDArray[np.float64], ends: NDArray[np.float64], sides: Sides) -> NDArray[np.bool_]:
    """Which of several straight lines have a point in the box of the same place (Liang and Barsky 1984)."""
    enter, leave = np.zeros(len(starts)), np.ones(len(starts))
    for axis, (low, high) in enumerate((sides[::2], sides[1::2])):
        start, run = starts[:, axis], ends[:, axis] - starts[:, axis]
        with np.errstate(divide="ignore", invalid="ignore"):
            one, other = (low - start) / run, (high - start) / run
        enter, leave = np.fmax(enter, np.fmin(one, other)), np.fmin(leave, np.fmax(one, other))
    return np.asarray(enter <= leave)
