"""The page as a file: what is in it, that it is whole, and that nothing in it can be taken for markup."""

from __future__ import annotations

import base64
import dataclasses
import hashlib
import json
import math
import random
import re
from collections import Counter
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from schematics.checks.evaluation import evaluate
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.size_rules import size_rules
from schematics.design.cautions import CAUTIONS
from schematics.design.design import Design
from schematics.design.limits import Limits
from schematics.document.html import screen_style
from schematics.fitting.page.fit_page import SCRIPTS, asset, fit_page
from schematics.fitting.page.guide_figures import DRAWINGS
from schematics.fitting.page.guide_words import HOW, NUMBERS, VIEWS
from schematics.fitting.page.making_data import AT_GAUGE
from schematics.fitting.page.page_data import asked, page_data, score_tree
from schematics.fitting.page.page_words import WORDS
from schematics.fitting.sizing import HEM, REACH, meant_fact, score
from schematics.units import Grain, ShortGrain, format_inches
from schematics.wearer.body import Body, BodyValue, Origin
from schematics.wearer.evaluator import Inputs, evaluator_of
from schematics.wearer.expr import expr_json
from schematics.wearer.listing import measurement_rows
from schematics.wearer.plausible import plausible_cm
from schematics.wearer.rows import references
from tests.fitting.page.browser import Browser
from tests.fitting.page.form import type_in
from tests.specs_for_tests import TIGHT_NECK, read

HOSTILE = '</script><script>alert("1")</script><!-- & \' \u2028'


