"""A garment whose fabric's measurement is off, against one that is made anew from another swatch."""

from __future__ import annotations

from dataclasses import replace

import pytest

from schematics.checks.rules.garment_numbers import GIRTH_POINTS, SMALLER_OF_TWO, facts
from schematics.checks.rules.varied_facts import (
    FabricDoubt,
    Gathered,
    VariedFacts,
    band_rows_of,
    varied_parts,
)
from schematics.crochet.fabric import Fabric
from schematics.crochet.varied_fabric import FabricError
from schematics.design.design import Design, Parts
from schematics.fitting.gauge import size_at_gauge
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment
from tests.drawing.designs import random_design
from tests.examples import seeds

DRIFT, STRETCH = 0.02, 1 / 3


def measured_otherwise(fabric: Fabric, error: FabricError, times: float) -> Fabric:
    """As if the error were so many standard deviations, by the swatch and the stretch themselves."""
    swatch, width, height = fabric.swatch, 1.0, 1.0
    across, along = fabric.stretch_across, fabric.stretch_along
    match error:
        case FabricError.STITCHES:
            width += times * 0.5 / swatch.stitches
        case FabricError.ROWS:
            height += times * 0.5 / swatch.rows
        case FabricError.DRIFT:
            width = height = 1 + times * DRIFT
        case FabricError.ACROSS:
            across *= 1 + times * STRETCH / fabric.stretch_pulls**0.5
        case FabricError.ALONG:
            along *= 1 + times * STRETCH / fabric.stretch_pulls**0.5
    longer = replace(swatch, width_cm=swatch.width_cm * width, height_cm=swatch.height_cm * height)
    return replace(fabric, swatch=longer, stretch_across=across, stretch_along=along)


def stretchy(design: Design) -> Parts:
    """Every fabric gives, so that its stretch can be off; one is pulled twice."""
    return design.parts.with_fabrics(
        lambda fabric: replace(
            fabric,
            stretch_across=0.2,
            stretch_along=0.35,
            stretch_pulls=2 if fabric.name == design.parts.body.name else 1,
        )
    )


def otherwise(parts: Parts, doubt: FabricDoubt, times: float) -> Parts:
    return parts.with_fabrics(
        lambda fabric: (
            measured_otherwise(fabric, doubt.error, times) if fabric.name == doubt.fabric else fabric
        )
    )


def bands(garment: Garment, remade: Parts) -> dict[str, float]:
    """How long its bands are in other fabrics: rows of ribbing on picked up stitches stay as many."""
    lengths = {}
    for head, ring, fabric in (
        ("neck", garment.neck, remade.neck_band),
        ("arm", garment.arm.ring, remade.arm_bands),
    ):
        lengths[f"{head}.band_cm"] = ring.band_rows / fabric.rows_per_cm
        lengths[f"{head}.band_full_cm"] = lengths[f"{head}.band_cm"] * (1 + fabric.stretch_along)
    return lengths


def off(design: Design, parts: Parts) -> None:
    size, construction = design.sizes[0], CONSTRUCTIONS[design.construction]
    usual = size_at_gauge(design, size, parts)
    _, doubts = varied_parts(parts)
    known = facts(usual.garment, usual.freedom)
    assert [each.fabric for each in doubts[:: len(FabricError)]] == list(parts.fabrics)
    errors = len(doubts)
    varied = VariedFacts(Gathered([known]), construction, [size], band_rows_of([usual.garment]), parts)
    plain = {"arms.measured", "arms.on_edge", "girth.closed", "band_depth_cm", *SMALLER_OF_TWO}
    padding = tuple(f"girth.{each}." for each in range(len(usual.garment.girths), GIRTH_POINTS))
    names = [name for name in known if name not in plain and not name.startswith(padding or "none")]
    for place, doubt in enumerate(doubts):
        for times, at in ((1, 1 + place), (-1, 1 + errors + place)):
            remade = otherwise(parts, doubt, times)
            made = size_at_gauge(design, size, remade, usual.garment)
            expected = facts(made.garment, made.freedom) | bands(usual.garment, remade)
            for name in names:
                column = varied[name]
                (found,) = column[at] if column.ndim > 1 else column
                assert found == pytest.approx(expected[name], rel=2e-4, nan_ok=True), (name, doubt, times)
    assert all(varied[name].ravel()[0] == known[name] for name in names)


@pytest.mark.slow
@pytest.mark.parametrize("seed", seeds(range(10)))
@pytest.mark.parametrize("word", list(CONSTRUCTIONS))
def test_a_fabric_that_is_off_is_another_fabric(word: str, seed: int) -> None:
    design = random_design(word, seed, most_sizes=1)
    off(design, stretchy(design))
