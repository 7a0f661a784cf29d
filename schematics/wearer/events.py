"""Chances of what follows from many independent normal errors, as events that can be put together.

An event happens where a margin is over nought. To the first order a margin is normal: so many standard
deviations over nought, and made up of errors by certain shares. That two happen together, or one of them, is
an event again, of exactly the chance the two give; its shares are those by which either decides. Of three and
more, put together two by two, the chance is near where the same errors move them alike, as a garment's do;
where they work against each other it was up to 7 points off.

References:
    M. Hohenbichler, R. Rackwitz: First-order concepts in system reliability, Structural Safety 1, 1983.
    S. Gollwitzer, R. Rackwitz: Equivalent components in first-order system reliability, Reliability
    Engineering 5, 1983 (both from memory).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from schematics.units import HAIR
from schematics.wearer.normal import CERTAIN, below, both_below, density, deviate_of, normal_json

Errors = NDArray[np.float64]
"""A number for each of the independent errors."""

_NO_SD_CM, _FARTHEST = 1e-9, CERTAIN - 0.5
_ALIKE, _LEAST_APART = 1 - 1e-12, 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something that happens where a margin is over nought.

    ``deviates`` is how many standard deviations the margin lies over nought, ``shares`` how much of one each
    error moves it: the squares of all add up to 1, or to 0 where nothing is in doubt. ``margin_cm`` and
    ``sd_cm`` are of the one comparison that decides it.
    """

    deviates: float
    shares: Errors
    margin_cm: float
    sd_cm: float

    @property
    def chance(self) -> float:
        """The chance that it happens."""
        return below(self.deviates)

    @property
    def otherwise(self) -> Event:
        """That it does not happen."""
        return replace(self, deviates=-self.deviates, shares=-self.shares, margin_cm=-self.margin_cm)


def over_nought_event(margin_cm: float, slopes_cm: Errors) -> Event:
    """That a margin is over nought, which each error moves by so much if it is one standard deviation."""
    sd_cm = math.sqrt(slopes_cm @ slopes_cm)
    if sd_cm <= _NO_SD_CM:
        deviates, shares = (CERTAIN if margin_cm > HAIR else -CERTAIN), np.zeros_like(slopes_cm)
    else:
        deviates, shares = min(_FARTHEST, max(-_FARTHEST, margin_cm / sd_cm)), slopes_cm / sd_cm
    return Event(deviates=deviates, shares=shares, margin_cm=margin_cm, sd_cm=sd_cm)


def all_of(events: Sequence[Event]) -> Event:
    """That all of them happen; those that are most alike are put together first."""
    events = list(events)
    while len(events) > 1:
        one, other = max(
            itertools.combinations(range(len(events)), 2),
            key=lambda pair: float(events[pair[0]].shares @ events[pair[1]].shares),
        )
        together = _both(events[one], events[other])
        events = [each for place, each in enumerate(events) if place not in (one, other)]
        events.append(together)
    return events[0]


def any_of(events: Sequence[Event]) -> Event:
    """That one of them happens, or more."""
    return all_of([each.otherwise for each in events]).otherwise


def _both(one: Event, other: Event) -> Event:
    for certain, rest in ((one, other), (other, one)):
        if abs(certain.deviates) >= CERTAIN:
            return rest if certain.deviates > 0 else certain
    decides = min(one, other, key=lambda each: each.margin_cm)
    alike = float(one.shares @ other.shares)
    if alike >= _ALIKE:
        surest = min(one, other, key=lambda each: each.deviates)
        return replace(surest, margin_cm=decides.margin_cm, sd_cm=decides.sd_cm)
    apart = max(_LEAST_APART, math.sqrt(max(0.0, 1 - alike * alike)))
    moved = _weight(one, other, alike, apart) * one.shares + _weight(other, one, alike, apart) * other.shares
    size = math.sqrt(moved @ moved)
    return Event(
        deviates=deviate_of(both_below(one.deviates, other.deviates, alike)),
        shares=moved / size if size > 0 else decides.shares,
        margin_cm=decides.margin_cm,
        sd_cm=decides.sd_cm,
    )


def _weight(one: Event, other: Event, alike: float, apart: float) -> float:
    """How much the chance that both happen grows with the deviates of one."""
    return density(one.deviates) * below((other.deviates - alike * one.deviates) / apart)


def events_json() -> dict[str, Any]:
    """The numbers that these are put together by, as plain JSON values, for a page that has the functions."""
    return {
        "certain": CERTAIN,
        "farthest": _FARTHEST,
        "no_sd_cm": _NO_SD_CM,
        "alike": _ALIKE,
        "least_apart": _LEAST_APART,
        "normal": normal_json(),
    }
