"""Yarn of each part against the stitches that the reader has worked from the pattern's text, one by one."""

from __future__ import annotations

import pytest

from schematics.analysis.yarn.need import yarn_need
from schematics.checks.evaluation import evaluate
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from tests.examples import seeds
from tests.pattern.designs import design_of
from tests.pattern.reader.maker import make
from tests.pattern.reader.patterns import WORKED, Written, demo, graded, markdown_of, workable_spec
from tests.pattern.reader.yarn_bought import pieces_of

_HEADINGS = {
    "body": "Body",
    "centre panel": "Centre panel",
    "neck band": "Neck band",
    "arm band": "Arm bands",
}


def held(design: Design, written: Written) -> None:
    for result in evaluate(design):
        made = make(written.markdown, result.size.name)
        told = {each.part: each for each in yarn_need(design, result.garment).parts}
        assert {each: told[each].stitches for each in told} == {
            "body": made.body_stitches,
            "centre panel": made.panel_stitches,
            "neck band": made.neck_band_stitches * made.neck_band_rows,
            "arm band": 2 * made.arm_band_stitches * made.arm_band_rows,
        }
        grams = {part: mass for part, (_, mass) in pieces_of(made, written.spec).items()}
        assert {_HEADINGS[each]: told[each].mass_g for each in told} == pytest.approx(grams, rel=1e-12)


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", WORKED)
def test_of_the_demos(name: str) -> None:
    held(graded(name).design, demo(name, Terms.US))


@pytest.mark.thorough
@pytest.mark.parametrize("number", seeds(range(930, 942)))
def test_of_random_designs(number: int) -> None:
    spec = workable_spec(number)
    design = design_of(spec, number)
    held(design, Written(markdown_of(design, Terms.US), spec))
