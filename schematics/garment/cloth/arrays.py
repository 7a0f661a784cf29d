"""The arrays of this room."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
Indices: TypeAlias = NDArray[np.int64]
Flags: TypeAlias = NDArray[np.bool_]
Evaluated: TypeAlias = tuple[float, Floats, Callable[[], Floats]]
"""An energy in N cm, its gradient ``(n, 3)``, and what works out its Hessian, without negative directions."""


def norms(vectors: Floats) -> Floats:
    """The length of each vector along the last axis."""
    lengths: Floats = np.sqrt(np.einsum("...i,...i->...", vectors, vectors))
    return lengths
