"""Changes as a maker says them, and what follows from each."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

import schematics
from schematics.analysis.yarn.stash import StashVerdict
from schematics.checks.finding import Severity
from schematics.errors import UsageError
from schematics.fitting.to_measure.asked_changes import AskedChange, in_counts, read_changes, with_changes
from schematics.fitting.to_measure.made_to_measure import made_to_measure, refuse
from schematics.fitting.to_measure.order import NotWearableError, Order, UnworkableError
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.garment.constructions.base import counts_of
from schematics.wearer.body import Body, WearerSpec
from tests.fitting.children import demo

TIDEPOOL = demo("tidepool")
SIX = next(size for size in TIDEPOOL.sizes if size.name == "6")


@pytest.mark.parametrize(
    ("text", "key", "number", "relative"),
    [
        ("hem +2", "body.hem", 2, True),
        ("  HEM  −4 ", "body.hem", -4, True),
        ("body.hem=170", "body.hem", 170, False),
        ("body hem 170", "body.hem", 170, False),
        ("arms_from_front -1", "arms.from_front", -1, True),
        ("from front+1", "arms.from_front", 1, True),
        ("panel rows = 40", "panel.rows", 40, False),
        ("neck band stitches 6", "neck_band.stitches", 6, False),
    ],
)
def test_a_count_is_named_in_plain_words(text: str, key: str, number: int, relative: bool) -> None:
    numbers, (change,) = read_changes([text], SIX)
    assert numbers == ()
    assert change == AskedChange(key=key, number=number, relative=relative, text=text)


def test_suggestions_are_named_by_number() -> None:
    assert read_changes(["2", " 4 ", "2"], SIX) == ((2, 4), ())


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("hemm +2", "there is no count 'hemm'; did you mean 'hem +2'?"),
        ("panel +1", "no count 'panel'; did you mean 'panel stitches +1' or 'panel rows +1'?"),
        ("stitches −2", "'panel stitches -2', 'neck band stitches -2' or 'arm bands stitches -2'?"),
        ("sleeve +2", "no count 'sleeve'; expected one of 'body neck', 'body hem', 'body rows',"),
        ("hem", "or the number of a suggestion, got 'hem'; did you mean 'hem +2'?"),
        ("+4 rows of the body", "got '+4 rows of the body'"),
        ("30 body rows", "got '30 body rows'; did you mean 'body rows 30'?"),
        ("hem +2.5", "got 'hem +2.5'"),
        ("hem ++2", "got 'hem ++2'"),
        ("", "got ''"),
        ("x" * 500, "got 'xxx"),
    ],
)
def test_what_is_no_change_is_told(text: str, said: str) -> None:
    with pytest.raises(UsageError) as raised:
        read_changes([text], SIX)
    (problem,) = raised.value.problems
    assert problem.startswith("--change: ")
    assert said in problem
    for meant in re.findall(r"'([^']+)'", problem.partition("did you mean ")[2]):
        assert read_changes([meant], SIX)[1]


@pytest.mark.parametrize(
    ("name", "text", "changes"),
    [
        ("saltmarsh", "hem -16", {"body.increase_rows": 16, "body.increase_until": 24}),
        ("saltmarsh", "hem 180", {"body.increase_rows": 17, "body.increase_until": 26}),
        ("driftwood", "hem +2", {"body.width": 114}),
        ("driftwood", "hem 120", {"body.width": 120}),
        ("driftwood", "arm bands -1", {"arm_bands.stitches": 7}),
        ("saltmarsh", "neck band 6", {"neck_band.stitches": 6}),
    ],
)
def test_a_hem_is_changed_whatever_makes_it(name: str, text: str, changes: dict[str, int]) -> None:
    """Saltmarsh: 44 at the neck and two at each of 4 lines on 18 rows are 188; rows 2, 3, 5, 6, ..."""
    design = demo(name)
    size = next(each for each in design.sizes if each.name == "6")
    _, asked = read_changes([text], size)
    before, after = counts_of(size), counts_of(with_changes(design, size, in_counts(design, size, asked)))
    assert {key: count for key, count in after.items() if count != before[key]} == changes


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("hem +2", "'hem +8' with 'body rows +1'"),
        ("hem -9", "'hem -16' or 'hem -8'"),
        ("hem 190", "'hem 196' with 'body rows +1'"),
    ],
)
def test_a_hem_that_rows_of_increases_do_not_make_is_refused_with_one_they_do(text: str, meant: str) -> None:
    """The next row of increases would be row 29, and there are 28."""
    design = demo("saltmarsh")
    size = next(each for each in design.sizes if each.name == "6")
    _, asked = read_changes([text], size)
    with pytest.raises(UsageError, match=re.escape(f"every line, 8 in all; did you mean {meant}?")):
        in_counts(design, size, asked)
    named = re.findall(r"'([^']+)'", meant.partition(" or ")[0])
    with_changes(design, size, in_counts(design, size, read_changes(named, size)[1]))


def test_counts_that_clash_are_told_without_keys_of_a_spec() -> None:
    """Saltmarsh, size 6: rows 2, 3, 5, 6, ... to 27 are 18; the next would be row 29 of 28."""
    design = demo("saltmarsh")
    size = next(each for each in design.sizes if each.name == "6")
    _, asked = read_changes(["hem +8"], size)
    with pytest.raises(UsageError) as raised:
        with_changes(design, size, in_counts(design, size, asked))
    (problem,) = raised.value.problems
    assert "row 27 the last of them, make 18 increase rows, not 19" in problem
    assert "_" not in problem


def test_every_wrong_change_is_told_at_once_and_a_count_changed_twice() -> None:
    with pytest.raises(UsageError) as raised:
        read_changes(["hemm +2", "nothing", "hem +2", "body hem 3"], SIX)
    assert len(raised.value.problems) == 3
    assert raised.value.problems[2] == "--change: 'body hem' is changed twice; say once what it is to be"


def changed(*texts: str) -> dict[str, int]:
    """The counts of size 6 that are others with these changes."""
    _, changes = read_changes(texts, SIX)
    before, after = counts_of(SIX), counts_of(with_changes(TIDEPOOL, SIX, changes))
    return {key: count for key, count in after.items() if count != before[key]}


def test_the_panel_follows_the_body_unless_it_is_named_too() -> None:
    """29 rows at 14 over 20 cm are 41.4 cm, 38.7 of the panel at 14 over 15 cm: 40 in repeats of 4."""
    assert changed("body rows +2") == {"body.rows": 29, "panel.rows": 40}
    assert changed("body rows +2", "panel rows 36") == {"body.rows": 29}


def test_an_arm_run_stays_in_its_middle() -> None:
    assert changed("arms stitches +4") == {"arms.stitches": 20, "arms.from_front": 34}
    assert changed("arms stitches +3") == {"arms.stitches": 19}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("hem 20", "the hem (20) has fewer stitches than the neck (36)"),
        ("body rows -40", "body rows would be -13; expected 1 to 2000"),
        ("hem 9000", "body hem would be 9000; expected 2 to 2000"),
        ("panel stitches 0", "panel stitches would be 0; expected 1 to 2000"),
        ("hem 0", "body hem would be 0; expected 2 to 2000"),
    ],
)
def test_what_cannot_be_worked_is_told(text: str, said: str) -> None:
    with pytest.raises(UsageError) as raised:
        changed(text)
    (problem,) = raised.value.problems
    assert said in problem


@pytest.mark.slow
@pytest.mark.parametrize(("name", "asked"), [("kelp", "body rows -2"), ("tidepool", "body rows -3")])
def test_what_can_be_worn_instead_is_told_and_can_be_made(name: str, asked: str) -> None:
    """What is offered is taken as it is told, with the panel's rows, and every seam is good."""
    design, child = demo(name), WearerSpec(age_years=6)
    with pytest.raises((NotWearableError, UsageError)) as raised:
        made_to_measure(design, Order(wearer=child, size="6", changes=(asked,)))
    assert isinstance(raised.value, (NotWearableError, UnworkableError))
    offered = raised.value.instead
    assert any(each.startswith("body rows -") for each in offered)
    assert any(each.startswith("panel rows -") for each in offered)
    made = made_to_measure(design, Order(wearer=child, size="6", changes=offered))
    seams = [each.severity for each in made.result.findings if each.code == "SEAM-LENGTH"]
    assert set(seams) == {Severity.GOOD}


