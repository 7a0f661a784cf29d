"""Cords and ties at the neck: none on young children, few on older ones."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Any

import numpy as np

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.design.cautions import YOUNG_CM, YOUNG_IN, YOUNG_YEARS
from schematics.wearer.body import Body, Origin, Stage

NECK = "TIES-NECK"

_NAMES_ONE = re.compile(r"\b(cords?|cording|ties|drawstrings?|tassels?)\b", re.IGNORECASE)
"""Notions that may be meant for it."""


def check(case: Case) -> Iterator[Finding]:
    """The one finding on cords and ties at the neck, by one wearer or all those a size is for."""
    wearer, has = case.wearer, f"The neck has cords or ties, and {_who(case)}"
    notions = [each for each in case.design.publication.notions if _NAMES_ONE.search(each)]
    severity, sentence = Severity.GOOD, "No cords or ties are named at the neck."
    if wearer.stage is Stage.ADULT and (case.design.neck_ties or notions):
        sentence = "Cords and ties at the neck are left to a grown wearer."
    elif case.design.neck_ties and _young(case):
        severity = Severity.STOP
        sentence = (
            f"{has}: up to {YOUNG_IN[case.tape.unit]} there may be none, for they catch and pull tight. "
            "Leave them out; a wider or stretchier neck or a flat button does as well."
        )
    elif case.design.neck_ties:
        severity = Severity.MIND
        sentence = (
            f"{has}: nothing may pull tight across the throat or hang from it in free ends; a flat button is "
            "safer."
        )
    elif notions:
        severity = Severity.MIND
        sentence = (
            f"The notions name “{notions[0]}”, and {_who(case)}: if that is for the "
            "neck, say neck_ties: true."
        )
    yield case.finding(NECK, severity, "neck", sentence)


def is_young(age_years: Any, height_cm: Any) -> Any:
    """Whether a child is too young for cords at the neck; for one or for columns, not a number where unknown.

    Who is neither of known age nor of known height is taken for a young child.
    """
    by_height = np.where(np.isnan(height_cm), np.isnan(age_years), np.less_equal(height_cm, YOUNG_CM))
    return np.less(age_years, YOUNG_YEARS) | by_height


def _young(case: Case) -> bool:
    age, height = case.wearer.age_years, case.wearer.get(Body.HEIGHT)
    return bool(is_young(math.nan if age is None else age, math.nan if height is None else height.cm))


def _who(case: Case) -> str:
    wearer, height = case.wearer, case.wearer.get(Body.HEIGHT)
    subject = "the poncho is for" if wearer.person else "the size is for"
    if wearer.age_years is None and height is None:
        return f"{subject} a child of unknown age"
    age = "" if wearer.age_years is None else f" of {wearer.age_years:.2g} years"
    if height is None:
        return f"{subject} a child{age}"
    typically = "" if height.origin is Origin.OWN else "typically "
    return f"{subject} a child{age}, {typically}{case.tape.length(height.cm)} tall"


FAMILY = Family(
    name="neck ties",
    check=check,
    making=lambda _: iter(()),
    explanations=(
        Explanation(
            code=NECK,
            title="Nothing is tied at a child's neck",
            meaning=(
                "A cord at the neck catches on play equipment, a door or a bus and pulls tight. So a spec "
                "says whether the neck has cords, ties, a drawstring or tassels (neck_ties: true); notions "
                "that sound like one are asked about. A size for a child under "
                f"{YOUNG_YEARS:g} years or up to {YOUNG_CM:g} cm tall, or of whom neither is known, stops; "
                "for an older child it is to be minded. The program reads what the spec says and no more: it "
                "does not tell whether a garment meets a standard, and your country's rules come first."
            ),
            cure=(
                "Leave cords and ties out: work a wider or stretchier neck, or a slit with a flat button "
                "that is sewn on firmly."
            ),
            origin=(
                "EN 14682:2014, cords and drawstrings on children's clothing: young children are those under "
                f"{YOUNG_YEARS:g} years and up to {YOUNG_CM:g} cm. In the United States ASTM F1816, 76 FR "
                "42502 and 16 CFR 1120, on drawstrings at hood and neck of children's upper outerwear in "
                "sizes 2T to 12. Read in public summaries; none of them is about ponchos in particular."
            ),
        ),
    ),
)
