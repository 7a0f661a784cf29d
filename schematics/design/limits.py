"""Every limit the checks hold a size against, in one place; a spec's ``limits:`` may change them."""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import Any

COMMON = "common practice, no source"
TOLERANCE_CM, TOLERANCE = 1.0, 0.03
"""How far a length may be off what was meant, the larger of both: in cm, and as a fraction of that."""

TOLERANCE_WORDS = f"{TOLERANCE_CM:g} cm or {TOLERANCE * 100:g} %, whichever is more"

BDIMS = "the bdims data of 507 adults (Heinz et al. 2003), published with openintro"


def _limit(
    default: float,
    words: str,
    source: str = COMMON,
    *,
    length: bool = False,
    between: tuple[float, float] | None = None,
) -> Any:
    ends = between or ((0, 100) if length else (-1, 2))
    return field(
        default=default, metadata={"words": words, "source": source, "length": length, "between": ends}
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Fractions are plain numbers (0.03 is 3 %); names ending in ``_cm`` are lengths."""

    seam_mind_fraction: float = _limit(
        0.01, "seam edges may differ by this fraction before it is worth a note"
    )
    seam_mind_row_fraction: float = _limit(
        0.5, "seam edges may differ by this fraction of a row of the coarser before it is worth a note"
    )
    seam_stop_fraction: float = _limit(
        0.03,
        "seam edges that differ by more than this, by more than seam_stop_cm and by more than "
        "seam_stop_row_fraction do not meet",
    )
    seam_stop_cm: float = _limit(
        1.0, "a smaller difference than this eases in whatever the fraction", length=True
    )
    seam_stop_row_fraction: float = _limit(
        1.0, "a smaller fraction of a row of the coarser edge than this eases in whatever the fraction"
    )
    neck_clearance_cm: float = _limit(
        2.0, "a neck band at rest is at least this much longer than the neck girth", length=True
    )
    neck_slip_fraction: float = _limit(
        0.9, "a neck opening laid flat wider than this fraction of the shoulder breadth slips off"
    )
    arm_rest_low_fraction: float = _limit(
        -0.10, "an arm ring at rest tighter than the wrist by more than this grips"
    )
    arm_rest_high_fraction: float = _limit(
        0.35, "an arm ring at rest wider than the wrist by more than this hangs loose"
    )
    hem_sag_fraction: float = _limit(
        0.05, "the body is taken to grow this much longer by its own weight when worn", between=(0, 2)
    )
    knee_clearance_cm: float = _limit(0.0, "the hem stays at least this far above the knee", length=True)
    short_above_waist_cm: float = _limit(
        0.0, "a hem that comes higher above the waist than this is taken for too short", length=True
    )
    reach_wrist_cm: float = _limit(
        2.0, "an arm band that ends no farther than this from the wrist is at the wrist", length=True
    )
    reach_forearm_fraction: float = _limit(
        0.5, "an arm band that ends higher above the wrist than this fraction of the forearm is short"
    )
    reach_hand_cm: float = _limit(
        4.0, "an arm band that ends farther over the hand than this is in its way", length=True
    )
    spread_fraction: float = _limit(
        0.75, "the arm bands come apart to at least this fraction of twice centre back neck to wrist"
    )
    girth_body_fraction: float = _limit(
        1.162,
        "the body is at least this many times as wide round as the chest, as bodies measure with both arms",
        BDIMS,
        between=(1, 2),
    )
    girth_body_sd_fraction: float = _limit(
        0.047,
        "by how much of the chest that varies from body to body (standard deviation)",
        BDIMS,
        between=(0.001, 0.5),
    )
    girth_ease_cm: float = _limit(10.0, "less room than this round chest and both arms is tight", length=True)
    girth_tight_fraction: float = _limit(
        0.1,
        "a body that more than this fraction of the wearers find tight is worth a note",
        between=(0.001, 0.5),
    )
    sure_fraction: float = _limit(
        0.9,
        "what is good as measured, but holds in fewer cases than this, is to be minded",
        between=(0.5, 0.999),
    )


LIMIT_FIELDS = {item.name: item for item in fields(Limits)}
"""The limits by name; each field's metadata has its words, its source, whether it is a ``length``, and
``between`` what it may be; in cm or as a fraction."""
