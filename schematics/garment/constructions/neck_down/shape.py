"""What a body worked from the neck down is like when it is laid flat."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator, Sequence

from schematics.garment.constructions.base import Array
from schematics.garment.garment import Vertex


class Shape(ABC):
    """The right half of a body: neck at the top, fold on x = 0 downwards from the origin.

    Places along it are shares of the half hem's stitches, 0 at the fold and 1 at the front edge;
    the straight line from ``neck_at`` to ``hem_at`` of a share lies on the fabric. Lengths in cm.
    """

    depth: float
    """Length of the front edge, which is straight."""

    opening: float
    """Angle the whole body opens to, in radians."""

    centre: Vertex | None = None
    """Centre of the arcs that neck and hem are; None where they are straight or bent."""

    @property
    def lines(self) -> Sequence[tuple[Vertex, Vertex]]:
        """The lines of increases on this half, neck to hem, one on the fold among them."""
        return ()

    def neck_at(self, share: float) -> Vertex:
        """The point of the neck edge above that place of the hem."""
        return self._at(share, hem=False)

    def hem_at(self, share: float) -> Vertex:
        """The point of the hem at that share of it."""
        return self._at(share, hem=True)

    def hem(self, start: float, end: float, through: Sequence[float] = ()) -> Array:
        """Array of the hem from share ``start`` on to share ``end``, ``through`` among them."""
        (hem,) = self._lines(self._stops(start, end, through), True)
        return hem

    def neck(self, start: float, end: float) -> Array:
        """Array of the neck edge from share ``start`` on to share ``end``."""
        (neck,) = self._lines(self._stops(start, end, ()), False)
        return neck

    def strip(self, start: float, end: float) -> tuple[Array, Array]:
        """Arrays of hem and neck edge from share ``start`` on to share ``end``, as many points on both."""
        hem, neck = self._lines(self._stops(start, end, ()), True, False)
        return hem, neck

    @abstractmethod
    def _at(self, share: float, *, hem: bool) -> Vertex: ...

    @abstractmethod
    def _stops(self, start: float, end: float, through: Sequence[float]) -> Sequence[float]:
        """The shares at which the outline needs a vertex, both ends among them."""

    @abstractmethod
    def _lines(self, shares: Sequence[float], *hems: bool) -> Iterator[Array]:
        """The points at these shares, each time of the hem or of the neck edge."""