class Read(HTMLParser):
    """A page taken apart: its elements, and the text of each script and style."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.texts: dict[str, list[str]] = {"script": [], "style": [], "title": [], "h1": []}
        self._open: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        self._open.append(tag)
        if tag in self.texts:
            self.texts[tag].append("")

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1] in self.texts:
            self.texts[self._open[-1]][-1] += data

    def all(self, attribute: str) -> list[str]:
        return [value for _, each in self.elements if (value := each.get(attribute)) is not None]


@pytest.fixture(scope="module")
def design(tmp_path_factory: pytest.TempPathFactory) -> Design:
    return read(tmp_path_factory.mktemp("lake"), TIGHT_NECK)


@pytest.fixture(scope="module")
def text(design: Design) -> str:
    return fit_page(design, evaluate(design))


@pytest.fixture(scope="module")
def data(design: Design) -> dict[str, Any]:
    return page_data(design, evaluate(design))


@pytest.fixture(scope="module")
def page(text: str) -> Read:
    return Read(text)


def hostile(design: Design) -> Design:
    """The design with names that mean something to a browser."""
    sizes = tuple(
        dataclasses.replace(size, name=f"{size.name}{HOSTILE}") if number == 0 else size
        for number, size in enumerate(design.sizes)
    )
    body = dataclasses.replace(design.parts.body, name=HOSTILE, stitch=f"<b>{HOSTILE}</b>")
    parts = dataclasses.replace(design.parts, body=body)
    return dataclasses.replace(design, title=HOSTILE, sizes=sizes, parts=parts, path=Path("<i>.yaml"))


@pytest.mark.thorough
def test_the_same_design_gives_the_same_page(design: Design, text: str) -> None:
    assert fit_page(design, evaluate(design)) == text


@pytest.mark.slow
def test_the_data_is_the_data_that_python_wrote(data: dict[str, Any], page: Read) -> None:
    written, _ = page.texts["script"]
    assert json.loads(written) == json.loads(json.dumps(data))


@pytest.mark.slow
def test_its_policy_is_that_of_its_own_style_and_script(page: Read) -> None:
    (policy,) = (
        each["content"] for _, each in page.elements if each.get("http-equiv") == "Content-Security-Policy"
    )
    _, script = page.texts["script"]
    (style,) = page.texts["style"]
    directives = dict(each.split(" ", 1) for each in str(policy).split("; "))
    for name, content in (("script-src", script), ("style-src", style)):
        assert (
            directives[name]
            == f"'sha256-{base64.b64encode(hashlib.sha256(content.encode()).digest()).decode()}'"
        )
    others = {name: value for name, value in directives.items() if name not in ("script-src", "style-src")}
    assert others == {"default-src": "'none'", "base-uri": "'none'", "form-action": "'none'"}


def test_it_names_no_other_place(text: str, page: Read) -> None:
    assert page.all("src") == []
    assert [each for each in page.all("href") if not each.startswith("#")] == []
    assert {tag for tag, _ in page.elements}.isdisjoint({"link", "iframe", "object", "embed", "img", "base"})
    assert not re.search(r"url\(|@import|https?:|fetch\(|XMLHttpRequest|sendBeacon|WebSocket", text)


def test_what_is_pointed_to_is_there_and_only_once(page: Read) -> None:
    ids = Counter(page.all("id"))
    assert [each for each, count in ids.items() if count > 1] == []
    pointed = page.all("for") + [each[1:] for each in page.all("href")]
    pointed += [
        each for name in ("aria-describedby", "aria-labelledby") for each in " ".join(page.all(name)).split()
    ]
    assert set(pointed) <= set(ids)


@pytest.mark.thorough
def test_names_are_never_taken_for_markup(browser: Browser, design: Design, tmp_path: Path) -> None:
    bad = hostile(design)
    page = fit_page(bad, evaluate(bad))
    assert [tag for tag, _ in Read(page).elements].count("script") == 2
    path = tmp_path / "fit.html"
    path.write_text(page, encoding="utf-8")
    tab = browser.open(path)
    type_in(tab, "head_girth", "52")
    type_in(tab, "gauge-stitches", "14.25")
    assert tab.run("document.querySelector('h1').textContent") == f"{HOSTILE}: will it fit?"
    headings = tab.run("[...document.querySelectorAll('#why h3')].map((each) => each.textContent)")
    assert any(f"ize 4{HOSTILE}" in each for each in headings)
    assert tab.run("document.querySelectorAll('script').length") == 2
    tab.collect()
    assert tab.complaints == []
    tab.close()


def test_every_measurement_is_asked_for_explained_and_drawn() -> None:
    assert set(HOW) == set(NUMBERS) == set(Body)
    assert list(NUMBERS.values()) == list(range(1, len(Body) + 1))
    for view in VIEWS:
        named = {group.name: group for group in DRAWINGS[view.key]() if group.kind == "number"}
        assert set(named) == {body.value for body in view.bodies}
        for body in view.bodies:
            assert str(NUMBERS[body]) in [getattr(mark, "words", None) for mark in named[body.value].marks]


def test_the_form_asks_for_what_the_rules_need_and_the_height(design: Design, page: Read) -> None:
    needed = {body.value for rule in size_rules(design.limits) for body in rule.needs} | {"height"}
    fields = {str(each["id"]) for tag, each in page.elements if tag == "input" and each.get("type") == "text"}
    others = {"gauge-stitches", "gauge-rows", "gauge-over", "stretch", "age", "name", "date"}
    others |= {f"swatch-{place}" for place in range(1, len(design.parts.fabrics))}
    assert fields - others - {"done", "done-width", "done-height"} == needed
    assert {body.value for view in asked(design) for body in view.bodies} == needed


def test_finished_measurements_and_cautions_are_in_it(design: Design, text: str) -> None:
    for result in evaluate(design):
        for item in result.garment.finished:
            assert f'data-finished="{item.key}" data-size="{result.size.name}"' in text
            eighths = item.key.startswith(("panel.width", "neck_band.depth", "arm.run", "arm_band"))
            inches = format_inches(item.length_cm, ShortGrain.NARROW if eighths else Grain.COARSE)
            assert f">{inches.removesuffix(' in')}</td>" in text
    for caution in CAUTIONS:
        assert caution.sentence.replace("'", "&#39;") in text


def test_what_stops_a_size_whoever_wears_it_is_in_the_data(design: Design, data: dict[str, Any]) -> None:
    for size, result in zip(data["sizes"], evaluate(design), strict=True):
        codes = {rule.code for rule in size_rules(design.limits)}
        others = codes | AT_GAUGE
        worries = [each for each in result.findings if each.severity != "good" and each.code not in others]
        assert [each["code"] for each in size["pattern"]] == [each.code for each in worries]


@pytest.mark.slow
def test_ties_stop_a_young_size_and_advise_no_other(design: Design) -> None:
    """They are the same in every size: what a size counts for how it is made is as without them."""
    tied = dataclasses.replace(design, neck_ties=True)
    sizes = page_data(tied, evaluate(tied))["sizes"]
    said = [found for each in sizes for found in each["pattern"] if found["code"] == "TIES-NECK"]
    assert [each["severity"] for each in said] == ["stop"] * len(sizes)
    assert not any(each["weighs"] for each in said)


@pytest.mark.slow
def test_a_specs_own_limits_are_the_pages(design: Design) -> None:
    other = dataclasses.replace(design, limits=Limits(neck_clearance_cm=3.75))
    data = page_data(other, evaluate(other))
    tight = next(rule for rule in data["rules"]["rules"] if rule["code"] == "NECK-TIGHT")
    assert tight["stop"] == [
        "<",
        {"fact": "neck.rest_cm"},
        ["+", {"body": "neck_girth", "end": "high"}, 3.75],
    ]
    needs = next(each for each in data["reasons"]["NECK-TIGHT"]["printed"] if "needs" in each["names"])
    assert needs["of"] == tight["stop"][1:]


@pytest.mark.parametrize("rule", size_rules(Limits()), ids=lambda rule: str(rule.code))
def test_there_are_words_for_every_answer(rule: Any) -> None:
    sentence = rule.sentence
    may = {Answer.GOOD} | ({Answer.STOP} if rule.stop else set()) | ({Answer.MIND} if rule.mind else set())
    words = [each for clause in sentence.clauses for each in clause]
    assert {each.answer for each in words} - {None} <= may
    assert sentence.subject
    for answer in may:
        suits = [[each for each in clause if each.answer in (None, answer)] for clause in sentence.clauses]
        assert any(each[-1].when is None for each in suits if each), "one that suits always"
    names = set(re.findall(r"\{(\w+)\}", "".join(each.text for each in words)))
    assert names <= {"borrowed", *(name for each in sentence.printed for name in each.names)}
    assert all(names.intersection(each.names) for each in sentence.printed)
    assert {"body_cm", "garment_cm"} <= set(rule.figures)


def test_no_body_of_the_tables_is_taken_for_a_slip_of_the_pen() -> None:
    for reference in references():
        for row in measurement_rows(reference):
            low, high = plausible_cm(row.body)
            assert low < row.low_cm <= row.high_cm < high
    assert plausible_cm(Body.HEAD_GIRTH)[0] > 5
    assert plausible_cm(Body.HEAD_GIRTH)[1] < 500


@pytest.mark.slow
def test_the_score_is_that_of_the_sizes() -> None:
    rules = size_rules(Limits())
    work = evaluator_of(score_tree(rules))
    assert json.dumps(expr_json(score_tree(rules)))
    assert REACH in [rule.code for rule in rules]
    dice = random.Random(6)
    for _ in range(200):
        stops, flaws = dice.randrange(9), dice.choice((0, dice.uniform(0, 9)))
        not_hers, failing = dice.random() < 0.5, dice.random() < 0.5
        lengths = {body: dice.uniform(20, 200) for body in Body if dice.random() < 0.8}
        facts = {"reach_cm": dice.uniform(20, 90), "longest_drop_cm": dice.uniform(20, 90)}
        meant = {REACH: dice.uniform(-9, 9), HEM: dice.choice([math.nan, dice.uniform(0, 30)])}
        known = Inputs(
            body={
                body: BodyValue(cm=cm, low_cm=cm, high_cm=cm, origin=Origin.OWN, source="dice")
                for body, cm in lengths.items()
            },
            facts={
                **facts,
                "score.not_hers": float(not_hers),
                "score.stops": float(stops),
                "score.level": 0.0 if not flaws else 2.0 if failing or flaws >= 1.0 else 1.0,
                "score.flaws": round(flaws, 4),
                **{meant_fact(code): cm for code, cm in meant.items()},
            },
        )
        nape, knee = (lengths.get(body, math.nan) for body in (Body.NAPE_HEIGHT, Body.KNEE_HEIGHT))
        ease = {
            REACH: facts["reach_cm"] - lengths.get(Body.CENTRE_BACK_NECK_TO_WRIST, math.nan),
            HEM: nape - facts["longest_drop_cm"] * (1 + Limits().hem_sag_fraction) - knee,
        }
        expected = score(stops, flaws, ease, meant, failing=failing, not_hers=not_hers)
        assert work(known) == pytest.approx(float(expected), rel=1e-12)


def _luminance(colour: str) -> float:
    """Relative luminance of #rgb or #rrggbb, WCAG 2.2."""
    digits = colour.lstrip("#")
    pairs = [digits[i : i + 2] for i in (0, 2, 4)] if len(digits) == 6 else [2 * each for each in digits]
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4
        for each in (int(pair, 16) / 255 for pair in pairs)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
def test_every_colour_of_text_stands_out(scheme: int) -> None:
    """WCAG 2.2, success criteria 1.4.3 (text, 4.5 to 1) and 1.4.11 (lines of fields, 3 to 1)."""
    blocks = re.findall(r":root \{([^}]*)\}", screen_style())
    colours = dict(re.findall(r"--([\w-]+): (#[0-9a-f]+)", blocks[scheme]))
    inks = set(colours) - {"paper", "shade", "line", "on-link"}
    assert inks == {"ink", "faint", "link", "stop", "mind", "good"}
    for ground in ("paper", "shade"):
        for name in (*inks, "line"):
            light, dark = sorted((_luminance(colours[name]), _luminance(colours[ground])), reverse=True)
            assert (light + 0.05) / (dark + 0.05) >= (3 if name == "line" else 4.5), f"{name} on {ground}"


@pytest.mark.slow
def test_all_of_the_pages_words_are_used() -> None:
    script = "\n".join(asset(name) for name in SCRIPTS)
    for name in WORDS:
        assert re.search(rf"words\.{name}\b|\b{name}\b.* = data\.words", script), name
