"""Borders on bodies at one stitch and one row to the centimetre; every count is worked out beside it by hand.

The flared body: 36 stitches at the neck, 160 at the hem, 30 rows. Increases on every 7th row from row 2 to
row 23 are on rows 2, 9, 16 and 23, 31 in each: 67 stitches from row 2, 98 from row 9, 129 from row 16,
and 160 from row 23.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from schematics.checks import check_size
from schematics.checks.finding import Case, Severity
from schematics.crochet.charts.chart import Chart, Side
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.fabric import CountRule, RowRule
from schematics.design.border import Border, BorderEdge
from schematics.garment.constructions.mitred.mitred import MITRED
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from tests.checks.cases import PARTS, border, charted_border, make_case
from tests.checks.folded_cases import folded_case

NECK, HEM = BorderEdge.NECK, BorderEdge.HEM
EIGHTS = CountRule(multiple=8)
WRONG_FIRST = Chart(repeat=(parse_row("hdc across"),), first_side=Side.WRONG)


def with_borders(case: Case, *borders: Border) -> Case:
    design = replace(case.design, parts=replace(PARTS, borders=borders))
    return replace(case, design=design)


def flared(*borders: Border, **counts: int) -> Case:
    given: dict[str, Any] = {"increase_every": 7, "increase_until": 23} | counts
    return with_borders(make_case(**given), *borders)


def folded(*borders: Border) -> Case:
    return with_borders(folded_case(), *borders)


def told(case: Case) -> list[tuple[Severity, str]]:
    return [(each.severity, each.sentence) for each in check_size(case) if each.code == "COUNT-BORDER"]


def test_a_body_without_borders() -> None:
    assert told(make_case()) == [(Severity.GOOD, "The body has no borders.")]


@pytest.mark.parametrize(
    ("case", "sentence"),
    [
        (
            flared(border(at=HEM, rows=6, stitch_rule=EIGHTS)),
            "Edging (rows 25 to 30 of the body): 160 stitches throughout fit a multiple of 8.",
        ),
        (
            flared(border(at=3, stitch_rule=CountRule(multiple=11, plus=1))),
            "Edging (rows 3 to 8 of the body): 67 stitches throughout fit a multiple of 11 plus 1.",
        ),
        (
            flared(border(at=NECK, rows=1, stitch_rule=CountRule(multiple=9))),
            "Edging (row 1 of the body): 36 stitches throughout fit a multiple of 9.",
        ),
        (
            flared(border(at=10, stitch_rule=CountRule.exactly(98))),
            "Edging (rows 10 to 15 of the body): 98 stitches throughout fit a pattern of exactly 98.",
        ),
    ],
)
def test_a_border_that_fits(case: Case, sentence: str) -> None:
    assert told(case) == [(Severity.GOOD, sentence)]


@pytest.mark.parametrize(
    ("case", "sentence"),
    [
        (
            flared(border(at=HEM, rows=8)),
            "Edging (rows 23 to 30 of the body): row 23 changes from 129 stitches to 160 stitches, but a "
            "border keeps "
            "its count; end the increases by row 22, or work at most 7 rows.",
        ),
        (
            flared(border(at=NECK)),
            "Edging (rows 1 to 6 of the body): row 2 changes from 36 stitches to 67 stitches, but a border "
            "keeps its "
            "count; begin it on row 3, or work fewer rows; free for it are rows 3 to 8 (67), rows 10 to 15 "
            "(98), rows 17 to 22 (129) and rows 24 to 30 (160), in brackets the stitches.",
        ),
        (
            flared(border(at=12)),
            "Edging (rows 12 to 17 of the body): row 16 changes from 98 stitches to 129 stitches, but a "
            "border keeps "
            "its count; begin it on row 10, or work fewer rows; free for it are rows 3 to 8 (67), rows 10 to "
            "15 (98), rows 17 to 22 (129) and rows 24 to 30 (160), in brackets the stitches.",
        ),
        (
            flared(border(at=12, stitch_rule=EIGHTS)),
            "Edging (rows 12 to 17 of the body): row 16 changes from 98 stitches to 129 stitches, but a "
            "border keeps its count; begin it on row 24, or work fewer rows; free for it are rows 3 to 8 "
            "(67), rows 10 to 15 (98), rows 17 to 22 (129) and rows 24 to 30 (160), in brackets the "
            "stitches.",
        ),
        (
            flared(border(at=12, rows=7)),
            "Edging (rows 12 to 18 of the body): row 16 changes from 98 stitches to 129 stitches, but a "
            "border keeps its count; begin it on row 24, or work fewer rows; free for it is rows 24 to 30 "
            "(160), in brackets the stitches.",
        ),
        (
            flared(border(at=12, rows=8)),
            "Edging (rows 12 to 19 of the body): row 16 changes from 98 stitches to 129 stitches, but a "
            "border keeps its count; no 8 rows together keep their count: increase on every 9 rows or more, "
            "end the increases earlier, or work at most 7 rows, as on rows 24 to 30.",
        ),
        (
            flared(border(at=NECK), increase_every=2, increase_until=30, hem=156),
            "Edging (rows 1 to 6 of the body): row 2 changes from 36 stitches to 44 stitches, but a border "
            "keeps its "
            "count; no 6 rows together keep their count: increase on every 7 rows or more, end the "
            "increases earlier, or work at most 1 row, as on row 1.",
        ),
        (
            flared(border(at=28)),
            "Edging (rows 28 to 33 of the body): the body has only 30 rows; begin it by row 25, or work "
            "fewer rows.",
        ),
        (
            flared(border(at=HEM, rows=31)),
            "Edging (rows 0 to 30 of the body): the body has only 30 rows in all; work fewer.",
        ),
        (
            flared(border(at=3, stitch_rule=EIGHTS)),
            "Edging (rows 3 to 8 of the body): 67 stitches do not fit a multiple of 8; the nearest that do "
            "are 64 and "
            "72.",
        ),
        (
            flared(border(at=3, stitch_rule=CountRule.exactly(70))),
            "Edging (rows 3 to 8 of the body): 67 stitches do not fit a pattern of exactly 70; make it 70.",
        ),
    ],
)
def test_a_border_that_does_not(case: Case, sentence: str) -> None:
    assert told(case) == [(Severity.STOP, sentence)]


def test_two_borders_in_one_row() -> None:
    low, high = border(at=HEM, rows=6), border(at=24, rows=3, name="lace above")
    (first, _), (second, sentence) = told(flared(low, high))
    assert (first, second) == (Severity.GOOD, Severity.STOP)
    assert sentence == (
        "Lace above (rows 24 to 26 of the body): rows 25 to 26 are in edging (rows 25 to 30 of the body) "
        "too; move one "
        "of the two, or work fewer rows."
    )


def test_a_chart_that_cannot_be_worked_on_the_hem_is_told_with_its_row() -> None:
    chart = Chart(repeat=(parse_row("5 sc, 3 FPdc, sc across"),))
    lace = border(at=3, rows=2, row_rule=RowRule(repeat=1), chart=chart)
    assert told(flared(lace)) == [
        (
            Severity.STOP,
            "Edging (rows 3 to 4 of the body): on 67 stitches its chart cannot be worked: row 1: "
            "FPdc has no post to go round, since the first row is worked into the foundation chain; "
            "expected a plain "
            "row first.",
        )
    ]


def test_a_folded_body_has_its_hem_twice() -> None:
    """90 wide, a slot of 20: 90 on the back, 35 on each front; 40 rows at the back and 40 at the front."""
    (_, back), (_, fronts) = told(folded(border(at=HEM, rows=4, stitch_rule=CountRule(multiple=5))))
    assert back == "Edging, back (rows 1 to 4 of the body): 90 stitches throughout fit a multiple of 5."
    assert (
        fronts
        == "Edging, each front (rows 77 to 80 of the body): 35 stitches throughout fit a multiple of 5."
    )


def test_a_folded_body_parts_at_the_neck_hole() -> None:
    """The neck hole of 24 reaches 2 rows down the back, so from row 39 on there are two shoulders of 33."""
    ((severity, sentence),) = told(folded(border(at=36)))
    assert severity is Severity.STOP
    assert sentence == (
        "Edging (rows 36 to 41 of the body): row 39 changes from 90 stitches to 2 parts of 33 stitches, "
        "but a border "
        "keeps its count; begin it on row 33, or work fewer rows; free for it are rows 1 to 38 (90), "
        "rows 40 to 46 (33) and rows 48 to 80 (35), in brackets the stitches."
    )


def test_a_border_over_the_whole_folded_body() -> None:
    ((severity, _), (_, sentence)) = told(folded(border(at=HEM, rows=38)))
    assert severity is Severity.GOOD
    assert sentence.startswith(
        "Edging, each front (rows 43 to 80 of the body): row 47 changes from 2 parts of 33 stitches to 2 "
        "parts"
    )


def test_a_mitred_body_counts_by_its_lines() -> None:
    """4 lines, 8 rows with increases, 8 stitches in each: 36 and 64 are 100."""
    body = MitredBody(neck=36, lines=4, increase_rows=8, rows=30, increase_every=3, increase_until=23)
    case = make_case()
    size = replace(case.size, body=body)
    case = replace(
        case,
        size=size,
        design=replace(case.design, construction="mitred"),
        garment=MITRED.build(size, case.design.parts),
    )
    edging = border(at=HEM, stitch_rule=CountRule(multiple=10))
    assert told(with_borders(case, edging)) == [
        (Severity.GOOD, "Edging (rows 25 to 30 of the body): 100 stitches throughout fit a multiple of 10.")
    ]


def test_two_borders_have_one_right_side() -> None:
    """Rows 3 and 28: one is odd, the other even, and one of the charts must begin on the wrong side."""
    (first, _), (second, sentence) = told(flared(charted_border(3), charted_border(28)))
    assert (first, second) == (Severity.GOOD, Severity.MIND)
    assert sentence == (
        "From 28 (rows 28 to 30 of the body): for its chart row 1 of the body is worked on the wrong side, "
        "but on "
        "the right side for from 3 (rows 3 to 5 of the body); move one of the two by a row, or let its "
        "chart begin on "
        "the other side."
    )
    for borders in (
        (charted_border(3), charted_border(28, chart=WRONG_FIRST)),
        (charted_border(4), charted_border(28)),
        (border(at=3, rows=3), charted_border(28)),
    ):
        assert [severity for severity, _ in told(flared(*borders))] == [Severity.GOOD, Severity.GOOD]
