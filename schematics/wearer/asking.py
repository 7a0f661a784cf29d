"""Measurements that hardly any body has, by its age or beside its others: they are asked about, and taken."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from schematics.units import CM_PER_INCH, Grain, Unit, printed
from schematics.wearer.age_words import age_words, age_words_json
from schematics.wearer.body import Body, BodyValue, Origin, Wearer, WearerSpec
from schematics.wearer.plausible import plausible_cm, slip_json
from schematics.wearer.resolve import resolve
from schematics.wearer.rows import references

ASKED_HEADING = "Is this right? It is taken as it was given"
ASK = "ask"
"""How a question is marked among verdicts: it is none."""
QUESTION = "{length} is far {side} any {name} {beside} (usually {low} to {high}). {guess}"
AT_AGE = "at the age of {age}"
BESIDE = "beside a {name} of {length}"
SIDES = ("below", "above")
GUESSES: Mapping[Unit, tuple[float, str, str]] = {
    Unit.CM: (CM_PER_INCH, "Inches?", "Is the {name} in inches?"),
    Unit.IN: (1 / CM_PER_INCH, "Centimetres?", "Is the {name} in centimetres?"),
}
"""By the unit that lengths are typed in: what one is to be times if it is in the other, and what is asked; of
one of two measurements, too."""
NO_GUESS = "Is that right?"
OF_TWO = (
    "One of two is hardly right, {one} {one_length} or {other} {other_length}: beside that {other} "
    "{one_low} to {one_high} is usual, beside that {one} {other_low} to {other_high}. {guess}"
)
NO_GUESS_OF_TWO = "Which is it?"

_END_SDS = 1.645
"""Standard deviations from the middle of the age table to its 5th and 95th percentile."""

_FAR = 5 / _END_SDS
"""Five standard deviations, in such distances."""

_UPRIGHT = (Body.NAPE_HEIGHT, Body.WAIST_HEIGHT, Body.HIP_HEIGHT, Body.KNEE_HEIGHT)
_SLACK, _UPRIGHT_SLACK = 0.25, 0.1
"""How far beyond all tables a ratio may be, as a fraction of it; heights are alike in all bodies."""

_PAIRS: tuple[tuple[Body, Body], ...] = (
    *((body, Body.HEIGHT) for body in Body if body is not Body.HEIGHT),
    (Body.WAIST_HEIGHT, Body.NAPE_HEIGHT),
    (Body.HIP_HEIGHT, Body.WAIST_HEIGHT),
    (Body.KNEE_HEIGHT, Body.HIP_HEIGHT),
    (Body.HAND_GIRTH, Body.WRIST_GIRTH),
    (Body.NECK_GIRTH, Body.HEAD_GIRTH),
    (Body.WRIST_GIRTH, Body.UPPER_ARM_GIRTH),
    (Body.UPPER_ARM_GIRTH, Body.CHEST_GIRTH),
)


@dataclass(frozen=True, slots=True)
class Bounds:
    """What is asked about below ``low`` and above ``high``, and the ends of what is usual."""

    low: float
    high: float
    usual_low: float
    usual_high: float

    def times(self, length_cm: float) -> Bounds:
        """The bounds of a length, where these are of its ratio to one of ``length_cm``."""
        return Bounds(*(length_cm * each for each in self))

    @property
    def turned(self) -> Bounds:
        """The bounds of the ratio turned upside down."""
        return Bounds(1 / self.high, 1 / self.low, 1 / self.usual_high, 1 / self.usual_low)

    def __iter__(self) -> Iterator[float]:
        return iter((self.low, self.high, self.usual_low, self.usual_high))

    def __contains__(self, value: float) -> bool:
        return self.low <= value <= self.high


@cache
def bounds_at_age(age_years: float) -> Mapping[Body, Bounds]:
    """Centimetres at an age, of each measurement that the age table has there, and of what follows from it.

    An estimate's spread is that of what it follows from and its own error together.
    """
    values = resolve(WearerSpec(age_years=age_years), "asked").values
    return {body: _of_spread(value) for body, value in values.items() if not value.held}


def _of_spread(value: BodyValue) -> Bounds:
    own_cm = _END_SDS * value.sd_cm
    down, up = (math.hypot(end - value.cm, own_cm) for end in (value.low_cm, value.high_cm))
    return Bounds(value.cm - _FAR * down, value.cm + _FAR * up, value.cm - down, value.cm + up)


@cache
def bounds_beside() -> Mapping[tuple[Body, Body], Bounds]:
    """The ratio of one measurement to another over all tables."""
    everyone = [resolve(WearerSpec(chart=reference), reference).values for reference in references()]
    bounds = {}
    for one, other in _PAIRS:
        slack = _UPRIGHT_SLACK if one in _UPRIGHT else _SLACK
        ratios = [each[one].cm / each[other].cm for each in everyone if one in each and other in each]
        low, high = min(ratios), max(ratios)
        bounds[one, other] = Bounds(low * (1 - slack), high * (1 + slack), low, high)
    return bounds


@dataclass(frozen=True, slots=True)
class Misfit:
    """A measurement that is far from usual beside another; the bounds are the one's."""

    one: Body
    other: Body
    bounds: Bounds


