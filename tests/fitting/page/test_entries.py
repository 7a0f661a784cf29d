"""Broken and absurd entries get a message by their field, and the rest goes on."""

from __future__ import annotations

from typing import Any

import pytest

from schematics.units import Unit
from schematics.wearer.asking import questions
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from tests.fitting.page.browser import Tab
from tests.fitting.page.form import type_each, type_in

UNDERSTOOD = "Not understood: type a length such as 52, 52.5, 20 1/2 or 4 ft 2."


@pytest.fixture
def tab(opened: Tab) -> Tab:
    """The page with everything cleared."""
    opened.run("document.getElementById('forget').click()")
    return opened


def answer(tab: Tab, code: str) -> Any:
    return tab.run(f"document.querySelector(\"[data-size='6'] [data-code='{code}']\").dataset.answer")


NOT_TAKEN = {
    "fifty": UNDERSTOOD,
    "52 53": UNDERSTOOD,
    "5 2/0": UNDERSTOOD,
    "1e2": UNDERSTOOD,
    "NaN": UNDERSTOOD,
    "<img src=x onerror=alert(1)>": UNDERSTOOD,
    "52 ells": "The unit is not understood: type cm, mm, m, in or ft, or a number alone.",
    "52 constructor": "The unit is not understood: type cm, mm, m, in or ft, or a number alone.",
    "-52": "A length is more than nought.",
    "5": "Expected 27 cm to 76 cm, got 5 cm.",
    "0": "Expected 27 cm to 76 cm, got 0 cm.",
    "500": "Expected 27 cm to 76 cm, got 500 cm.",
    "1,234": "Expected 27 cm to 76 cm, got 1.234 cm.",
    "0,52": "Expected 27 cm to 76 cm, got 0.52 cm: 0.52 m?",
    "20.5": "Expected 27 cm to 76 cm, got 20.5 cm: 20.5 in?",
    "520 in": "Expected 27 cm to 76 cm, got 1320.8 cm.",
    "9" * 400: UNDERSTOOD,
}


def test_a_message_by_its_field(tab: Tab) -> None:
    found = type_each(tab, [{"neck_girth": "26", "head_girth": text} for text in NOT_TAKEN])
    for (text, message), said in zip(NOT_TAKEN.items(), found, strict=True):
        assert (said["message"], said["invalid"]) == (message, "true"), text
        assert said["6 NECK-TIGHT"] == "good", "the rest goes on"
        assert said["6 NECK-PASS"] == "unknown", text
        assert said["tally"].endswith("1 entry is left out."), text
    tab.collect()
    assert tab.complaints == []


TAKEN = {
    "52,5": "",
    " 52.5 ": "",
    "52.5 cm": "",
    "525mm": "Taken as 52.5 cm, measured.",
    "20 1/2 in": "Taken as 52.1 cm, measured.",
    "20½ ″": "Taken as 52.1 cm, measured.",
    '20.5"': "Taken as 52.1 cm, measured.",
    "": "",
}


def test_what_is_understood(tab: Tab) -> None:
    """20 1/2 in is 52.07 cm."""
    found = type_each(tab, [{"head_girth": text} for text in TAKEN])
    for (text, taken), said in zip(TAKEN.items(), found, strict=True):
        assert (said["invalid"], said["message"], said["taken"]) == (None, "", taken), text


def test_the_message_goes_when_the_entry_is_mended(tab: Tab) -> None:
    assert type_in(tab, "head_girth", "500")["message"] != ""
    assert type_in(tab, "head_girth", "50")["message"] == ""


def test_no_message_while_the_entry_is_still_being_typed(tab: Tab) -> None:
    tab.run("document.getElementById('head_girth').focus()")
    tab.type("5")
    assert tab.run("document.getElementById('head_girth-problem').hidden")
    tab.press("Tab")
    assert not tab.run("document.getElementById('head_girth-problem').hidden")


def test_an_entry_in_the_wrong_unit_is_understood_when_the_unit_is_changed(tab: Tab) -> None:
    assert type_in(tab, "head_girth", "20.5")["message"] != ""
    tab.run("document.getElementById('unit-in').click()")
    assert tab.run("document.getElementById('head_girth-problem').hidden")
    assert answer(tab, "NECK-PASS") == "good"


