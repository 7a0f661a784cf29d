"""How far the answers go, between the softest and the stiffest fabric, the smoothest and the roughest."""

from __future__ import annotations

from dataclasses import dataclass, fields
from itertools import product

from schematics.garment.cloth.draping import POINTS, Settled, settled, settled_again
from schematics.garment.cloth.material import ROUGHEST, SMOOTHEST, SOFTEST_CM, STIFFEST_CM, Feel
from schematics.garment.cloth.worn_heights import Answers, answers
from schematics.garment.garment import Garment
from schematics.wearer.body_figure import FigureSize

CORNERS = tuple(
    Feel(bending_length_cm=bending, friction=friction)
    for bending, friction in product((SOFTEST_CM, STIFFEST_CM), (SMOOTHEST, ROUGHEST))
)

FINER_CM = 4.0
"""By how much hems of the five designs here, size 6, hang elsewhere at most on triangles half as long;
see ``make bench``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranged:
    """The usual answers, and the lowest and highest of each."""

    usual: Answers
    lowest: Answers
    highest: Answers


@dataclass(frozen=True, slots=True, kw_only=True)
class HungRanges:
    """The answers with the arms down and level, and the garment of the usual feel in both poses."""

    settled: Settled
    down: Ranged
    level: Ranged


def ranges(
    garment: Garment, size: FigureSize, points: int = POINTS, corners: tuple[Feel, ...] = CORNERS
) -> HungRanges:
    """The garment with the usual feel and with each at the corners, all from where it was put on.

    Raises:
        ClothError: a swatch was not weighed, or the garment cannot be worn.
    """
    usual = settled(garment, size, Feel(), points)
    all_hung = [usual.hung, *(settled_again(garment, usual, each).hung for each in corners)]
    return HungRanges(
        settled=usual,
        down=_ranged([answers(each.down) for each in all_hung]),
        level=_ranged([answers(each.level) for each in all_hung]),
    )


def _ranged(all_answers: list[Answers]) -> Ranged:
    names = [each.name for each in fields(Answers)]
    lowest = {name: min(getattr(each, name) for each in all_answers) for name in names}
    highest = {name: max(getattr(each, name) for each in all_answers) for name in names}
    return Ranged(usual=all_answers[0], lowest=Answers(**lowest), highest=Answers(**highest))