def questions(own: Mapping[Body, float], age_years: float | None, unit: Unit) -> dict[Body, str]:
    """What is to be asked about somebody's measurements, a sentence for each.

    A measurement is asked about by the age first. Of two that do not go together the one that goes with fewer
    others is, else both, in one sentence.

    Args:
        own: what was measured, in cm.
        age_years: the age, if it is known.
        unit: what they were typed in where they do not say theirs; that of the sentences.

    >>> questions({Body.HEIGHT: 46}, 6, Unit.CM)[Body.HEIGHT]
    '46 cm is far below any height at the age of 6 years (usually 105.9 cm to 123.7 cm). Inches?'
    """
    asked = {}
    if age_years is not None:
        beside = AT_AGE.format(age=age_words(age_years))
        for body, bounds in bounds_at_age(age_years).items():
            if body in own and own[body] not in bounds:
                asked[body] = _question(body, own[body], bounds, beside, unit)
    apart = [
        (Misfit(one, other, first), Misfit(other, one, ratio.turned.times(own[one])))
        for (one, other), ratio in bounds_beside().items()
        if one in own and other in own and asked.keys().isdisjoint((one, other))
        if own[one] not in (first := ratio.times(own[other]))
    ]
    times = Counter(each.one for pair in apart for each in pair)
    for pair in apart:
        both = [each.one for each in pair]
        if not asked.keys().isdisjoint(both):
            continue
        if times[both[0]] == times[both[1]]:
            asked |= dict.fromkeys(both, _question_of_two(own, pair, unit))
        else:
            odd = max(pair, key=lambda each: times[each.one])
            beside = BESIDE.format(name=odd.other.words, length=_length(own[odd.other], unit))
            asked[odd.one] = _question(odd.one, own[odd.one], odd.bounds, beside, unit)
    return asked


def distinct_questions(asked: Mapping[Body, str]) -> tuple[str, ...]:
    """The sentences of what is asked, each once."""
    return tuple(dict.fromkeys(asked.values()))


def questions_of(wearer: Wearer, unit: Unit) -> dict[Body, str]:
    """What is asked about a wearer's own measurements, by the measurement."""
    own = {body: value.cm for body, value in wearer.values.items() if value.origin is Origin.OWN}
    return questions(own, wearer.age_years, unit)


