"""The working sheet of one size: every step with its arithmetic, later ones built on earlier results."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Protocol

from schematics.analysis.workings.arithmetic import DEGREES, Sum, result
from schematics.analysis.workings.ruler import Ruler
from schematics.checks.evaluation import Result
from schematics.crochet.fabric import Counted, Fabric
from schematics.design.design import Design, Size


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
class Run:
    """Some stitches or row ends of one fabric along an edge."""

    count: Sum
    counted: Counted
    fabric: Fabric


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
class Section:
    """Steps under one heading."""

    title: str
    steps: tuple[Step, ...]


@dataclass(slots=True, kw_only=True)
class Sheet:
    """A size being worked out; `add` writes a step down and gives its result for later ones."""

    design: Design
    worked: Result
    ruler: Ruler
    steps: dict[str, Step] = field(default_factory=dict)
    _told: int = 0

    @property
    def size(self) -> Size:
        """The size."""
        return self.worked.size

    @property
    def length_unit(self) -> str:
        """The unit of lengths: ``cm`` or ``in``."""
        return self.ruler.unit.value

    @property
    def area_unit(self) -> str:
        """The unit of areas."""
        return f"{self.length_unit}²"

    def given(self, length_cm: float) -> Sum:
        """A length that is not worked out here, such as a body measurement."""
        return result(self.ruler.in_unit(length_cm), self.length_unit)

    def add(self, step: Step) -> Sum:
        """Write the step down; its result."""
        self.steps[step.key] = step
        return self[step.key]

    def length(self, key: str, name: str, of: Sum, source: str, *, finished: bool = False) -> Sum:
        """Write down a length."""
        return self.add(
            Step(key=key, name=name, sum=of, unit=self.length_unit, source=source, finished=finished)
        )

    def angle(self, key: str, name: str, of: Sum, source: str) -> Sum:
        """Write down an angle in degrees."""
        return self.add(Step(key=key, name=name, sum=of, unit=DEGREES, source=source))

    def area(self, key: str, name: str, of: Sum, source: str) -> Sum:
        """Write down an area."""
        return self.add(Step(key=key, name=name, sum=of, unit=self.area_unit, source=source))

    def section(self, title: str) -> Section:
        """What has been written down since the last section, under a title."""
        steps = tuple(self.steps.values())[self._told :]
        self._told += len(steps)
        return Section(title=title, steps=steps)

    def __getitem__(self, key: str) -> Sum:
        step = self.steps[key]
        return result(step.sum.value, step.unit)


class Shape(Protocol):
    """What is to be known of a construction, so that every figure of it can be worked out by hand."""

    def derived(self, sheet: Sheet) -> Mapping[str, Derived]:
        """Counts that follow from those of the spec, by the key of the finished measurement."""

    def lengths(self, sheet: Sheet) -> Mapping[str, tuple[Sum, str]]:
        """Finished measurements that are no single count, by key, and what their arithmetic does."""

    def neck(self, sheet: Sheet) -> tuple[Run, ...]:
        """What of the body lies along the neck edge."""

    def arm(self, sheet: Sheet) -> Run:
        """What of the body lies along one arm band."""

    def shape(self, sheet: Sheet) -> None:
        """Write down angles, radii, the body's area, and the ``drop`` and ``longest_drop`` of its hem."""

    def girth(self, sheet: Sheet) -> None:
        """Write down the girths ``girth.top`` and ``girth.hem``, at neck and hem; the sides are closed."""

    def ways(self, sheet: Sheet) -> None:
        """Write down the ways on the fabric: ``way.reach``, ``way.back`` and ``way.front``, without bands."""
