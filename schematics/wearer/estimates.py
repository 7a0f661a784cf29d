"""Lengths that no table gives for a wearer, from those that are known."""

from __future__ import annotations

from collections.abc import Mapping

from schematics.wearer.body import Body, Origin, Value
from schematics.wearer.survey import SURVEY, age_of_stature, stature_share
from schematics.wearer.tables import Sex

KNEE_SHARE = 0.285
"""Height of the knee over height of adults: Drillis and Contini 1966, from memory.

A child's knee is relatively lower, so a child's comes out too high: a hem that clears it is safe.
"""

ARMHOLE_SHARE = 0.46
"""Armhole depth over back waist length: the middle of the trade chart's rows for children, 0.43 to 0.50."""

SHARES: dict[Body, tuple[tuple[tuple[float, str], ...], str]] = {
    Body.CENTRE_BACK_NECK_TO_WRIST: (
        (
            (0.5, "biacromial_breadth"),
            (1, "shoulder_elbow_length"),
            (1, "elbow_hand_length"),
            (-1, "hand_length"),
        ),
        "half the biacromial breadth + shoulder to elbow + elbow to hand - hand length",
    ),
    Body.FOREARM_LENGTH: (
        ((1, "elbow_hand_length"), (-1, "hand_length")),
        "elbow to hand - hand length",
    ),
    Body.BACK_WAIST_LENGTH: (
        ((1, "suprasternale_height"), (-1, "waist_height")),
        "suprasternale height - waist height (from the front of the neck; the nape is higher)",
    ),
    Body.WAIST_HEIGHT: (((1, "waist_height"),), "waist height"),
    Body.HIP_HEIGHT: (((1, "hip_height_at_buttocks"),), "hip height at the buttocks"),
}
"""Lengths that follow from the height: factors and measures of the survey, and their sum in words."""


def estimates(known: Mapping[Body, Value], age_years: float | None, sex: Sex) -> dict[Body, Value]:
    """Lengths that are missing and follow from the height; the nape from waist and back, armhole from back.

    Args:
        known: what is known already; nothing of it is replaced.
        age_years: the wearer's age, None if unknown: then the age at which the wearer's height is
            the survey's median gives the proportions.
        sex: whose proportions.

    Returns:
        Only the added values, all `Origin.ESTIMATE`; their spread is that of what they follow from.
    """
    height = known.get(Body.HEIGHT)
    all_values = ({} if height is None else _from_height(height, age_years, sex)) | dict(known)
    waist, back = all_values.get(Body.WAIST_HEIGHT), all_values.get(Body.BACK_WAIST_LENGTH)
    if waist is not None and back is not None:
        all_values[Body.NAPE_HEIGHT] = Value(
            low_cm=waist.low_cm + back.low_cm,
            cm=waist.cm + back.cm,
            high_cm=waist.high_cm + back.high_cm,
            origin=Origin.ESTIMATE,
            source=f"estimated as waist height ({waist.origin}) + back waist length ({back.origin})",
        )
    if back is not None:
        all_values.setdefault(
            Body.ARMHOLE_DEPTH,
            _scaled(
                back,
                ARMHOLE_SHARE,
                f"estimated as {ARMHOLE_SHARE:g} x back waist length ({back.origin}), the middle of the "
                "Craft Yarn Council's rows for children",
            ),
        )
    return {body: value for body, value in all_values.items() if body not in known}


def _from_height(height: Value, age_years: float | None, sex: Sex) -> dict[Body, Value]:
    age = age_of_stature(height.cm, sex) if age_years is None else age_years
    found = {
        Body.KNEE_HEIGHT: _scaled(
            height,
            KNEE_SHARE,
            f"estimated as {KNEE_SHARE:g} x height (Drillis and Contini 1966, from memory; of adults, "
            "a child's knee is lower)",
        )
    }
    for body, (terms, words) in SHARES.items():
        share, where = stature_share(terms, age, sex)
        near = ", taken by height" if age_years is None else ""
        source = (
            f"estimated as {share:.3f} x height: {words}, over stature, medians of {SURVEY}, {where}{near}"
        )
        found[body] = _scaled(height, share, source)
    return found


def _scaled(height: Value, share: float, source: str) -> Value:
    return Value(
        low_cm=share * height.low_cm,
        cm=share * height.cm,
        high_cm=share * height.high_cm,
        origin=Origin.ESTIMATE,
        source=source,
    )