def _doubtful(own: Mapping[Body, NDArray[np.float64]], ages: NDArray[np.float64]) -> NDArray[np.bool_]:
    doubtful = np.zeros(len(ages), dtype=bool)
    years, place = np.unique(ages, return_inverse=True)
    by_age = [{} if np.isnan(each) else bounds_at_age(each) for each in years.tolist()]
    for body, column in own.items():
        bounds = [each.get(body) for each in by_age]
        ends = np.array([(np.nan, np.nan) if each is None else (each.low, each.high) for each in bounds])
        low, high = ends.reshape(-1, 2)[place].T
        doubtful |= (column < low) | (column > high)
    for (one, other), ratio in bounds_beside().items():
        if one in own and other in own:
            doubtful |= (own[one] < ratio.low * own[other]) | (own[one] > ratio.high * own[other])
    return doubtful


def group_questions(
    own: Mapping[Body, NDArray[np.float64]], ages: NDArray[np.float64], unit: Unit
) -> dict[int, tuple[str, ...]]:
    """What is to be asked of each of many, by their places; not a number stands for what is not known."""
    asked = {}
    for place in np.flatnonzero(_doubtful(own, ages)).tolist():
        measured = {body: float(column[place]) for body, column in own.items() if not np.isnan(column[place])}
        age = None if np.isnan(ages[place]) else float(ages[place])
        asked[place] = distinct_questions(questions(measured, age, unit))
    return asked


def asking_json(bodies: Sequence[Body]) -> dict[str, Any]:
    """The bounds of these measurements, and the words, those of what no body has too, as plain JSON values.

    At an age a measurement is asked about that is ``far`` times as far from the middle of the age table as
    its low or high end is; see `schematics.fitting.completion`. An estimate's own error is ``end_sds``
    standard deviations at either end.
    """
    return {
        "far": _FAR,
        "end_sds": _END_SDS,
        "ages": age_words_json(),
        "beside": [
            [one.value, other.value, list(ratio)]
            for (one, other), ratio in bounds_beside().items()
            if one in bodies and other in bodies
        ],
        "question": QUESTION,
        "at_age": AT_AGE,
        "beside_words": BESIDE,
        "sides": list(SIDES),
        "guesses": {unit.value: list(guess) for unit, guess in GUESSES.items()},
        "no_guess": NO_GUESS,
        "of_two": OF_TWO,
        "no_guess_of_two": NO_GUESS_OF_TWO,
        "slip": slip_json(),
    }


def _length(length_cm: float, unit: Unit) -> str:
    return printed(length_cm, unit, Grain.USUAL)


def _question(body: Body, length_cm: float, bounds: Bounds, beside: str, unit: Unit) -> str:
    return QUESTION.format(
        length=_length(length_cm, unit),
        side=SIDES[length_cm > bounds.high],
        name=body.words,
        beside=beside,
        low=_length(bounds.usual_low, unit),
        high=_length(bounds.usual_high, unit),
        guess=GUESSES[unit][1] if _in_other_unit(body, length_cm, bounds, unit) else NO_GUESS,
    )


def _question_of_two(own: Mapping[Body, float], pair: tuple[Misfit, Misfit], unit: Unit) -> str:
    one, other = pair
    meant = [each.one for each in pair if _in_other_unit(each.one, own[each.one], each.bounds, unit)]
    return OF_TWO.format(
        one=one.one.words,
        one_length=_length(own[one.one], unit),
        one_low=_length(one.bounds.usual_low, unit),
        one_high=_length(one.bounds.usual_high, unit),
        other=other.one.words,
        other_length=_length(own[other.one], unit),
        other_low=_length(other.bounds.usual_low, unit),
        other_high=_length(other.bounds.usual_high, unit),
        guess=GUESSES[unit][2].format(name=meant[0].words) if len(meant) == 1 else NO_GUESS_OF_TWO,
    )


def _in_other_unit(body: Body, length_cm: float, bounds: Bounds, unit: Unit) -> bool:
    """Whether it would be usual if it were typed in the other unit."""
    low, high = plausible_cm(body)
    meant = length_cm * GUESSES[unit][0]
    return meant in bounds and low <= meant <= high
