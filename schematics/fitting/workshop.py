"""What becomes of one size when its counts change a little: worked out once, for any number of wearers."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from schematics.checks.rules.garment_numbers import facts
from schematics.design.design import Design, Parts, Size
from schematics.fitting.gauge import SizeAtGauge, garment_in, size_at_gauge
from schematics.fitting.sizing import making_score, size_fit
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.levers import Lever, Purpose
from schematics.garment.garment import Garment
from schematics.wearer.body import Stage, Wearer

NOBODY = Wearer(label="nobody", stage=Stage.CHILD, age_years=None, person=True, values={})

EACH_LEVER = 0.5
"""What it counts, in cm, that one more count is changed at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """Some levers of one purpose set: ``steps`` of each by its place among `Workshop.levers`.

    ``cost`` is how large the change is, in weighted centimetres; ``facts`` are those of the garment, without
    reach and spread for an option that has not been looked into.
    """

    steps: tuple[tuple[int, int], ...]
    size: Size
    cost: float
    facts: Mapping[str, float]


@dataclass(slots=True, kw_only=True)
class Workshop:
    """One size of a design in a maker's fabrics, and its changed versions as far as they were asked for.

    ``levers`` are those of its construction where none are given.
    """

    design: Design
    size: Size
    parts: Parts
    levers: Sequence[Lever] = ()
    pattern: SizeAtGauge = field(init=False)
    facts: Mapping[str, float] = field(init=False)
    _making: float = field(init=False)
    _lengths: dict[str, float] = field(init=False)
    _options: dict[Purpose, tuple[Option, ...]] = field(init=False, default_factory=dict)
    _whole: dict[tuple[tuple[int, int], ...], Option | None] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.levers = self.levers or CONSTRUCTIONS[self.design.construction].levers
        self.pattern = size_at_gauge(self.design, self.size, self.parts)
        self.facts = self.pattern.facts
        self._making = self._making_of(self.pattern)
        self._lengths = _lengths(self.pattern.garment)

    def options(self, purpose: Purpose) -> tuple[Option, ...]:
        """Every setting of a purpose's levers, unchanged first; reach and spread are not worked out yet."""
        if purpose not in self._options:
            places = [place for place, lever in enumerate(self.levers) if lever.purpose is purpose]
            options = [self._option(steps) for steps in self._settings(places)]
            self._options[purpose] = tuple(
                sorted((each for each in options if each is not None), key=lambda each: each.cost)
            )
        return self._options[purpose]

    def whole(self, option: Option) -> Option | None:
        """The option with all its facts; None if it is worse to make than the pattern."""
        if option.steps not in self._whole:
            each = size_at_gauge(self.design, option.size, self.parts)
            self._whole[option.steps] = (
                replace(option, facts=each.facts) if self.as_good_to_make(each) else None
            )
        return self._whole[option.steps]

    def together(self, options: Iterable[Option]) -> Size | None:
        """The size with the levers of all these set; None if they cannot be worked together."""
        return self._with(each for option in options for each in option.steps)

    def _with(self, steps: Iterable[tuple[int, int]]) -> Size | None:
        size: Size | None = self.size
        for place, step in steps:
            size = None if size is None else self.levers[place].moved(size, step, self.design.parts)
        return size

    def as_good_to_make(self, each: SizeAtGauge) -> bool:
        """Whether what does not depend on the wearer is no worse than in the pattern."""
        return self._making_of(each) <= self._making

    def _making_of(self, each: SizeAtGauge) -> float:
        return making_score(size_fit(self.design, each, NOBODY).making)

    def _settings(self, places: Sequence[int]) -> Iterable[tuple[tuple[int, int], ...]]:
        ranges = [range(-self.levers[place].most, self.levers[place].most + 1) for place in places]
        for steps in itertools.product(*ranges):
            yield tuple((place, step) for place, step in zip(places, steps, strict=True) if step)

    def _option(self, steps: tuple[tuple[int, int], ...]) -> Option | None:
        size = self._with(steps)
        if size is None:
            return None
        garment = garment_in(self.design, size, self.parts)
        if garment.neck.edge_count % 2:
            return None
        lengths = _lengths(garment)
        cost = sum(
            EACH_LEVER + lever.weight * abs(lengths[lever.key] - self._lengths[lever.key])
            for lever in (self.levers[place] for place, _ in steps)
        )
        return Option(steps=steps, size=size, cost=cost, facts=facts(garment, None))


def _lengths(garment: Garment) -> dict[str, float]:
    return {each.key: each.length_cm for each in garment.finished}
