"""Rules of thumb the trade publishes, with which the figures agree; each with its source."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

import pytest

from schematics.checks.evaluation import evaluate
from schematics.crochet.hooks_and_yarn import yarn_weight
from schematics.design.design import Design
from schematics.document.writers import file_content
from schematics.pattern import figures
from tests.drawing.designs import as_text, read_spec
from tests.pattern.audit import NARROW, steps
from tests.pattern.reading import Page, read_page, read_schedule
from tests.shipped import shipped_design

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of thumb, where it is from, and what holds the figures against it."""

    words: str
    source: str
    holds: Callable[[], None]


@cache
def demo(name: str) -> tuple[Design, Page]:
    design = shipped_design(name)
    return design, page_of(design)


def page_of(design: Design) -> Page:
    return read_page(file_content(figures(design, evaluate(design)), "md").decode())


def folded(stitch: str, stitches: int, rows: int, opening: int) -> Page:
    """A folded body of one fabric, ``stitches`` and ``rows`` to 10 cm, with arm openings of so many rows."""
    return page_of(
        read_spec(
            as_text(
                one_fabric(
                    "folded",
                    stitch,
                    (stitches, rows),
                    {"width": 80, "front_rows": 60, "back_rows": 60, "neck": 20, "neck_front_rows": 6,
                     "neck_back_rows": 2, "slot": 10},
                    {"rows": opening},
                )
            ),
            "rule",
        )
    )  # fmt: skip


def flared(stitch: str, gauge: tuple[int, int], neck: int, hem: int, rows: int) -> Page:
    body = {"neck": neck, "hem": hem, "rows": rows}
    arms = {"from_front": 10, "stitches": 10}
    return page_of(read_spec(as_text(one_fabric("flared", stitch, gauge, body, arms)), "rule"))


def one_fabric(
    construction: str, stitch: str, gauge: tuple[int, int], body: dict[str, int], arms: dict[str, int]
) -> dict[str, Any]:
    fabric: dict[str, Any] = {
        "stitch": stitch,
        "swatch": {"stitches": gauge[0], "rows": gauge[1], "width": 10, "height": 10},
    }
    if stitch == "knit":
        fabric["turning_chains"] = 0
    return {
        "title": "Rule",
        "unit": "cm",
        "construction": construction,
        "yarn": {"name": "made up"},
        "fabrics": {"one": fabric},
        "parts": dict.fromkeys(("body", "centre_panel", "neck_band", "arm_bands"), "one"),
        "sizes": {
            "one": {
                "wearer": "child/6", "body": body, "arms": arms, "panel": {"stitches": 10, "rows": 40},
                "neck_band": {"stitches": 6}, "arm_bands": {"stitches": 6},
            }
        },
    }  # fmt: skip


def foundation_chains() -> None:
    for stitch, more in (
        ("single crochet", 1), ("half double crochet", 2), ("double crochet", 3), ("treble crochet", 4),
    ):  # fmt: skip
        rows = flared(stitch, (14, 12), 60, 120, 30).table("Foundation", "Every piece")
        for row in rows:
            assert int(row["foundation chain"]) == int(row["stitches in the first row"]) + more


def row_ends() -> None:
    """Gauges of fabrics that the rule is made for: a row as high as 1, 1 1/2 and 2 stitches are wide."""
    for stitch, gauge, picked_up in (
        ("single crochet", (14, 14), 24),
        ("half double crochet", (15, 10), 36),
        ("double crochet", (14, 7), 48),
    ):
        assert arm_edge(folded(stitch, *gauge, 24)) == picked_up


def knitted_row_ends() -> None:
    """Double knitting yarn as its ball bands have it, 22 stitches and 30 rows: right within a stitch."""
    assert abs(arm_edge(folded("knit", 22, 30, 48)) - Fraction(3, 4) * 48) <= 1


def arm_edge(page: Page) -> int:
    (edge,) = page.size_strings(
        "Ribbing", "Neck band and arm bands", "arm bands, each: edge stitches", "stitches or rows"
    )
    return int(edge)


def ribbing_rows() -> None:
    for name in ("tidepool", "saltmarsh", "driftwood"):
        _, page = demo(name)
        for band in ("neck band", "arm bands, each"):
            edge, rows = (
                page.size_strings("Ribbing", "Neck band and arm bands", f"{band}: {what}", "stitches or rows")
                for what in ("edge stitches", "ribbing rows")
            )
            assert edge == rows
            assert all(int(count) % 2 == 0 for count in rows)


def full_circles() -> None:
    """A body that opens to a full circle, its rows as high as 1 and as 2 stitches are wide."""
    for stitch, gauge, each_row in (("single crochet", (14, 14), 6), ("double crochet", (14, 7), 12)):
        rows = 40
        hem = 60 + round(math.tau * rows / gauge[1] * gauge[0])
        page = flared(stitch, gauge, 60, hem, rows)
        (row,) = page.table("Increases", "Increase schedule")
        assert {count for count, _ in read_schedule(row["increases"])} <= {each_row, each_row + 1}


