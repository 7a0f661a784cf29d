"""Where a symbol of a chart stands: its tops, its feet, and the path of its stem between them."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.drawing.ink.marks import Point, between

SPARE = 0.13
"""White above and under a symbol in its cell, as a share of the cell's height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stance:
    """Where a symbol stands: its tops and its feet, each from left to right, and its own cell's size, in mm.

    A top for each stitch it makes, a foot for each it is worked into; at least one of each. ``beside``: so
    far beside its foot a stem that reaches further down ends in a hook that goes round it; nought where the
    hook begins at the foot. On its path it goes by the points ``past``.
    ``bars_down``: how far under its top the bars of one with ``beside`` have their middle.
    """

    tops: tuple[Point, ...]
    feet: tuple[Point, ...]
    width: float
    height: float
    beside: float = 0.0
    bars_down: float = 0.0
    past: tuple[Point, ...] = ()

    @property
    def top(self) -> Point:
        """The middle of the tops."""
        return between(self.tops[0], self.tops[-1])

    @property
    def foot(self) -> Point:
        """The middle of the feet."""
        return between(self.feet[0], self.feet[-1])

    @property
    def centre(self) -> Point:
        """The middle of its own cell, or cells."""
        x, y = self.top
        return x, y + self.height * (0.5 - SPARE)

    @property
    def own_foot(self) -> Point:
        """The place of a foot in the middle of the stitch's own cell."""
        x, y = self.top
        return x, y + self.height * (1 - 2 * SPARE)


def cell_stance(x: float, y: float, width: float, height: float, *, rows: int = 1, cells: int = 1) -> Stance:
    """A symbol by itself in a box whose upper left corner is at ``x``, ``y``.

    ``rows`` are in its height, ``cells`` in its width.
    """
    top, foot = y + height / rows * SPARE, y + height - height / rows * SPARE
    step = width / cells
    xs = [x + step * (number + 0.5) for number in range(cells)]
    middle = x + width / 2
    return Stance(
        tops=((middle, top),), feet=((middle, foot),), width=min(width, height / rows), height=height / rows
    ) if cells == 1 else Stance(
        tops=tuple((each, top) for each in xs), feet=tuple((each, foot) for each in xs),
        width=step, height=height / rows,
    )  # fmt: skip
