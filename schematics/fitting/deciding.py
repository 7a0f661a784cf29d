"""Which one measurement would settle a wearer's size and verdict, of those that were not taken.

It is tried what would be advised if a measurement were taken, and came out so or so as often as it does.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.size_rules import asked_bodies
from schematics.design.design import Design
from schematics.fitting.group_advice import Advised, advised
from schematics.fitting.plausible import plausible_cm
from schematics.fitting.sizing import SizeFit
from schematics.fitting.wearer_columns import Column, complete
from schematics.wearer.body import Body, BodyValue, Origin, WearerSpec
from schematics.wearer.resolve import resolve
from schematics.wearer.standard_deviations import body_sd_cm

MOST_DECIDED = 2_000
"""Wearers of a group for whom it is worked out; each takes as long as fifty others take to be judged."""

_NODES = 20
"""Lengths that are tried of a measurement, each as likely as another."""

_AT_ONCE = 50_000
"""Trials that are judged together."""

_HALF_A_NODE = 0.5 / _NODES
"""A share is known so well."""

_TO_ENDS = 2 * NormalDist().inv_cdf(0.95)
"""Standard deviations between the ends of what is estimated from a spread."""


_FEWEST_JUDGED = 2
"""A measurement that lets fewer rules be judged than that, of several that want one, settles nothing."""

Rows = NDArray[np.intp]
_Weight = tuple[int, float]
"""What a measurement settles, the size before what may be judged before the verdict, and how much of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Trials:
    """What would be advised if a measurement were taken: of some wearers, told something without it."""

    design: Design
    fits: Sequence[SizeFit]
    own: Mapping[Body, Column]
    ages: Column
    told: Advised

    def advised(self, body: Body, rows: Rows, lengths_cm: Column) -> Iterator[tuple[Rows, Advised]]:
        """The advice if ``body`` of each of the rows is measured as that long, some rows at a time."""
        for first in range(0, len(rows), _AT_ONCE):
            some, lengths = rows[first : first + _AT_ONCE], lengths_cm[first : first + _AT_ONCE]
            own = {each: column[some] for each, column in self.own.items()} | {body: lengths}
            yield some, advised(self.design, self.fits, complete(own, self.ages[some]))

    def changes(self, body: Body, rows: Rows, lengths_cm: Column) -> Column:
        """How often the size of each row changes by its lengths, and how often size or verdict."""
        many = lengths_cm.shape[1]
        changed = [np.zeros((0, 2))]
        for some, now in self.advised(body, np.repeat(rows, many), lengths_cm.ravel()):
            size = now.size != self.told.size[some]
            changed.append(np.column_stack([size, size | (now.minded != self.told.minded[some])]))
        shares: Column = np.concatenate(changed).reshape(len(rows), many, 2).mean(axis=1)
        return shares

    def judges(self, body: Body, rows: Rows) -> Iterator[tuple[int, int, int]]:
        """How many rules that want a measurement of each row could be judged by this one, and of how many."""
        middle = np.full(len(rows), sum(plausible_cm(body)) / 2)
        for some, now in self.advised(body, rows, middle):
            wanting = self.told.unknown[some]
            yield from zip(some.tolist(), (wanting - now.unknown).tolist(), wanting.tolist(), strict=True)


def deciding(
    design: Design, fits: Sequence[SizeFit], own: Mapping[Body, Column], ages: Column, told: Advised
) -> dict[int, Body]:
    """The measurement that would settle what is advised, by the wearer's place.

    It is the one that would most often change the size; if none does so more often than
    `Limits.sure_fraction` leaves to chance, one that lets rules be judged that want a measurement, all or
    several; else the one that would most often change the verdict. Many wearers have none.

    Args:
        design: the design.
        fits: its sizes as they are made.
        own: what was measured of each wearer, in cm, not a number where it was not.
        ages: years, not a number where unknown.
        told: what is advised.
    """
    trials = _Trials(design=design, fits=fits, own=own, ages=ages, told=told)
    spreads = [_spreads(own, ages, place) for place in range(len(ages))]
    best: dict[int, tuple[_Weight, Body]] = {}
    for body in (each for each in Body if each in asked_bodies(design.limits)):
        gaps = np.isnan(own[body]) if body in own else np.ones(len(ages), dtype=bool)
        typical, sd_cm = np.array([each.get(body, (math.nan, 0.0)) for each in spreads]).reshape(-1, 2).T
        weights = (
            *_by_chance(trials, body, np.flatnonzero(gaps & (sd_cm > 0)), typical, sd_cm),
            *_by_rules(trials, body, np.flatnonzero(gaps & np.isnan(typical) & (told.unknown > 0))),
        )
        for row, weight in weights:
            if row not in best or weight > best[row][0]:
                best[row] = weight, body
    return {row: body for row, (_, body) in sorted(best.items())}


def _spreads(own: Mapping[Body, Column], ages: Column, place: int) -> dict[Body, tuple[float, float]]:
    """What is typical of one wearer, and how far it may be off, in cm."""
    lengths = {body: float(column[place]) for body, column in own.items() if not math.isnan(column[place])}
    age = None if math.isnan(ages[place]) else float(ages[place])
    values = resolve(WearerSpec(age_years=age, own=lengths), "the wearer").values
    return {body: (value.cm, _sd_cm(body, value)) for body, value in values.items()}


def _sd_cm(body: Body, value: BodyValue) -> float:
    own_cm = body_sd_cm(body, value, person=True)
    if value.origin is not Origin.ESTIMATE:
        return own_cm
    return math.hypot(own_cm, (value.high_cm - value.low_cm) / _TO_ENDS)


def _by_chance(
    trials: _Trials, body: Body, rows: Rows, typical: Column, sd_cm: Column
) -> Iterator[tuple[int, _Weight]]:
    """The rows whose size or verdict changes often enough by what a measurement comes out as."""

    def changes(rows: Rows, deviates: Sequence[float]) -> Column:
        return trials.changes(body, rows, typical[rows, None] + sd_cm[rows, None] * np.array(deviates))

    sure = trials.design.limits.sure_fraction
    tail, least = NormalDist().inv_cdf(sure), 1 - sure - _HALF_A_NODE
    some = rows[changes(rows, (-tail, 0.0, tail))[:, 1] > 0]
    nodes = [NormalDist().inv_cdf((place + 0.5) / _NODES) for place in range(_NODES)]
    for row, (size, either) in zip(some.tolist(), changes(some, nodes).tolist(), strict=True):
        if either > least:
            yield row, (2, size) if size > least else (0, either)


def _by_rules(trials: _Trials, body: Body, rows: Rows) -> Iterator[tuple[int, _Weight]]:
    """The rows of whom enough more can be judged, whatever the measurement comes out as."""
    for row, judged, wanting in trials.judges(body, rows):
        if judged in (wanting, max(judged, _FEWEST_JUDGED)):
            yield row, (1, judged / wanting)
