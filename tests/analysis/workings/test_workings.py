"""What a working sheet prints, worked again by a calculator that reads the text alone.

Expected values are measured on the garment's polygons with shapely, or counted anew from the spec's own
numbers in `tests.pattern.recompute`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from shapely import Point

from schematics.analysis.workings.workings import workings
from schematics.analysis.workings.written import Step
from schematics.analysis.yarn.need import yarn_need
from schematics.checks.evaluation import Result, evaluate
from schematics.crochet.fabric import RowRule
from schematics.design.design import Design
from schematics.garment.constructions import CONSTRUCTIONS, Construction
from schematics.garment.garment import Garment
from schematics.garment.walks import WalkName
from schematics.units import CM_PER_INCH
from schematics.wearer.body import Body
from tests.analysis.workings.calculator import PLAIN, WITH_UNITS, registry
from tests.drawing.designs import as_text, random_spec, read_spec
from tests.examples import covering, thorough
from tests.garment.constructions.counted import tapering
from tests.garment.journey import shortest_path
from tests.pattern.designs import design_of, dressed_spec
from tests.pattern.recompute import anew
from tests.shipped import shipped_design, shipped_results

SPECS = Path(__file__).parents[3] / "specs"
DEMOS = ("tidepool", "saltmarsh", "driftwood")
WORDS = tuple(CONSTRUCTIONS)

ARC, ARC_AREA = 1e-4, 1e-3
"""Share of its length that an arc drawn as chords falls short, at most, and of an area beside it."""
WRITTEN_CM, WRITTEN = 0.005, 5e-5
"""What intermediate results written to 4 decimals may do to the last one; of an area, to its share."""


def steps_of(design: Design, result: Result) -> dict[str, Step]:
    steps = [step for section in workings(design, result) for step in section.steps]
    assert len({step.key for step in steps}) == len(steps)
    return {step.key: step for step in steps}


def metric(step: Step, value: float) -> float:
    """A value in the step's unit, in centimetres or square centimetres; degrees stay degrees."""
    return value * {"in": CM_PER_INCH, "in²": CM_PER_INCH**2}.get(step.unit, 1.0)


def printed(steps: Mapping[str, Step]) -> dict[str, float]:
    """What the printed arithmetic comes to."""
    return {key: metric(step, PLAIN(step.sum.text)) for key, step in steps.items()}


def measured(garment: Garment, result: Result) -> dict[str, float]:
    """The same figures measured on the polygons."""
    body, panel = garment.piece("body"), garment.piece("centre panel")
    found = {
        "area.body": 2 * body.outline.area if body.worked_cm2 is None else body.worked_cm2,
        "area.panel": panel.outline.area,
        "area.neck_band": garment.piece("neck band").outline.area,
        "area.arm_band": garment.piece("arm band").outline.area,
        "panel.width": panel.edge("lower").path.length,
        "panel.length": panel.outline.bounds[3],
        "neck_band.length": garment.piece("neck band").edge("joined edge").path.length,
        "neck_band.depth": garment.piece("neck band").edge("first row").path.length,
        "arm_band.length": garment.piece("arm band").edge("joined edge").path.length,
        "arm_band.depth": garment.piece("arm band").edge("first row").path.length,
        "neck.full": garment.neck.full_cm,
        "neck.rest": garment.neck.rest_cm,
        "arm.full": garment.arm.ring.full_cm,
        "arm.rest": garment.arm.ring.rest_cm,
        "drop": garment.drop_cm,
        "longest_drop": garment.longest_drop_cm,
    }
    if panel.edge("top").count != panel.edge("lower").count:
        found["panel.top"] = panel.edge("top").path.length
        found["panel.side"] = panel.edge("left side").path.length
    if garment.walks:
        depth, ways = garment.arm.ring.band_depth_cm, {}
        for walk in garment.walks:
            ways[walk.name] = shortest_path(walk.domain, walk.start, walk.goal).length_cm
        found["reach"] = ways[WalkName.REACH] + depth
        found["spread.back"] = 2 * (ways[WalkName.ACROSS_BACK] + depth)
        found["spread.front"] = 2 * (ways[WalkName.ACROSS_FRONT] + depth)
    armhole = result.wearer.get(Body.ARMHOLE_DEPTH)
    if garment.girths and armhole is not None:
        depths, girths = (list(each) for each in zip(*garment.girths, strict=True))
        found["girth.chest"] = float(np.interp(armhole.cm, depths, girths))
    return found | (_folded(garment) if garment.opening_angle is None else _neck_down(garment))


