"""One wearer in every size, and the same wearers as a group."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import numpy as np
import pytest

from schematics.checks.rules.sentence import Answer
from schematics.design.design import Size
from schematics.fitting.deciding import Settles
from schematics.fitting.fitting import fitting, instead, other_sizes
from schematics.fitting.flaws import flaws_of
from schematics.fitting.gauge import Gauge, parts_at_gauge, size_at_gauge
from schematics.fitting.group import GroupFit, group_fit
from schematics.fitting.group_file import WearerGroup
from schematics.fitting.measured import at_end
from schematics.fitting.sizing import HEM, LEVEL_WEIGHT, REACH, best, score, size_fit, size_fits
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.expr import End
from schematics.wearer.resolve import resolve
from tests.examples import share, thorough
from tests.fitting.children import DEMOS, MEASURED, demo, random_spec
from tests.shipped import demos

NAN = math.nan


def group(specs: list[WearerSpec]) -> WearerGroup:
    return WearerGroup(
        names=tuple(str(place) for place in range(len(specs))),
        lines=np.arange(2, len(specs) + 2),
        ages=np.array([NAN if each.age_years is None else each.age_years for each in specs]),
        own={body: np.array([each.own.get(body, NAN) for each in specs]) for body in Body},
        problems=(),
        unused=(),
    )


def some_specs(name: str, many: int) -> list[WearerSpec]:
    """Measured children; of others only the age is known, or some of the measurements, or both."""
    rng = random.Random(f"some of {name}")
    specs = []
    for number in range(many):
        spec = random_spec(rng, 1.0, 19.0)
        kept = {body: spec.own[body] for body in MEASURED if number % 3 == 0 or rng.random() < 0.5}
        age = rng.choice([None, rng.uniform(1, 19)]) if number % 2 else None
        specs.append(WearerSpec(own=kept, age_years=4.5 if age is None and not kept else age))
    return specs


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", DEMOS if thorough() else ["saltmarsh"])
def test_a_group_gets_the_sizes_its_wearers_get_alone(name: str) -> None:
    design, specs = demo(name), some_specs(name, share(60, part=10))
    together = group_fit(design, design.sizes, group(specs))
    names = [size.name for size in design.sizes]
    pattern = [size_at_gauge(design, size) for size in design.sizes]
    chosen = together.judged.at_best()
    for row, spec in enumerate(specs):
        wearer = resolve(spec, "a test")
        fits = size_fits(design, pattern, wearer)
        alone = best(fits)
        assert names[together.judged.best[row]] == alone.name
        assert chosen[:, row].tolist() == [point.answer for point in alone.points]
        assert bool(together.fits[row]) is (alone.on_wearer is not Answer.STOP and not alone.is_not_hers)
        assert bool(together.wanting[row]) is bool(alone.unknown)


@pytest.mark.slow
def test_a_group_is_as_uncertain_as_its_wearers_alone() -> None:
    design = demo("tidepool")
    specs = [*some_specs("tidepool", 4), WearerSpec(own={Body.HEAD_GIRTH: 54.0})]
    together = group_fit(design, design.sizes, group(specs))
    each_made = [size_at_gauge(design, size) for size in design.sizes]
    for row, spec in enumerate(specs):
        wearer = resolve(spec, "a test")
        fits = size_fits(design, each_made, wearer)
        could_be = {
            size.name for size, may in zip(design.sizes, together.could_be[:, row], strict=True) if may
        }
        assert could_be == {best(fits).name, *other_sizes(design, fits, wearer)}
        decided = (together.deciding or {}).get(row)
        settled = decided is not None and decided.settles is Settles.SIZE
        assert bool(together.uncertain[row]) is (len(could_be) > 1 or bool(best(fits).unknown) or settled)


def counted(found: GroupFit, name: str) -> dict[str, int]:
    return {each.name: each.wearers for each in found.counts(demo(name))}


@pytest.mark.slow
def test_everyone_is_counted_once() -> None:
    design, specs = demo("driftwood"), some_specs("driftwood", 50)
    found = group_fit(design, design.sizes, group(specs))
    assert sum(counted(found, "driftwood").values()) + int((~found.fits).sum()) == 50


@pytest.mark.slow
def test_a_group_at_its_makers_gauge() -> None:
    """Worked a quarter tighter all over, the smallest size passes no head of six years."""
    design = demo("tidepool")
    spec = WearerSpec(age_years=6.0)
    body = design.parts.body
    tight = Gauge(stitches_per_cm=body.stitches_per_cm * 1.25, rows_per_cm=body.rows_per_cm * 1.25)
    parts = parts_at_gauge(design.parts, tight)
    usual = group_fit(design, design.sizes, group([spec]))
    small = group_fit(design, design.sizes, group([spec]), parts)
    assert small.judged.best[0] > usual.judged.best[0]
    assert fitting(design, design.sizes, resolve(spec, "a test"), parts).advised.name == (
        design.sizes[small.judged.best[0]].name
    )


def test_stops_weigh_most_then_what_is_to_be_expected_amiss_then_what_was_meant() -> None:
    meant = {REACH: -2.0, HEM: 20.0}

    def of(
        stops: int, flaws: float, reach_cm: float = -2.0, hem_cm: float = 20.0, *, failing: bool = False
    ) -> float:
        return float(score(stops, flaws, {REACH: reach_cm, HEM: hem_cm}, meant, failing=failing))

    rising = [
        of(0, 0.0),
        of(0, 0.0, -5.0),
        of(0, 0.0, -5.0, 16.0),
        of(0, 0.2),
        of(0, 0.3, -1.0),
        of(0, 0.1, -9.0),
        of(0, 0.99, -19.0),
        of(0, 0.5, failing=True),
        of(0, 1.0),
        of(0, 0.9, -12.0, failing=True),
        of(0, 7.0),
        of(0, 20.0),
        of(1, 0.0),
        of(1, 5.0, -1.0),
        of(2, 0.0),
    ]
    assert rising == sorted(rising)
    assert len(set(rising)) == len(rising)
    assert of(0, 0.0, 1e9) < rising[3]
    assert of(0, 2.1) == pytest.approx(of(0, 1.1, -12.0, 30.0)), "a thing to mind is as bad as 20 cm off"


@pytest.mark.slow
@pytest.mark.parametrize("age", [3.5, 5.0, 11.5])
def test_of_no_size_is_more_promised_than_of_the_one_that_is_advised(age: float) -> None:
    """At these ages one size has all well but not surely, another has less to be expected amiss."""
    design, wearer = demo("tidepool"), resolve(WearerSpec(age_years=age), "a test")
    fits = size_fits(design, [size_at_gauge(design, size) for size in design.sizes], wearer)
    promised = {"right": 0, "unsure": 1, "doubtful": 2, "mind": 2, "stop": 3}
    assert promised[best(fits).how] == min(promised[fit.how] for fit in fits)


def test_a_flaw_counts_by_how_likely_it_is_and_one_that_stops_as_five() -> None:
    mind = Answer.MIND
    assert flaws_of(mind, False, False, 0.7) == pytest.approx(0.7)
    assert flaws_of(mind, True, False, 0.2) == pytest.approx(0.2)
    assert flaws_of(mind, True, True, 0.2) == pytest.approx(5 * 0.2)
    assert flaws_of(mind, False, True, 0.01) == pytest.approx(1.05), "to mind now, and it may yet stop"
    for answer in (Answer.GOOD, Answer.UNKNOWN, Answer.STOP):
        assert flaws_of(answer, False, True, 0.4) == 0.0
    columns = (
        np.array([0, 3, 2]),
        np.array([False, False, True]),
        np.array([True, True, False]),
        np.full(3, 0.3),
    )
    assert flaws_of(*columns).tolist() == [float(flaws_of(*each)) for each in zip(*columns, strict=True)]


@pytest.mark.slow
@pytest.mark.parametrize("name", demos())
def test_the_typical_wearer_of_a_size_is_advised_that_size(name: str) -> None:
    """Of sizes that are equally right on her it is hers that comes out as it is meant to."""
    design = demo(name)
    pattern = [size_at_gauge(design, size) for size in design.sizes]
    for size in design.sizes:
        wearer = at_end(resolve(size.wearer, size.name), End.TYPICAL)
        fits = size_fits(design, pattern, wearer)
        weights = [round(fit.score // LEVEL_WEIGHT) for fit in fits]
        own = next(fit for fit in fits if fit.name == size.name)
        assert best(fits) is own or own.score // LEVEL_WEIGHT > min(weights), size.name
        assert own.score % LEVEL_WEIGHT == pytest.approx(0.0, abs=1e-6)


def sizes_of(*names: str) -> tuple[Size, ...]:
    return tuple(size for size in demo("tidepool").sizes if size.name in names)


def test_a_size_that_may_be_hers_is_advised_over_one_that_is_not() -> None:
    """Both are too short for arms of 78 cm, size 10 by 18.2 cm and S by 12.3, whose neck is in doubt, too."""
    design, two = demo("tidepool"), sizes_of("10", "S")
    spec = WearerSpec(age_years=13.0, own={Body.CENTRE_BACK_NECK_TO_WRIST: 78.0})
    found = fitting(design, two, resolve(spec, "a test"))
    assert [fit.is_not_hers for fit in found.fits] == [True, False]
    minded = [[point.answer for point in fit.points].count(Answer.MIND) for fit in found.fits]
    assert minded[0] < minded[1]
    assert (found.advised.name, found.other_sizes) == ("S", ())
    together = group_fit(design, two, group([spec]))
    assert [two[place].name for place in together.judged.best] == ["S"]
    assert together.could_be[:, 0].tolist() == [False, True]


def test_a_size_that_surely_fails_is_not_advised_over_one_that_is_only_unsure() -> None:
    """At eight years size 6 spans 74 % of both arms of the 75 asked; size 8 fails nowhere as measured."""
    design, spec = demo("tidepool"), WearerSpec(age_years=8.0)
    two = sizes_of("6", "8")
    found = fitting(design, two, resolve(spec, "a test"))
    six, eight = ([point for point in fit.points if point.answer is Answer.MIND] for fit in found.fits)
    assert [point.code for point in six if not point.unsure] == ["SPREAD-ARMS"]
    assert len(eight) > len(six)
    assert all(point.unsure for point in eight)
    assert found.advised.name == "8"
    assert two[group_fit(design, two, group([spec])).judged.best[0]].name == "8"


def test_a_head_that_may_not_pass_weighs_more_than_a_neck_a_little_wide() -> None:
    """Kelp at 18 stitches and 12 rows over 5 inches, five years and four months: two heads in ten do not pass
    size 2; that of size 6 is wide on the shoulders, and an experienced maker would work it.
    """
    design = demo("kelp")
    gauge = Gauge(stitches_per_cm=18 / 12.7, rows_per_cm=12 / 12.7)
    parts = parts_at_gauge(design.parts, gauge)
    spec = WearerSpec(age_years=5 + 4 / 12, own={Body.HEAD_GIRTH: 51.0, Body.HEIGHT: 112.0})
    found = fitting(design, design.sizes, resolve(spec, "a test"), parts)
    two, six = ({point.code: point for point in fit.points} for fit in found.fits if fit.name in ("2", "6"))
    assert two["NECK-PASS"].unsure
    assert six["NECK-SLIP"].answer is Answer.MIND
    assert not six["NECK-SLIP"].unsure
    assert found.advised.name == "6"
    together = group_fit(design, design.sizes, group([spec]), parts)
    assert design.sizes[together.judged.best[0]].name == "6"


@pytest.mark.slow
def test_what_is_measured_leaves_nothing_open() -> None:
    design, rng = demo("tidepool"), random.Random(3)
    each_made = [size_at_gauge(design, size) for size in design.sizes]
    for _ in range(5):
        wearer = resolve(random_spec(rng), "a test")
        assert other_sizes(design, size_fits(design, each_made, wearer), wearer) == ()
    by_age = fitting(design, design.sizes, resolve(WearerSpec(age_years=7.0), "a test"))
    assert by_age.other_sizes


def test_a_head_alone_leaves_every_size_open_that_it_passes() -> None:
    design = demo("tidepool")
    found = fitting(design, design.sizes, resolve(WearerSpec(own={Body.HEAD_GIRTH: 54.0}), "a test"))
    passes = [fit.name for fit in found.fits if fit.at_gauge.garment.neck.full_cm >= 54]
    assert passes == ["4", "6", "8", "10", "S", "M"]
    (four,) = (fit for fit in found.fits if fit.name == "4")
    assert [each.code for each in four.findings if each.unsure] == ["NECK-PASS"]
    assert [found.advised.name, *found.other_sizes] == passes[1:]


def test_no_size_that_it_could_be_as_well_is_called_another_childs() -> None:
    """Size 10 is too short for the usual arms at thirteen by 12.5 cm, and may do for the shortest."""
    design = demo("tidepool")
    ten, six = (next(size for size in design.sizes if size.name == name) for name in ("10", "6"))
    by_age, with_arms = (
        fitting(design, (six, ten, design.sizes[-1]), resolve(WearerSpec(age_years=13.0, own=own), "a test"))
        for own in ({}, {Body.CENTRE_BACK_NECK_TO_WRIST: 73.5})
    )
    assert by_age.advised.name == with_arms.advised.name == "M"
    hers = [[fit.name for fit in found.fits if not fit.is_not_hers] for found in (by_age, with_arms)]
    assert hers == [["10", "M"], ["M"]]
    assert (by_age.other_sizes, with_arms.other_sizes) == (("10",), ())


@pytest.mark.slow
def test_a_size_between_two_that_it_could_be_is_named() -> None:
    """At thirteen it is M by usual arms, 10 by the shortest, and S by those of 70 cm, which are neither."""
    design, three = demo("tidepool"), sizes_of("10", "S", "M")
    by_age = WearerSpec(age_years=13.0)
    between = WearerSpec(age_years=13.0, own={Body.CENTRE_BACK_NECK_TO_WRIST: 70.0})
    broken = tuple(replace(size, panel_rows=60) if size.name == "S" else size for size in three)
    found = [
        fitting(design, sizes, resolve(spec, "a test"))
        for sizes, spec in ((three, by_age), (three, between), (broken, by_age))
    ]
    assert [each.advised.name for each in found] == ["M", "S", "M"]
    assert (found[0].other_sizes, found[2].other_sizes) == (("10", "S"), ("10",))
    for sizes, could_be in ((three, [True, True, True]), (broken, [True, False, True])):
        assert group_fit(design, sizes, group([by_age])).could_be[:, 0].tolist() == could_be


@pytest.mark.slow
def test_which_size_to_work_instead() -> None:
    """A maker who works 8 % tighter makes what is a size smaller; at the pattern's gauge nothing changes."""
    design = demo("tidepool")
    wearers = [resolve(size.wearer, size.name) for size in design.sizes]
    body = design.parts.body
    same = instead(design, design.sizes, wearers, design.parts)
    assert [each.instead.name for each in same] == [size.name for size in design.sizes]
    tight = Gauge(stitches_per_cm=body.stitches_per_cm * 1.08, rows_per_cm=body.rows_per_cm * 1.08)
    found = instead(design, design.sizes, wearers, parts_at_gauge(design.parts, tight))
    names = [size.name for size in design.sizes]
    moved = [names.index(each.instead.name) - names.index(each.meant) for each in found]
    assert all(0 <= each <= 2 for each in moved)
    assert sum(moved) >= 4
    for each in found:
        order = ["good", "mind", "stop"]
        assert order.index(each.instead.verdict) <= order.index(each.as_it_is.verdict)


