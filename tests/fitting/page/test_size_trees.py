"""The sizes as trees over a gauge: what they come to is what garments made anew at that gauge measure."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from shapely import LineString

from schematics.design.design import Design
from schematics.fitting.gauge import Gauge, parts_at_gauge, size_at_gauge
from schematics.fitting.page.counts_data import own_counts
from schematics.fitting.page.making_data import making_json
from schematics.fitting.page.size_trees import facts_json, size_trees, traced_parts
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment
from tests.examples import covering, thorough
from tests.fitting.page.at_gauge import lengths, worked_out
from tests.fitting.page.conftest import few_data
from tests.fitting.reader import Reader, through_json
from tests.shipped import demo_names, demos, shipped_design, shipped_results

ARCS = 2e-5
"""How much of itself an arc drawn as a polygon falls short, see `Sector`."""


@cache
def trees(name: str, at: int) -> Any:
    """Those of its size at that place."""
    design, result = shipped_design(name), shipped_results(name)[at]
    parts = traced_parts(design.parts)
    found = {**facts_json(size_trees(design, result, parts)), "own_counts": own_counts(design, result, parts)}
    return through_json(found)


def odd_gauge(design: Design, seed: int) -> Gauge:
    dice = random.Random(seed)
    usual = Gauge.of(design.parts.body)
    return Gauge(
        stitches_per_cm=usual.stitches_per_cm * dice.uniform(0.6, 1.6),
        rows_per_cm=usual.rows_per_cm * dice.uniform(0.6, 1.6),
    )


def measured(garment: Garment) -> dict[str, float]:
    """What shapely measures on the pieces: half outlines, whose fold is x = 0, and paths inside them."""
    body = garment.piece("body")
    edges = {edge.name: 2 * edge.path.length for edge in body.edges if edge.name in ("neck", "hem")}
    fold = body.outline.boundary.intersection(LineString([(0, -1e4), (0, 1e4)])).length
    freedom = arm_freedom(garment)
    assert freedom is not None
    return {
        "drop_cm": fold,
        "reach_cm": freedom.reach_cm,
        "spread_back_cm": freedom.spread_back_cm,
        "spread_front_cm": freedom.spread_front_cm,
        "finished.panel.width": garment.piece("centre panel").edge("lower").path.length,
        "neck.band_cm": garment.piece("neck band").outline.bounds[2] * 2,
        "band_depth_cm": garment.piece("arm band").outline.bounds[3],
        **({"finished.body.hem": edges["hem"]} if "hem" in edges else {}),
    }


@pytest.mark.slow
@pytest.mark.parametrize(("name", "seed"), covering(demo_names(), range(10) if thorough() else (0, 5)))
def test_they_are_the_garments_at_an_odd_gauge(name: str, seed: int) -> None:
    """A size made anew there: its polygons, the shortest paths inside them, and all the rules know of it."""
    design = shipped_design(name)
    gauge = odd_gauge(design, seed)
    parts = parts_at_gauge(design.parts, gauge)
    at = seed % len(design.sizes)
    made = size_at_gauge(design, design.sizes[at], parts)
    found = worked_out(trees(name, at), lengths(design, gauge))
    for fact, length in measured(made.garment).items():
        assert found[fact] == pytest.approx(length, rel=ARCS), fact
    finished = {f"finished.{each.key}": each.length_cm for each in made.garment.finished}
    known = made.facts | finished
    assert found.keys() == known.keys()
    for fact, length in known.items():
        if not fact.startswith("girth."):
            assert found[fact] == pytest.approx(length, rel=ARCS, nan_ok=True), fact
    assert girth_by_depth(found) == pytest.approx(girth_by_depth(known), rel=1e-6)


@pytest.mark.parametrize("name", ["tidepool", "saltmarsh"])
def test_the_angle_that_a_body_opens_to_is_that_of_the_garment_made_anew(name: str) -> None:
    """Flared: stitches over rows; mitred: by an arc tangent, which the interpreter works out by itself."""
    design = shipped_design(name)
    gauge, result = odd_gauge(design, 3), shipped_results(name)[0]
    made = through_json(making_json(design, result, traced_parts(design.parts)))
    opening = Reader(made["terms"], {}, lengths(design, gauge)).number(made["facts"]["opening"])
    anew = size_at_gauge(design, design.sizes[0], parts_at_gauge(design.parts, gauge)).garment
    assert opening == pytest.approx(anew.opening_angle)
    assert opening != pytest.approx(result.garment.opening_angle, rel=0.05)


def girth_by_depth(facts: dict[str, float]) -> list[float]:
    """The girth at every tenth of the drop: points that lie on one line are told in other numbers."""
    points = [(facts[f"girth.{each}.depth_cm"], facts[f"girth.{each}.girth_cm"]) for each in range(3)]
    table = ["table", None, points]
    return [Reader({}, {}).number([table[0], facts["drop_cm"] * each / 10, points]) for each in range(10)]


@pytest.mark.slow
def test_open_sides_have_no_girth() -> None:
    design = shipped_design("driftwood")
    size = design.sizes[0]
    body = type(size.body).model_validate(size.body.model_dump() | {"side_seam": False})
    garment = CONSTRUCTIONS["folded"].build(replace(size, body=body), design.parts)
    result = replace(shipped_results("driftwood")[0], size=replace(size, body=body), garment=garment)
    document = through_json(facts_json(size_trees(design, result, traced_parts(design.parts))))
    assert document["facts"]["girth.closed"] == 0
    assert document["facts"]["girth.0.girth_cm"] is None


@pytest.mark.slow
@pytest.mark.parametrize("name", demos("tidepool", "driftwood"))
def test_what_comes_often_is_written_once(name: str) -> None:
    for size in few_data(name)["sizes"]:
        named = {str(tree) for tree in size["terms"].values()}
        assert len(named) == len(size["terms"])
        assert not [tree for tree in size["facts"].values() if isinstance(tree, list) and str(tree) in named]


def test_as_many_stitches_are_picked_up_as_the_gauge_asks_for() -> None:
    """Driftwood's arm band has a row to each, an even number of them, nearest to what lies along the edge."""
    design = shipped_design("driftwood")
    gauge = Gauge(stitches_per_cm=1.7, rows_per_cm=1.0)
    found = worked_out(trees("driftwood", 2), lengths(design, gauge))
    per_cm = design.parts.arm_bands.rows_per_cm / design.parts.body.rows_per_cm
    rows = 2 * round(found["arm.edge_cm"] * gauge.stitches_per_cm / 2)
    assert found["arm.band_cm"] == pytest.approx(rows / per_cm)
    assert found["finished.arm_band.length"] == found["arm.band_cm"]
