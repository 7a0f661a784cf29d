"""The counts of the page are those of `schematics make`, and half-way those of `schematics progress`."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.crochet.fabric import RowRule
from schematics.design.design import Design
from schematics.document.document import plain
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.page.counts_data import count_groups
from schematics.fitting.page.fit_page import fit_page
from schematics.fitting.page.making_data import AT_GAUGE
from schematics.fitting.progress import BANDS, outcome, piece_progress
from schematics.fitting.progress_report import OwnPiece, progress_document
from schematics.fitting.sizing import size_fit
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import Order
from schematics.fitting.workshop import NOBODY
from schematics.garment.printed_lengths import finished_figure
from schematics.units import Unit, format_cm
from schematics.wearer.body import WearerSpec
from schematics.wearer.resolve import resolve
from tests.examples import marked, share, thorough
from tests.fitting.page.browser import Browser, Tab
from tests.fitting.page.conftest import few_sizes, few_written
from tests.fitting.page.form import type_in
from tests.garment.constructions.counted import tapering
from tests.shipped import SPECS, shipped_design

READ = """
(gauges) => gauges.map(([stitches, rows, place]) => {
  const type = (id, text) => {
    const field = document.getElementById(id);
    field.value = text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  };
  type("gauge-stitches", stitches);
  type("gauge-rows", rows);
  const chosen = document.getElementById("chosen");
  chosen.value = String(place);
  chosen.dispatchEvent(new Event("change"));
  return Object.fromEntries([...document.querySelectorAll("[data-count]")].map((cell) => (
    [cell.dataset.count, cell.textContent]
  )));
})
"""


def with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}" if unit and text.replace(".", "").isdigit() else text


def counts_of(design: Design) -> dict[str, str]:
    """What the pattern of a design of one size tells, by the keys of its figures."""
    figures = [each for _, group in count_groups(design, evaluate(design)) for each in group]
    return {each.key: with_unit(each.text(0), each.unit) for each in figures}


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", ["tidepool", pytest.param("driftwood", marks=pytest.mark.thorough)])
def test_counts_at_an_odd_gauge_are_those_of_make(browser: Browser, tmp_path: Path, name: str) -> None:
    """All but the yarn, and how picked-up stitches are spread, which the page tells in a sentence."""
    design, dice = few_sizes(name), random.Random(name)
    body = design.parts.body
    gauges = [
        (
            f"{10 * body.stitches_per_cm * dice.uniform(0.7, 1.4):.2f}",
            f"{10 * body.rows_per_cm * dice.uniform(0.7, 1.4):.2f}",
            dice.randrange(len(design.sizes)),
        )
        for _ in range(share(40, part=10))
    ]
    tab = browser.open(few_written(name, tmp_path))
    found = tab.run(f"({READ})({json.dumps(gauges)})")
    tab.close()
    for (stitches, rows, place), told in zip(gauges, found, strict=True):
        parts = read_gauge([f"{stitches} sts {rows} rows over 10 cm"], design).parts
        hers = replace(design, parts=parts, sizes=(design.sizes[place],))
        expected = counts_of(hers)
        assert told.keys() == {key for key, text in expected.items() if text}
        for key, text in told.items():
            if not key.startswith("yarn") and not key.endswith("schedule"):
                assert text == expected[key], (key, stitches, rows, place)


def test_the_counts_of_a_size_that_is_right_are_those_that_make_writes(
    browser: Browser, tmp_path: Path
) -> None:
    """Driftwood's own typical child of size 6, measured, at a gauge a little off the pattern's."""
    design = few_sizes("driftwood")
    (place,) = (at for at, each in enumerate(design.sizes) if each.name == "6")
    size = design.sizes[place]
    values = resolve(size.wearer, size.name).values
    own = {body: value.cm for body, value in values.items()}
    parts = read_gauge(["13.2 sts 10.1 rows over 10 cm"], design).parts
    made = made_to_measure(design, Order(wearer=WearerSpec(own=own), parts=parts, size=size.name))
    assert not made.changes, "choose a gauge at which the size is right for her"
    tab = browser.open(few_written("driftwood", tmp_path))
    (told,) = tab.run(f"({READ})({json.dumps([['13.2', '10.1', place]])})")
    tab.close()
    expected = counts_of(made.design)
    for key, text in told.items():
        if not key.startswith("yarn") and not key.endswith("schedule"):
            assert text == expected[key], key


ROWS = """
[...document.querySelectorAll("#halfway-answer tr")].map((row) => (
  [...row.children].map((each) => each.textContent)
))
"""


@pytest.mark.slow
@pytest.mark.parametrize(
    ("piece", "rows", "width_cm", "height_cm"),
    [
        ("body", 12, 80.0, 16.0),
        pytest.param("centre panel", 20, 11.5, 24.0, marks=pytest.mark.thorough),
        ("arm band", 9, 7.4, 7.2),
    ],
)
def test_half_way_is_what_progress_says(
    opened: Tab, piece: str, rows: int, width_cm: float, height_cm: float
) -> None:
    design = few_sizes()
    ((place, size),) = ((at, each) for at, each in enumerate(design.sizes) if each.name == "6")
    opened.run("document.getElementById('forget').click()")
    type_in(opened, "age", "6")
    opened.run(
        f"(() => {{ document.getElementById('chosen').value = '{place}';"
        "document.getElementById('chosen').dispatchEvent(new Event('change'));"
        f"document.getElementById('piece').value = {piece!r}; }})()"
    )
    for field, text in {
        "done": f"{rows}",
        "done-width": f"{width_cm}",
        "done-height": f"{height_cm}",
    }.items():
        type_in(opened, field, text)
    wearer = resolve(WearerSpec(age_years=6), "her")
    now = piece_progress(design, size, piece, rows)
    then = outcome(design, size, wearer, now, width_cm, height_cm)
    finished = [
        [each.name, f"{finished_figure(each, Unit.CM)} cm"] for each in then.fit.at_gauge.garment.finished
    ]
    assert [row[:2] for row in opened.run(ROWS)] == finished
    words = opened.run("document.getElementById('halfway-answer').textContent")
    width, height = format_cm(now.width_cm, now.width_grain), format_cm(now.height_cm, now.height_grain)
    assert f"it is {width} along the last row now, and {height} up the rows" in words
    report = progress_document(
        design, "6", now, OwnPiece(width_cm=width_cm, height_cm=height_cm, weighed_g=None), then, ()
    )
    said = next(section for section in report.sections if section.heading == "Your gauge")
    assert len(said.sentences) >= 2
    assert all(plain(sentence) in words for sentence in said.sentences)
    panel = then.fit.at_gauge.parts.centre_panel
    rows_instead = panel.row_rule.rule.nearest(
        next(each.length_cm for each in then.fit.at_gauge.garment.finished if each.key == "body.depth")
        * panel.rows_per_cm
    )
    assert (f"{rows_instead} centre panel rows" in words) is (piece not in BANDS)
    assert ("keeps its" in words) is (piece in BANDS)
    for finding in then.fit.reported:
        assert finding.sentence in words


def test_half_way_a_row_that_there_is_not_gets_a_message(opened: Tab) -> None:
    opened.run("document.getElementById('forget').click()")
    assert "from 1 to" in type_in(opened, "done", "400")["message"]
    assert type_in(opened, "done", "5")["message"] == ""


@pytest.mark.parametrize(
    ("field", "text", "understood"),
    marked(
        [
            ("swatch-2", "19 sts 33 rows over 18 x 30 cm, 12 % across, 40 % along, 2 pulls", True),
            ("stretch", "20 % across, 35 % along, 3 pulls", True),
            ("stretch", "8% along and 12,5 % across", True),
            ("stretch", "20 %", False),
            ("swatch-1", "23 sts over 20 cm", True),
            ("swatch-2", "30 % across, 40 % along", True),
            ("swatch-2", "19 sts 33 rows", False),
            ("swatch-2", "99 sts 33 rows over 18 cm", False),
        ]
    ),
)
def test_what_her_own_swatches_give(opened: Tab, field: str, text: str, understood: bool) -> None:
    """Its chances and finished lengths are those of `fit` with the same text behind the gauge."""
    opened.run("document.getElementById('forget').click()")
    type_in(opened, "age", "6")
    said = type_in(opened, field, text)
    assert (said["message"] == "") is understood, said["message"]
    if not understood:
        return
    design = shipped_design("tidepool")
    _, _, place = field.partition("-")
    name = [*design.parts.fabrics][int(place or 0)]
    parts = read_gauge([f"{name}: {text}"], design).parts
    wearer = resolve(WearerSpec(age_years=6), "her")
    told = opened.run(
        "Object.fromEntries([...document.querySelectorAll('li[data-size=\"6\"] [data-code]')].map("
        "(each) => [each.dataset.code, each.lastChild.textContent]))"
    )
    fit = size_fit(design, size_at_gauge(design, design.sizes[2], parts), wearer)
    expected = {finding.code: finding.full_sentence for finding in fit.findings}
    assert {code: expected[code] for code in told} == told


MADE = """
(gauges) => gauges.map(([stitches, rows]) => {
  for (const [id, text] of [["gauge-stitches", stitches], ["gauge-rows", rows]]) {
    const field = document.getElementById(id);
    field.value = text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }
  return Object.fromEntries([...document.querySelectorAll("li[data-verdict]")].map((size) => [
    size.dataset.size,
    [...size.querySelectorAll("[data-code]")].map((each) => [each.dataset.code, each.lastChild.textContent]),
  ]));
})
"""


def held_against_fit(tab: Tab, design: Design, seed: str, count: int) -> dict[str, str]:
    """A sentence by the code of each that `AT_GAUGE` has, at so many odd gauges; they are those of `fit`."""
    dice, body, (over_cm, span) = random.Random(seed), design.parts.body, design.unit.gauge_span
    gauges = [
        tuple(
            f"{over_cm * per_cm * dice.uniform(0.7, 1.4):.2f}"
            for per_cm in (body.stitches_per_cm, body.rows_per_cm)
        )
        for _ in range(count)
    ]
    type_in(tab, "age", "7")
    found = tab.run(f"({MADE})({json.dumps(gauges)})")
    tab.close()
    seen: dict[str, str] = {}
    for (stitches, rows), told in zip(gauges, found, strict=True):
        parts = read_gauge([f"{stitches} sts {rows} rows over {span}"], design).parts
        for size in design.sizes:
            fit = size_fit(design, size_at_gauge(design, size, parts), NOBODY)
            worries = {
                (each.code, each.full_sentence)
                for each in fit.making
                if each.severity != "good" and each.code in AT_GAUGE
            }
            here = {(code, words) for code, words in told[size.name] if code in AT_GAUGE}
            assert here == worries, (stitches, rows, size.name)
            seen |= dict(here)
    return seen


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", [path.stem for path in SPECS] if thorough() else ["sandpiper"])
def test_seams_slot_and_circle_go_by_her_gauge_as_in_fit(browser: Browser, tmp_path: Path, name: str) -> None:
    """Every sentence of what is not good of how a size is made, and how sure it is, whoever wears it."""
    tab = browser.open(few_written(name, tmp_path))
    seen = held_against_fit(tab, few_sizes(name), name, share(24, part=8))
    assert name != "sandpiper" or seen.keys() >= {"SEAM-LENGTH", "FLAT-CIRCLE"}
    assert name != "sandpiper" or "give or take" in seen["SEAM-LENGTH"]


@pytest.mark.slow
def test_a_panel_that_tapers_is_told_with_its_cure_as_in_fit(browser: Browser, tmp_path: Path) -> None:
    """No design that comes with the program has one: driftwood's, of 48 stitches, two fewer every 4 rows."""
    plain = few_sizes("driftwood")
    panel = tapering(plain.parts.centre_panel, RowRule(setup=2, repeat=4, closing=2), (0, -2, 0))
    size = replace(plain.sizes[1], panel_stitches=48)
    design = replace(plain, parts=replace(plain.parts, centre_panel=panel), sizes=(size,))
    path = tmp_path / "fit.html"
    path.write_text(fit_page(design, evaluate(design)), encoding="utf-8")
    seen = held_against_fit(browser.open(path), design, "taper", 4)
    assert "centre panel rows would be" in seen["SEAM-LENGTH"]
    assert "at the top, is at its foot" in seen["FRONT-WIDTH"]
