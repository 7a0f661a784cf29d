"""How far the answers go: softest and stiffest fabric, smoothest and roughest, cut up in two ways."""

from __future__ import annotations

from dataclasses import dataclass, fields
from itertools import cycle, product

from schematics.garment.cloth.draping import POINTS, Settled, settled, settled_again
from schematics.garment.cloth.material import ROUGHEST, SMOOTHEST, SOFTEST_CM, STIFFEST_CM, Feel
from schematics.garment.cloth.worn_heights import Answers, answers
from schematics.garment.garment import Garment
from schematics.wearer.body_figure import FigureSize

CORNERS = tuple(
    Feel(bending_length_cm=bending, friction=friction)
    for bending, friction in product((SOFTEST_CM, STIFFEST_CM), (SMOOTHEST, ROUGHEST))
)

_COARSER = 2 / 3
"""Points of a coarser mesh over those of the usual one: how folds fall hangs on how fabric is cut up, too."""

_ON_COARSER = (False, True, True, False)
"""Which corners are hung on the coarser mesh: each end of stiffness and of friction once on either."""

FINER_CM = 1.0
"""By how much hems of the five designs here, size 6, hang outside these ranges at most on triangles half as
long; see ``make bench``."""


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
    """The garment with the usual feel and with each at the corners, half of those on a coarser mesh.

    Raises:
        ClothError: a swatch was not weighed, or the garment cannot be worn.
    """
    usual = settled(garment, size, Feel(), points)
    all_hung = [usual.hung]
    coarser: Settled | None = None
    for feel, on_coarser in zip(corners, cycle(_ON_COARSER)):
        if not on_coarser:
            all_hung.append(settled_again(garment, usual, feel).hung)
            continue
        if coarser is None:
            coarser = settled(garment, size, feel, round(_COARSER * points))
        else:
            coarser = settled_again(garment, coarser, feel)
        all_hung.append(coarser.hung)
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
