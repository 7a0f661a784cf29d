import numpy as np

from schematics.crochet.fabric import CountRule
from schematics.grading.columns import on_lattice


def test_counts_of_a_rule_in_each_span_are_listed() -> None:
    first, number = on_lattice(
        np.array([0.0, 7.0, 19.5]), np.array([30.0, 9.0, 26.0]), CountRule(multiple=4, plus=2)
    )
    # 2, 6, ... 30; none between 7 and 9; 22 and 26.
    assert (first.tolist(), number.tolist()) == ([2, 10, 22], [8, 0, 2])


def test_a_rule_of_one_count_gives_that_count_or_none() -> None:
    low, high = np.array([0.0, 24.0, 25.0, 0.0]), np.array([30.0, 5e6, 9e6, 23.0])
    first, number = on_lattice(low, high, CountRule.exactly(24))
    assert [(at, many) for at, many in zip(first.tolist(), number.tolist(), strict=True) if many] == [
        (24, 1)
    ] * 2
    assert number.tolist() == [1, 1, 0, 0]
