"""Changes as a maker says them, and what follows from each."""

from __future__ import annotations

import re

import pytest

from schematics.checks.finding import Severity
from schematics.errors import UsageError
from schematics.fitting.made.asked_changes import AskedChange, read_changes, with_changes
from schematics.fitting.made.made_to_measure import NotWearableError, Order, made_to_measure
from schematics.garment.constructions.base import counts_of
from schematics.wearer.body import WearerSpec
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
        ("hemm +2", "there is no count 'hemm'; did you mean 'hem'?"),
        ("stitches +2", "there is no count 'stitches'"),
        ("hem", "expected 'hem +2', 'body rows 30' or the number of a suggestion, got 'hem'"),
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
        ("body rows -40", "body rows would be -13; expected 0 to 2000"),
        ("hem 9000", "body hem would be 9000; expected 0 to 2000"),
        ("panel stitches 0", "'panel stitches 0'"),
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
    told = str(raised.value).partition("instead: ")[2]
    offered = getattr(raised.value, "instead", ()) or tuple(re.findall(r"--change '([^']+)'", told))
    assert any(each.startswith("body rows -") for each in offered)
    assert any(each.startswith("panel rows -") for each in offered)
    made = made_to_measure(design, Order(wearer=child, size="6", changes=offered))
    seams = [each.severity for each in made.result.findings if each.code == "SEAM-LENGTH"]
    assert set(seams) == {Severity.GOOD}
