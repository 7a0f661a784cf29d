"""Columns of counts: every garment that the counts chosen so far can become, a row for each."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from schematics.crochet.fabric import CountRule
from schematics.units import HAIR

Ints: TypeAlias = NDArray[np.int64]
Floats: TypeAlias = NDArray[np.float64]
Columns: TypeAlias = dict[str, Ints]


def taken(columns: Columns, rows: Ints | NDArray[np.bool_]) -> Columns:
    """Some rows of the columns."""
    return {name: column[rows] for name, column in columns.items()}


def one_row(counts: Mapping[str, float]) -> dict[str, NDArray[Any]]:
    """The counts of one garment as columns."""
    return {name: np.array([value]) for name, value in counts.items()}


def on_lattice(low: Floats, high: Floats, rule: CountRule) -> tuple[Ints, Ints]:
    """The first count of the rule in each span, and how many there are."""
    first = np.ceil((low - rule.plus) / rule.multiple - HAIR)
    last = np.floor((high - rule.plus) / rule.multiple + HAIR)
    last = np.minimum(last, 0) if rule.only else last
    least = (rule.smallest - rule.plus) // rule.multiple
    first = np.maximum(first, least)
    return (
        (first * rule.multiple + rule.plus).astype(np.int64),
        np.maximum(last - first + 1, 0).astype(np.int64),
    )
