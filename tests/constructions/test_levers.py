"""The levers of every construction, held against garments made at random.

They say which way each count moves what no straight line tells; a wrong sign would cut off counts that
are as good as any, and nothing else would show it.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from schematics.constructions import CONSTRUCTIONS
from schematics.constructions.facts import Gradable, Lever, Quantity
from tests.constructions.counted import Counted, counted

WORDS = tuple(CONSTRUCTIONS)
CHORDS = 1e-4
"""Share of a length by which arcs drawn as chords may come out otherwise when their angles change."""
STEPS = (-6, -2, -1, 1, 2, 6)
"""Some counts go by twos: a neck with its width, both ends of an arm run."""
EXAMPLES = 25
PHASES = (Phase.explicit, Phase.reuse, Phase.generate)
"""Without shrinking, which takes minutes where every step makes garments."""


def levers_of(gradable: Gradable) -> list[tuple[Quantity, Lever]]:
    return [(quantity, each) for quantity, levers in gradable.levers.items() for each in levers]


def hair(*values: float) -> float:
    return CHORDS * max(map(abs, values)) + 1e-6


@pytest.mark.parametrize("word", WORDS)
def test_levers_move_their_quantities_as_they_say(word: str) -> None:
    seen: set[tuple[Quantity, str]] = set()

    @given(counted(word), st.data())
    @settings(max_examples=EXAMPLES, deadline=None, phases=PHASES)
    def moves(size: Counted, data: st.DataObject) -> None:
        before = size.measured()
        assume(before)
        sure = [(quantity, each) for quantity, each in levers_of(size.gradable) if each.sign]
        for by in sorted({each.by for _, each in sure}):
            steps = data.draw(st.sampled_from(STEPS))
            after = size.moved(by, steps).measured()
            for quantity, each in sure:
                now, then = before[quantity], after.get(quantity, math.nan)
                if each.by == by and not math.isnan(now + then):
                    rises = (then - now) * math.copysign(1, steps) * each.sign
                    assert rises >= -hair(now, then), (quantity, each)
                    seen.add((quantity, by))

    moves()
    gradable = CONSTRUCTIONS[word].grading
    assert gradable is not None
    assert seen == {(quantity, each.by) for quantity, each in levers_of(gradable) if each.sign}


@pytest.mark.parametrize("word", WORDS)
def test_nothing_else_moves_them(word: str) -> None:
    """Any two sizes whose levers stand alike have the quantity alike."""

    @given(counted(word), st.data())
    @settings(max_examples=EXAMPLES, deadline=None, phases=PHASES)
    def stands(size: Counted, data: st.DataObject) -> None:
        count = data.draw(st.sampled_from(sorted(size.gradable.all_counts)))
        before = size.measured()
        assume(before)
        for quantity, levers in size.gradable.levers.items():
            other = compensated(size.moved(count, 2), size, levers)
            after = other.measured() if other else {}
            if after and not math.isnan(before[quantity] + after[quantity]):
                assert after[quantity] == pytest.approx(before[quantity], rel=CHORDS), (quantity, count)

    stands()


def compensated(other: Counted, size: Counted, levers: tuple[Lever, ...]) -> Counted | None:
    """The other size with every lever put back to where it stands in the first; None if one cannot be."""
    for lever in levers:
        off = lever.value.at(other.counts) - lever.value.at(size.counts)
        steps = -off / lever.value.terms[lever.by]
        other = other.moved(lever.by, round(steps))
        if steps != round(steps):
            return None
    return None if other.counts == size.counts else other


@pytest.mark.parametrize("word", WORDS)
def test_straight_levers_move_them_evenly(word: str) -> None:
    """Two steps do together what each does alone.

    In a slice two steps of one lever may do less, never more: a line through the first is no lower.
    """
    gradable = CONSTRUCTIONS[word].grading
    assert gradable is not None
    straight = {
        quantity: [each.by for each in levers if quantity in gradable.slices or each.straight]
        for quantity, levers in gradable.levers.items()
    }
    quantities = sorted(quantity for quantity, levers in straight.items() if levers)
    assert quantities

    @given(counted(word), st.data())
    @settings(max_examples=EXAMPLES, deadline=None, phases=PHASES)
    def even(size: Counted, data: st.DataObject) -> None:
        quantity = data.draw(st.sampled_from(quantities))
        moving = {each.by for each in size.gradable.levers[quantity]} - {size.gradable.slices.get(quantity)}
        one = data.draw(st.sampled_from(sorted(moving & set(straight[quantity]))))
        two = data.draw(st.sampled_from(sorted(moving)))
        together, first, second, none = (
            each.measured().get(quantity, math.nan)
            for each in (size.moved(one, 2).moved(two, 2), size.moved(one, 2), size.moved(two, 2), size)
        )
        if math.isnan(together + first + second + none):
            return
        more = together - second - (first - none)
        assert more <= hair(together), (quantity, one, two)
        if one != two or quantity not in size.gradable.slices:
            assert more >= -hair(together), (quantity, one, two)

    even()
