"""A design made to measure: what comes out is a design as any other, for the wearer and the maker alone."""

from __future__ import annotations

import math
import random
import re
from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from schematics.checks.evaluation import evaluate
from schematics.checks.finding import Severity
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.document import Items
from schematics.document.writers import written
from schematics.errors import UsageError
from schematics.fitting.advice_words import NOT_HERS
from schematics.fitting.fitting import fitting
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.measured import resolved
from schematics.fitting.suggestions import suggestions
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure, made_to_measure
from schematics.fitting.to_measure.order import NotWearableError, Order
from schematics.fitting.to_measure.own_yarn import own_yarn
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.fitting.to_measure.poncho_spec import SPEC, poncho_spec
from schematics.garment.constructions.base import counts_of
from schematics.pattern.written import written_pattern
from schematics.reading.design_file import read_design
from schematics.units import Unit
from schematics.wearer.body import Body, WearerSpec
from tests.examples import thorough
from tests.fitting.children import IN_SIZE_6, demo, random_spec
from tests.pattern.reader.expected import faults
from tests.pattern.reader.maker import make
from tests.pattern.reader.measures import wrong_measures
from tests.shipped import shipped_design

DEMOS = ("tidepool", "saltmarsh", "driftwood", "kelp")
TIDEPOOL = demo("tidepool")
LONG_ARMS = WearerSpec(
    age_years=6.0,
    own={Body.HEAD_GIRTH: 56.5, Body.HEIGHT: 125.0, Body.CENTRE_BACK_NECK_TO_WRIST: 66.0},
)


def read_again(made: MadeToMeasure, folder: Path) -> Design:
    path = folder / SPEC
    path.write_bytes(poncho_spec(made))
    return read_design(path)


def assert_right(made: MadeToMeasure, folder: Path) -> None:
    """It is no worse than to be minded, its spec reads as it, and its pattern ends with its counts."""
    assert made.result.verdict is not Severity.STOP
    again = read_again(made, folder)
    (result,) = evaluate(again)
    assert [(each.code, each.severity, each.sentence) for each in result.findings] == [
        (each.code, each.severity, each.sentence) for each in made.fit.findings
    ]
    assert result.size.wearer == made.order.wearer
    text = "".join(written([written_pattern(made.design, [made.result], Terms.US)], "md"))
    name = made.design.sizes[0].name
    finished = make(text, name)
    spec = yaml.safe_load(poncho_spec(made))
    assert faults(finished, spec["sizes"][name]) == []
    assert wrong_measures(text, name, finished) == []


def random_order(number: int, design: Design) -> Order:
    """A child drawn from the age tables; of three one with a gauge of her maker's, of four one graded."""
    rng = random.Random(number)
    wearer = random_spec(rng)
    texts = [f"{rng.uniform(0.85, 1.2) * 20:.1f} sts over {20 * 20 / _stitches(design):.1f} cm"]
    parts = read_gauge(texts, design).parts if number % 3 == 2 else None
    return Order(wearer=wearer, parts=parts, graded=number % 16 >= 12)


def _stitches(design: Design) -> float:
    """The body's stitches to 20 cm."""
    return 20 * design.parts.body.stitches_per_cm


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("number", range(800) if thorough() else (1, 13))
def test_a_random_child_gets_what_can_be_worn_or_is_told_why_not(number: int, tmp_path: Path) -> None:
    design = demo(DEMOS[number % len(DEMOS)])
    order = random_order(number, design)
    try:
        made = made_to_measure(design, order)
    except NotWearableError as error:
        (sentence,) = error.problems
        assert sentence.endswith(".")
        assert "\n" not in sentence
    else:
        assert_right(made, tmp_path)


