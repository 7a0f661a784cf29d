"""What is to spare reads alike in a sentence, in the table of all sizes and on a card."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from schematics.fitting.fit_report import spare_words
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import size_fit
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import Order
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.units import Unit
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from tests.fitting.children import SPECS, demo
from tests.program import call

KELP = SPECS / "kelp.yaml"

SAID = {
    "NECK-PASS": r"opens to [\d /.]+ (?:cm|in), (\d[\d /.]*) (?:cm|in) too little",
    "NECK-TIGHT": r" by (\d[\d /.]*) (?:cm|in)\.",
    "REACH-BAND": r"the band ends (?:at the wrist, )?(\d[\d /.]*) (?:cm|in) (?:above|over|past)",
    "HANG-KNEE": r"(\d[\d /.]*) (?:cm|in) (?:above|below) the knee",
    "HANG-WHERE": r"(\d[\d /.]*) (?:cm|in) (?:above|below) the waist",
}


@pytest.mark.slow
@pytest.mark.parametrize("unit", [Unit.CM, pytest.param(Unit.IN, marks=pytest.mark.thorough)])
def test_table_and_sentence_say_the_same(unit: Unit) -> None:
    """Heads and heights by tenths: among 40 some are rounded the other way than their difference."""
    design = replace(demo("tidepool"), unit=unit)
    made = [size_at_gauge(design, size) for size in design.sizes[1:3]]
    said = 0
    for step in range(40):
        head, height, neck = 58 + step * 0.13, 112 + step * 0.31, 26 + step * 0.07
        own = {Body.HEAD_GIRTH: head, Body.HEIGHT: height, Body.NECK_GIRTH: neck}
        wearer = resolve(WearerSpec(age_years=6, own=own), "the wearer")
        for each in made:
            fit = size_fit(design, each, wearer)
            points = {point.code: point for point in fit.points}
            for finding in fit.findings:
                pattern = SAID.get(finding.code)
                match = pattern and re.search(pattern, finding.sentence)
                if match:
                    assert spare_words(points[finding.code], unit).lstrip("-") == match[1], finding.sentence
                    said += 1
    assert said > 200


@pytest.mark.slow
def test_a_maker_who_measures_in_inches_is_told_ounces() -> None:
    """Of 6 oz weighed half-way; what to shorten of a size for her yarn, beside what to buy for it."""
    weighed, have = ("--weighed", "6 oz"), ("--have", "main colour: 20 oz", "--have", "shell: 9 oz")
    halfway = call("progress", KELP, "--size", "6", "--rows", "14", *weighed, *have).stdout
    design = demo("kelp")
    order = Order(wearer=design.sizes[2].wearer, size=design.sizes[2].name, stash_g={"main colour": 440.0})
    (yarn,) = (
        each for each in poncho_document(made_to_measure(design, order)).sections if each.heading == "Yarn"
    )
    for told in (halfway, " ".join(map(str, yarn.sentences))):
        assert re.search(r"\d\.\d oz", told)
        assert not re.search(r"\d g\b", told)
    assert "at hand 20.0 oz" in halfway
