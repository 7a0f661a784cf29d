"""What changed counts do to a garment, in words."""

from __future__ import annotations

from collections.abc import Mapping

from schematics.analysis.side_effects import SEEN_CM, Effect, finished_effects
from schematics.checks.tape import Tape
from schematics.fitting.gauge import SizeAtGauge

LENGTHS: Mapping[str, str] = {
    "drop_cm": "hang",
    "neck.full_cm": "neck opening at full stretch",
    "arm.full_cm": "arm bands at full stretch",
    "reach_cm": "reach to the band's edge",
    "spread_cm": "spread from band to band",
    "girth.1.girth_cm": "girth at the hem",
}
"""The lengths that say most of a garment, by the fact."""


def together(before: SizeAtGauge, after: SizeAtGauge, tape: Tape) -> str:
    """All of that as a sentence."""
    lengths = [each.words(tape) for each in effects(before, after)]
    return f"Together: {', '.join(lengths)}." if lengths else "No length changes by as much as a tape shows."


def effects(before: SizeAtGauge, after: SizeAtGauge) -> tuple[Effect, ...]:
    """All that the changes do to the garment, as far as it can be seen on a tape.

    What says most of it comes first, then every finished measurement that has another length.
    """
    old, new = before.facts, after.facts
    changes = (Effect(key=key, name=name, change_cm=new[key] - old[key]) for key, name in LENGTHS.items())
    seen = (each for each in changes if abs(each.change_cm) >= SEEN_CM)
    return (*seen, *finished_effects(before.garment, after.garment))
