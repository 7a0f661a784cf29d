"""Increases along a row: exact, balanced, and Bresenham's line up to rotation."""

from __future__ import annotations

import doctest
import itertools
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet import increase_spacing
from schematics.crochet.increase_spacing import EvenSpread, increase_evenly, line_increases, staggered
from schematics.crochet.spacing import even_shares, join
from schematics.pattern.sections.increases_in_words import rows_words
from tests.pattern.reading import read_rows, read_work

rows_of = st.integers(1, 300).flatmap(lambda stitches: st.tuples(st.integers(0, stitches), st.just(stitches)))
phases = st.fractions(0, 1, max_denominator=12).filter(lambda phase: phase < 1)


def bresenham_rounding(total: int, parts: int) -> list[int]:
    """Differences of the rounded line ``total / parts``, as in Bresenham 1965; halves up."""
    ends = [(2 * total * n + parts) // (2 * parts) for n in range(parts + 1)]
    return [after - before for before, after in itertools.pairwise(ends)]


def is_rotation(first: list[int], second: list[int]) -> bool:
    return any(first == second[start:] + second[:start] for start in range(len(second)))


def gaps(spread: EvenSpread) -> list[int]:
    """From each increase to the next, the last one on to the first."""
    places = list(spread.stitches)
    return [
        after - before for before, after in zip(places, [*places[1:], places[0] + spread.before], strict=True)
    ]


@pytest.mark.slow
@given(rows_of, phases)
def test_increases_add_up_and_are_balanced(row: tuple[int, int], phase: Fraction) -> None:
    count, stitches = row
    spread = increase_evenly(count, stitches, phase)
    assert (spread.increases, spread.before, spread.after) == (count, stitches, stitches + count)
    assert len(set(spread.stitches)) == count
    assert all(1 <= stitch <= stitches for stitch in spread.stitches)
    if count:
        assert max(gaps(spread)) - min(gaps(spread)) <= 1


@given(rows_of, phases)
def test_increases_are_as_far_apart_as_bresenhams_line_with_the_longer_in_the_middle(
    row: tuple[int, int], phase: Fraction
) -> None:
    count, stitches = row
    if count:
        spread = increase_evenly(count, stitches, phase)
        assert sorted(gaps(spread)) == sorted(bresenham_rounding(stitches, count))
    if count > 1:
        inside = spread.plain[1:-1]
        longer = [at for at, each in enumerate(inside) if each > min(inside)]
        assert longer == [*range(longer[0], longer[-1] + 1)] if longer else True
        assert not longer or abs(longer[0] - (len(inside) - 1 - longer[-1])) <= 1


@given(st.integers(1, 200), st.integers(1, 200))
def test_joins_are_bresenhams_line_up_to_rotation(first: int, second: int) -> None:
    shares = list(join(first, second).shares)
    assert is_rotation(shares, bresenham_rounding(max(first, second), min(first, second)))
    assert max(shares) - min(shares) <= 1


@given(rows_of, phases)
def test_the_words_are_the_row(row: tuple[int, int], phase: Fraction) -> None:
    count, stitches = row
    spread = increase_evenly(count, stitches, phase)
    plain, worked = [0], read_work(spread.words)
    for done in worked:
        if done is None:
            plain.append(0)
        else:
            plain[-1] += done
    assert tuple(plain) == spread.plain


@given(st.lists(st.integers(0, 3), min_size=1, max_size=40))
def test_any_gaps_are_written_so_that_they_read_back(plain: list[int]) -> None:
    spread = EvenSpread(plain=tuple(plain))
    assert sum(1 if done is None else done for done in read_work(spread.words)) == spread.before
    assert read_work(spread.words).count(None) == spread.increases


@given(st.integers(2, 30), st.integers(0, 400), st.integers(2, 40), st.integers(1, 5), st.integers(0, 30))
def test_increases_of_two_rows_in_turn_do_not_stack(
    count: int, more: int, row: int, later: int, turn: int
) -> None:
    """Half a gap apart on the fabric but for a stitch or so, wherever there are 4 stitches to each.

    Neither is at the seams.

    Rows are worked to and fro: a stitch's place on the fabric is counted from one front edge, so along
    an even row from the end of the row.
    """
    stitches = 4 * count + more
    places = []
    for nth, number in enumerate((row, row + later)):
        spread = increase_evenly(count, stitches, staggered(turn + nth, number, count, stitches))
        assert spread.plain[0] >= 1
        assert spread.plain[-1] >= 1 or stitches == 4 * count
        out = number % 2 == 1
        places.append({at if out else stitches + 1 - at for at in spread.stitches})
    first, second = places
    nearest = min(abs(one - other) for one in first for other in second)
    assert nearest >= max(1, stitches // count / 2 - 1.5)


@given(st.integers(1, 60), st.integers(0, 100), st.integers(2, 9))
def test_crowded_increases_keep_off_the_first_stitch(count: int, more: int, row: int) -> None:
    stitches = 2 * count + min(more, 2 * count - 1)
    assert increase_evenly(count, stitches, staggered(0, row, count, stitches)).plain[0] >= 1


def test_seven_over_sixty_by_hand() -> None:
    """60 is 7 eights and 4 over: a nine runs round the ends, three are in the middle, eights beside them."""
    spread = increase_evenly(7, 60)
    assert spread.stitches == (5, 13, 22, 31, 40, 48, 56)
    assert spread.words == "4 sts, inc, 7 sts, [inc, 8 sts] × 3, [inc, 7 sts] × 2, inc, 4 sts"
    assert spread.after == 67


@given(st.integers(1, 8), st.data())
def test_line_increases_lie_on_both_sides_of_each_line(lines: int, data: st.DataObject) -> None:
    inner = data.draw(st.lists(st.integers(2, 20), min_size=lines - 1, max_size=lines - 1))
    ends = data.draw(st.tuples(st.integers(1, 20), st.integers(1, 20)))
    sections = [ends[0], *inner, ends[1]]
    spread = line_increases(sections)
    lines_at = [sum(sections[: n + 1]) for n in range(lines)]
    assert list(spread.stitches) == [at + side for at in lines_at for side in (0, 1)]
    assert spread.after == sum(sections) + 2 * lines


@pytest.mark.parametrize(
    ("count", "stitches", "phase"), [(8, 7, Fraction(1, 2)), (-1, 7, Fraction(1, 2)), (1, 7, Fraction(1))]
)
def test_impossible_increases_are_refused(count: int, stitches: int, phase: Fraction) -> None:
    with pytest.raises(ValueError, match=r"cannot make|is not from 0"):
        increase_evenly(count, stitches, phase)


@pytest.mark.parametrize("sections", [(5,), (5, 1, 5), (0, 5)])
def test_sections_without_room_are_refused(sections: tuple[int, ...]) -> None:
    with pytest.raises(ValueError, match=r"fewer than two|no stitch for every"):
        line_increases(sections)


@given(st.sets(st.integers(2, 60), min_size=1, max_size=20))
def test_rows_in_words_read_back(rows: set[int]) -> None:
    assert read_rows(rows_words(sorted(rows))) == sorted(rows)


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ([3], "on row 3"),
        ([3, 5, 7], "on rows 3, 5 and 7"),
        ([2, 3, 4, 5], "on every row from row 2 to row 5"),
        ([2, 4, 6, 8], "on every 2nd row from row 2 to row 8"),
        ([2, 13, 24, 35], "on every 11th row from row 2 to row 35"),
        ([2, 4, 6, 9], "on rows 2, 4, 6 and 9"),
    ],
)
def test_rows_in_words(rows: list[int], words: str) -> None:
    assert rows_words(rows) == words


def test_shares_and_increases_are_one_line() -> None:
    assert sorted(gaps(increase_evenly(7, 60))) == sorted(even_shares(60, 7))


def test_the_examples_in_the_docstrings_hold() -> None:
    found = doctest.testmod(increase_spacing)
    assert found.attempted >= 3
    assert found.failed == 0
