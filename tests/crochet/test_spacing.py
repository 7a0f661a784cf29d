import doctest
import itertools
from collections import deque
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet import spacing
from schematics.crochet.spacing import RATIO_TOLERANCE, even_shares, join, simplest_ratio

counts = st.integers(1, 250)


def bjorklund(ones: int, slots: int) -> list[int]:
    """E. Bjorklund's pulse spacing (2003), after Toussaint's account of it, written from memory.

    Start from ``ones`` groups [1] and the rest [0]; keep appending the shorter kind of group to
    the longer until at most one is left over.
    """
    heads, tails = [[1] for _ in range(ones)], [[0] for _ in range(slots - ones)]
    while len(tails) > 1:
        pairs = min(len(heads), len(tails))
        joined = [heads[i] + tails[i] for i in range(pairs)]
        heads, tails = joined, heads[pairs:] or tails[pairs:]
    return list(itertools.chain(*heads, *tails))


def is_rotation(first: list[int], second: list[int]) -> bool:
    turned = deque(second)
    for _ in second:
        if first == list(turned):
            return True
        turned.rotate()
    return first == second


@given(st.integers(0, 500), counts)
def test_shares_add_up_and_differ_by_at_most_one(total: int, parts: int) -> None:
    shares = even_shares(total, parts)
    assert len(shares) == parts
    assert sum(shares) == total
    assert max(shares) - min(shares) <= 1


@given(st.integers(0, 200), st.integers(1, 80))
def test_shares_are_bresenhams_line_but_for_where_they_start(total: int, parts: int) -> None:
    # The plain floor form of Bresenham's line: share i is floor((i+1) t / p) - floor(i t / p).
    floors = [(i + 1) * total // parts - i * total // parts for i in range(parts)]
    assert is_rotation(floors, list(even_shares(total, parts)))


@given(st.integers(1, 60), st.integers(1, 60))
def test_shares_are_bjorklunds_spacing_but_for_where_they_start(ones: int, more: int) -> None:
    slots = ones + more
    assert is_rotation(bjorklund(ones, slots), list(even_shares(ones, slots)))


@given(st.integers(0, 200), st.integers(1, 80))
def test_no_stretch_of_shares_is_fuller_than_another_of_its_length_by_more_than_one(
    total: int, parts: int
) -> None:
    # Evenness itself (balanced words, Morse and Hedlund 1940).
    shares = even_shares(total, parts)
    for length in range(1, min(parts, 12) + 1):
        sums = [sum(shares[start : start + length]) for start in range(parts - length + 1)]
        assert max(sums) - min(sums) <= 1


def test_shares_by_hand() -> None:
    assert even_shares(7, 4) == (2, 2, 1, 2)  # ends at 1.75, 3.5, 5.25, 7: rounded 2, 4, 5, 7
    assert even_shares(0, 3) == (0, 0, 0)
    assert even_shares(6, 3) == (2, 2, 2)


@pytest.mark.parametrize(("total", "parts"), [(1, 0), (1, -1), (-1, 2)])
def test_impossible_shares_are_refused(total: int, parts: int) -> None:
    with pytest.raises(ValueError, match=f"cannot cut {total} into {parts} parts"):
        even_shares(total, parts)


@given(counts, counts, st.sampled_from([0.0, 0.01, 0.05, 0.2]))
def test_ratio_is_within_tolerance_and_no_simpler_one_is(first: int, second: int, tolerance: int) -> None:
    ratio = simplest_ratio(first, second, tolerance)
    exact = Fraction(max(first, second), min(first, second))
    larger = ratio if first >= second else 1 / ratio
    assert abs(larger / exact - 1) <= tolerance
    for fewer in range(1, larger.denominator):
        for more in (exact * fewer).__floor__(), (exact * fewer).__ceil__():
            assert abs(Fraction(more, fewer) / exact - 1) > tolerance
    same = [Fraction(more, larger.denominator) for more in range(1, 2 * larger.numerator + 2)]
    assert abs(larger - exact) == min(abs(each - exact) for each in same)


@given(counts, counts)
def test_swapping_the_sides_turns_the_ratio_over(first: int, second: int) -> None:
    assert simplest_ratio(first, second, 0.05) == 1 / simplest_ratio(second, first, 0.05)


@given(counts, counts)
def test_no_tolerance_gives_the_very_ratio(first: int, second: int) -> None:
    assert simplest_ratio(first, second, 0.0) == Fraction(first, second)


@pytest.mark.parametrize(
    ("first", "second", "ratio"),
    [
        (26, 40, Fraction(2, 3)),  # 0.65: 1/2 and 1 are out, 2/3 is 2.5 % off
        (40, 26, Fraction(3, 2)),
        (30, 30, Fraction(1)),
        (41, 40, Fraction(1)),  # 2.5 %
        (100, 10, Fraction(10)),
        (20, 19, Fraction(1)),  # 19/20 is exactly 5 % off
        (19, 18, Fraction(11, 10)),  # 18/19 is 5.3 % off and so is 10/9; 11/10 is 4.2 % off
    ],
)
def test_ratio_by_hand(first: int, second: int, ratio: Fraction) -> None:
    assert simplest_ratio(first, second, RATIO_TOLERANCE) == ratio


@pytest.mark.parametrize(("first", "second", "tolerance"), [(0, 3, 0.1), (3, 0, 0.1), (3, 3, -0.1)])
def test_impossible_ratios_are_refused(first: int, second: int, tolerance: int) -> None:
    with pytest.raises(ValueError, match=f"no ratio of {first} to {second}"):
        simplest_ratio(first, second, tolerance)


@given(counts, counts)
def test_a_join_adds_up_to_both_totals(first: int, second: int) -> None:
    how = join(first, second)
    assert (how.first_rows, how.second_rows) == (first, second)
    assert len(how.shares) == min(first, second)
    assert sum(how.shares) == max(first, second)
    assert min(how.shares) >= 1
    assert how.longer_first is (first > second)
    assert how.ratio == simplest_ratio(first, second, RATIO_TOLERANCE)


def test_the_examples_in_the_docstrings_hold() -> None:
    assert doctest.testmod(spacing).attempted == 2
    assert doctest.testmod(spacing).failed == 0
