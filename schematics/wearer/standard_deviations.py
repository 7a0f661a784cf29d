"""By how much what is measured may be off: the standard deviation of every input, each written once.

An error is taken as normal, and one input's as independent of another's.
"""

from __future__ import annotations

from statistics import NormalDist
from typing import Any

import numpy as np

from schematics.wearer.body import Body, BodyValue, Origin

READING_COUNT = 0.5
"""Stitches or rows that a count over a swatch may be off: the last one is read to half of it (common
practice, no source)."""

DRIFT_FRACTION = 0.02
"""How much looser or tighter a maker works the piece than the swatch (common practice, no source)."""

STRETCH_FRACTION = 1 / 3
"""How much of itself a stretch pulled once by hand may be off: nobody pulls alike twice (common practice, no
source)."""

OWN_CM = 0.5
"""How far a girth or length taken with a tape may be off (common practice, no source)."""

_HIGH_END = {Body.HEAD_GIRTH: 0.97}
"""The share of children below the high end of an age table, where it is another than the survey's."""

_SURVEY_HIGH_END = 0.95


def reading_fraction(count: float) -> float:
    """How much of itself a count over a swatch may be off.

    >>> reading_fraction(20)
    0.025
    """
    return READING_COUNT / count


def stretch_fraction(pulls: Any) -> Any:
    """How much of itself a stretch may be off that is the mean of so many pulls, each measured anew.

    The errors of pulls are independent, so that of their mean shrinks with the root of their number.
    """
    return STRETCH_FRACTION / np.sqrt(pulls)


def body_sd_cm(body: Body, value: BodyValue, *, person: bool) -> float:
    """How far a measurement may be off, apart from what it is estimated from.

    One person's may be anywhere in the spread of her age where it was not taken. Of a size that serves many
    a figure is what is asked for, so only an estimate is in doubt.
    """
    if value.origin is Origin.ESTIMATE:
        return value.sd_cm
    if not person:
        return 0.0
    if value.origin is Origin.OWN:
        return OWN_CM
    return (value.high_cm - value.low_cm) / spread_sds(body)


def spread_sds(body: Body) -> float:
    """How many standard deviations an age table's low and high end of a measurement are apart."""
    return 2 * NormalDist().inv_cdf(_HIGH_END.get(body, _SURVEY_HIGH_END))