NO_GAUGE = "Not understood: type a number such as 19 or 9.5, or its swatch: 19 over 12.5 cm."
OUT_OF_RANGE = "Expected 4.75 to 19: check the count and what it is over."
GAUGES = {
    "wool": NO_GAUGE,
    "9.5 cm": NO_GAUGE,
    "20": OUT_OF_RANGE,
    "9,6": "",
    "19.2 sts over 20 cm": "",
    "4.75": "",
    "19": "",
    "19.01": OUT_OF_RANGE,
}


def test_the_makers_gauge(tab: Tab) -> None:
    """The pattern's gauge is 9.5 stitches and 7 rows over 10 cm; as by ``fit``, half to twice it."""
    found = type_each(tab, [{"gauge-stitches": text} for text in GAUGES])
    for (text, message), said in zip(GAUGES.items(), found, strict=True):
        assert said["message"] == message, text
        count = {"9,6": "9.6", "19.2 sts over 20 cm": "9.6"}.get(text, text)
        words = "The pattern's: 9.5" if message else f"Reckoned with {count}"
        half = "" if message else " The rows are the pattern’s: count yours, too."
        assert said["gauge-taken"] == f"{words} stitches and 7 rows over 10 cm.{half}", text


def test_a_gauge_over_four_inches(tab: Tab) -> None:
    """10.16 stitches over 4 in (10.16 cm) are 10 over 10 cm; the finished hem is 1 / 10 cm a stitch."""
    tab.run("document.getElementById('unit-in').click()")
    assert type_in(tab, "gauge-stitches", "10.16")["message"] == ""
    taken = tab.run("document.getElementById('gauge-taken').textContent")
    assert taken.startswith("Reckoned with 10.16 stitches and 7.11 rows over 4 in.")
    hem = tab.run("document.querySelector(\"[data-finished='body.hem'][data-size='6']\").textContent")
    assert hem == "65 1/4 in", "166 stitches are 166 cm"
    tab.run("document.getElementById('unit-cm').click()")
    assert tab.run("document.getElementById('gauge-stitches').value") == "10"
    assert (
        tab.run("document.querySelector(\"[data-finished='body.hem'][data-size='6']\").textContent")
        == "166 cm"
    )


def test_a_measurement_that_hardly_any_body_has_is_asked_about_and_taken(tab: Tab) -> None:
    """The sentence is that of Python, see test_script; at six heads are 49 to 56 cm."""
    type_in(tab, "age", "6")
    question = "document.getElementById('head_girth-question')"
    assert tab.run(f"{question}.hidden")
    assert type_in(tab, "head_girth", "28")["message"] == ""
    asked = tab.run(f"{question}.textContent")
    assert asked == questions({Body.HEAD_GIRTH: 28}, 6, Unit.CM)[Body.HEAD_GIRTH]
    assert asked.startswith("28 cm is far below any head girth at the age of 6 years (usually ")
    assert answer(tab, "NECK-PASS") == "good"
    type_in(tab, "head_girth", "52")
    assert tab.run(f"{question}.hidden")


def test_an_age_that_is_none_gets_a_message(tab: Tab) -> None:
    found = type_each(tab, [{"age": "six"}, {"age": "121"}])
    assert [(said["message"], said["invalid"]) for said in found] == [
        ("Not understood: type an age such as 6, 18 months, 2 1/2 or 2 years 3 months.", "true"),
        ("Expected an age of 120 years at most.", "true"),
    ]


def test_an_age_between_two_of_the_table_is_read_between_them(tab: Tab) -> None:
    """Twenty months, like ``fit --age '20 months'``: 1 year 8 months are 5/3 years."""
    type_in(tab, "age", "20 months")
    height = resolve(WearerSpec(age_years=20 / 12), "a test").values[Body.HEIGHT].cm
    assert tab.run("document.getElementById('height-taken').textContent") == (
        f"Taken as {round(height, 1):g} cm, from the age table."
    )
