import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet.fabric import Counted, CountRule, Fabric, RowRule, Swatch
from schematics.wearer.expr import Fact, expr_json
from schematics.wearer.traced import Traced, tree_of
from tests.fitting.reader import Reader

STITCHES, ROWS = Counted.STITCHES, Counted.ROWS

rules = st.builds(CountRule, multiple=st.integers(1, 12), plus=st.integers(0, 15))
swatches = st.builds(
    Swatch,
    stitches=st.integers(5, 60),
    rows=st.integers(5, 60),
    width_cm=st.floats(5, 30),
    height_cm=st.floats(5, 30),
)
fabrics = st.builds(
    Fabric,
    name=st.just("any"),
    stitch=st.just("any"),
    swatch=swatches,
    stretch_across=st.floats(0, 1.5),
    stretch_along=st.floats(0, 1.5),
    turning_chains=st.integers(0, 4),
)


def allowed_up_to(rule: CountRule, top: int) -> list[int]:
    """Every positive ``multiple * k + plus`` for k from 0, listed."""
    return [n for k in range(top + 1) if 0 < (n := rule.multiple * k + rule.plus) <= top]


@given(rules, st.integers(0, 150))
def test_a_rule_allows_exactly_its_counts(rule: CountRule, count: int) -> None:
    assert rule.allows(count) is (count in allowed_up_to(rule, 150))


@given(rules)
def test_the_smallest_count_is_the_first_allowed(rule: CountRule) -> None:
    assert rule.smallest == allowed_up_to(rule, 200)[0]


@given(rules, st.floats(0, 120))
def test_rounding_up_down_and_nearest_against_a_list(rule: CountRule, count: int) -> None:
    listed = allowed_up_to(rule, 200)
    assert rule.at_least(count) == min(n for n in listed if n >= count - 1e-7)
    assert rule.at_most(count) == max((n for n in listed if n <= count + 1e-7), default=listed[0])
    assert abs(rule.nearest(count) - count) == pytest.approx(min(abs(n - count) for n in listed))


halves = st.integers(0, 240).map(lambda each: each / 2)


@given(rules, st.lists(st.floats(0, 120) | halves, min_size=1))
def test_nearest_is_the_same_of_a_column_and_as_a_tree(rule: CountRule, counts: list[float]) -> None:
    nearest = [rule.nearest(each) for each in counts]
    assert rule.nearest(np.array(counts)).tolist() == nearest
    tree = expr_json(tree_of(rule.nearest(Traced(Fact("count")))))
    assert [Reader({}, {}, {"count": each}).number(tree) for each in counts] == nearest


@pytest.mark.parametrize("count", [0.2, 14, 1e6])
def test_a_motif_has_its_one_count_whatever_is_asked(count: float) -> None:
    rule = CountRule.exactly(20)
    assert rule.nearest(count) == rule.nearest(np.array([count]))[0] == 20
    tree = expr_json(tree_of(rule.nearest(Traced(Fact("count")))))
    assert Reader({}, {}, {"count": count}).number(tree) == 20


def test_of_two_equally_near_the_larger_is_taken() -> None:
    assert CountRule(multiple=4).nearest(10) == 12
    assert CountRule(multiple=6, plus=2).nearest(11) == 14


def test_float_error_does_not_cost_a_repeat() -> None:
    assert CountRule().at_least(0.1 * 30) == 3  # 3.0000000000000004
    assert CountRule().at_most(4.35 * 100) == 435  # 434.99999999999994
    assert CountRule().at_least(3.0001) == 4
    assert CountRule().at_most(3.9999) == 3


@given(st.integers(0, 6), st.integers(1, 12), st.integers(0, 6), st.integers(0, 20))
def test_row_rule_is_set_up_repeats_and_closing(setup: int, repeat: int, closing: int, repeats: int) -> None:
    rule = RowRule(setup=setup, repeat=repeat, closing=closing)
    rows = setup + repeat * repeats + closing
    assert rule.repeats(rows) == repeats
    assert rule.rule.allows(rows) is (rows > 0)
    if repeat > 1:
        assert not rule.rule.allows(rows + 1)


@given(fabrics, st.integers(1, 400), st.sampled_from(Counted))
def test_lengths_and_counts_are_each_others_inverse(fabric: Fabric, count: int, counted: Counted) -> None:
    length = fabric.length_cm(count, counted)
    assert length * fabric.gauge(counted) == pytest.approx(count)
    assert CountRule().nearest(length * fabric.gauge(counted)) == count


@given(fabrics, st.integers(1, 400))
def test_stretch_runs_in_the_direction_counted(fabric: Fabric, count: int) -> None:
    across = fabric.full_length_cm(count, STITCHES) / fabric.length_cm(count, STITCHES)
    along = fabric.full_length_cm(count, ROWS) / fabric.length_cm(count, ROWS)
    assert across == pytest.approx(1 + fabric.stretch_across)
    assert along == pytest.approx(1 + fabric.stretch_along)


def test_lengths_by_hand() -> None:
    # 9.5 stitches and 7 rows to 10 cm: 400 / 9.5, 1320 / 9.5, 200 / 7.
    fabric = Fabric(
        name="body", stitch="double crochet", swatch=Swatch(stitches=9.5, rows=7, width_cm=10, height_cm=10)
    )
    assert fabric.stitches_per_cm == pytest.approx(0.95)
    assert fabric.rows_per_cm == pytest.approx(0.7)
    assert fabric.length_cm(40, STITCHES) == pytest.approx(42.105263)
    assert fabric.length_cm(132, STITCHES) == pytest.approx(138.947368)
    assert fabric.length_cm(20, ROWS) == pytest.approx(28.571429)


def test_a_swatch_need_not_be_ten_centimetres() -> None:
    fabric = Fabric(
        name="panel", stitch="cable", swatch=Swatch(stitches=18, rows=21, width_cm=12, height_cm=14)
    )
    assert math.isclose(fabric.length_cm(18, STITCHES), 12)
    assert math.isclose(fabric.length_cm(42, ROWS), 28)


@pytest.mark.parametrize(
    ("stitch", "turning_chains", "chain"),
    # Chains skipped at the turn: common practice, no source.
    [("single crochet", 1, 41), ("half double", 2, 42), ("double", 3, 43), ("treble", 4, 44)],
)
def test_foundation_chain_is_the_stitches_and_the_turn(stitch: str, turning_chains: int, chain: int) -> None:
    fabric = Fabric(
        name="body",
        stitch=stitch,
        swatch=Swatch(stitches=10, rows=10, width_cm=10, height_cm=10),
        turning_chains=turning_chains,
    )
    assert fabric.foundation_chain(40) == chain


@pytest.mark.parametrize("count", [1, 23, 24, 25, 1_000_024, 5_000_000])
def test_the_one_count_of_a_motif_is_the_nearest_to_every_count_and_is_never_stepped(count: int) -> None:
    rule = CountRule.exactly(24)
    assert (rule.at_most(count), rule.at_least(count), rule.nearest(count)) == (24, 24, 24)
    assert rule.step is None
    assert CountRule(multiple=4, plus=2).step == 4
