"""The trade's centre back neck to wrist beside the survey's: where they are far apart, that is offered."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from schematics.units import Grain, Unit, figure
from schematics.wearer.body import Body, BodyValue
from schematics.wearer.estimates import SUMS, share_of_stature
from schematics.wearer.evaluator import Inputs, evaluator_of
from schematics.wearer.survey import SURVEY, height

ARM = Body.CENTRE_BACK_NECK_TO_WRIST

FAR_FRACTION = 0.05
"""Two tables that differ by more than this are both printed (common practice, no source)."""


@cache
def surveyed_cm(age_years: float) -> float:
    """The length that the survey's medians add up to at an age, in cm."""
    measures, _ = SUMS[ARM]
    share = evaluator_of(share_of_stature(measures, "both"))
    return height(age_years, "both").cm * float(share(Inputs(body={}, age_years=age_years)))


def far_words(value: BodyValue, age_years: float) -> str:
    """By how much the trade's length is off the survey's, such as ``12 % over``; empty where near."""
    over = value.cm / surveyed_cm(age_years) - 1
    far = abs(over) > FAR_FRACTION
    return f"{abs(over) * 100:.0f} % {'over' if over > 0 else 'under'}" if far else ""


def beside_the_survey(value: BodyValue, age_years: float) -> BodyValue:
    """A length of the trade's chart whose source names the survey's, where they are far apart."""
    surveyed = surveyed_cm(age_years)
    if not (side := far_words(value, age_years)):
        return value
    length = figure(surveyed, Unit.CM, Grain.USUAL)
    note = (
        f"{side} the {length} cm that the medians of {SURVEY} add up to; "
        f"for that length write {ARM.value}: {length} cm"
    )
    return replace(value, source=f"{value.source}; {note}")
