"""Regular increases: each row adds up, the rows do not line up, and the printed rule leads to the hem."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from schematics.checks.evaluation import evaluate
from schematics.crochet.increase_spacing import in_brackets
from schematics.document.writers import file_content
from schematics.garment.constructions.flared import increase_plan
from schematics.garment.constructions.mitred.mitred_counts import even_sections
from schematics.garment.increase_rows import row_of_rule
from schematics.garment.increases import IncreasePlan
from schematics.pattern import figures
from schematics.pattern.increase_rule import rule_lines
from tests.examples import examples
from tests.pattern.reading import read_page
from tests.pattern.rule_reading import is_rule, work_rule
from tests.specs_for_tests import SPEC, read


def regular(neck: int, each: int, times: int, every: int, sections: tuple[int, ...] = ()) -> IncreasePlan:
    rows = tuple((2 + every * turn, each) for turn in range(times))
    return IncreasePlan(start=neck, rows=rows, sections=sections or (neck,))


@st.composite
def flared_sizes(draw: st.DrawFn) -> list[IncreasePlan]:
    every = draw(st.integers(1, 5))
    sizes = []
    for _ in range(draw(st.integers(1, 9))):
        each = draw(st.integers(2, 18))
        neck = draw(st.integers(each, 160))
        sizes.append(regular(neck, each, draw(st.integers(2, 30)), every))
    return sizes


@st.composite
def mitred_sizes(draw: st.DrawFn) -> list[IncreasePlan]:
    every, lines = draw(st.integers(1, 5)), draw(st.integers(1, 8))
    sizes = []
    for _ in range(draw(st.integers(1, 9))):
        neck = 2 * draw(st.integers(2 * lines, 60))
        plan = regular(neck, 2 * lines, draw(st.integers(2, 30)), every, even_sections(neck, lines))
        assume(min(plan.sections[1:-1], default=2) >= 2)
        sizes.append(plan)
    return sizes


@pytest.mark.slow
@given(st.one_of(flared_sizes(), mitred_sizes()))
@examples(150, part=10)
def test_whoever_works_the_printed_lines_comes_to_the_hem(plans: list[IncreasePlan]) -> None:
    lines = rule_lines(plans)
    assert 2 <= len(lines) <= 4
    for size, plan in enumerate(plans):
        done = work_rule(lines, size, len(plans), plan.start)
        assert [(each.row, len(each.places)) for each in done] == list(plan.rows)
        assert done[-1].after == plan.start + sum(added for _, added in plan.rows)
        for turn, each in enumerate(done):
            spread = row_of_rule(plan, turn)
            assert spread is not None
            assert each.places == spread.stitches


@given(st.integers(1, 30), st.integers(0, 300), st.integers(0, 9), st.booleans())
def test_brackets_add_up_and_what_is_over_stays(count: int, more: int, turn: int, turned: bool) -> None:
    stitches = count + more
    spread = in_brackets(turn, count, stitches, turned=turned)
    assert (spread.increases, spread.before, spread.after) == (count, stitches, stitches + count)
    assert min(spread.plain) >= 0
    bracket, over = divmod(stitches, count)
    inside = set(spread.plain[1:-1])
    assert inside <= {bracket - 1}
    assert spread.plain[0] + spread.plain[-1] == bracket - 1 + over
    assert abs(spread.plain[0] - spread.plain[-1]) <= bracket


@given(st.integers(2, 20), st.integers(0, 200), st.integers(0, 8), st.integers(1, 4))
def test_increases_of_two_rows_in_turn_lie_half_a_bracket_apart(
    count: int, more: int, turn: int, every: int
) -> None:
    """Places on the later row's stitches below, counted from the edge the later row begins at.

    The earlier increase made two stitches of one, of which the second is taken.
    """
    neck = 3 * count + more
    plan = regular(neck, count, turn + 2, every)
    first, second = row_of_rule(plan, turn), row_of_rule(plan, turn + 1)
    assert first is not None
    assert second is not None
    below = [place + nth + 1 for nth, place in enumerate(first.stitches)]
    if every % 2:
        below = [first.after + 1 - place for place in below]
    bracket = second.before // count
    nearest = min(abs(one - other) for one in below for other in second.stitches)
    assert nearest >= bracket / 2 - 1.5
    assert bracket < 4 or nearest >= 1


def test_a_size_by_hand() -> None:
    """40 stitches and 9 increases: 4 to a bracket and 4 over; 49 in the next: 5 to a bracket, 4 over.

    Half of 4 plain ones are 2, besides the 2 over at the beginning. 14 increase rows make 126 stitches.
    """
    assert rule_lines([regular(40, 9, 14, 2)]) == (
        "Inc in row 2 and every 2nd row to row 28: 9 sts more each time, [166 sts] at the end.",
        "Rows 2, 6, 10 and so on: 2 sts, [3 sts, inc] × 9, 2 sts; each time 2 sts more in each bracket.",
        "Rows 4, 8, 12 and so on: 4 sts, inc, [4 sts, inc] × 8, 4 sts; each time 1 st more at each end and "
        "2 sts more in each bracket.",
    )


def test_what_all_sizes_share_is_told_once() -> None:
    """36 stitches and 3 rows of 8 make 60, as 44 and 2 rows do."""
    assert rule_lines([regular(36, 8, 3, 1), regular(44, 8, 2, 1)]) == (
        "Inc in row 2 and every row to row 4 (3): 8 sts more each time, [60 sts] at the end.",
        "Rows 2 and 4: 2 sts, [3 (4) sts, inc] × 8, 2 sts; each time 2 sts more in each bracket.",
        "Row 3: 4 (5) sts, inc, [4 (5) sts, inc] × 7, 4 sts.",
    )


def test_lines_of_increases_by_hand() -> None:
    """Eight stitches a row: 24 on 3 rows."""
    plans = [regular(42, 8, 3, 2, (5, 11, 10, 11, 5)), regular(44, 8, 2, 2, (6, 11, 10, 11, 6))]
    assert rule_lines(plans) == (
        "Inc on each side of each of the 4 lines in row 2 and every 2nd row to row 6 (4): 8 sts more each "
        "time, [66 (60) sts] at the end.",
        "Mark them in row 1: 5 (6) sts, mark, 11 sts, mark, 10 sts, mark, 11 sts, mark, 5 (6) sts. In an inc "
        "row inc in the last st before and in the first st after each mark, and move the marks up.",
    )


@pytest.mark.parametrize(
    "plans",
    [
        [regular(40, 9, 14, 2), regular(40, 9, 14, 3)],
        [regular(40, 9, 14, 2), increase_plan(40, 167, 28, 2)],
        [regular(40, 1, 14, 2)],
        [regular(8, 9, 14, 2)],
        [regular(40, 9, 1, 2)],
        [increase_plan(40, 40, 28, 2)],
        [regular(42, 8, 3, 2, (5, 11, 10, 11, 5)), regular(42, 4, 3, 2, (10, 22, 10))],
        [regular(10, 8, 3, 2, (4, 1, 0, 1, 4))],
    ],
    ids=["intervals", "counts", "one increase", "crowded", "one row", "none", "lines", "no room"],
)
def test_what_is_not_regular_has_no_rule(plans: list[IncreasePlan]) -> None:
    assert rule_lines(plans) == ()


@pytest.mark.parametrize(("count", "stitches"), [(0, 9), (9, 8), (-1, 9)])
def test_brackets_without_stitches_are_refused(count: int, stitches: int) -> None:
    with pytest.raises(ValueError, match="cannot make"):
        in_brackets(0, count, stitches)


NINE = [(60 + 4 * n, 8 + n // 3, 12 + n) for n in range(9)]
"""Neck, increases in a row, increase rows."""


def nine_sizes(construction: str) -> str:
    head, rest = SPEC.split("sizes:\n")
    arms_on = rest[rest.index("    arms:") : rest.index('  "6 years"')]
    text = head.replace("construction: flared", f"construction: {construction}") + "sizes:\n"
    for number, (neck, each, times) in enumerate(NINE):
        how = (
            f"hem: {neck + each * times}" if construction == "flared" else f"lines: 4, increase_rows: {times}"
        )
        until = 2 * times
        text += (
            f'  "{number + 2}":\n    wearer: child/4\n    body: {{neck: {neck}, {how}, rows: {until + 4}, '
        )
        text += f"increase_every: 2, increase_until: {until}}}\n{arms_on}"
    return text


@pytest.mark.slow
@pytest.mark.parametrize("construction", ["flared", "mitred"])
def test_nine_sizes_fit_in_four_lines(tmp_path: Path, construction: str) -> None:
    design = read(tmp_path, nine_sizes(construction))
    page = read_page(file_content(figures(design, evaluate(design)), "md").decode())
    assert list(page.tables["Increases of the body"]) == ["Increases in all"]
    lines = [line for line in page.sentences["Increases of the body"] if is_rule(line)]
    assert len(lines) <= 4
    for size, (neck, each, times) in enumerate(NINE):
        done = work_rule(lines, size, 9, neck)
        assert done[-1].after == neck + (each if construction == "flared" else 8) * times
        assert done[-1].row == 2 * times