def _neck_down(garment: Garment) -> dict[str, float]:
    body = garment.piece("body")
    neck, hem, front = (body.edge(name).path for name in ("neck", "hem", "front"))
    (x_hem, y_hem), (x_neck, y_neck) = front.coords
    half_angle = math.degrees(math.atan2(x_hem - x_neck, y_neck - y_hem)) % 360
    found = {
        "body.neck": 2 * neck.length,
        "body.hem": 2 * hem.length,
        "body.depth": front.length,
        "shape.opening": 2 * half_angle,
    }
    run = garment.arm.path
    if run is not None and garment.arm.back_count > 0:
        found["arm.run"] = run.length
        found["arm.from_front"] = hem.length - max(hem.project(Point(each)) for each in run.coords)
        found["arm.back"] = 2 * min(hem.project(Point(each)) for each in run.coords)
    if body.creases and not body.creases[0].along_row:
        found["body.line"] = body.creases[0].path.length
    if body.worked_cm2 is not None:
        return found | _widening(garment)
    if garment.construction == "flared" and abs(math.sin(math.radians(half_angle))) > 0.05:
        apex = y_hem + x_hem / math.tan(math.radians(half_angle))
        found["shape.outer"], found["shape.inner"] = (
            math.hypot(x, y - apex) for x, y in ((x_hem, y_hem), (x_neck, y_neck))
        )
    return found


def _widening(garment: Garment) -> dict[str, float]:
    """Of a body that is drawn as another flare than it is: by how the girth grows, and the depth."""
    (_, top), (depth, hem) = garment.girths[:2]
    opening = garment.opening_angle or 0.0
    found = {"shape.opening": math.degrees(opening)}
    if garment.construction == "flared":
        assert (hem - top) / depth == pytest.approx(opening)
        found["shape.inner"] = 2 * garment.piece("body").edge("neck").path.length / opening
        found["shape.outer"] = found["shape.inner"] + garment.drop_cm
    return found


def _folded(garment: Garment) -> dict[str, float]:
    body = garment.piece("body")
    left, back, right, front = body.outline.bounds
    path = {edge.name: edge.path.length for edge in body.edges}
    return {
        "body.width": 2 * (right - left),
        "body.front": front,
        "body.back": -back,
        "body.neck_width": 2 * path["back neck"],
        "body.front_edge": path["front"],
        "body.slot": 2 * body.edge("front").path.coords[0][0],
        "neck.picked_up": 2 * path["neck side"],
        "arm.opening": 0.0 if garment.arm.path is None else garment.arm.path.length,
        "front_width": 2 * path["front hem"] + garment.piece("centre panel").edge("lower").path.length,
    }


def held_against_the_garment(design: Design) -> set[str]:
    """The keys that were compared in any size."""
    seen: set[str] = set()
    for result in evaluate(design):
        steps = steps_of(design, result)
        figures = printed(steps)
        for key, step in steps.items():
            assert figures[key] == pytest.approx(metric(step, step.sum.value), abs=WRITTEN_CM, rel=WRITTEN), (
                key
            )
        expected = measured(result.garment, result)
        for part in yarn_need(design, result.garment).parts:
            mass_g = figures.get(f"mass.{part.part.replace(' ', '_')}")
            assert mass_g == (part.mass_g and pytest.approx(part.mass_g, rel=WRITTEN))
        for key, value in expected.items():
            figure = figures.get(key)
            assert figure is not None, key
            if key == "shape.opening":
                figure, value = figure % 720 + 1, value % 720 + 1
            off = ARC_AREA if key.startswith("area.") else ARC
            assert figure == pytest.approx(value, rel=off, abs=2 * WRITTEN_CM), (key, steps[key].sum.text)
        for each in result.garment.finished:
            assert figures[each.key] == pytest.approx(each.length_cm, abs=WRITTEN_CM), each.key
            derived = steps[each.key].derived
            if derived is not None:
                count = PLAIN(derived.count.text)
                assert each.count == (round(count) if derived.taken is None else derived.taken)
                assert abs(count - (each.count or 0)) < 1.5
        seen |= expected.keys()
    return seen


@pytest.mark.slow
@pytest.mark.parametrize("name", DEMOS)
def test_the_demo_designs(name: str) -> None:
    held_against_the_garment(shipped_design(name))


