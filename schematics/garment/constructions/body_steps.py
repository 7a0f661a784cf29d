"""How a body is worked that has no plan of increases: step by step, for all sizes at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class StepCount:
    """One count of the steps, a value for each size; ``key`` is unique among them, ``unit`` sts or rows."""

    key: str
    name: str
    unit: str
    values: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyStep:
    """Rows over equally many stitches: those of each of the ``parts`` that are worked by themselves.

    ``before`` is what is done before its first row; ``{key}`` in it is a count. Of two parts,
    ``leaves`` are the stitches left between them where the work divides, ``adds`` those that each part gains
    at its inner edge.
    """

    name: str
    rows: StepCount
    stitches: StepCount
    before: str
    parts: int = 1
    leaves: StepCount | None = None
    adds: StepCount | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BodySteps:
    """The steps from the first row to the last; ``{key}`` in ``sentences`` is a count.

    ``counts`` are those reported besides the rows and stitches of the steps; ``marked`` is a row that gets a
    marker at each side edge.
    """

    sentences: tuple[str, ...]
    caption: str
    steps: tuple[BodyStep, ...]
    counts: tuple[StepCount, ...] = ()
    marked: StepCount | None = None

    @property
    def every_count(self) -> tuple[StepCount, ...]:
        """The rows of the steps, their stitches, and the other counts."""
        return (*(step.rows for step in self.steps), *(step.stitches for step in self.steps), *self.counts)

    def rows(self, index: int) -> Iterator[tuple[int, int]]:
        """Stitches of each row of one size, of all parts together, and in how many parts they are."""
        for step in self.steps:
            row = step.parts * step.stitches.values[index], step.parts
            yield from [row] * step.rows.values[index]
