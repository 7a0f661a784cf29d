"""Hooks and yarn weights; figures "from memory" are the Craft Yarn Council's, typed in by hand."""

from __future__ import annotations

from itertools import pairwise

import pytest

from schematics.crochet.hooks_and_yarn import (
    hook_words,
    hooks,
    yarn_weight,
    yarn_weights,
)


def hooks_named(us_name: str) -> list[float]:
    return [hook.mm for hook in hooks() if hook.us_name == us_name]


@pytest.mark.parametrize(
    ("us_name", "mm"),
    [
        ("B-1", 2.25),
        ("E-4", 3.5),
        ("G-6", 4.0),
        ("7", 4.5),
        ("H-8", 5.0),
        ("I-9", 5.5),
        ("J-10", 6.0),
        ("K-10 1/2", 6.5),
        ("L-11", 8.0),
    ],
)
def test_well_known_hooks(us_name: str, mm: float) -> None:
    """From memory."""
    assert hooks_named(us_name) == [mm]
    assert hook_words(mm) == f"{mm:g} mm (US {us_name})"


def test_hooks_rise_and_no_size_comes_twice() -> None:
    assert all(smaller.mm < larger.mm for smaller, larger in pairwise(hooks()))


def test_numbered_hooks_rise_with_their_number() -> None:
    numbers = [
        float(hook.us_name.rpartition("-")[2].replace(" 1/2", ".5"))
        for hook in hooks()
        if hook.us_name and hook.us_name[-1].isdigit()
    ]
    assert numbers == sorted(set(numbers))
    assert len(numbers) >= 12


def test_a_name_may_stand_for_two_sizes_or_none() -> None:
    assert hooks_named("Q") == [15.75, 16.0]
    assert hooks_named("Z-99") == []


@pytest.mark.parametrize(("mm", "words"), [(2.5, "2.5 mm"), (5.1, "5.1 mm"), (10, "10 mm (US N/P-15)")])
def test_a_hook_without_a_name_is_told_in_millimetres(mm: float, words: str) -> None:
    assert hook_words(mm) == words


@pytest.mark.parametrize(
    ("number", "name", "low", "high", "hook_low", "hook_high"),
    [
        (1, "Super Fine", 21, 32, 2.25, 3.5),
        (3, "Light", 12, 17, 4.5, 5.5),
        (4, "Medium", 11, 14, 5.5, 6.5),
        (5, "Bulky", 8, 11, 6.5, 9.0),
    ],
)
def test_well_known_weights(
    number: int, name: str, low: int, high: int, hook_low: float, hook_high: float
) -> None:
    """From memory: single crochet to 4 in, recommended hooks."""
    weight = yarn_weight(number)
    assert (weight.name, weight.stitch) == (name, "sc")
    assert (weight.stitches_low, weight.stitches_high) == (low, high)
    assert (weight.hook_low_mm, weight.hook_high_mm) == (hook_low, hook_high)


def test_weights_are_numbered_from_lace_to_jumbo() -> None:
    assert [weight.number for weight in yarn_weights()] == list(range(8))
    assert [yarn_weight(number).words for number in (0, 7)] == ["0 Lace", "7 Jumbo"]
    assert [weight.stitch for weight in yarn_weights()] == ["dc", *["sc"] * 7]


def test_heavier_yarn_has_fewer_stitches_and_larger_hooks() -> None:
    for lighter, heavier in pairwise(yarn_weights()):
        assert lighter.stitches_high > heavier.stitches_high
        assert lighter.stitches_low is not None
        assert heavier.stitches_low is None or lighter.stitches_low > heavier.stitches_low
        assert lighter.hook_high_mm == heavier.hook_low_mm


def test_ranges_are_ordered_and_open_only_at_the_heavy_end() -> None:
    *ranged, jumbo = yarn_weights()
    for weight in ranged:
        assert weight.stitches_low is not None
        assert weight.stitches_low < weight.stitches_high
        assert weight.hook_high_mm is not None
        assert weight.hook_low_mm < weight.hook_high_mm
    assert (jumbo.stitches_low, jumbo.hook_high_mm) == (None, None)
    medium = yarn_weight(4)
    assert (jumbo.hook_low_mm, medium.hook_low_mm, medium.hook_high_mm) == (15, 5.5, 6.5)


def test_the_hooks_named_for_a_weight_have_the_sizes_given() -> None:
    """``B-1 to E-4`` and ``2.25 to 3.5 mm`` are two columns of the same row."""
    for weight in yarn_weights()[1:6]:
        first, _, last = weight.hook_us.partition(" to ")
        last = {"M-13": "M/N-13"}.get(last, last)
        assert hooks_named(first) == [weight.hook_low_mm]
        assert hooks_named(last) == [weight.hook_high_mm]


def test_a_number_outside_the_trades_is_refused() -> None:
    with pytest.raises(KeyError, match="no yarn weight 8; the trade numbers them 0 to 7"):
        yarn_weight(8)
