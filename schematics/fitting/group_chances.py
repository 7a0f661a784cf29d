"""Of many wearers, how often what is not sure in each one's best size holds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from schematics.checks.rules.sure_columns import SureColumns
from schematics.design.limits import Limits
from schematics.fitting.sizing import SizeFit
from schematics.fitting.wearer_columns import Judged, doubtful, sure_garments_of, with_all_at
from schematics.wearer.evaluator import Inputs
from schematics.wearer.expr import End


def unsure_chances(
    limits: Limits, sizes: Sequence[SizeFit], inputs: Inputs, judged: Judged
) -> Mapping[int, Mapping[str, float]]:
    """The chance that each rule holds that is unsure at a wearer's best size, by wearer and code.

    Args:
        limits: the design's.
        sizes: its sizes as they are made.
        inputs: the wearers with the spread of what is known of them.
        judged: what is found of them.
    """
    garments, unsure = sure_garments_of(sizes, limits), judged.unsure_at_best()
    wearers = doubtful(with_all_at(inputs, End.TYPICAL, certain=False))
    columns = SureColumns(wearers, limits, max(each.steepest for each in garments))
    found: dict[int, dict[str, float]] = {}
    for row, code in enumerate(judged.codes):
        for place, garment in enumerate(garments):
            doubted = np.flatnonzero(unsure[row] & (judged.best == place))
            if len(doubted):
                chances = columns.holds(code, doubted, garment)
                for wearer, chance in zip(doubted.tolist(), chances.tolist(), strict=True):
                    found.setdefault(wearer, {})[code] = chance
    return found
