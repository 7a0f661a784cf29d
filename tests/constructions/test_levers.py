"""The levers of every construction, held against garments made at random.

They say which way each count moves what no straight line tells; a wrong sign would cut off counts that
are as good as any, and nothing else would show it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from schematics.constructions import CONSTRUCTIONS
from schematics.constructions.facts import Gradable, Lever, Quantity
from tests.constructions.counted import Counted, counted, room_for_increases

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


def test_levers_keep_room_for_increases() -> None:
    """On counts about where rows would have to be more than doubled."""
    gradable = CONSTRUCTIONS["flared"].grading
    assert gradable is not None
    levers = gradable.levers[Quantity.INCREASES]
    seen: set[tuple[str, bool]] = set()

    @given(st.data(), counted("flared"), st.sampled_from(levers))
    @settings(max_examples=200, deadline=None, phases=PHASES)
    def keeps(data: st.DataObject, size: Counted, lever: Lever) -> None:
        neck, rows = data.draw(st.integers(4, 20)), data.draw(st.integers(3, 12))
        hem = neck * (1 + len(range(2, rows + 1, size.settings["body.increase_every"])))
        hem += data.draw(st.integers(max(-4, neck + 1 - hem), 6))
        tight = {"body.neck": neck, "body.hem": hem, "body.rows": rows}
        size = replace(size, counts={**size.counts, **tight})
        better = size.moved(lever.by, lever.sign)
        room = room_for_increases(size.make()) == 1
        assert room_for_increases(better.make()) >= room
        seen.add((lever.by, room))

    keeps()
    assert seen == {(lever.by, room) for lever in levers for room in (False, True)}


@pytest.mark.parametrize("word", WORDS)
def test_nothing_else_moves_them(word: str) -> None:
    """Any two sizes whose levers stand alike have the quantity alike."""
    gradable = CONSTRUCTIONS[word].grading
    assert gradable is not None

    @given(counted(word), st.sampled_from(sorted(gradable.levers)), st.data())
    @settings(max_examples=2 * EXAMPLES, deadline=None, phases=PHASES)
    def stands(size: Counted, quantity: Quantity, data: st.DataObject) -> None:
        levers = gradable.levers[quantity]
        other = size
        for count in gradable.all_counts.keys() - {each.by for each in levers}:
            other = other.moved(count, data.draw(st.sampled_from((-2, 2))))
        before = size.measured()[quantity]
        after = put_back(other, size, levers).measured().get(quantity, math.nan)
        if not math.isnan(before + after):
            assert after == pytest.approx(before, rel=CHORDS), quantity

    stands()


def put_back(other: Counted, size: Counted, levers: Sequence[Lever]) -> Counted:
    """The other size with every lever where it stands in the first."""
    for lever in levers:
        off = lever.value.at(other.counts) - lever.value.at(size.counts)
        other = other.moved(lever.by, round(-off / lever.value.terms[lever.by]))
        assert lever.value.at(other.counts) == lever.value.at(size.counts)
    return other


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
