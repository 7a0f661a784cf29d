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