@pytest.mark.slow
def test_of_a_count_far_off_the_farthest_that_can_be_worn_is_offered_as_it_was_asked_for() -> None:
    """A hem of 20 has fewer stitches than the neck; with one less than is offered nothing can be made."""
    child = WearerSpec(age_years=6)
    with pytest.raises(UnworkableError) as raised:
        made_to_measure(TIDEPOOL, Order(wearer=child, size="6", changes=("hem 20",)))
    (offered,) = raised.value.instead
    count = int(offered.removeprefix("body hem "))
    assert 36 <= count < 166
    assert made_to_measure(TIDEPOOL, Order(wearer=child, size="6", changes=(offered,)))
    with pytest.raises(NotWearableError) as raised_again:
        made_to_measure(TIDEPOOL, Order(wearer=child, size="6", changes=(f"hem {count - 1}",)))
    assert raised_again.value.instead == (offered,)


@pytest.mark.slow
@pytest.mark.parametrize("asked", ["body rows 0", "body rows -100"])
def test_of_a_body_without_rows_what_is_offered_is_no_collar(asked: str) -> None:
    """Six rows can be worn, but the hem is then far above where size 6 has it: at most 20 cm is offered."""
    wearer = WearerSpec(age_years=6, own={Body.HEIGHT: 118.0, Body.HEAD_GIRTH: 52.0})
    with pytest.raises(UnworkableError, match=r"body rows would be (0|-73); expected 1 to 2000") as raised:
        made_to_measure(TIDEPOOL, Order(wearer=wearer, size="6", changes=(asked,)))
    made, whole = (
        made_to_measure(TIDEPOOL, Order(wearer=wearer, size="6", changes=changes))
        for changes in (raised.value.instead, ("none",))
    )
    assert made.changes
    hangs = [each.fit.at_gauge.facts["drop_cm"] for each in (made, whole)]
    assert hangs[1] - 20.0 < hangs[0] < hangs[1]


