"""What becomes of one size when its counts change a little: worked out once, for any number of wearers."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from schematics.checks import check_making
from schematics.checks.finding import Case, Finding
from schematics.design.design import Design, Size
from schematics.fitting.changed_facts import ChangedFacts
from schematics.fitting.gauge import SizeAtGauge, garment_in
from schematics.fitting.sizing import in_making
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.levers import Lever, Purpose
from schematics.garment.garment import Garment
from schematics.wearer.body import Stage, Wearer

NOBODY = Wearer(label="nobody", stage=Stage.CHILD, age_years=None, person=True, values={})

EACH_LEVER = 0.5
"""What it counts, in cm, that one more count is changed at all."""

Steps: TypeAlias = tuple[tuple[int, int], ...]
"""So many steps of each lever that is moved, by its place among `Workshop.levers`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Versions:
    """Versions of a size with some levers moved.

    ``costs`` are how large the changes are, in weighted centimetres; ``facts`` are columns.
    """

    steps: Sequence[Steps]
    costs: NDArray[np.float64]
    facts: ChangedFacts

    def __len__(self) -> int:
        return len(self.steps)

    def some(self, places: Sequence[int]) -> Versions:
        """The versions at these places, in that order."""
        return Versions(
            steps=[self.steps[place] for place in places],
            costs=self.costs[places],
            facts=self.facts.some(places),
        )


@dataclass(slots=True, kw_only=True)
class Workshop:
    """One size of a design in a maker's fabrics, and its changed versions as far as they were asked for.

    ``pattern`` is the size as it is, held to no lengths that were meant for others, ``usual`` its facts by
    its formulas. ``levers`` are those of its construction where none are given.
    """

    design: Design
    pattern: SizeAtGauge
    levers: Sequence[Lever] = ()
    usual: ChangedFacts = field(init=False)
    _making: tuple[int, int] = field(init=False)
    _options: dict[Purpose, Versions] = field(init=False, default_factory=dict)
    _good: dict[Steps, bool] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.levers = self.levers or CONSTRUCTIONS[self.design.construction].levers
        self.pattern = replace(self.pattern, size=replace(self.pattern.size, meant=()))
        self.usual = self._facts_of([self.pattern.size])
        self._making = in_making(self._making_of(self.pattern.size, self.pattern.garment))

    def options(self, purpose: Purpose) -> Versions:
        """Every setting of a purpose's levers, the smallest change first."""
        if purpose not in self._options:
            places = [place for place, lever in enumerate(self.levers) if lever.purpose is purpose]
            tried = self.versions(self._settings(places))
            even = np.flatnonzero(tried.facts.neck_stitches % 2 == 0)
            self._options[purpose] = tried.some(sorted(even.tolist(), key=tried.costs.__getitem__))
        return self._options[purpose]

    def versions(self, settings: Iterable[Steps]) -> Versions:
        """The size with each of these settings; without those that cannot be worked."""
        sizes = {steps: size for steps in settings if (size := self._with(steps)) is not None}
        facts = self._facts_of([*sizes.values()])
        costs = np.zeros(len(sizes))
        for place, lever in enumerate(self.levers):
            moved = np.array([any(at == place for at, _ in steps) for steps in sizes])
            if moved.any():
                changed_cm = np.abs(facts.length_cm(lever.key) - self.usual.length_cm(lever.key))
                costs += np.where(moved, EACH_LEVER + lever.weight * changed_cm, 0.0)
        return Versions(steps=[*sizes], costs=costs, facts=facts)

    def is_as_good_to_make(self, steps: Steps) -> bool:
        """Whether what does not depend on the wearer is no worse with this setting than in the pattern."""
        if steps not in self._good:
            size = self._with(steps)
            self._good[steps] = size is not None and self.are_as_good(
                self._making_of(size, garment_in(self.design, size, self.pattern.parts))
            )
        return self._good[steps]

    def are_as_good(self, findings: Iterable[Finding]) -> bool:
        """Whether findings that do not depend on the wearer are no worse than the pattern's."""
        return in_making(findings) <= self._making

    def _making_of(self, size: Size, garment: Garment) -> tuple[Finding, ...]:
        case = Case(
            design=self.design,
            parts=self.pattern.parts,
            size=size,
            garment=garment,
            freedom=None,
            wearer=NOBODY,
            limits=self.design.limits,
        )
        return check_making(case)

    def _facts_of(self, sizes: Sequence[Size]) -> ChangedFacts:
        return ChangedFacts(CONSTRUCTIONS[self.design.construction], sizes, self.pattern.parts)

    def _with(self, steps: Steps) -> Size | None:
        size: Size | None = self.pattern.size
        for place, step in steps:
            size = None if size is None else self.levers[place].moved(size, step, self.design.parts)
        return size

    def _settings(self, places: Sequence[int]) -> Iterator[Steps]:
        ranges = [range(-self.levers[place].most, self.levers[place].most + 1) for place in places]
        for steps in itertools.product(*ranges):
            yield tuple((place, step) for place, step in zip(places, steps, strict=True) if step)
