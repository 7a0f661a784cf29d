"""Advice is checked: what is said to make a size right does; where nothing is said, nothing simple does."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from schematics.analysis.changed_counts import count_changes
from schematics.analysis.side_effects import effects
from schematics.checks import check_size
from schematics.checks.finding import Case, Finding, Severity
from schematics.checks.tape import Tape
from schematics.design.design import Design, Size
from schematics.fitting.advice import Advice, advise, is_right
from schematics.fitting.gauge import Gauge, SizeAtGauge, parts_at_gauge, size_at_gauge
from schematics.fitting.sizing import best, size_fit, size_fits
from schematics.fitting.workshop import Workshop
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.units import Unit
from schematics.wearer.body import Body, Wearer, WearerSpec
from schematics.wearer.resolve import resolve
from tests.checks.rules.test_size_rules import CODES
from tests.examples import share, thorough
from tests.fitting.children import DEMOS, demo, random_child

UNFITTING = share(67, part=14)
"""For each of three designs: 200 in all."""


@cache
def workshop(name: str, size: str) -> Workshop:
    design = demo(name)
    (found,) = (each for each in design.sizes if each.name == size)
    return Workshop(design=design, pattern=size_at_gauge(design, found))


@cache
def unfitting(name: str) -> list[tuple[Wearer, str]]:
    """Random children whose best size is not right for them, and that size."""
    design, rng = demo(name), random.Random(f"unfitting in {name}")
    pattern = [size_at_gauge(design, size) for size in design.sizes]
    found: list[tuple[Wearer, str]] = []
    while len(found) < UNFITTING:
        wearer = random_child(rng)
        fit = best(size_fits(design, pattern, wearer))
        if not is_right(fit):
            found.append((wearer, fit.name))
    return found


def said_by_the_checks(design: Design, size: Size, wearer: Wearer) -> tuple[Finding, ...]:
    """Made and checked anew, by nothing that the search uses."""
    garment = CONSTRUCTIONS[design.construction].build(size, design.parts)
    case = Case(
        design=design,
        parts=design.parts,
        size=size,
        garment=garment,
        freedom=arm_freedom(garment),
        wearer=wearer,
        limits=design.limits,
    )
    return check_size(case)


def worked_by_hand(size: Size, changes: dict[str, int]) -> Size:
    """The size with the counts that a maker is told, put into the spec's blocks."""
    body = {key.removeprefix("body."): count for key, count in changes.items() if key.startswith("body.")}
    arms = {key.removeprefix("arms."): count for key, count in changes.items() if key.startswith("arms.")}
    fields = {
        "panel.stitches": "panel_stitches",
        "panel.rows": "panel_rows",
        "arm_bands.stitches": "arm_band_stitches",
    }
    others: dict[str, Any] = {fields[key]: count for key, count in changes.items() if key in fields}
    return replace(
        size,
        body=type(size.body).model_validate(size.body.model_dump() | body),
        arms=type(size.arms).model_validate(size.arms.model_dump() | arms),
        **others,
    )


STOPPING = {"NECK-PASS", "NECK-TIGHT", "ARM-PASS", "GIRTH-EASE", "HANG-KNEE"}
"""What stops a child where it fails."""


def badness(findings: tuple[Finding, ...]) -> Counter[Severity]:
    return Counter(each.severity for each in findings if each.code not in CODES)


def amiss(findings: tuple[Finding, ...]) -> tuple[int, int]:
    """What stops her, and how much is amiss by what she has to mind: a doubt fails in three of ten, what is
    to be minded as measured in three of four, and what is in doubt to stop her is as bad as five of these.
    """
    of_her = [each for each in findings if each.code in CODES]
    surely = [each for each in of_her if not each.unsure]
    doubts = [5 if each.code in STOPPING else 1 for each in of_her if each.unsure]
    minds = [100 if each.code in STOPPING else 75 for each in surely if each.severity is Severity.MIND]
    return sum(each.severity is Severity.STOP for each in surely), 30 * sum(doubts) + sum(minds)


