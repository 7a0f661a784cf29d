"""How many random examples are tried where each takes long: all of them by `make fuzz`, else a part."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st

ANY = st.characters(exclude_categories=["Cs"])
"""Every character that can be written. hypothesis takes seconds to find those of a codec, utf-8 too."""

_LONG = 30
"""Elevenths of so many seeds are of each construction."""

THOROUGH = "thorough"
"""The profile of hypothesis with which `make fuzz` runs these tests."""
UNHURRIED, REPEATABLE = "unhurried", "repeatable"
"""Those of a suite: the build machine tries the same examples each time, everywhere else there are new ones.

No example is timed: how long one takes is the machine's load, not the program's doing.
"""

settings.register_profile(THOROUGH, settings.default, deadline=None)
settings.register_profile(UNHURRIED, settings.default, deadline=None, max_examples=10)
settings.register_profile(REPEATABLE, settings.get_profile(UNHURRIED), derandomize=True, database=None)


def thorough() -> bool:
    """Whether all examples are to be tried."""
    return settings.default is settings.get_profile(THOROUGH)


def share(count: int, part: int = 5) -> int:
    """So many by `make fuzz`, else that part of them, but five at least.

    A test that uses it has the mark ``seeds``.
    """
    return count if thorough() else max(-(-count // part), min(count, 5))


def examples(count: int, part: int = 12, **others: Any) -> settings:
    """For a property: so many examples by `make fuzz`, else a part; ``others`` as hypothesis has them."""
    return settings(max_examples=share(count, part), **others)


def seeds(numbers: Sequence[Any], step: int = 0) -> list[Any]:
    """For `pytest.mark.parametrize`: all of ``numbers`` by `make fuzz`, else every ``step``-th of them.

    That is every fifth, of a long list every eleventh. Not every fourth or third: constructions take turns in
    those.
    """
    return marked(numbers if thorough() else numbers[:: step or (5 if len(numbers) < _LONG else 11)])


def covering(*values: Sequence[Any]) -> list[Any]:
    """For `pytest.mark.parametrize`: `combinations` of these, marked."""
    return marked(combinations(*values))


def combinations(*values: Sequence[Any]) -> list[Any]:
    """All by `make fuzz`, else each value once at least. A test that uses it has the mark ``seeds``.

    The first of all, the second of all and so on, what has fewer from its beginning again.
    """
    if thorough():
        return [*product(*values)]
    longest = max(map(len, values))
    return [tuple(each[place % len(each)] for each in values) for place in range(longest)]


def marked(chosen: Sequence[Any]) -> list[Any]:
    """For `pytest.mark.parametrize`: values of a test of which `make fuzz` has more."""
    values = [each if isinstance(each, tuple) else (each,) for each in chosen]
    return [pytest.param(*each, marks=pytest.mark.seeds) for each in values]
