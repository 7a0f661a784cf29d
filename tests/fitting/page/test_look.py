"""What the page is like to use: by axe-core's rules, on a narrow phone, on paper, and without a network."""

from __future__ import annotations

import base64
import json
import re
from collections.abc import Iterator
from importlib.resources import files
from io import BytesIO
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from pypdf import PageObject, PdfReader

from schematics.checks.evaluation import evaluate
from schematics.fitting.fitting import fitting
from schematics.wearer.body import WearerSpec
from schematics.wearer.resolve import resolve
from tests.examples import thorough
from tests.fitting.page.browser import Browser, Tab
from tests.fitting.page.children import ANSWERS
from tests.fitting.page.conftest import few_sizes, few_written
from tests.fitting.page.form import summary, type_in
from tests.shipped import SPECS

AXE = files("axe_core_python").joinpath("axe.min.js")

TEXTS = """
(() => {
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const element = node.parentElement, box = element.getBoundingClientRect();
    if (node.data.trim() === "" || box.width * box.height === 0) continue;
    if (element.closest("thead, title, desc")) continue;
    const matrix = element instanceof SVGElement ? element.getScreenCTM() : { a: 1, b: 0 };
    const scale = Math.hypot(matrix.a, matrix.b);
    const pixels = parseFloat(getComputedStyle(element).fontSize) * scale;
    const drawn = element.closest("#drawn") !== null;
    found.push({ words: node.data.trim(), pixels, left: box.left, right: box.right, drawn });
  }
  return found;
})()
"""


@pytest.fixture(scope="module")
def filled_once(browser: Browser, few: Path) -> Iterator[Tab]:
    """The page with a child in it who finds something to stop, to mind, good and unknown, and a problem."""
    tab = browser.open(few)
    for field, text in {"head_girth": "60", "height": "117", "hand_girth": "15", "neck_girth": "1"}.items():
        type_in(tab, field, text)
    type_in(tab, "gauge-stitches", "9.75")
    tab.run("for (const each of document.querySelectorAll('details')) each.open = true")
    answers = tab.run(ANSWERS).values()
    assert {each for size in answers for each in size.values()} == {"stop", "mind", "good", "unknown"}
    assert "1 entry is left out." in tab.run("document.getElementById('tally').textContent")
    yield tab
    tab.close()


@pytest.fixture
def filled(filled_once: Tab) -> Tab:
    """The same as it is first seen, for tests that only look at it."""
    filled_once.resize(1200, 900)
    filled_once.media()
    return filled_once


def violations(tab: Tab, **options: Any) -> Iterator[str]:
    """What axe-core 4 finds, all of its rules run where none are named."""
    tab.run(AXE.read_text(encoding="utf-8"))
    results = tab.run(f"axe.run(document, {json.dumps({'resultTypes': ['violations'], **options})})")
    for each in results["violations"]:
        yield f"{each['id']}: {each['help']}: {[node['target'] for node in each['nodes']]}"


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize(
    ("width", "dark"),
    [*product((320, 360, 768, 1280), (False, True))] if thorough() else [(320, False)],
)
def test_axe_finds_no_violation(filled: Tab, width: int, dark: bool) -> None:
    filled.resize(width, 800)
    filled.media("screen", dark=dark)
    assert list(violations(filled)) == []


@pytest.mark.slow
@pytest.mark.seeds
def test_axe_finds_none_in_the_dark_before_anything_is_typed(tab: Tab) -> None:
    tab.media("screen", dark=True)
    assert list(violations(tab, **{} if thorough() else {"runOnly": ["color-contrast"]})) == []


@pytest.mark.slow
def test_axe_would_find_one(tab: Tab) -> None:
    tab.run("document.documentElement.removeAttribute('lang')")
    (found,) = violations(tab, runOnly=["html-has-lang"])
    assert found.startswith("html-has-lang")


@pytest.mark.slow
@pytest.mark.seeds
def test_text_is_legible_and_within_the_window(filled: Tab) -> None:
    """A window of half the pixels is one at 200 % zoom: 320 stands for 640, and 384 for 768."""
    for width in (320, 360, 384, 768, 1280) if thorough() else (320, 768):
        filled.resize(width, 640)
        filled.run("new Promise(requestAnimationFrame)")  # until the child is drawn anew
        assert filled.run("document.documentElement.scrollWidth") <= width
        texts = filled.run(TEXTS)
        assert len(texts) > 300
        assert [each for each in texts if each["pixels"] < 14] == [], width
        assert [each for each in texts if each["left"] < 0 or each["right"] > width] == [], width