def random_swatches(word: str, seed: int) -> Design:
    """A random design whose swatches are measured in cm, in inches, or one way in each."""
    spec = random_spec(word, seed)
    in_inches = ((), ("width", "height"), ("width",))[seed % 3]
    for swatch in (fabric["swatch"] for fabric in spec["fabrics"].values()):
        swatch |= {key: f"{float(swatch[key].split()[0]) * 0.4:g} in" for key in in_inches}
    return read_spec(as_text(spec), f"{word}-{seed}")


def narrowed(design: Design, seed: int) -> Design:
    """The same with a panel that loses stitches in set-up and repeats, and may gain some in its closing."""
    rule = RowRule(setup=seed % 3, repeat=2 + seed % 4, closing=seed % 2)
    adds = (-(seed % 2) if rule.setup else 0, -1 - seed % 3, seed % 2)
    panel = tapering(design.parts.centre_panel, rule, adds)
    sizes = []
    for size in design.sizes:
        rows = rule.rule.nearest(size.panel_rows)
        lost = panel.chart.top(0, rule.repeats(rows)) if panel.chart else 0
        sizes.append(replace(size, panel_rows=rows, panel_stitches=size.panel_stitches - lost))
    return replace(design, parts=replace(design.parts, centre_panel=panel), sizes=tuple(sizes))


@pytest.mark.slow
@pytest.mark.parametrize(("seed", "word"), covering(range(4), WORDS))
def test_panels_that_taper(word: str, seed: int) -> None:
    seen = held_against_the_garment(narrowed(random_swatches(word, seed), seed))
    assert {"panel.top", "panel.side", "area.panel"} <= seen


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("word", WORDS)
def test_random_designs(word: str) -> None:
    seen: set[str] = set()
    units: set[str] = set()
    for seed in range(18 if thorough() else 3):
        design = random_swatches(word, seed)
        seen |= held_against_the_garment(design)
        units |= {step.unit for step in steps_of(design, evaluate(design)[0]).values()}
    assert {"cm", "in", "°"} - {"°" if word == "folded" else ""} <= units
    assert {"reach", "spread.back", "spread.front", "area.body", "girth.chest", "longest_drop"} <= seen


@pytest.mark.slow
@pytest.mark.parametrize("number", [3, 7, 15, 19, 31])
def test_bodies_whose_increases_end_above_the_hem(number: int) -> None:
    """Flared and mitred, with an interval of one to three rows and lines even and odd."""
    spec = dressed_spec(number)
    assert all("increase_until" in size["body"] for size in spec["sizes"].values())
    seen = held_against_the_garment(design_of(spec, number))
    assert {"area.body", "shape.opening", "girth.chest"} <= seen


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", DEMOS)
def test_the_units_of_every_sum_agree(name: str) -> None:
    design = shipped_design(name)
    for result in shipped_results(name)[:: 1 if thorough() else 6]:
        for step in steps_of(design, result).values():
            unit = {"°": "", "cm²": "cm**2", "in²": "inch**2", "in": "inch"}.get(step.unit, step.unit)
            value = registry().Quantity(WITH_UNITS(step.sum.text)).to(unit)
            assert value.magnitude == pytest.approx(step.sum.value, abs=WRITTEN_CM, rel=WRITTEN)


def test_every_construction_can_be_worked_out_by_hand() -> None:
    for word, construction in CONSTRUCTIONS.items():
        for hook in ("shape_by_hand", "paths_by_hand"):
            assert getattr(type(construction), hook) is not getattr(Construction, hook), (word, hook)


@pytest.mark.slow
def test_the_counts_and_lengths_are_those_of_the_spec() -> None:
    for number, word in enumerate(WORDS):
        spec = dressed_spec(number)
        assert spec["construction"] == word
        design = design_of(spec, number)
        for result, size in zip(evaluate(design), spec["sizes"].values(), strict=True):
            expected = anew(spec, size)
            finished = {each.name: each for each in steps_of(design, result).values() if each.finished}
            assert finished.keys() == expected.lengths.keys()
            for name, step in finished.items():
                assert metric(step, PLAIN(step.sum.text)) == pytest.approx(
                    expected.lengths[name], abs=WRITTEN_CM
                )
                if step.source and "." in step.source and step.derived is None:
                    block, _, key = step.source.partition(".")
                    assert size[block][key] == expected.counts[name]