@pytest.mark.slow
def test_a_child_whom_a_size_fits_gets_its_counts(tmp_path: Path) -> None:
    made = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, name="Mara"))
    fit = fitting(TIDEPOOL, TIDEPOOL.sizes, resolved(IN_SIZE_6)).advised
    assert made.start.name == fit.name == "6"
    assert made.changes == ()
    assert made.result.verdict is fit.verdict is Severity.GOOD
    assert [each.sentence for each in made.fit.findings] == [each.sentence for each in fit.findings]
    assert made.design.title == "Tidepool poncho for Mara"
    assert [size.name for size in made.design.sizes] == ["Mara"]
    assert_right(made, tmp_path)


@pytest.mark.slow
def test_the_smallest_changes_are_made_where_nothing_is_asked_for_and_they_are_suggestion_one() -> None:
    unasked = made_to_measure(TIDEPOOL, Order(wearer=LONG_ARMS))
    first = made_to_measure(TIDEPOOL, Order(wearer=LONG_ARMS, changes=("1",)))
    assert unasked.changes == first.changes != ()
    assert unasked.fit.score < unasked.start.score


@pytest.mark.slow
def test_they_are_suggestion_one_of_fit_at_her_gauge_too() -> None:
    """Bands are counted anew at her gauge, by which the changes of another size come out a little nearer."""
    design = demo("driftwood")
    parts = read_gauge(["22 sts 16 rows over 20 cm"], design).parts
    wearer = WearerSpec(age_years=12.0, own={Body.HEAD_GIRTH: 54.5, Body.HEIGHT: 152.0})
    first = suggestions(fitting(design, design.sizes, resolved(wearer), parts))[0]
    made = made_to_measure(design, Order(wearer=wearer, parts=parts))
    assert counts_of(made.design.sizes[0]) == counts_of(first.after.at_gauge.size)


@pytest.mark.thorough
def test_every_suggestion_can_be_made_by_its_number() -> None:
    offered = suggestions(fitting(TIDEPOOL, TIDEPOOL.sizes, resolved(LONG_ARMS)))
    assert 1 <= len(offered) <= 3
    assert len({each.before.name for each in offered}) == len(offered)
    for number, advice in enumerate(offered, 1):
        made = made_to_measure(TIDEPOOL, Order(wearer=LONG_ARMS, changes=(f"{number}",)))
        assert made.start.name == advice.before.name
        assert counts_of(made.design.sizes[0]) == counts_of(advice.after.at_gauge.size)
        assert made.result.verdict == advice.after.verdict


@pytest.mark.slow
def test_a_change_by_name_comes_on_top_of_a_suggestion() -> None:
    made = made_to_measure(TIDEPOOL, Order(wearer=LONG_ARMS, changes=("1", "hem +2")))
    first = made_to_measure(TIDEPOOL, Order(wearer=LONG_ARMS, changes=("1",)))
    before = counts_of(first.design.sizes[0])
    assert counts_of(made.design.sizes[0]) == {**before, "body.hem": before["body.hem"] + 2}


@pytest.mark.slow
def test_her_gauge_and_her_yarn_are_those_of_the_pattern(tmp_path: Path) -> None:
    """20 stitches over 20 cm where the pattern has 19; a ball of half the metres in half the grams."""
    parts = read_gauge(["20 sts 15 rows over 20 cm"], TIDEPOOL).parts
    yarn = own_yarn(TIDEPOOL.yarn, "Alder", "50 g", "47.5")
    made = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, parts=parts, yarn=yarn))
    fabric = yaml.safe_load(poncho_spec(made))["fabrics"]["main"]
    swatch, weighed = fabric["swatch"], fabric["pattern_swatch"]
    assert (swatch["stitches"], swatch["rows"], swatch["width"], swatch["height"]) == (20, 15, 20, 20)
    assert "mass" not in swatch, "nobody weighed it"
    assert weighed == {"stitches": 19, "rows": 14, "width": 20, "height": 20, "mass": 46}
    text = "".join(written([written_pattern(made.design, [made.result])], "md"))
    assert text.count("(taken from the body's, not measured)") == 2  # panel and bands
    assert "Body: 10 sts and 7.5 rows to 10 cm" in text
    assert "Yarn: Alder, fibre as on its label, weight 5 Bulky, in balls of 50 g (1.8 oz), 47.5 m" in text
    assert_right(made, tmp_path)


