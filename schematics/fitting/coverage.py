"""Who is served: what share of the children of an age each size suits, and where the run leaves gaps.

Children of an age are spread about the age table's median as a normal curve that goes through its low
and high percentiles, on either side by itself. Lengths along the body follow the height (see
`schematics.wearer.estimates`), so reach and hang are correlated through it. Of head, hand and height the
tables give no correlation: they are taken as independent, and the bounds for any correlation are given.
A size suits a child for whom it is good with what of her was measured, and surely so, as `fit` says it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules import arms, hang, neck, reach
from schematics.checks.rules.sentence import Answer
from schematics.design.design import Design, Size
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.fitting.wearer_columns import complete, sure_answers, with_all_at
from schematics.fitting.workshop import NOBODY
from schematics.wearer.body import Body, BodyValue, WearerSpec
from schematics.wearer.evaluator import Inputs
from schematics.wearer.expr import End
from schematics.wearer.resolve import resolve

CRITERIA: Mapping[str, tuple[Body, tuple[str, ...]]] = {
    "head": (Body.HEAD_GIRTH, (neck.PASS,)),
    "hand": (Body.HAND_GIRTH, (arms.PASS,)),
    "reach": (Body.HEIGHT, (reach.BAND,)),
    "hang": (Body.HEIGHT, (hang.KNEE, hang.WHERE)),
}
"""What a size is held against, the measurement that varies, and the rules that must be good."""

CHILDREN = 2000
"""Children of an age, evenly by percentile, for each measurement: shares are good to 0.05 %."""

_GROWTH_Z, _SURVEY_Z = NormalDist().inv_cdf(0.97), NormalDist().inv_cdf(0.95)
"""Deviates of the high end of the growth references and of the survey."""

_HEIGHTS = ((2.0, 2.75), (_GROWTH_Z, _SURVEY_Z))
"""Heights to two years are from a growth reference, from the middle of the survey's first ages from that."""

Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsure:
    """What share more of the children of an age a size would suit, were it sure by one of `CRITERIA`.

    ``typical_cm`` is the measurement of the middle one for whom it is not, not a number where there is none.
    """

    fraction: float
    typical_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeShares:
    """What share of the children of an age a size suits.

    ``by`` is by each of `CRITERIA`, ``unsure`` what all lack for it; ``all`` by all of them, ``all_low`` and
    ``all_high`` are what it could be with any correlation of head, hand and height.
    """

    by: Mapping[str, float]
    unsure: Mapping[str, Unsure]
    all: float
    all_low: float
    all_high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AgeShares:
    """The children of one age: shares by size, and the shares whom no size suits and whom several do."""

    age_years: float
    sizes: Mapping[str, SizeShares]
    none: float
    several: float


def coverage(design: Design, sizes: Sequence[Size], ages: Sequence[float]) -> tuple[AgeShares, ...]:
    """What share of the children of each age each size suits."""
    fits = [size_fit(design, size_at_gauge(design, size), NOBODY) for size in sizes]
    return tuple(_at_age(design, fits, age) for age in ages)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Suited:
    """By one criterion, by size and child: whom a size surely suits, and whom it would, were it sure."""

    suits: Bools
    unsure: Bools
    lengths_cm: NDArray[np.float64]


def _independent(by: Mapping[str, Bools]) -> tuple[Bools, Bools, Bools]:
    """Whom sizes suit by head, by hand, and by what follows from the height."""
    return by["head"], by["hand"], by["reach"] & by["hang"]


def _at_age(design: Design, sizes: Sequence[SizeFit], age: float) -> AgeShares:
    suited = {name: _suited(design, sizes, age, name) for name in CRITERIA}
    shares = {size.name: _shares(suited, place) for place, size in enumerate(sizes)}
    none, several = _together(_independent({name: each.suits for name, each in suited.items()}))
    return AgeShares(age_years=age, sizes=shares, none=none, several=several)


def _shares(suited: Mapping[str, _Suited], place: int) -> SizeShares:
    suits = {name: each.suits[place] for name, each in suited.items()}
    shares = [float(each.mean()) for each in _independent(suits)]
    together = math.prod(shares)

    def unsure(name: str, each: _Suited) -> Unsure:
        sure = _independent(suits | {name: suits[name] | each.unsure[place]})
        lengths = each.lengths_cm[each.unsure[place]]
        return Unsure(
            fraction=math.prod(float(some.mean()) for some in sure) - together,
            typical_cm=float(lengths[len(lengths) // 2]) if len(lengths) else math.nan,
        )

    return SizeShares(
        by={name: float(each.mean()) for name, each in suits.items()},
        unsure={name: unsure(name, each) for name, each in suited.items()},
        all=together,
        all_low=max(0.0, sum(shares) - (len(shares) - 1)),
        all_high=min(shares),
    )


def _suited(design: Design, sizes: Sequence[SizeFit], age: float, criterion: str) -> _Suited:
    body, codes = CRITERIA[criterion]
    inputs = with_all_at(children(age, body), End.TYPICAL, certain=False)
    found = sure_answers(design.limits, sizes, inputs, codes)
    good = found.answers == Answer.GOOD
    suits: Bools = good.all(axis=1)
    unsure: Bools = (good | found.unsure).all(axis=1) & ~suits
    return _Suited(suits=suits, unsure=unsure, lengths_cm=np.asarray(inputs.body[body].cm))


def children(age: float, body: Body) -> Inputs:
    """Children of an age in years who differ in one measurement, evenly by percentile.

    What is estimated from that measurement follows it.
    """
    value = resolve(WearerSpec(age_years=age), "the age table").values[body]
    z_of_table = {Body.HEAD_GIRTH: _GROWTH_Z, Body.HEIGHT: float(np.interp(age, *_HEIGHTS))}.get(
        body, _SURVEY_Z
    )
    percentiles = (np.arange(CHILDREN) + 0.5) / CHILDREN
    z = np.array([NormalDist().inv_cdf(each) for each in percentiles])
    return complete({body: _spread(value, z_of_table, z)}, np.full(CHILDREN, age))


def _spread(value: BodyValue, z_of_table: float, z: NDArray[np.float64]) -> NDArray[np.float64]:
    below, above = value.cm - value.low_cm, value.high_cm - value.cm
    lengths: NDArray[np.float64] = value.cm + z / z_of_table * np.where(z < 0, below, above)
    return lengths


def _together(independent: Sequence[Bools]) -> tuple[float, float]:
    """The shares of the children whom no size suits, and whom two or more do.

    Children whom the same sizes suit by one criterion are taken together, so every combination of the
    three is looked at, with its weight.
    """
    none = several = 0.0
    groups = [np.unique(each, axis=1, return_counts=True) for each in independent]
    (heads, head_counts), (hands, hand_counts), (lengths, length_counts) = groups
    for i, head_count in enumerate(head_counts):
        for j, hand_count in enumerate(hand_counts):
            sizes = (heads[:, i] & hands[:, j])[:, None] & lengths
            weights = head_count * hand_count * length_counts / CHILDREN**3
            none += float(weights[sizes.sum(axis=0) == 0].sum())
            several += float(weights[sizes.sum(axis=0) > 1].sum())
    return none, several
