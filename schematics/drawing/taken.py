"""What is taken on a sheet: shapes by the boxes round them, so that few are ever looked at closely."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

Bounds: TypeAlias = tuple[float, float, float, float]
"""A box: x0, y0, x1, y1."""

_HAIR = 1e-9


@dataclass(slots=True)
class Taken:
    """Shapes, each found by its box."""

    _shapes: list[BaseGeometry] = field(default_factory=list)
    _boxes: list[Bounds] = field(default_factory=list)
    _indexed: NDArray[np.float64] = field(default_factory=lambda: np.empty((0, 4)))
    _held: NDArray[np.object_] = field(default_factory=lambda: np.empty(0, dtype=object))

    def add(self, shape: BaseGeometry) -> None:
        """Take a shape from now on."""
        self._shapes.append(shape)
        self._boxes.append(shape.bounds)

    def near(self, box: Bounds, margin: float = 0.0) -> NDArray[np.object_]:
        """The shapes whose boxes come within ``margin`` of ``box``, in the order they were added."""
        if len(self._shapes) != len(self._held):
            self._indexed = np.array(self._boxes)
            self._held = np.array(self._shapes, dtype=object)
        x0, y0, x1, y1 = box
        reach = margin + _HAIR
        boxes = self._indexed
        meets = (
            (boxes[:, 0] <= x1 + reach)
            & (boxes[:, 2] >= x0 - reach)
            & (boxes[:, 1] <= y1 + reach)
            & (boxes[:, 3] >= y0 - reach)
        )
        return self._held[meets]


def touch(shapes: NDArray[np.object_], shape: BaseGeometry) -> bool:
    """Whether any of ``shapes`` touches ``shape``."""
    return len(shapes) > 0 and bool(shapely.intersects(shape, shapes).any())
