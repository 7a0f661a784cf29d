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


def test_weights_are_numbered_from_lace_to_jumbo() -> None:
    """From memory."""
    assert [weight.words for weight in yarn_weights()] == [
        "0 Lace", "1 Super Fine", "2 Fine", "3 Light", "4 Medium", "5 Bulky", "6 Super Bulky", "7 Jumbo",
    ]  # fmt: skip


def test_a_number_outside_the_trades_is_refused() -> None:
    with pytest.raises(KeyError, match="no yarn weight 8; the trade numbers them 0 to 7"):
        yarn_weight(8)