@pytest.mark.slow
def test_text_of_twice_the_size_flows_anew(filled: Tab) -> None:
    """WCAG 2.2, success criterion 1.4.4: the text alone, which no query of the window's width tells of."""
    filled.run("document.documentElement.style.fontSize = '200%'; 0")
    for width in (320, 360, 640, 768):
        filled.resize(width, 740)
        filled.run("new Promise(requestAnimationFrame)")
        assert filled.run("document.documentElement.scrollWidth") <= width
        assert filled.run("document.querySelector('#drawn svg').getBoundingClientRect().width") > 200
        labels = [each for each in filled.run(TEXTS) if each["drawn"]]
        assert len(labels) >= 6
        assert [each for each in labels if each["pixels"] < 28] == [], width  # twice the 14 of any text
        assert [each for each in labels if each["left"] < 0 or each["right"] > width] == [], width
    filled.run("document.documentElement.style.fontSize = ''; 0")


@pytest.mark.slow
def test_the_schematics_lines_are_as_thin_as_they_are_drawn(filled: Tab) -> None:
    """The styles of the child's drawing, in pixels, are not those of the schematics, in millimetres."""
    thick = filled.run(
        "[...document.querySelectorAll('.drawings [stroke-width]')].filter((each) =>"
        "parseFloat(getComputedStyle(each).strokeWidth) !== Number(each.getAttribute('stroke-width'))).length"
    )
    assert filled.run("document.querySelectorAll('.drawings [stroke-width]').length") > 50
    assert thick == 0


def test_targets_are_large_enough_for_a_thumb(filled: Tab) -> None:
    """WCAG 2.2, success criterion 2.5.8: 24 by 24 CSS pixels; links within a sentence are exempt."""
    filled.resize(320, 640)
    small = filled.run(
        "[...document.querySelectorAll('input, select, button, summary, nav a')].map((each) => ["
        "each.outerHTML, each.getBoundingClientRect().width, each.getBoundingClientRect().height])"
        ".filter(([, width, height]) => width * height > 0 && (width < 24 || height < 24))"
    )
    assert small == []


def shown(tab: Tab, selector: str) -> bool:
    return bool(tab.run(f"document.querySelector('{selector}').getClientRects().length > 0"))


def words_of(page: PageObject) -> str:
    """What a page says; the PDF's fonts write some pairs of letters as one sign."""
    words = " ".join(page.extract_text().split())
    return words.replace("\ufb01", "fi").replace("\ufb00", "ff").replace("\ufb02", "fl")


PAPERS = {"A4": (210 / 25.4, 297 / 25.4), "Letter": (8.5, 11)}
"""Inches: ISO 216, and ANSI/ASME Y14.1."""


def paper(tab: Tab, name: str) -> PdfReader:
    width, height = PAPERS[name]
    result = tab.command("Page.printToPDF", paperWidth=width, paperHeight=height)
    return PdfReader(BytesIO(base64.b64decode(result["data"])))


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("spec", [path.stem for path in SPECS] if thorough() else ["saltmarsh"])
def test_counts_and_their_schematic_are_two_pages(browser: Browser, tmp_path: Path, spec: str) -> None:
    """With the child's name and the date typed, or the day of print; what was left out is not in it."""
    tab = browser.open(few_written(spec, tmp_path))
    for field, text in {"age": "8", "gauge-stitches": "11", "name": "Nettle"}.items():
        type_in(tab, field, text)
    last = tab.run("document.getElementById('chosen').options.length") - 1
    printed = (
        product((0, last), PAPERS, ("", "4 May"))
        if thorough()
        else [(0, "A4", ""), (last, "Letter", "4 May")]
    )
    for place, name, date in printed:
        type_in(tab, "date", date)
        tab.run(
            f"(() => {{ const each = document.getElementById('chosen'); each.value = '{place}';"
            "each.dispatchEvent(new Event('change')); })()"
        )
        size = tab.run("document.getElementById('chosen').selectedOptions[0].textContent")
        pages = [words_of(each) for each in paper(tab, name).pages]
        assert len(pages) == 2, (name, size)
        day = re.escape(date) or r"\d{1,2} [A-Z][a-z]+ 20\d\d"
        assert re.search(rf"for Nettle, size {re.escape(size)}, {day}", pages[0])
        assert f"Finished, size {size}" in pages[1]
        assert "Not for sleeping." in pages[1]
        assert not any("Remember on this device" in page for page in pages)
    tab.close()


