"""Columns of counts: every garment that the counts found so far can become, a row for each."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from schematics.crochet.fabric import CountRule

Ints: TypeAlias = NDArray[np.int64]
Columns: TypeAlias = dict[str, Ints]


def taken(columns: Columns, rows: Ints | NDArray[np.bool_]) -> Columns:
    """Those rows of the columns."""
    return {name: column[rows] for name, column in columns.items()}


def height(columns: Columns) -> int:
    """How many rows there are."""
    return len(next(iter(columns.values())))


def on_lattice(low: NDArray[np.float64], high: NDArray[np.float64], rule: CountRule) -> tuple[Ints, Ints]:
    """The first count of the rule in each span, and how many there are."""
    first = np.ceil((low - rule.plus) / rule.multiple - 1e-9)
    last = np.floor((high - rule.plus) / rule.multiple + 1e-9)
    least = (rule.smallest - rule.plus) // rule.multiple
    first = np.maximum(first, least)
    return (
        (first * rule.multiple + rule.plus).astype(np.int64),
        np.maximum(last - first + 1, 0).astype(np.int64),
    )
