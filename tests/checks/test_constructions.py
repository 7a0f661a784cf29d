"""The checks on bodies other than the flared one that the cases use."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from schematics.checks import FAMILIES as ALL_FAMILIES
from schematics.checks.finding import Case, Severity
from schematics.crochet.fabric import CountRule, RowRule
from schematics.design.design import Parts
from schematics.garment.constructions import CONSTRUCTIONS
from tests.checks.cases import PARTS, fabric, make_case

FAMILIES = [
    each for each in ALL_FAMILIES if each.name in ("seams", "neck", "arms", "hang", "counts", "lies flat")
]
MITRED = {"neck": 36, "lines": 4, "rows": 30, "increase_rows": 10}
FOLDED = {
    "width": 90, "front_rows": 40, "back_rows": 40, "neck": 20, "neck_front_rows": 6, "neck_back_rows": 2,
    "slot": 20,
}  # fmt: skip


def case_of(word: str, body: dict[str, Any], arm: dict[str, Any], parts: Parts = PARTS) -> Case:
    """The made-up child in a body of that construction; the panel is 20 stitches by 34 rows."""
    construction = CONSTRUCTIONS[word]
    plain = make_case(panel_rows=34, parts=parts)
    size = replace(plain.size, body=construction.body_counts(**body), arms=construction.arm_counts(**arm))
    design = replace(plain.design, construction=word)
    return replace(plain, design=design, size=size, garment=construction.build(size, plain.design.parts))


def sentences(case: Case, code: str) -> list[tuple[Severity, str]]:
    return [
        (each.severity, each.sentence)
        for family in FAMILIES
        for each in family.check(case)
        if each.code == code
    ]


@pytest.mark.parametrize(
    ("word", "body", "arm"),
    [("mitred", MITRED, {"from_front": 20, "stitches": 18}), ("folded", FOLDED, {"rows": 18})],
)
def test_every_code_is_given_for_every_construction(
    word: str, body: dict[str, Any], arm: dict[str, Any]
) -> None:
    case = case_of(word, body, arm)
    for family in FAMILIES:
        assert {each.code for each in family.check(case)} == {each.code for each in family.explanations}


def test_mitred_increases_are_told_by_their_lines() -> None:
    # 36 stitches and 10 rows that add 2 at each of 4 lines: 36 + 80 = 116.
    case = case_of("mitred", MITRED, {"from_front": 20, "stitches": 18})
    assert sentences(case, "COUNT-INCREASE") == [
        (
            Severity.GOOD,
            "From 36 stitches at the neck to 116 at the hem: 10 increase rows with 8 increases, on 4 lines.",
        )
    ]


@pytest.mark.parametrize(
    ("sections", "severity"),
    [([1, 16, 2, 16, 1], Severity.GOOD), ([1, 1, 32, 1, 1], Severity.STOP)],
)
def test_a_section_between_two_lines_needs_two_stitches(sections: list[int], severity: Severity) -> None:
    body = MITRED | {"sections": sections}
    ((given, words),) = sentences(
        case_of("mitred", body, {"from_front": 20, "stitches": 18}), "COUNT-INCREASE"
    )
    assert given is severity
    assert ("has only 1 stitch at the neck" in words) is (severity is Severity.STOP)


def test_folded_arm_openings_are_told_on_either_side() -> None:
    # The middle of 18 row ends lies on the shoulder fold, after row 40 of 80: rows 32 to 49.
    case = case_of("folded", FOLDED, {"rows": 18})
    ((severity, words),) = sentences(case, "ARM-PLACE")
    assert severity is Severity.GOOD
    assert words == (
        "Each arm band is on side row ends 32 to 49 of 80, counted inclusively, one on either side."
    )


def test_folded_arm_openings_longer_than_the_side_stop() -> None:
    case = case_of("folded", FOLDED, {"rows": 82})
    ((severity, words),) = sentences(case, "ARM-PLACE")
    assert severity is Severity.STOP
    assert words.endswith("does not lie on the side edge: make it shorter.")


def test_folded_side_seams_join_the_fronts_rows_to_the_backs() -> None:
    # 9 of 18 row ends are on either side of the shoulder fold: 40 - 9 = 31 rows are seamed.
    told = sentences(case_of("folded", FOLDED, {"rows": 18}), "SEAM-JOIN")
    assert told[1] == (
        Severity.GOOD,
        "Join 1 back side row to 1 front side row; exactly, 31 back side rows to 31 front side rows: "
        "one to one.",
    )


def test_a_pattern_binds_the_whole_width_and_length_only() -> None:
    # 90 across is a multiple of 9 and 80 rows of 8; the fronts' 35 stitches and 34 rows are not.
    pattern = fabric(stitch_rule=CountRule(multiple=9), row_rule=RowRule(repeat=8))
    case = case_of("folded", FOLDED, {"rows": 18}, replace(PARTS, body=pattern))
    for code, words in (("COUNT-MULTIPLE", "Body, back hem: 90 "), ("COUNT-REPEAT", "Body, side: 80 ")):
        ((severity, told),) = sentences(case, code)
        assert severity is Severity.GOOD
        assert told.startswith(words)