def assert_it_helps(design: Design, advice: Advice, wearer: Wearer) -> None:
    size = advice.before.at_gauge.size
    changes = count_changes(size, advice.after.at_gauge.size, design)
    told = {each.key: each.after for each in changes}
    changed = worked_by_hand(size, told)
    findings = said_by_the_checks(design, changed, wearer)
    if advice.right:
        assert {each.severity for each in findings if each.code in CODES} == {Severity.GOOD}
    else:
        left = amiss(findings)
        assert left[0] == 0
        assert left < amiss(advice.before.findings)
    making, pattern = badness(findings), badness(said_by_the_checks(design, size, wearer))
    assert (making[Severity.STOP], making[Severity.MIND]) <= (pattern[Severity.STOP], pattern[Severity.MIND])


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", DEMOS if thorough() else ["driftwood"])
def test_applied_advice_makes_the_findings_good_or_it_says_that_nothing_small_will(name: str) -> None:
    said: Counter[str] = Counter()
    for wearer, size in unfitting(name):
        advice = advise(workshop(name, size), wearer)
        if advice is None:
            said["nothing"] += 1
        else:
            said["right" if advice.right else "better"] += 1
            assert_it_helps(demo(name), advice, wearer)
    assert said["right"] > UNFITTING * 0.5, said


@cache
def with_a_lever_moved(name: str, size: str) -> list[SizeAtGauge]:
    """A size with each count by itself moved as far as is small."""
    design, pattern = demo(name), workshop(name, size).pattern.size
    levers = CONSTRUCTIONS[design.construction].levers
    moved = (
        lever.apply(pattern, step, design.parts)
        for lever in levers
        for step in range(-lever.most, lever.most + 1)
    )
    return [size_at_gauge(design, each) for each in moved if each is not None]


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", DEMOS if thorough() else ["saltmarsh"])
def test_where_nothing_small_is_said_to_help_no_single_change_does(name: str) -> None:
    design, looked_at = demo(name), 0
    for wearer, size in unfitting(name):
        if looked_at == 3:
            break
        shop = workshop(name, size)
        advice = advise(shop, wearer)
        if advice is not None and advice.right:
            continue
        looked_at += 1
        for fit in size_fits(design, with_a_lever_moved(name, size), wearer):
            assert not (is_right(fit) and shop.are_as_good(fit.making)), fit.at_gauge.size


TOGETHER = (
    {"body.neck"},
    {"body.hem"},
    {"body.rows", "panel.rows"},
    {"panel.stitches"},
    {"arms.stitches", "arms.from_front"},
    {"arm_bands.stitches"},
)
"""Counts of a flared body that change for one reason."""


@pytest.mark.slow
@pytest.mark.seeds
def test_nothing_is_changed_without_need_for_a_child_known_by_age() -> None:
    """With any of the changes taken back something is left to mind."""
    design, rng, looked_at = demo("tidepool"), random.Random("known by age"), 0
    pattern = [size_at_gauge(design, size) for size in design.sizes]
    while looked_at < (5 if thorough() else 3):
        age = rng.uniform(2.0, 12.0)
        typical = resolve(WearerSpec(age_years=age), "a test").values
        own = {body: typical[body].cm * rng.gauss(1, 0.06) for body in (Body.HEAD_GIRTH, Body.HEIGHT)}
        wearer = resolve(WearerSpec(age_years=age, own=own), "a test")
        fit = best(size_fits(design, pattern, wearer))
        advice = advise(workshop("tidepool", fit.name), wearer)
        if advice is None or not advice.right:
            continue
        looked_at += 1
        size = fit.at_gauge.size
        told = {each.key: each.after for each in count_changes(size, advice.after.at_gauge.size, design)}
        for kept_back in TOGETHER:
            rest = {key: count for key, count in told.items() if key not in kept_back}
            if rest != told:
                without = size_fit(design, size_at_gauge(design, worked_by_hand(size, rest)), wearer)
                assert without.reported, (fit.name, told, kept_back)