@pytest.mark.slow
def test_the_spec_has_numbers_as_a_person_writes_them(tmp_path: Path) -> None:
    """17 sts over 18 cm stay 17, 20 months months; no other number has many decimals."""
    parts = read_gauge(["17 sts 13 rows over 18 cm"], TIDEPOOL).parts
    wearer = WearerSpec(age_years=20 / 12, own={Body.HEAD_GIRTH: 19.125 * 2.54})
    made = made_to_measure(TIDEPOOL, Order(wearer=wearer, parts=parts))
    written_spec = poncho_spec(made).decode()
    assert yaml.safe_load(written_spec)["sizes"]["2"]["wearer"] == {
        "age": "20 months",
        "head_girth": 48.5775,
    }
    assert yaml.safe_load(written_spec)["fabrics"]["main"]["swatch"]["stitches"] == 17
    assert not re.findall(r"\d\.\d{5,}", written_spec)
    assert read_again(made, tmp_path).parts == made.design.parts


@pytest.mark.slow
def test_thinner_yarn_weighs_less_in_as_many_stitches() -> None:
    yarn = own_yarn(TIDEPOOL.yarn, None, "100", "190")
    made = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, yarn=yarn))
    assert made.design.parts.body.swatch.mass_g == pytest.approx(46 / 2)
    bare = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, yarn=replace(TIDEPOOL.yarn, ball_length_m=None)))
    assert bare.design.parts.body.swatch.mass_g is None


@pytest.mark.parametrize(
    ("mass", "length", "grams", "metres"),
    [
        ("3.5oz", None, 3.5 * 28.349523125, 3.5 * 28.349523125 * 0.95),
        ("1 3/4 ounces", "52 yd", 49.611665, 47.5488),
        ("50", "120", 50, 120),
        (None, "104 yards", 104 * 0.9144 / 0.95, 104 * 0.9144),
    ],
)
def test_a_ball_in_ounces_and_yards(
    mass: str | None, length: str | None, grams: float, metres: float
) -> None:
    """By the international yard and pound agreement; the pattern's ball has 95 m in 100 g."""
    yarn = own_yarn(TIDEPOOL.yarn, None, mass, length)
    assert yarn is not None
    assert (yarn.ball_mass_g, yarn.ball_length_m) == pytest.approx((grams, metres), rel=1e-6)


@pytest.mark.slow
def test_what_is_left_of_the_yarn_is_told_in_ounces_to_who_measures_in_inches() -> None:
    """1000 g are 35.3 oz."""
    order = Order(wearer=IN_SIZE_6, stash_g={"": 1000.0})
    made = made_to_measure(replace(TIDEPOOL, unit=Unit.IN), order)
    (section,) = (each for each in poncho_document(made).sections if each.heading == "Yarn")
    buy, left = re.findall(r"([\d.]+) oz\)|([\d.]+) oz over", " ".join(map(str, section.blocks)))
    assert float(buy[0]) + float(left[1]) == pytest.approx(35.27, abs=0.11)
    assert " g " not in " ".join(map(str, section.blocks))


@pytest.mark.slow
def test_the_balls_to_buy_are_told_at_any_gauge() -> None:
    """Each stitch takes what it takes in the pattern's swatches, whose yarn it is."""
    parts = read_gauge(["20 sts 15 rows over 20 cm"], TIDEPOOL).parts
    bare = replace(TIDEPOOL.yarn, name="Alder", ball_length_m=None)
    for yarn in (None, bare):
        made = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, parts=parts, yarn=yarn))
        (section,) = (each for each in poncho_document(made).sections if each.heading == "Yarn")
        told = re.match(
            r"To buy, with 10 % to spare: (\d+) balls of 100 g \((\d+) g\) of the pattern’s yarn \(bulky",
            str(section.blocks[0]),
        )
        assert told is not None
        stitches = sum(
            sum(piece.row_stitches or ()) * piece.quantity * mass / count
            for piece in made.result.garment.pieces
            for key, mass, count in (("main", 46, 19 * 14), ("ripple", 44, 22 * 14), ("rib", 150, 20 * 66))
            if piece.fabric.name == key
        )
        assert 1.1 * stitches < int(told[2]) < 1.15 * stitches  # and what is in seams and tails
        assert int(told[1]) == math.ceil(int(told[2]) / 100)


