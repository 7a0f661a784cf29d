"""What is worked out of changed counts in columns is what garments with those counts have once made."""

from __future__ import annotations

import random
from collections.abc import Mapping

import numpy as np
import pytest

from schematics.checks.rules.garment_numbers import GIRTH_POINTS
from schematics.checks.rules.judging import judges
from schematics.fitting.gauge import Gauge, parts_at_gauge, size_at_gauge
from schematics.fitting.sizing import size_fit
from schematics.fitting.workshop import Versions, Workshop
from schematics.garment.constructions.levers import Purpose
from tests.fitting.children import DEMOS, demo, random_child


def some_versions(name: str, dice: random.Random) -> tuple[Workshop, Versions]:
    """Of a size at a gauge a little off the pattern's: a lever or two of each purpose moved."""
    design = demo(name)
    usual = Gauge.of(design.parts.body)
    gauge = Gauge(stitches_per_cm=usual.stitches_per_cm * 1.04, rows_per_cm=usual.rows_per_cm * 0.97)
    parts = parts_at_gauge(design.parts, gauge)
    shop = Workshop(design=design, pattern=size_at_gauge(design, design.sizes[2], parts))
    by_purpose = [shop.options(each).steps for each in Purpose]
    settings = [
        tuple(step for steps in by_purpose if steps for step in dice.choice(steps[:9])) for _ in range(8)
    ]
    return shop, shop.versions([(), *settings])


def girths(facts: Mapping[str, float]) -> list[float]:
    """At some depths; coincident points may be one."""
    depths, lengths = (
        [facts[f"girth.{each}.{what}_cm"] for each in range(GIRTH_POINTS)] for what in ("depth", "girth")
    )
    return [facts["girth.closed"], *map(float, np.interp((5.0, 17.0, 31.0), depths, lengths))]


@pytest.mark.slow
@pytest.mark.parametrize("name", DEMOS)
def test_they_have_the_facts_and_chances_of_garments_that_are_made(name: str) -> None:
    """Paths on a made garment are found on its polygons; the girth is read at depths between its points."""
    dice = random.Random(f"changed {name}")
    shop, versions = some_versions(name, dice)
    wearer, limits = random_child(dice), shop.design.limits
    sure = versions.facts.are_sure(wearer, limits, judges(limits))
    for place, size in enumerate(versions.facts.sizes):
        fit = size_fit(shop.design, size_at_gauge(shop.design, size, shop.pattern.parts), wearer)
        made = fit.at_gauge.facts
        here = {fact: float(versions.facts[fact][place]) for fact in made.keys() - {"arms.on_edge"}}
        plain = [fact for fact in here if not fact.startswith("girth.")]
        assert [here[fact] for fact in plain] == pytest.approx([made[fact] for fact in plain], nan_ok=True)
        assert girths(here) == pytest.approx(girths(made), nan_ok=True)
        assert {code: bool(column[place]) for code, column in sure.items()} == {
            code: fit.case.is_sure(code) for code in sure
        }


def test_a_change_counts_the_centimetres_it_changes() -> None:
    """Half a centimetre for each lever, and what of its length changes: here a band of a stitch less."""
    design = demo("tidepool")
    shop = Workshop(design=design, pattern=size_at_gauge(design, design.sizes[1]))
    (place,) = (at for at, lever in enumerate(shop.levers) if lever.key == "arm_band.depth")
    versions = shop.versions([(), ((place, -1),), ((place, 2),)])
    stitch_cm = design.parts.arm_bands.swatch.width_cm / design.parts.arm_bands.swatch.stitches
    assert versions.costs == pytest.approx([0.0, 0.5 + stitch_cm, 0.5 + 2 * stitch_cm])
