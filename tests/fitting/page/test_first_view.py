"""What a maker sees first: three questions, the size, and this child in this poncho."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from schematics.checks.evaluation import evaluate
from schematics.design.cautions import CAUTIONS
from schematics.drawing.worn.worn import both_figures
from schematics.fitting.advice_words import COUNTS_CAN_MEND, NEAREST, NOT_HERS, amiss_sentences, left_open
from schematics.fitting.fitting import fitting
from schematics.fitting.page.fit_page import asset, fit_page
from schematics.fitting.sizing import FAR_OFF_CM, REACH, best
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.proportions import proportioned
from schematics.wearer.resolve import resolve
from tests.examples import thorough
from tests.fitting.page.browser import Browser, Tab
from tests.fitting.page.children import Child, Sizes
from tests.fitting.page.conftest import few_data, few_sizes
from tests.fitting.page.form import summary, type_in
from tests.shipped import demos, shipped_design


@pytest.fixture(scope="module")
def opened(browser: Browser, few: Path) -> Iterator[Tab]:
    tab = browser.open(few, width=360, height=740)
    yield tab
    tab.close()


@pytest.fixture
def tab(opened: Tab) -> Tab:
    opened.run("document.getElementById('forget').click()")
    return opened


FOOT = "document.getElementById('{}').getBoundingClientRect().bottom + window.scrollY"


@pytest.mark.slow
@pytest.mark.parametrize(
    "typed",
    [
        {"age": "6", "head_girth": "52", "gauge-over": "20", "gauge-stitches": "19", "gauge-rows": "15"},
        pytest.param({"height": "4 ft 2", "head_girth": "21 1/4 in"}, marks=pytest.mark.thorough),
        pytest.param({"age": "18 months"}, marks=pytest.mark.thorough),
    ],
)
def test_on_a_phone_the_answer_is_seen_without_scrolling(tab: Tab, typed: dict[str, str]) -> None:
    for field, text in typed.items():
        assert type_in(tab, field, text)["message"] == ""
    assert "size" in summary(tab)
    assert tab.run(FOOT.format("because")) <= 740
    assert tab.run("window.scrollY") == 0
    assert tab.run("document.querySelector('#drawn svg').getBoundingClientRect().top") < 740
    tab.collect()
    assert tab.complaints == []


def test_a_gauge_is_counted_over_any_width(tab: Tab) -> None:
    """19 stitches and 14 rows over 20 cm are 9.5 and 7 over 10."""
    for field, text in {"gauge-over": "20", "gauge-stitches": "19", "gauge-rows": "14"}.items():
        type_in(tab, field, text)
    taken = "document.getElementById('gauge-taken').textContent"
    assert tab.run(taken) == "Reckoned with 9.5 stitches and 7 rows over 10 cm."
    type_in(tab, "gauge-over", "8 in")
    assert tab.run(taken) == "Reckoned with 9.35 stitches and 6.89 rows over 10 cm."
    type_in(tab, "gauge-over", "thumb")
    assert "Reckoned with" not in tab.run(taken)
    assert tab.run("document.getElementById('gauge-over-problem').hidden") is False


@pytest.mark.parametrize(
    ("stitches", "rows", "said"),
    [("8", "6", "about 18 % more"), ("11", "8", "about 13 % less"), ("9.4", "6.9", None)],
)
def test_stitches_of_another_size_take_other_amounts_of_yarn(
    tab: Tab, stitches: str, rows: str, said: str | None
) -> None:
    """By the root of 9.5 x 7 over theirs: 1.177, 0.869 and 1.013."""
    for field, text in {"age": "6", "gauge-stitches": stitches, "gauge-rows": rows}.items():
        type_in(tab, field, text)
    note = tab.run("document.getElementById('counts-note').textContent")
    assert "the pattern’s counts" in note
    assert (said in note) if said else ("as a rule" not in note)


def test_absurd_sizes_are_folded_away(tab: Tab) -> None:
    """They are those whose bands come farther from where they are meant to than the limit says."""
    type_in(tab, "age", "6")
    folded = tab.run(
        "[...document.querySelectorAll('#not-hers li[data-size]')].map((each) => each.dataset.size)"
    )
    design = few_sizes()
    far = []
    for fit in Sizes(design).fits(Child(unit=design.unit, texts={}, age_text="6")):
        reach = next(point.ease_cm for point in fit.points if point.code == REACH)
        if reach is not None and abs(reach - fit.meant_cm[REACH]) > FAR_OFF_CM[REACH]:
            far.append(fit.name)
    assert far
    assert folded == far
    assert tab.run("document.getElementById('not-hers').open") is False
    assert "not this child’s size" in tab.run("document.querySelector('#not-hers h3').textContent")


@pytest.mark.parametrize(
    ("typed", "said"), [({"age": "2"}, True), ({"height": "90"}, True), ({"age": "4"}, False), ({}, False)]
)
def test_cautions_stand_at_the_verdict_for_children_under_three(
    tab: Tab, typed: dict[str, str], said: bool
) -> None:
    for field, text in typed.items():
        type_in(tab, field, text)
    assert tab.run("!document.getElementById('careful').hidden") is said
    shown = "document.querySelectorAll('#cautions li:not([hidden])')"
    listed = tab.run(f"Array.from({shown}, (each) => each.textContent)")
    assert [each.sentence for each in CAUTIONS if not (said and each.young)] == listed
    assert "Nothing small that can come off" in tab.run("document.getElementById('careful').textContent")


def test_of_every_other_size_it_is_said_what_is_amiss(tab: Tab) -> None:
    """The same that `fit` finds, before where its hem and bands come."""
    type_in(tab, "age", "6")
    told = tab.run(
        "Object.fromEntries([...document.querySelectorAll('#why li[data-size] > .reasons')]"
        ".map((each) => [each.parentElement.dataset.size, each.textContent]))"
    )
    fits = Sizes(few_sizes()).fits(Child(unit=few_sizes().unit, texts={}, age_text="6"))
    others = {fit.name: amiss_sentences(fit.reported) for fit in fits if fit is not best(fits)}
    assert told.keys() == others.keys()
    assert all(others.values())
    assert all(told[name].startswith(f"{words} Hem ") for name, words in others.items())


FADED = """
[...document.querySelectorAll("#picture .asked-for")].filter((each) => {
  for (let at = each; at.id !== "picture"; at = at.parentElement) {
    if (getComputedStyle(at).opacity !== "1") return true;
  }
  return false;
}).length
"""
"""How much of what is asked for in the picture stands back with the rest."""


def test_the_measurement_that_decides_comes_first(tab: Tab) -> None:
    """The one that the advised size, right but not sure, says to measure."""
    type_in(tab, "age", "6")
    type_in(tab, "head_girth", "52")
    said = tab.run("document.querySelector('#verdicts [data-answer=mind] span:last-child').textContent")
    first = tab.run("document.querySelector('.step:not([hidden]) label').textContent").lower()
    assert f"measure the {first}" in said
    assert tab.run("document.querySelectorAll('.step:not([hidden])').length") == 1
    assert tab.run("document.querySelectorAll('#picture .asked-for').length") > 0
    assert tab.run(FADED) == 0


PARTS = ("trees", "garment", "numbers", "ages", "wearer", "figure")

DRAWN = """
((data, ages) => ages.map((age) => data.sizes.map((size) => {
  const lengths = lengthsOf(data.fabrics);
  const inputs = { ...completed({}, age, data), facts: factsOf(size, lengths) };
  const bodyPlace = data.fabrics.findIndex(({ body }) => body);
  const figure = figureSize(inputs, data);
  const worn = wornOn(figure, { ...inputs.facts, ...lengths }, {
    worn: size.worn, sag: data.figure.sag, figure: data.figure, bodyPlace,
  });
  const outline = [...(worn?.cloth ?? [])].flat();
  return { hem: worn?.hem, angle: worn?.angle, band: worn?.armBand, cloth: outline, head: figure.head };
})))
"""


@pytest.mark.slow
@pytest.mark.parametrize("name", demos("tidepool", "driftwood"))
def test_the_drawing_has_hem_and_bands_where_the_worn_sheet_has_them(
    browser: Browser, tmp_path: Path, name: str
) -> None:
    """Of children known by age, in every size: the figure of `schematics.drawing.worn`, arms down."""
    empty = tmp_path / "empty.html"
    empty.write_text("<!DOCTYPE html><title>empty</title>", encoding="utf-8")
    tab = browser.open(empty)
    tab.run("\n".join(asset(f"{each}.js") for each in PARTS) + "\nnull")
    ages = [2.5, 6.0, 11.0] if thorough() else [6.0]
    design = few_sizes(name)
    results = evaluate(design)
    found: list[list[Any]] = tab.run(f"{DRAWN}({json.dumps(few_data(name))}, {ages})")
    tab.close()
    for age, sizes in zip(ages, found, strict=True):
        wearer = resolve(WearerSpec(age_years=age), "a child")
        body = proportioned(wearer)
        assert body is not None
        for result, drawn in zip(results, sizes, strict=True):
            worn = both_figures(design, result, body).down.worn
            assert drawn["head"] == pytest.approx(body.size.head_breadth_cm)
            assert ("hem" in drawn) == (worn is not None)
            if worn is None:
                continue
            assert drawn["hem"] == pytest.approx(worn.hem_height_cm, abs=1e-6)
            assert drawn["angle"] == pytest.approx(worn.figure.arm.angle, abs=1e-6)
            half = [(x, y) for x, y in worn.cloth.exterior.coords if x > 1e-9]
            points = list(zip(drawn["cloth"][::2], drawn["cloth"][1::2], strict=True))
            inside = [(x, y) for x, y in points if x > 1e-9]
            assert np.array(sorted(inside)) == pytest.approx(np.array(sorted(half)), abs=1e-6)
            corners = [point for band in worn.arm_bands for point in band.exterior.coords if point[0] > 0]
            for x, y in drawn["band"]:
                assert min(math.dist((x, y), each) for each in corners) < 1e-6


@pytest.mark.parametrize(("age", "gauge"), [("6", None), ("10", ("11", "6"))])
def test_where_something_is_amiss_it_is_said_that_other_counts_can_mend_it(
    tab: Tab, age: str, gauge: tuple[str, str] | None
) -> None:
    """Where `fit` says that she must mind it or cannot wear it; not where it only is not sure."""
    type_in(tab, "age", age)
    for field, text in zip(("gauge-stitches", "gauge-rows"), gauge or (), strict=False):
        type_in(tab, field, text)
    advised = best(Sizes(few_sizes()).fits(Child(unit=few_sizes().unit, texts={}, age_text=age, gauge=gauge)))
    said = COUNTS_CAN_MEND in tab.run("document.getElementById('verdicts').textContent")
    assert said is (advised.how in ("mind", "stop") and not advised.is_not_hers)
    assert said is (gauge is not None)


FAR = "[...document.querySelectorAll('#not-hers li[data-size]')].map(({ dataset }) => dataset.size)"
OPEN = "document.getElementById('left-open').textContent"


@pytest.mark.slow
@pytest.mark.parametrize(("age", "head"), [("13", ""), ("7 1/2", ""), ("", "54"), ("", "40")])
def test_which_sizes_it_could_be_as_well_and_which_it_cannot(tab: Tab, age: str, head: str) -> None:
    """What `fit` says of them, which tests of its own hold."""
    type_in(tab, "age", age)
    type_in(tab, "head_girth", head)
    own = {Body.HEAD_GIRTH: float(head)} if head else {}
    years = {"13": 13.0, "7 1/2": 7.5}.get(age)
    wearer = resolve(WearerSpec(age_years=years, own=own), "the wearer")
    found = fitting(few_sizes(), few_sizes().sizes, wearer)
    summary(tab)
    assert tab.run(OPEN) == (left_open(found.other_sizes) if found.other_sizes else "")
    assert tab.run(FAR) == [fit.name for fit in found.fits if fit.is_not_hers and fit is not found.advised]


@pytest.mark.slow
def test_a_size_between_two_that_it_could_be_is_named(browser: Browser, tmp_path: Path) -> None:
    """At thirteen by usual arms it is M, by the shortest 10; S lies between, and is named, too."""
    design = shipped_design("tidepool")
    three = replace(design, sizes=tuple(size for size in design.sizes if size.name in ("10", "S", "M")))
    page = tmp_path / "fit.html"
    page.write_text(fit_page(three, evaluate(three)), encoding="utf-8")
    tab = browser.open(page)
    type_in(tab, "age", "13")
    summary(tab)
    assert tab.run(OPEN) == left_open(["10", "S"])
    tab.close()


@pytest.mark.slow
def test_of_the_best_size_that_nobody_would_think_of_it_is_said_so(tab: Tab) -> None:
    """Her arms are half as long again as those that the largest size is for: the bands end far above."""
    shown = "document.querySelector('#verdicts li').textContent"
    type_in(tab, "age", "17")
    type_in(tab, "centre_back_neck_to_wrist", "92")
    assert NOT_HERS.format(size=few_sizes().sizes[-1].name) in tab.run(shown)
    assert summary(tab) == NEAREST.format(size=few_sizes().sizes[-1].name)
    type_in(tab, "centre_back_neck_to_wrist", "78")
    assert "is not this wearer's" not in tab.run(shown)
    assert summary(tab) != NEAREST.format(size=few_sizes().sizes[-1].name)
