"""Finished sheets measured: the demo designs whole, and random designs of every construction.

The rules are those of ISO 129-1 (dimensions) and ISO 5455 (scales) as far as the sheets follow them;
the audits say each in a sentence.
"""

from __future__ import annotations

import math
import re
from collections import defaultdict
from dataclasses import replace
from itertools import chain, product

import pytest
from shapely import Polygon

from schematics.checks.evaluation import evaluate
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.units import Unit
from tests.drawing.audit_layout import leaders_over_extensions
from tests.drawing.designs import SIZES, random_design, random_spec
from tests.drawing.readback import Page
from tests.drawing.sheets import Drawn, every_sheet, pieces_sheets, sample, sample_of
from tests.examples import seeds
from tests.pattern.designs import design_of, dressed_spec
from tests.shipped import demos, shipped_design

_RANDOM = seeds([(word, seed) for seed in range(100, 105) for word in sorted(SIZES)], 15)


def faults(drawn: list[Drawn]) -> list[str]:
    return list(chain.from_iterable(each.faults() for each in drawn))


@pytest.mark.slow
@pytest.mark.parametrize("name", demos())
def test_no_sheet_of_a_demo_design_has_a_fault(name: str) -> None:
    drawn = sample(name)
    assert faults(drawn) == []
    assert {each.name: found for each in drawn if (found := [*leaders_over_extensions(each.page)])} == {}
    assert {each.name: each.sheet.unplaced for each in drawn if each.sheet.unplaced} == {}


@pytest.mark.slow
@pytest.mark.parametrize(("word", "seed"), _RANDOM)
def test_no_pieces_sheet_of_a_random_design_has_a_fault(word: str, seed: int) -> None:
    assert faults(list(pieces_sheets(random_design(word, seed, most_sizes=1)))) == []


@pytest.mark.slow
@pytest.mark.parametrize(("word", "most_sizes"), seeds([*product(sorted(SIZES), (1, 2))], 6))
def test_no_sheet_of_a_random_design_has_a_fault(word: str, most_sizes: int) -> None:
    design = random_design(word, 200, most_sizes)
    assert faults(list(every_sheet(design, evaluate(design)))) == []


@pytest.mark.thorough
@pytest.mark.parametrize("number", seeds([3, 7]))
def test_no_sheet_of_a_body_whose_increases_end_above_the_hem_has_a_fault(number: int) -> None:
    whole = design_of(dressed_spec(number), number)
    design = replace(whole, sizes=whole.sizes[:1])
    drawn = list(every_sheet(design, evaluate(design)))
    said = [" ".join(words.text for words in each.page.words) for each in drawn]
    assert any("last increase row" in each for each in said)
    assert faults(drawn) == []


@pytest.mark.slow
def test_on_every_working_sheet_of_a_design_in_inches_they_come_first() -> None:
    """Cautions, whose figures are those of a standard, and tables, which name the unit of each row, apart."""
    whole = shipped_design("tidepool")
    design = replace(whole, unit=Unit.IN, sizes=whole.sizes[:1])
    told = defaultdict(list)
    for drawn in sample_of(design, evaluate(design)):
        told[drawn.stem, "description"].append(drawn.sheet.description)
        for words in drawn.page.words:
            if words.kind not in ("table", "cautions", "title"):
                told[drawn.stem, words.group].append(words.text)
    first = {where: re.findall(r"\d (cm|in)\b", " ".join(texts))[:1] for where, texts in told.items()}
    assert {stem for (stem, _), unit in first.items() if unit == ["in"]} >= {"pieces", "assembly", "worn"}
    assert [where for where, unit in first.items() if unit == ["cm"]] == []
    (heading,) = (words for words in told["cover", "cover-cover"] if words.startswith("Finished"))
    assert heading == "Finished measurements, in inches with cm below"


def test_there_are_random_designs_of_every_construction() -> None:
    assert set(SIZES) == set(CONSTRUCTIONS)


@pytest.mark.slow
@pytest.mark.parametrize("seed", seeds(range(300, 308), 8))
def test_a_flared_body_is_drawn_as_the_ring_sector_its_counts_make(seed: int) -> None:
    """Opening (hem - neck) / depth, inner radius neck / opening, area (outer2 - inner2) opening / 2."""
    spec = random_spec("flared", seed, most_sizes=1)
    swatch = spec["fabrics"][spec["parts"]["body"]]["swatch"]
    over = float(swatch["width"].removesuffix(" cm"))
    for drawn, size in zip(
        pieces_sheets(random_design("flared", seed, most_sizes=1)), spec["sizes"].values(), strict=True
    ):
        counts = size["body"]
        neck, hem = (counts[edge] * over / swatch["stitches"] for edge in ("neck", "hem"))
        depth = counts["rows"] * over / swatch["rows"]
        page = drawn.page
        body = page.outlines["outline-body"]
        opening = (hem - neck) / depth
        share = 2 if opening > math.tau else 1
        assert _cm2(page, body) == pytest.approx((neck + hem) / 2 * depth / share, rel=1e-3)
        assert _width_cm(page, body) == pytest.approx(_sector_width(neck, hem, depth), rel=1e-3)


def _cm2(page: Page, shape: Polygon) -> float:
    area: float = shape.area * page.scale**2 / 100
    return area


def _width_cm(page: Page, shape: Polygon) -> float:
    x0, _, x1, _ = shape.bounds
    width: float = (x1 - x0) * page.scale / 10
    return width


def _sector_width(neck: float, hem: float, depth: float) -> float:
    """Across a ring sector symmetrical about its fold, or across its right half over a full circle."""
    opening = (hem - neck) / depth
    if opening == 0:
        return neck
    outer = hem / opening
    if opening <= math.pi:
        return 2 * outer * math.sin(opening / 2)
    return 2 * outer if opening <= math.tau else _half_width(opening / 2, outer - depth, outer)


def _half_width(half: float, inner: float, outer: float) -> float:
    """From the fold out to a quarter turn, and past half a turn back across the fold."""
    return outer - min(0.0, inner * math.sin(half), outer * math.sin(min(half, 1.5 * math.pi)))
