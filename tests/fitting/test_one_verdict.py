"""The same child in the same garment: the same findings from check, fit and a group."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import yaml

from schematics.checks.evaluation import evaluate
from schematics.checks.ruled import SEVERITIES
from schematics.checks.rules.sentence import Answer
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.group import group_fit
from schematics.fitting.sizing import size_fit, size_fits
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from tests.examples import thorough
from tests.fitting.children import DEMOS, SPECS, demo, random_spec
from tests.fitting.test_fitting import group
from tests.program import call


def some_children(seed: str, many: int) -> list[WearerSpec]:
    """Measured, half measured with and without an age, and known by age alone."""
    rng = random.Random(seed)
    children = [WearerSpec(age_years=rng.uniform(1, 19))]
    for number in range(many - 1):
        age = rng.uniform(2, 17)
        own = random_spec(rng, age, age).own
        share = (1.0, 0.5, 0.2)[number % 3]
        kept = {body: length for body, length in own.items() if rng.random() < share}
        children.append(WearerSpec(own=kept, age_years=age if number % 2 or not kept else None))
    return children


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", DEMOS if thorough() else ["driftwood"])
def test_check_fit_and_a_group_say_the_same_of_a_child(name: str) -> None:
    """A hundred children in each of three designs; whether too few cases hold is the group's word, too, and
    of the best size in how many they do."""
    design, children = demo(name), some_children(f"one verdict in {name}", 100 if thorough() else 3)
    design = design if thorough() else replace(design, sizes=design.sizes[::3])
    pattern = [size_at_gauge(design, size) for size in design.sizes]
    found = group_fit(design, design.sizes, group(children))
    together, chances = found.judged, found.chances
    assert chances
    for row, child in enumerate(children):
        for_her = replace(design, sizes=tuple(replace(size, wearer=child) for size in design.sizes))
        checked = evaluate(for_her)
        fitted = size_fits(design, pattern, resolve(child, "the wearer"))
        for place, (check, fit) in enumerate(zip(checked, fitted, strict=True)):
            assert check.findings == fit.findings
            severities = {each.code: each.severity for each in check.findings}
            by_group = dict(zip(together.codes, together.answers[place, :, row], strict=True))
            assert {code: SEVERITIES[Answer(answer)] for code, answer in by_group.items()} == {
                code: severities[code] for code in by_group
            }
            unsure = {each.code for each in check.findings if each.unsure}
            by_group = dict(zip(together.codes, together.unsure[place, :, row], strict=True))
            assert {code for code, each in by_group.items() if each} == unsure
            if place == together.best[row]:
                holds = {each.code: each.certainty for each in check.findings if each.unsure}
                assert chances.get(row, {}) == pytest.approx(
                    {code: each.holds_fraction for code, each in holds.items() if each}, abs=1e-6
                )


CHILD = "age: 7\nhead_girth: 53.5\nheight: 121\n"
"""Size 4 would be close at the upper end of the chests of her age; she is taken as typical."""


def told(findings: list[dict[str, Any]]) -> list[tuple[str, str, str]]:
    return [(each["code"], each["severity"], each["sentence"]) for each in findings]


@pytest.mark.slow
def test_a_childs_file_and_the_same_child_in_a_spec(tmp_path: Path) -> None:
    """The file as `fit --wearer` reads it is a wearer block, word for word."""
    child, spec = tmp_path / "child.yaml", tmp_path / "hers.yaml"
    child.write_text(CHILD, encoding="utf-8")
    pattern = yaml.safe_load((SPECS / "tidepool.yaml").read_text(encoding="utf-8"))
    pattern["sizes"]["4"]["wearer"] = yaml.safe_load(CHILD)
    spec.write_text(yaml.safe_dump(pattern, sort_keys=False), encoding="utf-8")
    fitted = call("fit", SPECS / "tidepool.yaml", "--wearer", child, "--sizes", "4", "--json")
    checked = call("check", spec, "--sizes", "4", "--json")
    (by_fit,) = json.loads(fitted.stdout)["sizes"]
    (by_check,) = json.loads(checked.stdout)["designs"][0]["sizes"]
    assert told(by_fit["findings"]) == told(by_check["findings"])
    assert {each["severity"] for each in by_check["findings"] if each["code"] == "GIRTH-EASE"} == {"good"}
    body = json.loads(checked.stdout)["designs"][0]["sizes"][0]["wearer"]["body"]
    assert body["chest_girth"]["low_cm"] < body["chest_girth"]["cm"] < body["chest_girth"]["high_cm"]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("child", "severity"),
    [
        (WearerSpec(age_years=6.5), "stop"),
        (WearerSpec(age_years=9.0, own={Body.HEIGHT: 133.0}), "stop"),
        (WearerSpec(own={Body.HEAD_GIRTH: 54.0}), "stop"),
        (WearerSpec(age_years=12.0), "mind"),
        (WearerSpec(age_years=18.0), "good"),
    ],
)
def test_ties_are_for_the_child_who_wears_them(child: WearerSpec, severity: str) -> None:
    """EN 14682:2014: none under 7 years or up to 134 cm, in whatever size; no size is better for them."""
    loose = replace(demo("tidepool"), sizes=demo("tidepool").sizes[1:4:2])
    tied = replace(loose, neck_ties=True)
    wearer = resolve(child, "the wearer")
    for size in tied.sizes:
        fit = size_fit(tied, size_at_gauge(tied, size), wearer)
        assert [each.severity for each in fit.findings if each.code == "TIES-NECK"] == [severity]
    without, together = (group_fit(each, each.sizes, group([child])) for each in (loose, tied))
    assert together.judged.best == without.judged.best
    assert together.fits == (without.fits & (severity != "stop"))


def test_a_row_with_own_numbers_still_serves_many() -> None:
    """A high end decides for it, but for what is its own."""
    design = demo("tidepool")
    spec = WearerSpec(chart="child/6", own={Body.HEAD_GIRTH: 53.0})
    (found,) = evaluate(replace(design, sizes=(replace(design.sizes[2], wearer=spec),)))
    figures = {each.code: each.figures for each in found.findings}
    assert figures["NECK-PASS"]["head_cm"] == 53.0
    assert figures["ARM-PASS"]["hand_cm"] == found.wearer.values[Body.HAND_GIRTH].high_cm
    assert found.wearer.values[Body.HAND_GIRTH].high_cm > found.wearer.values[Body.HAND_GIRTH].cm


@pytest.mark.slow
def test_what_is_right_but_not_sure_asks_for_the_measurement_that_is_missing() -> None:
    """The neck keeps off the shoulders' ends by 0.3 cm, and breadths of six-year-olds differ by more."""
    told = call("fit", SPECS / "tidepool.yaml", "--age", "6", "--head-girth", "52").stdout
    text = " ".join(told.split())
    assert "Work size 6: it should fit, but that is not sure." in text
    assert "To be sure, measure the shoulder breadth. " in text
    assert "Nothing small makes it right" not in text
