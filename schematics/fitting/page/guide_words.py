"""How to take each body measurement, in words; the drawings are in `guide_figures`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from schematics.wearer.body import Body


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideView:
    """One drawing of the guide and what is measured on it, in the order of its numbers."""

    key: str
    title: str
    bodies: tuple[Body, ...]


VIEWS = (
    GuideView(
        key="front",
        title="From the front",
        bodies=(Body.HEAD_GIRTH, Body.NECK_GIRTH, Body.CHEST_GIRTH, Body.UPPER_ARM_GIRTH, Body.WRIST_GIRTH),
    ),
    GuideView(key="hand", title="The hand", bodies=(Body.HAND_GIRTH,)),
    GuideView(
        key="back",
        title="From the back",
        bodies=(
            Body.SHOULDER_BREADTH,
            Body.CENTRE_BACK_NECK_TO_WRIST,
            Body.FOREARM_LENGTH,
            Body.ARMHOLE_DEPTH,
            Body.BACK_WAIST_LENGTH,
        ),
    ),
    GuideView(
        key="wall",
        title="Against a wall, without shoes",
        bodies=(Body.HEIGHT, Body.NAPE_HEIGHT, Body.WAIST_HEIGHT, Body.KNEE_HEIGHT, Body.HIP_HEIGHT),
    ),
)
"""Every body measurement, each on one drawing."""

HOW: Mapping[Body, str] = MappingProxyType(
    {
        Body.HEAD_GIRTH: (
            "Round the head at its widest: above brows and ears, over the bump at the back, hair and all."
        ),
        Body.NECK_GIRTH: "Round the base of the neck, where a necklace lies, the tape just touching.",
        Body.CHEST_GIRTH: "Round the chest, close under the arms, which hang down.",
        Body.UPPER_ARM_GIRTH: "Round the upper arm where it is thickest.",
        Body.WRIST_GIRTH: "Round the wrist, over the bone.",
        Body.HAND_GIRTH: (
            "Round the hand at its widest, the thumb laid into the palm and the tape drawn snug: all of the "
            "hand has to pass the band."
        ),
        Body.SHOULDER_BREADTH: "Straight across the back, from the tip of one shoulder to that of the other.",
        Body.CENTRE_BACK_NECK_TO_WRIST: (
            "From the bone at the base of the neck over the tip of the shoulder and along the arm to the "
            "wrist bone."
        ),
        Body.FOREARM_LENGTH: "From the point of the elbow to the wrist bone.",
        Body.ARMHOLE_DEPTH: "From the tip of the shoulder straight down to the level of the armpit.",
        Body.BACK_WAIST_LENGTH: (
            "From the bone at the base of the neck straight down to the waist, where the body bends."
        ),
        Body.HEIGHT: "From the floor to the crown; a book held flat on the head marks the wall.",
        Body.NAPE_HEIGHT: "From the floor to the bone at the base of the neck.",
        Body.WAIST_HEIGHT: "From the floor to the waist.",
        Body.HIP_HEIGHT: "From the floor to where the seat is fullest.",
        Body.KNEE_HEIGHT: "From the floor to the middle of the kneecap.",
    }
)
"""What to do with the tape."""

NUMBERS: Mapping[Body, int] = MappingProxyType(
    {body: number for number, body in enumerate((body for view in VIEWS for body in view.bodies), start=1)}
)
"""The number of a measurement, on the drawings, in the form and in the guide."""
