"""A hang on cloth with made-up answers: lengths that are easily reckoned with, and nothing worked out."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, cast

from schematics.garment.cloth.draping import Settled
from schematics.garment.cloth.ranges import HungRanges, Ranged
from schematics.garment.cloth.worn_heights import Answers
from schematics.garment.garment import Garment
from schematics.wearer.body_figure import FigureSize

ANSWERS = Answers(
    hem_back_cm=62.0,
    hem_side_cm=61.0,
    hem_front_cm=60.0,
    hem_lowest_cm=58.0,
    neck_back_cm=3.0,
    neck_beside_cm=9.0,
)
"""Heights above the floor, but for the neck."""


class _NotDrawn:
    hung = None


def ranged(**usual: float) -> Ranged:
    """The answers with these instead; all are 1 cm less at one end, and 2 cm more at the other."""
    middle = replace(ANSWERS, **cast("dict[str, Any]", usual))
    return Ranged(usual=middle, lowest=_off(middle, -1.0), highest=_off(middle, 2.0))


def _off(answers: Answers, cm: float) -> Answers:
    return Answers(**{name: getattr(answers, name) + cm for name in Answers.__slots__})


def made_up_ranges(_garment: Garment, _size: FigureSize, **_corners: object) -> HungRanges:
    """With the arms level the hem is 20 cm higher at the back and 4 at the front."""
    settled = cast("Settled", _NotDrawn())
    return HungRanges(
        settled=settled, down=ranged(), level=ranged(hem_back_cm=82.0, hem_front_cm=64.0, hem_lowest_cm=64.0)
    )
