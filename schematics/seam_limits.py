"""stub"""

from __future__ import annotations

import numpy as np

from schematics.limits import Limits
from schematics.linear import Numbers


def past_agreement_cm(first: Numbers, second: Numbers, row_cm: float, limits: Limits) -> Numbers:
    return np.abs(first - second) - np.maximum(
        row_cm / 2, limits.seam_mind_fraction * np.maximum(first, second)
    )


def past_stop_cm(first: Numbers, second: Numbers, row_cm: float, limits: Limits) -> Numbers:
    return np.abs(first - second) - np.maximum(
        np.maximum(row_cm, limits.seam_stop_cm), limits.seam_stop_fraction * np.maximum(first, second)
    )