@pytest.mark.slow
def test_what_is_to_be_minded_stands_on_paper(tab: Tab) -> None:
    """In the words of `fit`, of the size advised and of one that she chooses."""
    type_in(tab, "age", "6")
    wearer = resolve(WearerSpec(age_years=6.0), "the wearer")
    found = fitting(few_sizes(), few_sizes().sizes, wearer)
    for place, fit in ((1, found.advised), (0, found.fits[0])):
        tab.run(
            f"(() => {{ const each = document.getElementById('chosen'); each.value = '{place}';"
            "each.dispatchEvent(new Event('change')); })()"
        )
        first, second = (words_of(each) for each in paper(tab, "A4").pages)
        assert f"What to mind of size {fit.name} is told on the second page." in first
        assert fit.reported
        assert all(each.full_sentence in second for each in fit.reported), second


def test_on_paper_everything_is_black_on_white_even_from_a_dark_screen(filled: Tab) -> None:
    filled.media("print", dark=True)
    colours = filled.run(
        "[...document.querySelectorAll('#answer *, #counts *, #cautions *')]"
        ".map((each) => getComputedStyle(each).color)"
    )
    assert set(colours) <= {"rgb(0, 0, 0)", "rgb(51, 51, 51)"}
    assert filled.run("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"


SCALES = """
(() => {
  const scales = [];
  for (const size of document.querySelectorAll(".finished")) {
    const hidden = size.hidden;
    size.hidden = false;
    const outlines = [...size.querySelectorAll(".drawings svg path.outline")];
    scales.push(outlines.map((each) => each.getBoundingClientRect().height));
    size.hidden = hidden;
  }
  return scales;
})()
"""
"""How high each piece of each size is drawn, in CSS pixels."""


def test_the_pieces_of_a_size_have_one_scale_wherever_they_are_seen(tab: Tab) -> None:
    """On phones, on a screen and on paper, against how high each piece is."""
    results = evaluate(few_sizes())
    for width, medium in ((320, ""), (1280, ""), (1280, "print")):
        tab.resize(width, 800)
        tab.media(medium)
        for result, drawn in zip(results, tab.run(SCALES), strict=True):
            outlines = [piece.outline.bounds for piece in result.garment.pieces]
            scales = [px / (top - low) for px, (_, low, _, top) in zip(drawn, outlines, strict=True)]
            assert scales == pytest.approx([scales[0]] * len(scales), rel=0.03), (width, medium)


def test_the_page_asks_for_nothing_but_itself(tab: Tab, few: Path) -> None:
    type_in(tab, "head_girth", "52")
    tab.run("document.getElementById('remember').click()")
    tab.run("document.getElementById('unit-in').click()")
    summary(tab)
    tab.collect()
    assert tab.requests == [few.resolve().as_uri()]
    assert tab.complaints == []


ELSEWHERE = "https://example.invalid/"
ATTEMPTS = {
    "fetch": f"fetch('{ELSEWHERE}').catch(() => null)",
    "beacon": f"navigator.sendBeacon('{ELSEWHERE}', 'x')",
    "image": (
        "new Promise((done) => { const each = new Image(); each.onerror = () => done();"
        f"each.src = '{ELSEWHERE}'; }})"
    ),
    "script": (
        "(() => { const each = document.createElement('script'); each.textContent = 'window.ran = true';"
        "document.body.append(each); })()"
    ),
    "handler": (
        "(() => { document.body.innerHTML += '<p id=x onclick=\"window.ran = true\">';"
        "document.getElementById('x').click(); })()"
    ),
    "form": (
        f"(() => {{ const each = document.createElement('form'); each.action = '{ELSEWHERE}';"
        "document.body.append(each); each.submit(); })()"
    ),
}


def test_its_policy_would_not_let_it(tab: Tab, few: Path) -> None:
    """Even a script that found its way into the page could neither run others nor send anything."""
    for attempt, script in ATTEMPTS.items():
        tab.complaints.clear()
        tab.run(script)
        for _ in range(100):
            tab.run("new Promise((done) => setTimeout(done, 50))")
            tab.collect()
            if tab.complaints:
                break
        assert tab.run("window.ran") is None, attempt
        assert [each for each in tab.requests if each not in tab.blocked] == [few.resolve().as_uri()], attempt
        assert any("Content Security Policy" in each for each in tab.complaints), attempt


def test_without_a_script_the_rest_can_be_read(tab: Tab, few: Path) -> None:
    tab.command("Emulation.setScriptExecutionDisabled", value=True)
    tab.goto(few)
    document = tab.command("DOM.getDocument", depth=-1)["root"]["nodeId"]
    text = tab.command("DOM.getOuterHTML", nodeId=document)["outerHTML"]
    assert "The check needs JavaScript" in text
    assert "Round the head at its widest" in text
