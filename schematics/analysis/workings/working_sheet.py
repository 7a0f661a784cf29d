"""The working sheet of one size: every step with its arithmetic, later ones built on earlier results."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.analysis.workings.arithmetic import Sum


@dataclass(frozen=True, slots=True, kw_only=True)
class Derived:
    """A count that follows from counts of the spec, and how in words.

    Where the sum is no whole number, or not the right one, ``words`` say which is ``taken``.
    """

    count: Sum
    words: str
    taken: int | None = None

    @property
    def sums(self) -> bool:
        """Whether there is anything to work out."""
        return not self.count.is_number


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One figure: its arithmetic, the unit it comes out in, and where its numbers come from.

    A ``finished`` figure is one a pattern prints. ``derived`` is how its count follows from others,
    ``swatch`` names the fabric if there is just one, ``source`` is the key of its count in the size's part
    of the spec or says in words what the arithmetic does.
    """

    key: str
    name: str
    sum: Sum
    unit: str
    source: str
    swatch: str = ""
    derived: Derived | None = None
    finished: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    """Steps under one heading."""

    title: str
    steps: tuple[Step, ...]
