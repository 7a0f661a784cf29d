"""Children drawn from the age tables, and the demo designs they are fitted in."""

from __future__ import annotations

import random
from pathlib import Path

from schematics.design.design import Design
from schematics.wearer.body import Body, Wearer, WearerSpec
from schematics.wearer.resolve import resolve
from tests.shipped import shipped_design

SPECS = Path(__file__).parents[2] / "specs"
DEMOS = ("tidepool", "saltmarsh", "driftwood")

MEASURED = (
    Body.HEAD_GIRTH, Body.NECK_GIRTH, Body.CHEST_GIRTH, Body.UPPER_ARM_GIRTH, Body.WRIST_GIRTH,
    Body.HAND_GIRTH, Body.SHOULDER_BREADTH, Body.HEIGHT,
)  # fmt: skip
"""What a maker can be asked to measure; the rest is estimated from the height."""

IN_SIZE_6 = WearerSpec(
    age_years=6.0,
    own={
        Body.HEAD_GIRTH: 52.5,
        Body.NECK_GIRTH: 25.5,
        Body.CHEST_GIRTH: 63.5,
        Body.UPPER_ARM_GIRTH: 20.5,
        Body.WRIST_GIRTH: 13.0,
        Body.HAND_GIRTH: 15.0,
        Body.SHOULDER_BREADTH: 28.0,
        Body.CENTRE_BACK_NECK_TO_WRIST: 51.0,
        Body.FOREARM_LENGTH: 17.5,
        Body.ARMHOLE_DEPTH: 12.5,
        Body.BACK_WAIST_LENGTH: 26.5,
        Body.HEIGHT: 118.0,
        Body.NAPE_HEIGHT: 97.0,
        Body.WAIST_HEIGHT: 70.5,
        Body.HIP_HEIGHT: 56.0,
        Body.KNEE_HEIGHT: 31.0,
    },
)
"""A child measured in full and well within tidepool's size 6, so that only the fabrics are in doubt."""


def demo(name: str) -> Design:
    return shipped_design(name)


def random_spec(rng: random.Random, low: float = 2.0, high: float = 12.0) -> WearerSpec:
    """A measured child: every girth and the height drawn by itself about the age's median."""
    age = rng.uniform(low, high)
    table = resolve(WearerSpec(age_years=age), "a test").values
    own = {
        body: round(table[body].cm + (table[body].high_cm - table[body].low_cm) / 3.4 * rng.gauss(0, 1), 1)
        for body in MEASURED
    }
    return WearerSpec(own=own)


def random_child(rng: random.Random) -> Wearer:
    return resolve(random_spec(rng), "a test")