def test_a_size_that_is_right_gets_no_advice() -> None:
    design, rng = demo("tidepool"), random.Random(4)
    while True:
        wearer = random_child(rng)
        fit = best(size_fits(design, [size_at_gauge(design, size) for size in design.sizes], wearer))
        if is_right(fit):
            assert advise(workshop("tidepool", fit.name), wearer) is None
            return


def test_nothing_small_helps_a_giant() -> None:
    values = random_child(random.Random(1)).values
    head = replace(values[Body.HEAD_GIRTH], low_cm=120.0, cm=120.0, high_cm=120.0)
    giant = replace(random_child(random.Random(1)), values={**values, Body.HEAD_GIRTH: head})
    assert advise(workshop("tidepool", "4"), giant) is None


@pytest.mark.slow
def test_advice_holds_at_the_makers_own_gauge() -> None:
    """Counts are changed as the pattern has them, lengths are the maker's."""
    design, rng = demo("tidepool"), random.Random(11)
    gauge = Gauge(
        stitches_per_cm=design.parts.body.stitches_per_cm * 1.08,
        rows_per_cm=design.parts.body.rows_per_cm * 1.04,
    )
    parts = parts_at_gauge(design.parts, gauge)
    shop = Workshop(design=design, pattern=size_at_gauge(design, design.sizes[2], parts))
    advised = 0
    while advised < 3:
        wearer = random_child(rng)
        advice = advise(shop, wearer)
        if advice is not None and advice.right:
            advised += 1
            changed = advice.after.at_gauge.size
            fresh = size_fit(design, size_at_gauge(design, changed, parts), wearer)
            assert is_right(fresh)
            assert fresh.at_gauge.garment.piece("body").fabric.stitches_per_cm == pytest.approx(1.08 * 0.95)


def test_changes_are_said_in_counts_and_repeats() -> None:
    design = demo("tidepool")
    size = design.sizes[1]
    changed = replace(
        size,
        body=size.body.model_copy(update={"rows": 32, "neck": 35}),
        panel_stitches=18,
        panel_rows=44,
    )
    assert [each.words for each in count_changes(size, changed, design)] == [
        "1 fewer stitch at the neck (35 in all)",
        "8 more body rows (32 in all)",
        "2 more repeats across the panel (18 panel stitches in all)",
        "3 more repeats up the panel (44 panel rows in all)",
    ]
    assert counts_of(size)["panel.rows"] == 32


def test_increase_rows_more_move_the_last_of_them() -> None:
    """Rows 2, 4, ... 20 are ten; two more go to row 24, and the 25 rows have no room for a third."""
    design = demo("saltmarsh")
    body = MitredBody(neck=40, lines=4, rows=25, increase_every=2, increase_until=20, increase_rows=10)
    size = replace(design.sizes[0], body=body)
    (lever,) = (each for each in CONSTRUCTIONS["mitred"].levers if each.key == "body.hem")
    changed = lever.apply(size, 2, design.parts)
    assert changed is not None
    assert [each.words for each in count_changes(size, changed, design)] == [
        "row 24 as the last row with increases, not row 20",
        "2 more rows with increases (12 in all)",
    ]
    assert lever.apply(size, 3, design.parts) is None


def test_effects_are_the_differences_on_the_tape() -> None:
    """Eight rows more at 7 rows to 10 cm hang 11.4 cm lower."""
    design = demo("tidepool")
    size = design.sizes[1]
    longer = replace(size, body=size.body.model_copy(update={"rows": 32}), panel_rows=44)
    told = {each.key: each for each in effects(size_at_gauge(design, size), size_at_gauge(design, longer))}
    assert told["drop_cm"].change_cm == pytest.approx(80 / 7)
    assert told["drop_cm"].words(Tape(Unit.CM)) == "hang +11.4 cm"
    assert told["drop_cm"].words(Tape(Unit.IN)) == "hang +4 1/2 in"
    assert "neck.full_cm" not in told