def eight_a_row() -> None:
    """Four lines, as at the four seams of a raglan."""
    design, page = demo("saltmarsh")
    assert {size.body.lines for size in design.sizes} == {4}
    (heading,) = [each for each in page.sentences if each.startswith("Increases")]
    told = [
        found[1] for each in page.sentences[heading] if (found := re.search(r": (\d+) sts more each", each))
    ]
    assert told == ["8"]


def rounding() -> None:
    """Widths of panel and bands, neck depths and what goes round an arm twice as finely as others."""
    for name in ("tidepool", "saltmarsh", "driftwood"):
        met = set()
        for row in demo(name)[1].table("Finished", "Finished measurements, laid flat"):
            met |= {row["measurement"]} & NARROW
            step_cm, step_in = steps(row["measurement"])
            for number in re.findall(r"[\d.]+", row["cm"]):
                assert (Fraction(number) / step_cm).denominator == 1
            unders = {int(under) for under in re.findall(r"\d/(\d)", row["inches"])}
            assert unders <= {2, 4, step_in.denominator}
        assert met >= {"panel width", "neck band depth", "arm band depth"}
        assert name != "driftwood" or met == NARROW - {"arm run on the hem"}


def margin() -> None:
    told = [
        row["yarn"]
        for row in demo("tidepool")[1].table("Yarn", "In all")
        if row["yarn"].startswith("to buy, with")
    ]
    assert {int(number) for words in told for number in re.findall(r"with (\d+) %", words)} <= set(
        range(10, 21)
    )


def yarn_weights() -> None:
    """Single crochet to 4 in, and the hooks recommended, of bulky and of medium yarn."""
    for name, fabric, low, high, hooks in (
        ("tidepool", "rib", 8, 11, (6.5, 9)), ("driftwood", "rib", 11, 14, (5.5, 6.5)),
    ):  # fmt: skip
        design, page = demo(name)
        (row,) = [
            row for row in page.table("Materials", "Gauge, washed and measured") if row["fabric"] == fabric
        ]
        assert low <= float(row["sts to 10 cm"]) * 1.016 <= high
        assert design.hook_mm is not None
        assert hooks[0] <= design.hook_mm <= hooks[1]
        assert design.yarn.weight is not None
        weight = yarn_weight(design.yarn.weight)
        assert f"Yarn weight: {weight.words}." in page.sentences["Materials and gauge"]


def size_strings() -> None:
    for name in ("tidepool", "saltmarsh", "driftwood"):
        design, page = demo(name)
        for row in page.table("Finished", "Finished measurements, laid flat"):
            first, *others = [float(number) for number in re.findall(r"[\d.]+", row["cm"])]
            assert len(others) == len(design.sizes) - 1
            assert re.fullmatch(r"[\d.]+ \([\d.]+(, [\d.]+)*\)", row["cm"])
            if row["measurement"] == "body hem edge":
                assert first < min(others)


RULES = (
    Rule("foundation chain: single crochet n + 1, half double n + 2, double n + 3, treble n + 4", PRACTICE,
         foundation_chains),
    Rule("along row ends: 1 stitch a row of single crochet, 3 to 2 rows of half double, 2 a row of double",
         PRACTICE, row_ends),
    Rule("along the row ends of plain knitting: 3 stitches to 4 rows", PRACTICE, knitted_row_ends),
    Rule("ribbing worked sideways: one ribbing row to each edge stitch, two to a pair",
         f"{PRACTICE}, from memory", ribbing_rows),
    Rule("a flat circle grows by 6 stitches a round in single crochet and by 12 in double crochet", PRACTICE,
         full_circles),
    Rule("a raglan worked from the top grows by 8 stitches on an increase row", PRACTICE, eight_a_row),
    Rule("finished lengths are printed to 0.5 cm and 1/4 in, narrow and closing ones more finely", PRACTICE,
         rounding),
    Rule("yarn: 10 to 20 % more than is counted", PRACTICE, margin),
    Rule("yarn weight and hook go with the gauge in single crochet to 4 in: bulky 8 to 11 and 6.5 to 9 mm, "
         "medium 11 to 14 and 5.5 to 6.5 mm",
         "Craft Yarn Council, Standards & Guidelines for Crochet and Knitting", yarn_weights),
    Rule("the smallest size stands first, the others in brackets after it",
         "Craft Yarn Council, Standards & Guidelines for Crochet and Knitting, from memory", size_strings),
)  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.words)
def test_the_figures_agree(rule: Rule) -> None:
    rule.holds()


def test_every_rule_has_a_source() -> None:
    assert len(RULES) >= 5
    assert all(rule.source.startswith((PRACTICE, "Craft Yarn Council")) for rule in RULES)
    assert any(rule.source != PRACTICE for rule in RULES)