@pytest.mark.slow
def test_how_a_size_is_made_counts_too() -> None:
    """A size whose panel does not meet its body is no size to advise."""
    design = demo("tidepool")
    broken = replace(design.sizes[3], panel_rows=60)
    sizes = (*design.sizes[:3], broken, *design.sizes[4:])
    wearer = resolve(WearerSpec(age_years=7.0), "a test")
    assert fitting(design, design.sizes, wearer).advised.name == "8"
    assert fitting(design, sizes, wearer).advised.name != "8"
    found = group_fit(design, sizes, group([WearerSpec(age_years=7.0)]))
    assert design.sizes[found.judged.best[0]].name != "8"
    assert found.fits.all()
    only = group_fit(design, (broken,), group([WearerSpec(age_years=7.0)]))
    assert not only.fits.any()


def test_one_child_known_by_age_is_not_taken_to_be_the_largest_in_everything() -> None:
    """At seven years the largest heads, 56.5 cm, do not pass size 4; a typical one of 53 does, just so."""
    design, wearer = demo("tidepool"), resolve(WearerSpec(age_years=7.0), "a test")
    each = size_at_gauge(design, design.sizes[1])
    assert 53.1 < each.garment.neck.full_cm < 56
    row = resolve(WearerSpec(chart="age/7"), "a test")
    answers = [
        {point.code: point.answer for point in size_fit(design, each, one).points} for one in (wearer, row)
    ]
    assert [each["NECK-PASS"] for each in answers] == [Answer.MIND, Answer.STOP]
    assert answers[0]["REACH-BAND"] == answers[1]["REACH-BAND"]


@pytest.mark.slow
def test_a_size_that_wants_a_measurement_is_not_given_up_for_changes_to_another() -> None:
    """Of a six-year-old only the head is measured; the neck of size 6 stays on if her shoulders are usual."""
    design = demo("tidepool")
    wearer = resolve(WearerSpec(age_years=6, own={Body.HEAD_GIRTH: 52.4}), "a child")
    found = fitting(design, design.sizes, wearer)
    assert found.advised.name == "6"
    assert found.advised.to_be_sure == ("measure the shoulder breadth",)
    assert found.advice is None
