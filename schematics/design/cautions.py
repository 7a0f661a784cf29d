"""The cautions that go with every output meant for a maker, each with where it comes from.

They defer to local rules and to the maker's own judgement: the program checks measurements, it
does not certify safety. The sources were read in public summaries; none of them is about ponchos in
particular, and rules differ by country.
"""

from __future__ import annotations

from dataclasses import dataclass

from schematics.design.limits import COMMON
from schematics.units import CM_PER_INCH, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution: the sentence for the maker and its source; ``young`` are repeated for the smallest."""

    sentence: str
    source: str
    young: bool = False


_PAEDIATRICS = "American Academy of Pediatrics, via news pages"

HEADING = "Before it is worn"

_LOCAL_RULES = "local rules and your own judgement come first"

YOUNG_YEARS, YOUNG_CM = 7.0, 134.0
"""Up to this age or height the standard allows no cords at the neck: EN 14682:2014."""
YOUNG_IN = {
    Unit.CM: f"{YOUNG_YEARS:g} years or {YOUNG_CM:g} cm",
    Unit.IN: f"{YOUNG_YEARS:g} years or {YOUNG_CM / CM_PER_INCH:.0f} in",
}
"""That in words, where all lengths are in one unit."""

_YOUNG = f"{YOUNG_IN[Unit.CM]} ({YOUNG_CM / CM_PER_INCH:.0f} in)"

CAUTIONS = (
    Caution(
        sentence=f"Up to {_YOUNG} no cords, ties, tassels or fringe at the neck and upper chest.",
        source="after EN 14682:2014; 76 FR 42502, 16 CFR 1120; ASTM F1816",
        young=True,
    ),
    Caution(
        sentence="Nothing small that can come off, for children under three.",
        source="16 CFR 1501 exempts clothing and its buttons: advice only",
        young=True,
    ),
    Caution(
        sentence="In a car seat take it off or spread it over the harness, never under it.",
        source=_PAEDIATRICS,
    ),
    Caution(sentence="Not for sleeping.", source=_PAEDIATRICS),
    Caution(
        sentence="Keep the hem clear of the feet and of play equipment, and loose clothes away from flames.",
        source=COMMON,
    ),
    Caution(sentence="Sizes are not ages: the child's own measurements come first.", source=COMMON),
    Caution(
        sentence=f"These figures do not promise safety: {_LOCAL_RULES}.",
        source=COMMON,
    ),
)

_OF_THE_YOUNG = " ".join(each.sentence for each in CAUTIONS if each.young)

ALONE = f"{_OF_THE_YOUNG} {_LOCAL_RULES[0].upper()}{_LOCAL_RULES[1:]}."
"""What goes with a slip of paper that leaves the others behind: a child's neck and mouth."""
