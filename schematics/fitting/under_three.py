"""The caution for the smallest, printed where the verdict is: of whom, and in what words."""

from __future__ import annotations

from schematics.checks.rules.judging import inputs_of
from schematics.design.cautions import CAUTIONS
from schematics.fitting.sizing import SizeFit
from schematics.wearer.body import Body, Wearer, WearerSpec
from schematics.wearer.evaluator import evaluator_of
from schematics.wearer.expr import End, OfBody, OfWearer, either, every, first, less
from schematics.wearer.resolve import resolve

CAREFUL_YEARS = 3.0
"""Under that age nothing small may come off, see `schematics.design.cautions`."""

UNDER_THREE = either(
    less(OfWearer("age_years"), CAREFUL_YEARS),
    every(
        less(
            OfBody(Body.HEIGHT, End.TYPICAL),
            resolve(WearerSpec(age_years=CAREFUL_YEARS), "three").values[Body.HEIGHT].cm,
        ),
        less(first(OfWearer("age_years"), -1.0), 0.0),
    ),
)
"""Whether a child is under three, by her age or, where that is not known, by the typical height at it."""

WORDS = f"For a child under three: {' '.join(each.sentence for each in CAUTIONS if each.young)}"

_IS_UNDER_THREE = evaluator_of(UNDER_THREE)


def under_three(fit: SizeFit) -> tuple[str, ...]:
    """`WORDS` where the wearer of a size is under three, or where her size is for such and she may be."""
    wearer = fit.case.wearer
    if wearer.age_years is None and wearer.get(Body.HEIGHT) is None:
        wearer = resolve(fit.at_gauge.size.wearer, fit.name)
    return (WORDS,) if _is_young(wearer) else ()


def _is_young(wearer: Wearer) -> bool:
    return bool(_IS_UNDER_THREE(inputs_of(wearer).taking(False)))
