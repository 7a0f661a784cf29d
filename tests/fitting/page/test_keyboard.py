"""The form filled in by keyboard alone, in both units, and what it keeps."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from schematics.units import Unit
from schematics.wearer.body import Body
from tests.examples import combinations, thorough
from tests.fitting.page.browser import CONTROL, SHIFT, Tab
from tests.fitting.page.children import ANSWERS, Child, Sizes, child
from tests.fitting.page.conftest import few_sizes
from tests.fitting.page.form import go_to, summary, type_in, value

HEAD = {"id": "head_girth", "text": "53", "unit": "cm"}
IN_CM = child(
    {
        Body.HEAD_GIRTH: "53",
        Body.NECK_GIRTH: "26,5",
        Body.HAND_GIRTH: "15",
        Body.HEIGHT: "117",
    }
)
IN_INCHES = child({Body.HEAD_GIRTH: "20 7/8", Body.WRIST_GIRTH: "4.75", Body.HEIGHT: "46"}, Unit.IN)


@pytest.fixture
def tab(opened: Tab) -> Tab:
    """The page with everything cleared, the focus nowhere."""
    opened.resize(1200, 900)
    opened.run("document.getElementById('forget').click(); document.activeElement.blur()")
    return opened


def fill_in(tab: Tab, each: Child) -> None:
    for body in Body:
        if body in each.texts:
            go_to_field(tab, body)
            tab.type(each.texts[body])
    tab.press("Tab")


def put_in(tab: Tab, each: Child) -> None:
    """The same at once, where it is not the keyboard that is tried."""
    tab.run(f"document.getElementById('unit-{each.unit.value}').click()")
    for body, text in each.texts.items():
        type_in(tab, body.value, text)


def go_to_field(tab: Tab, body: Body) -> None:
    """By the keyboard to a measurement, of which but one is shown at a time."""
    if body in (Body.HEIGHT, Body.HEAD_GIRTH):
        go_to(tab, body.value)
        return
    if not tab.run("document.getElementById('steps').open"):
        go_to(tab, "measure-one")
        tab.press("Enter")
    for way in ("next", "back"):
        for _ in range(len(Body)):
            if not tab.run(f"document.getElementById('step-{body.value}').hidden"):
                go_to(tab, body.value)
                return
            if tab.run(f"document.getElementById('step-{way}').disabled"):
                break
            go_to(tab, f"step-{way}")
            tab.press("Enter")
    raise AssertionError(f"the steps do not get to {body.words}")


def stored(tab: Tab) -> int:
    """How many things the browser keeps for the page."""
    return int(tab.run("localStorage.length + sessionStorage.length"))


def assert_judged(tab: Tab, each: Child) -> None:
    expected = Sizes(few_sizes()).judged(each)
    assert tab.run(ANSWERS) == expected["answers"]
    assert f"size {expected['advised']}" in summary(tab)
    headings = tab.run("[...document.querySelectorAll('#why h3')].map((each) => each.textContent)")
    assert len(headings) == len(few_sizes().sizes)
    assert [f"Size {expected['advised']}, advised:" in words for words in headings].count(True) == 1


@pytest.mark.slow
def test_filled_in_by_keyboard_alone_the_unit_converts_what_was_typed_and_back_again(tab: Tab) -> None:
    fill_in(tab, IN_CM)
    assert_judged(tab, IN_CM)
    before = tab.run(ANSWERS)
    go_to(tab, "unit-cm")
    tab.press("ArrowRight")
    # 53 / 2.54 = 20.866..., 26.5 / 2.54 = 10.433...
    assert (value(tab, "head_girth"), value(tab, "neck_girth")) == ("20.87", "10.43")
    assert tab.run("document.getElementById('head_girth-unit').textContent") == "inches"
    assert tab.run(ANSWERS) == before, "what was typed is judged, not what it is rounded to"
    tab.press("ArrowLeft")
    assert (value(tab, "head_girth"), value(tab, "neck_girth")) == ("53", "26,5")
    assert tab.run(ANSWERS) == before


@pytest.mark.slow
def test_nothing_is_kept_unless_asked_and_forgetting_is_thorough(tab: Tab, few: Path) -> None:
    put_in(tab, IN_INCHES)
    assert stored(tab) == 0
    go_to(tab, "remember")
    for kept in (1, 0, 1):
        tab.press(" ")
        assert (stored(tab), value(tab, "head_girth")) == (kept, "20 7/8"), "the form is left as it is"
    before = tab.run(ANSWERS)
    tab.goto(few)
    assert (value(tab, "head_girth"), value(tab, "wrist_girth")) == ("20 7/8", "4.75")
    assert tab.run(
        "document.getElementById('unit-in').checked && document.getElementById('remember').checked"
    )
    assert tab.run(ANSWERS) == before
    go_to(tab, "forget")
    tab.press("Enter")
    assert (stored(tab), value(tab, "head_girth")) == (0, "")
    assert not tab.run("document.getElementById('remember').checked")


def test_a_browser_that_keeps_nothing_is_said(tab: Tab) -> None:
    tab.run(
        "kept = Storage.prototype.setItem; Storage.prototype.setItem = () => { throw new Error('full'); };"
    )
    go_to(tab, "remember")
    tab.press(" ")
    assert tab.run("document.getElementById('stored').textContent").startswith("This browser does not let")
    assert not tab.run("document.getElementById('remember').checked")
    tab.run("Storage.prototype.setItem = kept; 0")


ODD: tuple[object, ...] = ({"toString": None}, None, 53, ["cm"], "constructor", "53 constructor")
ODD_ENTRIES = [*ODD, *({**HEAD, key: each} for key in HEAD for each in ODD), HEAD]
"""All but the last cannot be read back."""


@pytest.mark.slow
@pytest.mark.seeds
def test_what_can_be_read_back_is_although_something_cannot(tab: Tab, few: Path) -> None:
    odd = combinations(ODD, ("entries", "unit")) if thorough() else [(53, "entries")]
    whole = {"entries": ODD_ENTRIES, "unit": ODD[0]}
    values = [*({"entries": [], key: each} for each, key in odd), whole]
    for kept in ("[", "null", *map(json.dumps, values)):
        tab.run(f"localStorage.setItem('schematics-fit/tidepool', {json.dumps(kept)})")
        tab.goto(few)
        assert (kept, tab.complaints) == (kept, [])
    assert value(tab, "head_girth") == "53"
    type_in(tab, "height", "117")
    assert len(tab.run(ANSWERS)) == len(few_sizes().sizes)


def test_enter_sends_nothing(tab: Tab, few: Path) -> None:
    go_to(tab, "head_girth")
    tab.type("53")
    tab.press("Enter")
    assert tab.run("location.href") == few.resolve().as_uri()
    assert value(tab, "head_girth") == "53"


def test_an_entry_is_replaced_by_typing_over_it(tab: Tab) -> None:
    go_to(tab, "head_girth")
    tab.type("80")
    tab.press("Tab")
    assert tab.run("document.getElementById('head_girth').getAttribute('aria-invalid')") == "true"
    go_to(tab, "head_girth")
    tab.press("a", modifiers=CONTROL)
    tab.press("Delete")
    tab.type("52")
    assert tab.run("document.getElementById('head_girth').getAttribute('aria-invalid')") is None


FOCUS = """
(() => {
  const at = document.activeElement;
  if (at === document.body) return null;
  const style = getComputedStyle(at), box = at.getBoundingClientRect();
  const seen = box.bottom > 0 && box.top < window.innerHeight;
  return { id: at.id, outline: style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth), seen };
})()
"""


@pytest.mark.seeds
@pytest.mark.parametrize("back", [False, True] if thorough() else [True])
def test_every_stop_of_the_tab_key_shows_where_it_is(tab: Tab, few: Path, back: bool) -> None:
    tab.goto(few)  # else it goes on from where the focus was last
    tab.resize(360, 640)
    type_in(tab, "head_girth", "80")
    type_in(tab, "height", "117")
    tab.run("for (const each of document.querySelectorAll('details')) each.open = true")
    seen = []
    for _ in range(150):
        tab.press("Tab", modifiers=SHIFT if back else 0)
        focus = tab.run(FOCUS)
        if focus is None:
            break
        seen.append(focus)
    assert len(seen) > 30
    assert [each for each in seen if each["outline"] < 2] == []
    assert [each for each in seen if not each["seen"]] == []
    fields = tab.run(
        "[...document.querySelectorAll('input, select, button:not([disabled])')]"
        ".filter((each) => each.closest('.step[hidden]') === null).map((each) => each.id)"
    )
    missed = set(fields) - {each["id"] for each in seen}
    assert missed == {"unit-in"}, "the other radio button is reached by the arrow keys"
