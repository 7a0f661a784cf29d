"""Which one measurement would settle a wearer's size and verdict, of those that were not taken.

It is tried what would be advised if a measurement were taken, and came out so or so as often as it does.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.size_rules import asked_bodies
from schematics.design.design import Design
from schematics.fitting.group_advice import Advised, advised
from schematics.fitting.sizing import SizeFit
from schematics.fitting.wearer_columns import Column, complete
from schematics.wearer.body import Body, BodyValue, Origin, WearerSpec
from schematics.wearer.plausible import plausible_cm
from schematics.wearer.resolve import resolve
from schematics.wearer.standard_deviations import body_sd_cm

MOST_DECIDED = 1_000
"""Wearers of a group for whom it is worked out; each takes as long as a hundred take to be judged."""

_NODES = 20
"""Lengths that are tried of a measurement, each as likely as another."""

_HALF_A_NODE = 0.5 / _NODES
"""A share is known so well."""

_AT_ONCE = 50_000
"""Trials that are judged together."""

_TO_ENDS = 2 * NormalDist().inv_cdf(0.95)
"""Standard deviations between the ends of what is estimated from a spread."""

_FEWEST_JUDGED = 2
"""A measurement that lets fewer rules be judged than that, of several that want one, settles nothing."""

Rows = NDArray[np.intp]


class Settles(IntEnum):
    """What a measurement settles, the more the higher."""

    VERDICT = 0
    CHECKS = 1
    SIZE = 2

    @property
    def words(self) -> str:
        """What the measurement settles, in words."""
        return _SETTLED_WORDS[self]


_SETTLED_WORDS = {
    Settles.VERDICT: "the verdict",
    Settles.CHECKS: "what is not checked",
    Settles.SIZE: "the size",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Decided:
    """The measurement to take first, and what for."""

    body: Body
    settles: Settles


_Weight = tuple[Settles, float]
"""What a measurement settles, and how much of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Untaken:
    """Measurements that were not taken: whose, and which of `_Trials.bodies`, by their places."""

    rows: Rows
    bodies: Rows

    def only(self, some: NDArray[np.bool_]) -> _Untaken:
        """Some of them."""
        return _Untaken(rows=self.rows[some], bodies=self.bodies[some])

    def __len__(self) -> int:
        return len(self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Trials:
    """What would be advised if a measurement were taken: ``current`` is the advice without it."""

    design: Design
    fits: Sequence[SizeFit]
    own: Mapping[Body, Column]
    ages: Column
    current: Advised
    bodies: tuple[Body, ...]

    def advice_if_taken(self, untaken: _Untaken, lengths_cm: Column) -> Iterator[tuple[Rows, Advised]]:
        """The advice if each is taken and comes out as its lengths say, some at a time."""
        many = lengths_cm.shape[1]
        rows, bodies = np.repeat(untaken.rows, many), np.repeat(untaken.bodies, many)
        for first in range(0, len(rows), _AT_ONCE):
            some = slice(first, first + _AT_ONCE)
            own = {body: column[rows[some]] for body, column in self.own.items()}
            for place, body in enumerate(self.bodies):
                usual = own.get(body, np.full(len(rows[some]), np.nan))
                own[body] = np.where(bodies[some] == place, lengths_cm.ravel()[some], usual)
            yield rows[some], advised(self.design, self.fits, complete(own, self.ages[rows[some]]))

    def changes(self, untaken: _Untaken, lengths_cm: Column) -> Column:
        """How often the size changes over the lengths of each, and how often size or verdict."""
        changed = [np.zeros((0, 2))]
        for rows, now in self.advice_if_taken(untaken, lengths_cm):
            size = now.size != self.current.size[rows]
            changed.append(np.column_stack([size, size | (now.minded != self.current.minded[rows])]))
        shares: Column = np.concatenate(changed).reshape(*lengths_cm.shape, 2).mean(axis=1)
        return shares


def deciding(
    design: Design, fits: Sequence[SizeFit], own: Mapping[Body, Column], ages: Column, current: Advised
) -> dict[int, Decided]:
    """The measurement that would settle what is advised, by the wearer's place.

    It is the one that would most often change the size; if none does so more often than
    `Limits.sure_fraction` leaves to chance, one that lets rules be judged that want a measurement, all or
    several; else the one that would most often change the verdict. Many wearers have none.

    Args:
        design: the design.
        fits: its sizes as they are made.
        own: what was measured of each wearer, in cm, not a number where it was not.
        ages: years, not a number where unknown.
        current: what is advised without it.
    """
    asked = asked_bodies(design.limits)
    bodies = tuple(body for body in Body if body in asked)
    trials = _Trials(design=design, fits=fits, own=own, ages=ages, current=current, bodies=bodies)
    spreads = [_spreads(own, ages, row) for row in range(len(ages))]
    values = np.array([[each.get(body, (math.nan, 0.0)) for body in bodies] for each in spreads])
    typical, sd_cm = np.moveaxis(values.reshape(len(ages), len(bodies), 2), 2, 0)
    taken = np.column_stack([~np.isnan(own.get(body, np.full(len(ages), np.nan))) for body in bodies])
    best: dict[int, tuple[_Weight, Body]] = {}
    for row, place, weight in (
        *_by_chance(trials, _places(~taken & (sd_cm > 0)), typical, sd_cm),
        *_by_rules(trials, _places(~taken & np.isnan(typical) & (current.unknown > 0)[:, None])),
    ):
        if row not in best or weight > best[row][0]:
            best[row] = weight, bodies[place]
    return {row: Decided(body=body, settles=settles) for row, ((settles, _), body) in sorted(best.items())}


def _places(untaken: NDArray[np.bool_]) -> _Untaken:
    rows, bodies = np.nonzero(untaken)
    return _Untaken(rows=rows, bodies=bodies)


def _spreads(own: Mapping[Body, Column], ages: Column, row: int) -> dict[Body, tuple[float, float]]:
    """What is typical of one wearer, and how far it may be off, in cm."""
    lengths = {body: float(column[row]) for body, column in own.items() if not math.isnan(column[row])}
    age = None if math.isnan(ages[row]) else float(ages[row])
    values = resolve(WearerSpec(age_years=age, own=lengths), "the wearer").values
    return {body: (value.cm, _sd_cm(body, value)) for body, value in values.items()}


def _sd_cm(body: Body, value: BodyValue) -> float:
    own_cm = body_sd_cm(body, value, person=True)
    if value.origin is not Origin.ESTIMATE:
        return own_cm
    return math.hypot(own_cm, (value.high_cm - value.low_cm) / _TO_ENDS)


def _by_chance(
    trials: _Trials, untaken: _Untaken, typical: Column, sd_cm: Column
) -> Iterator[tuple[int, int, _Weight]]:
    """What changes size or verdict often enough by what it comes out as."""

    def changes(untaken: _Untaken, deviates: Sequence[float]) -> Column:
        middle, spread = (each[untaken.rows, untaken.bodies][:, None] for each in (typical, sd_cm))
        return trials.changes(untaken, middle + spread * np.array(deviates))

    sure = trials.design.limits.sure_fraction
    tail, least = NormalDist().inv_cdf(sure), 1 - sure - _HALF_A_NODE
    some = untaken.only(changes(untaken, (-tail, 0.0, tail))[:, 1] > 0)
    nodes = [NormalDist().inv_cdf((place + 0.5) / _NODES) for place in range(_NODES)]
    for row, place, (size, either) in zip(
        some.rows.tolist(), some.bodies.tolist(), changes(some, nodes).tolist(), strict=True
    ):
        if either > least:
            yield row, place, (Settles.SIZE, size) if size > least else (Settles.VERDICT, either)


def _by_rules(trials: _Trials, untaken: _Untaken) -> Iterator[tuple[int, int, _Weight]]:
    """What lets enough more be judged, whatever it comes out as."""
    middles = np.array([sum(plausible_cm(body)) / 2 for body in trials.bodies])
    left = [np.zeros(0, dtype=int)]
    left += [now.unknown for _, now in trials.advice_if_taken(untaken, middles[untaken.bodies][:, None])]
    for row, place, still in zip(
        untaken.rows.tolist(), untaken.bodies.tolist(), np.concatenate(left).tolist(), strict=True
    ):
        wanting = int(trials.current.unknown[row])
        judged = wanting - still
        if judged > 0 and (still == 0 or judged >= _FEWEST_JUDGED):
            yield row, place, (Settles.CHECKS, judged / wanting)