@pytest.mark.slow
def test_her_yarn_has_no_colour_of_the_pattern(tmp_path: Path) -> None:
    """The pattern's main colour has a shade, which the spec of what is made could not name any more."""
    kelp = shipped_design("kelp")
    yarn = own_yarn(kelp.yarn, "Alder", None, None)
    assert yarn is not None
    assert yarn.colour is None
    assert kelp.yarn.colour is not None
    assert {*dict(yarn.shades), kelp.yarn.colour} == {*dict(kelp.yarn.shades)}
    made = made_to_measure(kelp, Order(wearer=IN_SIZE_6, yarn=yarn, size="6", changes=("body rows +0",)))
    assert "Alder" in poncho_spec(made).decode()


@pytest.mark.slow
def test_a_seam_is_made_as_fit_judges_it_at_her_gauge(tmp_path: Path) -> None:
    """31 rows of kelp's body are one more than its panel is long at any gauge, which just eases in."""
    design = demo("kelp")
    four = tuple(size for size in design.sizes if size.name == "4")
    parts, child = read_gauge(["18 sts 12 rows over 5 in"], design).parts, WearerSpec(age_years=5.3)
    made = made_to_measure(
        design, Order(wearer=child, parts=parts, size="4", changes=("none",), graded=False, name="")
    )
    fit = fitting(design, four, resolved(child), parts).advised
    (seam,) = (each for each in fit.making if each.code == "SEAM-LENGTH")
    assert seam.severity is Severity.MIND
    for found in (made.result.findings, evaluate(read_again(made, tmp_path))[0].findings):
        assert seam.sentence in [each.sentence for each in found]


@pytest.mark.slow
def test_counts_found_at_another_gauge_are_for_the_same_lengths() -> None:
    """A tighter gauge makes larger sizes fit by their counts; lengths meant for those are not hers."""
    parts = read_gauge(["22 sts 17 rows over 20 cm"], TIDEPOOL).parts
    at_hers = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, parts=parts, graded=True))
    at_pattern = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, graded=True))
    assert at_hers.start.name == at_pattern.start.name
    assert at_hers.fit.at_gauge.garment.neck.full_cm == pytest.approx(
        at_pattern.fit.at_gauge.garment.neck.full_cm, rel=0.05
    )


@pytest.mark.slow
def test_counts_for_exactly_this_body_come_nearer_to_it(tmp_path: Path) -> None:
    graded = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, size="8", graded=True))
    size = made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, size="8", changes=("hem 178",)))
    assert graded.fit.score <= size.fit.score
    assert_right(graded, tmp_path)


@pytest.mark.slow
def test_the_yarn_at_hand_shortens_it_by_number() -> None:
    whole = Order(wearer=IN_SIZE_6, stash_g={"": 640.0})
    shorter = made_to_measure(TIDEPOOL, replace(whole, changes=("4",)))
    changes = {each.key: each.after - each.before for each in shorter.changes}
    assert changes["body.rows"] < 0
    with pytest.raises(UsageError, match="say how much with --have"):
        made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, changes=("4",)))


