"""Cords and ties at the neck: none on young children, few on older ones."""

from __future__ import annotations

import re
from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.wearer.body import Body, Stage, Wearer
from schematics.wearer.resolve import resolve

NECK = "TIES-NECK"

YOUNG_YEARS, YOUNG_CM = 7.0, 134.0
"""Up to this age or height the standard allows no cords at the neck: EN 14682:2014."""

_NAMES_ONE = re.compile(r"\b(cords?|cording|ties|drawstrings?|tassels?)\b", re.IGNORECASE)
"""Notions that may be meant for it."""


def check(case: Case) -> Iterator[Finding]:
    """The one finding on cords and ties at the neck, by whom the size is meant for.

    A wearer of whom neither age nor height is known is taken for a young child.
    """
    wearer = resolve(case.size.wearer, case.size.name)
    notions = [each for each in case.design.publication.notions if _NAMES_ONE.search(each)]
    severity, sentence = Severity.GOOD, "No cords or ties are named at the neck."
    if wearer.stage is Stage.ADULT:
        sentence = "Cords and ties at the neck are left to a grown wearer."
    elif case.design.neck_ties and _is_young(wearer):
        severity = Severity.STOP
        sentence = (
            f"The neck has cords or ties, and the size is for {_who(case, wearer)}: up to {YOUNG_YEARS:g} "
            f"years or {YOUNG_CM:g} cm there may be none, for they catch and pull tight. Leave them out; a "
            "wider or stretchier neck or a flat button does as well."
        )
    elif case.design.neck_ties:
        severity = Severity.MIND
        sentence = (
            f"The neck has cords or ties, and the size is for {_who(case, wearer)}: nothing may pull tight "
            "across the throat or hang from it in free ends; a flat button is safer."
        )
    elif notions:
        severity = Severity.MIND
        sentence = (
            f"The notions name “{notions[0]}”, and the size is for {_who(case, wearer)}: if that is for the "
            "neck, say neck_ties: true."
        )
    yield case.finding(NECK, severity, "neck", sentence)


def _is_young(wearer: Wearer) -> bool:
    height = wearer.get(Body.HEIGHT)
    by_age = wearer.age_years is not None and wearer.age_years < YOUNG_YEARS
    return by_age or (height.cm <= YOUNG_CM if height else wearer.age_years is None)


def _who(case: Case, wearer: Wearer) -> str:
    height = wearer.get(Body.HEIGHT)
    if wearer.age_years is None and height is None:
        return "a child of unknown age"
    age = "" if wearer.age_years is None else f" of {wearer.age_years:.2g} years"
    return f"a child{age}" + ("" if height is None else f", typically {case.tape.length(height.cm)} tall")


FAMILY = Family(
    name="neck ties",
    check=check,
    explanations=(
        Explanation(
            code=NECK,
            title="Nothing is tied at a child's neck",
            meaning=(
                "A cord at the neck catches on play equipment, a door or a bus and pulls tight. So a spec "
                "says whether the neck has cords, ties, a drawstring or tassels (neck_ties: true); notions "
                "that sound like one are asked about. A size for a child under seven years or up to 134 cm "
                "tall, or of whom neither is known, stops; for an older child it is to be minded. The "
                "program reads what the spec says and no more: it does not tell whether a garment meets a "
                "standard, and your country's rules come first."
            ),
            cure=(
                "Leave cords and ties out: work a wider or stretchier neck, or a slit with a flat button "
                "that is sewn on firmly."
            ),
            origin=(
                "EN 14682:2014, cords and drawstrings on children's clothing: young children are those under "
                "7 years and up to 134 cm. In the United States ASTM F1816, 76 FR 42502 and 16 CFR 1120, on "
                "drawstrings at hood and neck of children's upper outerwear in sizes 2T to 12. Read in "
                "public summaries; none of them is about ponchos in particular."
            ),
        ),
    ),
)
