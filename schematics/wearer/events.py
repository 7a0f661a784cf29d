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
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from schematics.units import HAIR
from schematics.wearer.normal import CERTAIN, Numbers, below, both_below, density, deviate_of, normal_json

Errors = NDArray[np.float64]
"""A number for each of the independent errors; for columns a row of numbers for each."""

_NO_SD_CM, _FARTHEST = 1e-9, CERTAIN - 0.5
_ALIKE, _LEAST_APART = 1 - 1e-12, 1e-6


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happens where a margin is over nought; for one case, or for columns of them.

    ``deviates`` is how many standard deviations the margin lies over nought, ``shares`` how much of one each
    error moves it: the squares of all add up to 1, or to 0 where nothing is in doubt. ``margin_cm`` and
    ``sd_cm`` are of the one comparison that decides it.
    """

    deviates: Numbers
    shares: Errors
    margin_cm: Numbers
    sd_cm: Numbers

    @property
    def chance(self) -> Numbers:
        """The chance that it happens."""
        return below(self.deviates)

    @property
    def otherwise(self) -> Event:
        """The event that this one does not happen."""
        return Event(-self.deviates, -self.shares, -self.margin_cm, self.sd_cm)

    def at(self, place: int) -> Event:
        """One of several, the first axis of whose columns are they."""
        return Event(self.deviates[place], self.shares[:, place], self.margin_cm[place], self.sd_cm[place])

    def rows(self, rows: NDArray[np.intp]) -> Event:
        """The event in some of the cases that its columns are of."""
        return Event(self.deviates[rows], self.shares[:, rows], self.margin_cm[rows], self.sd_cm[rows])

    def where(self, rows: Numbers, other: Event) -> Event:
        """This event in the cases that ``rows`` are true for, elsewhere the other."""
        return Event(
            _chosen(rows, self.deviates, other.deviates),
            _chosen(rows, self.shares, other.shares),
            _chosen(rows, self.margin_cm, other.margin_cm),
            _chosen(rows, self.sd_cm, other.sd_cm),
        )


def _chosen(rows: Numbers, one: Numbers, other: Numbers) -> Numbers:
    numbers: Numbers = np.where(rows, one, other)
    return numbers[()]


def over_nought_event(margin_cm: Numbers, slopes_cm: Errors) -> Event:
    """That a margin is over nought, which each error moves by so much if it is one standard deviation.

    What is not known is not over nought.
    """
    sd_cm = np.sqrt((slopes_cm * slopes_cm).sum(axis=0))
    doubtful = sd_cm > _NO_SD_CM
    by_sd = np.where(doubtful, sd_cm, 1.0)
    certain = np.where(margin_cm > HAIR, CERTAIN, -CERTAIN)
    deviates = np.where(doubtful, np.clip(margin_cm / by_sd, -_FARTHEST, _FARTHEST), certain)[()]
    return Event(deviates, np.where(doubtful, slopes_cm / by_sd, 0.0), margin_cm, sd_cm)


def all_of(events: Sequence[Event]) -> Event:
    """The event that all of them happen; those that are most alike are put together first."""
    events = list(events)
    while len(events) > 1:
        pairs = list(itertools.combinations(range(len(events)), 2))
        if len(pairs) == 1:
            return _both(*events)
        alike = np.array([_alike(events[one], events[other]) for one, other in pairs])
        chosen = alike.argmax(axis=0)
        events = [_put_together(events, pairs, chosen, place) for place in range(len(events) - 1)]
    return events[0]


def _put_together(
    events: Sequence[Event], pairs: Sequence[tuple[int, int]], chosen: Numbers, place: int
) -> Event:
    """What is at a place once in each case the chosen pair is one event, which then is the last."""
    combined: Event | None = None
    for number in np.unique(chosen):
        one, other = pairs[number]
        rest = [each for at, each in enumerate(events) if at not in (one, other)]
        here = rest[place] if place < len(rest) else _both(events[one], events[other])
        combined = here if combined is None else here.where(chosen == number, combined)
    assert combined is not None
    return combined


def any_of(events: Sequence[Event]) -> Event:
    """The event that at least one of them happens."""
    return all_of([each.otherwise for each in events]).otherwise


def _alike(one: Event, other: Event) -> Numbers:
    return (one.shares * other.shares).sum(axis=0)


def _both(one: Event, other: Event) -> Event:
    for certain, rest in ((one, other), (other, one)):
        if np.all(certain.deviates >= CERTAIN):
            return rest
        if np.all(certain.deviates <= -CERTAIN):
            return certain
    alike = _alike(one, other)
    tighter = _is_tighter(one, other)
    margin_cm = _chosen(tighter, one.margin_cm, other.margin_cm)
    sd_cm = _chosen(tighter, one.sd_cm, other.sd_cm)
    apart = np.maximum(_LEAST_APART, np.sqrt(np.maximum(0.0, 1 - alike * alike)))
    moved = _weight(one, other, alike, apart) * one.shares + _weight(other, one, alike, apart) * other.shares
    size = np.sqrt((moved * moved).sum(axis=0))
    shares = np.where(
        size > 0, moved / np.where(size > 0, size, 1.0), np.where(tighter, one.shares, other.shares)
    )
    together = Event(deviate_of(both_below(one.deviates, other.deviates, alike)), shares, margin_cm, sd_cm)
    less_sure = one.where(one.deviates <= other.deviates, other)
    one_event = Event(less_sure.deviates, less_sure.shares, margin_cm, sd_cm)
    together = one_event.where(alike >= _ALIKE, together)
    for certain, rest in ((other, one), (one, other)):
        together = rest.where(certain.deviates >= CERTAIN, together)
        together = certain.where(certain.deviates <= -CERTAIN, together)
    return together


def _is_tighter(one: Event, other: Event) -> Any:
    """Whether the first has the smaller margin or, of equal ones, is the less sure."""
    less_cm = other.margin_cm - one.margin_cm
    return np.where(np.abs(less_cm) <= HAIR, one.sd_cm >= other.sd_cm, less_cm > 0)


def _weight(one: Event, other: Event, alike: Numbers, apart: Numbers) -> Numbers:
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