def test_what_stops_is_told_in_one_sentence() -> None:
    with pytest.raises(NotWearableError) as raised:
        made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, changes=("neck -16",)))
    (sentence,) = raised.value.problems
    assert sentence.startswith("With these changes it cannot be worn: ")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("order", "said"),
    [
        (Order(wearer=IN_SIZE_6, size="7"), "no size '7'"),
        (Order(wearer=IN_SIZE_6, changes=("1",)), "there is no suggestion 1; there is none"),
        (Order(wearer=LONG_ARMS, changes=("9",)), "there is no suggestion 9; the last is "),
        (Order(wearer=LONG_ARMS, changes=("1", "2")), "suggestions 1 and 2 are each a whole"),
        (Order(wearer=IN_SIZE_6, changes=("1",), graded=True), "leave out one"),
        (Order(wearer=IN_SIZE_6, name="../x"), "the name becomes a folder's"),
        (Order(wearer=IN_SIZE_6, name="x" * 99), "the name becomes a folder's"),
        (
            Order(wearer=IN_SIZE_6, changes=("body rows 1900",)),
            "expected a body depth, neck to hem of at most 1000 cm",
        ),
    ],
)
def test_what_cannot_be_made_is_told(order: Order, said: str) -> None:
    with pytest.raises(UsageError) as raised:
        made_to_measure(TIDEPOOL, order)
    assert said in raised.value.problems[0]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((None, "lots", None), "--ball-mass: expected 1 to 5000 g, got 'lots'"),
        ((None, None, "-3"), "--ball-length: expected 1 to 10000 m"),
        ((None, "1", "5000"), "--ball-length: expected 0.02 to 100 m to the gram"),
        (("", None, None), "--yarn: expected one line"),
    ],
)
def test_what_is_no_yarn_is_told(words: tuple[str | None, str | None, str | None], said: str) -> None:
    with pytest.raises(UsageError) as raised:
        own_yarn(TIDEPOOL.yarn, *words)
    assert raised.value.problems[0].startswith(said)


@pytest.mark.slow
def test_what_fit_suggests_of_graded_sizes_is_what_make_makes() -> None:
    """A length meant for a size's own wearer does not keep what is right for another from being told."""
    kelp, six = demo("kelp"), WearerSpec(age_years=6, own={Body.HEAD_GIRTH: 52.0, Body.HEIGHT: 118.0})
    assert any(size.meant for size in kelp.sizes)
    size = next(size for size in kelp.sizes if size.name == "8")
    (suggested, *_) = suggestions(fitting(kelp, [size], resolved(six)))
    assert suggested.right
    made = made_to_measure(kelp, Order(wearer=six, size="8"))
    assert counts_of(made.design.sizes[0]) == counts_of(suggested.after.at_gauge.size)


@pytest.mark.slow
@pytest.mark.parametrize(("age", "told"), [(6.0, True), (14.0, False)])
def test_a_size_that_nobody_would_think_of_is_said_not_to_be_hers(age: float, told: bool) -> None:
    """The bands of size S, for arms of 70 cm and more, come 17 cm over the hand of a child of six."""
    order = Order(wearer=WearerSpec(age_years=age), size="S", changes=("hem +0",))
    blocks = poncho_document(made_to_measure(TIDEPOOL, order)).sections[0].blocks
    assert (NOT_HERS.format(size="S") in blocks) is told


@pytest.mark.slow
def test_why_counts_were_changed_is_told() -> None:
    """What was said of the size as it stands, and is no longer; nothing where nothing is changed."""
    six = WearerSpec(age_years=6, own={Body.HEAD_GIRTH: 52.0, Body.HEIGHT: 118.0})
    made = made_to_measure(TIDEPOOL, Order(wearer=six, size="6"))
    assert made.changes
    assert made.fit.reported == ()
    assert all(each.unsure for each in made.start.reported)
    (surer,) = (each for each in poncho_document(made).sections[0].blocks if isinstance(each, Items))
    kept = made_to_measure(TIDEPOOL, Order(wearer=six, size="6", changes=("hem +0",)))
    (left,) = (each for each in poncho_document(kept).sections[0].blocks if isinstance(each, Items))
    assert {*left.items} == {each.full_sentence for each in made.start.reported}
    assert all(map(str.startswith, map(str, left.items), map(str, surer.items)))
    assert (left.caption, surer.caption) == ("", "What the changes make surer of size 6 as it stands:")
