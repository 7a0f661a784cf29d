"""What many wearers at once are advised: the best size of each, and whether it may be worn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from schematics.checks.neck_ties import is_young
from schematics.checks.rules.sentence import Answer
from schematics.design.design import Design
from schematics.fitting.sizing import SizeFit
from schematics.fitting.wearer_columns import Judged, judged
from schematics.wearer.body import Body
from schematics.wearer.evaluator import Inputs


@dataclass(frozen=True, slots=True, kw_only=True)
class Advised:
    """``judged`` has each one's best size; ``fits`` marks whom nothing stops in it and whose it may be."""

    judged: Judged
    fits: NDArray[np.bool_]

    @property
    def size(self) -> NDArray[np.intp]:
        """The place of the size each is advised; -1 where none fits."""
        return np.where(self.fits, self.judged.best, -1)

    @property
    def minded(self) -> NDArray[np.bool_]:
        """Who has something to mind in it."""
        worst = self.judged.at_best().max(axis=0, initial=Answer.GOOD)
        minded: NDArray[np.bool_] = self.fits & (worst == Answer.MIND)
        return minded

    @property
    def unknown(self) -> NDArray[np.intp]:
        """How many rules want a measurement, of each in the best size."""
        wanting: NDArray[np.intp] = (self.judged.at_best() == Answer.UNKNOWN).sum(axis=0)
        return wanting


def advised(design: Design, fits: Sequence[SizeFit], inputs: Inputs) -> Advised:
    """Every wearer's advice, by what is typical of what was not measured.

    Args:
        design: the design.
        fits: its sizes as they are made.
        inputs: the wearers with the spread of what is known of them.
    """
    result = judged(design, fits, inputs)
    stopped = np.array([not fit.is_workable for fit in fits])
    worst = result.at_best().max(axis=0, initial=Answer.GOOD)
    fits_nobody = stopped[result.best] | result.not_hers_at_best() | _tied(design, inputs)
    return Advised(judged=result, fits=(worst < Answer.STOP) & ~fits_nobody)


def _tied(design: Design, wearers: Inputs) -> NDArray[np.bool_]:
    """Those too young for the ties at the neck, if it has any."""
    if not design.neck_ties:
        return np.zeros(len(wearers.age_years), dtype=bool)
    young: NDArray[np.bool_] = is_young(wearers.age_years, wearers.body[Body.HEIGHT].cm) & ~wearers.adult
    return young
