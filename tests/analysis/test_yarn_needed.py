"""Yarn of a size against closed forms, exact scaling, and weighed examples."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.analysis.yarn.accuracy import relative_error
from schematics.analysis.yarn.need import YarnNeed, spare_words, stitches_mass_g, yarn_need
from schematics.analysis.yarn.shorten import shortened
from schematics.analysis.yarn.stash import StashVerdict
from schematics.analysis.yarn.yarn_report import largest_enough, size_yarns, yarn_notes
from schematics.checks.evaluation import Result, evaluate
from schematics.crochet.fabric import Swatch
from schematics.crochet.yarn_use import YarnUse
from schematics.design.design import Design
from schematics.garment.constructions import CONSTRUCTIONS, Construction
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from tests.examples import covering
from tests.shipped import EACH_CONSTRUCTION, shipped_design, shipped_results
from tests.specs_for_tests import read

WEIGHED = """\
title: Weir poncho
unit: cm
construction: folded
yarn: {name: plain wool, ball_mass: 50, ball_length: 100}
fabrics:
  plain: {stitch: single crochet, swatch: {stitches: 20, rows: 20, width: 10, height: 10, mass: 5}}
parts: {body: plain, centre_panel: plain, neck_band: plain, arm_bands: plain}
sizes:
  one:
    wearer: child/6
    body: {width: 200, front_rows: 100, back_rows: 100, neck: 40, neck_front_rows: 10, neck_back_rows: 4,
      slot: 20}
    arms: {rows: 40}
    panel: {stitches: 20, rows: 90}
    neck_band: {stitches: 10}
    arm_bands: {stitches: 12}