@pytest.mark.slow
def test_the_library_speaks_of_its_own_argument() -> None:
    """What is typed at a command's option is an argument there, and so is what can be had instead."""
    for changes, told in (
        ("hem 20", "changes=['body hem "),
        ("hemm +2", "did you mean 'hem +2'?"),
        ("4", "say how much with have"),
    ):
        with pytest.raises(UsageError) as raised:
            schematics.make_to_measure(TIDEPOOL, age=6, size="6", changes=changes)
        assert raised.value.problems[0].startswith("changes: ")
        assert "--" not in str(raised.value)
        assert told in str(raised.value)


@pytest.mark.slow
def test_the_suggestion_for_too_little_yarn_has_been_made_before_it_is_named() -> None:
    """What it does is told, and asked for it comes out so; it goes with what is advised for the wearer."""
    order = Order(wearer=WearerSpec(age_years=6, own={Body.HEAD_GIRTH: 52.0}), stash_g={"": 560.0})
    made = made_to_measure(TIDEPOOL, order)
    assert made.shorter is not None
    fits, yarn, *_ = poncho_document(made).sections
    assert (fits.heading, yarn.heading) == ("Does it fit?", "Yarn")
    _, verdict, told = map(str, yarn.blocks)
    assert re.fullmatch(r"The yarn at hand is not enough: \d+ g short\.", verdict)
    assert told.startswith("Get that much more, or ask for suggestion 4: work ")
    assert all(each.words in told for each in made.shorter.changes)
    assert all(each.words in told for each in made.shorter.checks)
    shorter = made_to_measure(TIDEPOOL, replace(order, changes=("4",)))
    assert shorter.stash is StashVerdict.ENOUGH
    assert counts_of(shorter.design.sizes[0]) == counts_of(made.shorter.result.size)
    assert shorter.result.findings == made.shorter.result.findings
    hopeless = made_to_measure(TIDEPOOL, replace(order, stash_g={"": 100.0}))
    assert hopeless.shorter is None
    _, yarn, *_ = poncho_document(hopeless).sections
    assert str(yarn.blocks[2]).startswith("Get that much more: ")
    assert "suggestion" not in str(yarn.blocks)


@pytest.mark.slow
def test_none_takes_the_size_as_the_pattern_has_it() -> None:
    """The arms are too long for size 6, for which changes are advised; she may decline them."""
    wearer = WearerSpec(age_years=6, own={Body.CENTRE_BACK_NECK_TO_WRIST: 60.0})
    advised, declined = (
        made_to_measure(TIDEPOOL, Order(wearer=wearer, size="6", changes=changes))
        for changes in ((), (" None ",))
    )
    assert advised.changes
    assert not declined.changes
    assert counts_of(declined.design.sizes[0]) == counts_of(TIDEPOOL.sizes[2])
    lead = " ".join(map(str, poncho_document(advised).lead))
    assert "the smallest found that help" in lead
    assert "none" not in lead
    assert not any("“none”" in str(each) for each in poncho_document(declined).lead)


@pytest.mark.parametrize(
    ("order", "said"), [({"changes": ("none", "1")}, "besides"), ({"graded": True}, "anew")]
)
def test_none_goes_with_nothing_else(order: dict[str, Any], said: str) -> None:
    with pytest.raises(UsageError, match=f"--change: .*{said}"):
        refuse(TIDEPOOL, Order(wearer=WearerSpec(age_years=6), **{"changes": ("none",), **order}))