"""
"""Two stitches and two rows to the centimetre, a gram to 80 of them: every length is half its count."""


def need_of(design: Design) -> YarnNeed:
    return yarn_need(design, evaluate(design)[0].garment)


@pytest.fixture
def design(tmp_path: Path) -> Design:
    return read(tmp_path, WEIGHED)


def test_parts_by_hand(design: Design) -> None:
    """Area x 5 g / 100 cm², as rectangles are: body 100 x 100 less neck 20 x 7 less slot 10 x 45; neck edge
    30 + 14 + 10 cm.
    """
    masses = {part.part: part.mass_g for part in need_of(design).parts}
    neck_rows = 200 // 10 + 40 + 28 + 20  # 2 x 40 - 20 stitches, 28 picked up, 20 of the panel
    assert neck_rows == 108
    assert masses == pytest.approx(
        {
            "body": (100 * 100 - 20 * 7 - 10 * 45) / 20,
            "centre panel": 10 * 45 / 20,
            "neck band": 54 * 5 / 20,
            "arm band": 2 * 20 * 6 / 20,
        }
    )


def test_joins_and_tails_by_hand(design: Design) -> None:
    """Panel seams 45 cm and side seams 50 - 10 = 40 cm, each twice; bands onto 54 and 2 x 20 cm, their
    ends 5 and 2 x 6 cm. Five pieces and four seams with two tails of 15 cm each, and wherever one of the
    balls that the parts take is joined to the next.
    """
    (colour,) = need_of(design).colours
    joins_cm = 3.5 * (2 * 45 + 2 * 40 + 54 + 5 + 2 * 20 + 2 * 6)
    tails_cm = 15 * 2 * (5 + 4)
    parts_g = 470.5 + 22.5 + 13.5 + 12
    ball_tails_cm = 15 * 2 * (math.ceil(parts_g / 50) - 1)
    assert colour.thread_m == pytest.approx((joins_cm + tails_cm + ball_tails_cm) / 100)
    assert colour.net_g == pytest.approx(parts_g + colour.thread_m * 50 / 100)
    error_g = parts_g * math.hypot(0.5 / 20, 0.5 / 20, 1 / 5, 0.02)
    assert colour.error_g == pytest.approx(error_g)
    assert colour.buy_g == pytest.approx(parts_g + colour.thread_m / 2 + error_g)
    assert colour.length_m == pytest.approx(2 * (parts_g + colour.thread_m / 2 + error_g))
    assert colour.balls == math.ceil((parts_g + colour.thread_m / 2 + error_g) / 50) == 13


@pytest.mark.parametrize(("mass", "spare"), [(5, math.hypot(1 / 40, 1 / 40, 1 / 5, 0.02)), (50, 0.10)])
def test_to_spare_is_the_margin_or_what_the_swatch_may_be_off_by(
    tmp_path: Path, mass: float, spare: float
) -> None:
    """Of 5 g a gram is a fifth: more than a margin of 10 %. Of 50 g, 20 stitches and rows it is 4.5 %."""
    need = need_of(
        read(tmp_path, WEIGHED.replace("mass: 5", f"mass: {mass}").replace(", ball_length: 100", ""))
    )
    assert need.net_g == pytest.approx(mass / 5 * 518.5)
    assert need.buy_g == pytest.approx(mass / 5 * 518.5 * (1 + spare))
    words = "10 %" if spare == 0.10 else "the larger of 10 % and the give or take"
    assert spare_words(YarnUse(), [need]) == words


swatches = st.builds(
    Swatch,
    stitches=st.floats(5, 60),
    rows=st.floats(5, 60),
    width_cm=st.floats(5, 40),
    height_cm=st.floats(5, 40),
    mass_g=st.floats(1, 200),
)


@pytest.mark.slow
@given(swatches, st.integers(1, 300), st.integers(1, 300))
def test_a_rectangle_is_area_times_mass_over_the_swatchs_area(swatch: Swatch, wide: int, high: int) -> None:
    assert swatch.mass_g is not None
    told = stitches_mass_g(wide * high, swatch)
    area = (wide * swatch.width_cm / swatch.stitches) * (high * swatch.height_cm / swatch.rows)
    assert told == pytest.approx(area * swatch.mass_g / (swatch.width_cm * swatch.height_cm))


def scaled(design: Design, *, length: float = 1.0, mass: float = 1.0, counts: float = 1.0) -> Design:
    """The same counts from swatches of other lengths, masses, or counts."""
    parts = design.parts
    swatch = parts.body.swatch
    assert swatch.mass_g is not None
    fabric = replace(
        parts.body,
        swatch=Swatch(
            stitches=swatch.stitches * counts,
            rows=swatch.rows * counts,
            width_cm=swatch.width_cm * length,
            height_cm=swatch.height_cm * length,
            mass_g=swatch.mass_g * mass,
        ),
    )
    one = replace(parts, body=fabric, centre_panel=fabric, neck_band=fabric, arm_bands=fabric)
    return replace(design, parts=one)


@pytest.mark.parametrize("factor", [0.5, 1.25, 3.0])
def test_scaling_the_swatch_scales_the_yarn_exactly(design: Design, factor: float) -> None:
    def parts_g(changed: Design) -> float:
        return sum(part.mass_g or math.nan for part in need_of(changed).parts)

    plain = parts_g(design)
    assert parts_g(scaled(design, mass=factor)) == pytest.approx(factor * plain)
    assert parts_g(scaled(design, length=factor)) == pytest.approx(plain)
    assert parts_g(scaled(design, counts=factor)) == pytest.approx(plain / factor**2)
    assert parts_g(scaled(design, counts=factor, length=factor, mass=factor**2)) == pytest.approx(plain)


def test_a_scarf_as_pattern_books_have_it() -> None:
    """A plain knitted scarf of 20 x 150 cm in double knitting wool takes three balls of 50 g, 120 m each:
    from memory, as pattern books have it. The swatch, 22 stitches and 28 rows to 10 cm as the ball band
    says, is weighed by Munden's law of 1959 (from memory): loops to the square cm x loop length² = 19.
    """
    loops = 2.2 * 2.8
    loop_cm = math.sqrt(19.0 / loops)
    swatch_g = 100 * loops * loop_cm / 100 * 50 / 120
    swatch = Swatch(stitches=22, rows=28, width_cm=10, height_cm=10, mass_g=swatch_g)
    told = stitches_mass_g(20 * 150 * loops, swatch)
    assert told == pytest.approx(150, rel=0.15)


def test_a_blanket_as_crocheters_have_it() -> None:
    """A throw of 50 x 60 in in medium yarn takes about 2,000 yards, and a skein of 100 g holds about 220; a
    square of 4 in in single crochet weighs about 5 g: from memory, common practice, no source.
    """
    swatch = Swatch(stitches=13, rows=15, width_cm=10.16, height_cm=10.16, mass_g=5)
    told = stitches_mass_g(127 * 152.4 * 1.3 * 1.5 / 1.016**2, swatch)
    assert told == pytest.approx(2000 / 220 * 100, rel=0.15)


def test_errors_of_one_fabric_add_up_and_those_of_several_do_not(design: Design) -> None:
    need = need_of(design)
    error = relative_error(design.parts.body.swatch)
    parts_g = sum(part.mass_g or math.nan for part in need.parts)
    assert error is not None
    assert need.error_g == pytest.approx(error * parts_g)
    other = replace(design.parts.body, name="other")
    apart = replace(design, parts=replace(design.parts, centre_panel=other, neck_band=other, arm_bands=other))
    body_g = need.parts[0].mass_g
    assert body_g is not None
    assert need_of(apart).error_g == pytest.approx(error * math.hypot(body_g, parts_g - body_g))


def test_what_is_not_weighed_is_not_guessed(tmp_path: Path) -> None:
    design = read(tmp_path, WEIGHED.replace(", mass: 5", ""))
    need = need_of(design)
    (colour,) = need.colours
    assert need.unweighed == ("plain",)
    assert (need.net_g, need.buy_g, need.error_g) == (None, None, None)
    assert (colour.net_g, colour.balls, colour.length_m) == (None, None, None)
    assert colour.thread_m > 5


def test_without_the_balls_length_threads_are_left_out_and_told(tmp_path: Path) -> None:
    design = read(tmp_path, WEIGHED.replace(", ball_length: 100", ""))
    (colour,) = need_of(design).colours
    assert colour.without_thread
    assert colour.net_g == pytest.approx(518.5)
    assert (colour.balls, colour.length_m) == (13, None)


def test_colours_are_counted_apart(tmp_path: Path) -> None:
    text = WEIGHED + "yarn_use: {margin: 20 %, tail: 10, colours: {centre_panel: fog, neck_band: fog}}\n"
    design = read(tmp_path, text)
    colours = {colour.colour: colour for colour in need_of(design).colours}
    assert {name: [part.part for part in colour.parts] for name, colour in colours.items()} == {
        "main colour": ["body", "arm band"],
        "fog": ["centre panel", "neck band"],
    }
    fog = colours["fog"]
    thread_cm = 3.5 * (54 + 5) + 2 * 10 * 2
    assert fog.net_g == pytest.approx(22.5 + 13.5 + thread_cm / 100 / 2)
    error_g = 36 * math.hypot(1 / 40, 1 / 40, 1 / 5, 0.02)
    assert fog.buy_g == pytest.approx(36 + thread_cm / 200 + max(error_g, 0.2 * (36 + thread_cm / 200)))
    assert fog.balls == 1


def test_a_measured_seam_takes_the_place_of_the_rule(tmp_path: Path) -> None:
    design = read(tmp_path, WEIGHED + "yarn_use: {seam_thread: 4.5}\n")
    (usual,), (measured,) = need_of(read(tmp_path, WEIGHED)).colours, need_of(design).colours
    assert measured.thread_m - usual.thread_m == pytest.approx((2 * 45 + 2 * 40 + 54 + 5 + 40 + 12) / 100)


def demo(name: str) -> Design:
    return shipped_design(name)


def test_every_construction_can_be_shortened() -> None:
    assert all(type(each).shorter is not Construction.shorter for each in CONSTRUCTIONS.values())


@pytest.mark.slow
@pytest.mark.parametrize(("name", "share"), covering(EACH_CONSTRUCTION, [0.99, 0.92, 0.85]))
def test_a_shortened_size_fits_the_stash_and_no_new_check_stops_it(name: str, share: float) -> None:
    design = demo(name)
    for result in shipped_results(name):
        buy_g = yarn_need(design, result.garment).buy_g
        assert buy_g is not None
        shorter = shortened(design, result, {"": share * buy_g})
        assert shorter is not None
        assert shorter.need.buy_g is not None
        assert shorter.need.buy_g <= share * buy_g
        assert shorter.need == yarn_need(design, shorter.result.garment)
        assert stops(shorter.result) <= stops(result)
        assert shorter.shorter_cm == pytest.approx(result.garment.drop_cm - shorter.result.garment.drop_cm)
        assert shorter.shorter_cm > 0
        assert any("rows" in each.key and each.after < each.before for each in shorter.changes)


def stops(result: Result) -> set[tuple[str, str]]:
    return {(finding.code, finding.place) for finding in result.findings if finding.severity == "stop"}


@pytest.mark.parametrize("construction", ["flared", "mitred"])
def test_a_body_cut_above_its_last_increase_row_ends_at_an_earlier_one(construction: str) -> None:
    """Increases on rows 2, 4, ... 16 of 20: with 15 rows left the last is row 14, and 17 rows keep all."""
    body: FlaredBody | MitredBody = FlaredBody(neck=40, hem=120, rows=20, increase_every=2, increase_until=16)
    if construction == "mitred":
        body = MitredBody(neck=40, lines=5, rows=20, increase_every=2, increase_until=16, increase_rows=8)
    arms = HemArms(from_front=24, stitches=12)
    for fewer, until, hem in ((5, 14, 110), (3, 16, 120)):
        shorter = CONSTRUCTIONS[construction].shorter(body, arms, fewer)
        assert shorter is not None
        counts, _ = shorter
        assert (counts.rows, counts.increase_until, counts.hem) == (20 - fewer, until, hem)
        assert type(body).model_validate(counts.model_dump()) == counts


@pytest.mark.slow
def test_a_shortened_size_says_what_becomes_of_reach_and_spread() -> None:
    """Four rows fewer at 14 to 20 cm, twenty stitches fewer at 19 to 20 cm; no length is said twice."""
    design = demo("tidepool")
    result = next(each for each in evaluate(design) if each.size.name == "6")
    shorter = shortened(design, result, {"": 550.0})
    assert shorter is not None
    assert shorter.result.freedom is not None
    assert result.freedom is not None
    told = {each.key: each.change_cm for each in shorter.effects}
    assert told["drop_cm"] == pytest.approx(-4 * 20 / 14)
    assert told["girth.1.girth_cm"] == pytest.approx(-20 * 20 / 19)
    assert told["reach_cm"] == pytest.approx(shorter.result.freedom.reach_cm - result.freedom.reach_cm)
    assert told["spread_cm"] < told["reach_cm"] < 0
    assert not {"body.depth", "body.hem"} & told.keys()


def test_no_row_less_would_have_done() -> None:
    """The shortest change that does: a body with one row more takes too much, or a check stops it."""
    design = demo("driftwood")
    result = evaluate(design)[3]
    buy_g = yarn_need(design, result.garment).buy_g
    assert buy_g is not None
    stash = {"": 0.9 * buy_g}
    shorter = shortened(design, result, stash)
    assert shorter is not None
    rows = shorter.result.size.body.front_rows
    for fewer in range(1, result.size.body.front_rows - rows):
        body = result.size.body.model_copy(
            update={
                "front_rows": result.size.body.front_rows - fewer,
                "back_rows": result.size.body.back_rows - fewer,
            }
        )
        options = [replace(result.size, body=body, panel_rows=panel) for panel in range(44, 66, 4)]
        for checked in evaluate(replace(design, sizes=tuple(options))):
            need = yarn_need(design, checked.garment).buy_g
            assert need is not None
            assert need > stash[""] or stops(checked)


def test_what_no_shortening_helps_is_told() -> None:
    design = demo("tidepool")
    result = evaluate(design)[0]
    assert shortened(design, result, {"": 10.0}) is None


@pytest.mark.slow
def test_the_largest_size_for_a_stash() -> None:
    design = demo("tidepool")
    results = evaluate(design)
    needs = [yarn_need(design, result.garment) for result in results]
    have = needs[2].buy_g
    assert have is not None
    sizes = size_yarns(design, results, {"": have})
    assert [size.verdict for size in sizes[:3]] == [StashVerdict.ENOUGH] * 3
    assert all(size.verdict is not StashVerdict.ENOUGH for size in sizes[3:])
    largest = largest_enough(sizes)
    assert largest is not None
    assert largest.result.size.name == "6"
    tight = size_yarns(design, results, {"": have - 1})[2]
    assert tight.verdict is StashVerdict.TIGHT
    net = needs[2].net_g
    assert net is not None
    assert size_yarns(design, results, {"": net - 1})[2].verdict is StashVerdict.SHORT


def test_the_usual_figures_are_the_trades() -> None:
    """Margin 10 to 20 %, tails about 15 cm (6 in): common practice, no source."""
    use = YarnUse()
    assert 0.10 <= use.margin <= 0.20
    assert abs(use.tail_cm - 6 * 2.54) < 0.5
    assert use.seam_factor == 3.5


def test_a_part_whose_rows_cannot_be_counted_is_told_by_its_area(design: Design) -> None:
    garment = evaluate(design)[0].garment
    body, *others = garment.pieces
    need = yarn_need(design, replace(garment, pieces=(replace(body, rows=None), *others)))
    assert need.parts[0].mass_g == pytest.approx((100 * 100 - 20 * 7 - 10 * 45) / 20)
    assert [part.counted for part in need.parts] == [False, True, True, True]
    (note,) = (note for note in yarn_notes(design, [need]) if "cannot be counted" in note)
    assert note == "The rows of the body cannot be counted: as many stitches are taken as fill the area."
    assert not any("cannot be counted" in note for note in yarn_notes(design, [need_of(design)]))


def test_a_body_that_grows_early_has_more_stitches_than_its_taper(tmp_path: Path) -> None:
    """All 40 increases on row 2 of 20: 20 rows of 40 stitches, and 40 more on 19 of them."""
    body = "body: {neck: 40, hem: 80, rows: 20, increase_every: 18}"
    arms = "arms: {from_front: 10, stitches: 12}"
    head, tail = WEIGHED.replace("folded", "flared").split("    body: ")
    design = read(tmp_path, f"{head}    {body}\n    {arms}\n    panel:{tail.split('panel:')[1]}")
    (part, *_) = need_of(design).parts
    assert part.stitches == 20 * 40 + 19 * 20 + 1 * 20


@pytest.mark.slow
@pytest.mark.parametrize("name", ["tidepool", "kelp"])
def test_the_outline_of_a_body_that_grows_has_less_yarn_in_it_than_its_stitches(name: str) -> None:
    """Its rows grow in steps, its sides are straight: shapely's area is never more, and up to a fifth less.

    Bodies worked from the neck down lack least where they hardly grow, most where they grow early and stay.
    """
    design = shipped_design(name)
    lacking = []
    for result in shipped_results(name):
        body, *_ = result.garment.pieces
        outline_cm2 = body.outline.area * (2 if body.on_fold else 1)
        filling = outline_cm2 * body.fabric.stitches_per_cm * body.fabric.rows_per_cm
        part, *_ = yarn_need(design, result.garment).parts
        lacking.append(1 - filling / part.stitches)
    assert min(lacking) > -1e-9
    assert 0.02 < max(lacking) < 0.2
