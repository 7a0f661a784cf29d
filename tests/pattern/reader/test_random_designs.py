"""A few random designs of all constructions worked from their text; `make fuzz` does hundreds."""

from __future__ import annotations

import pytest

from tests.examples import seeds
from tests.fuzz.fuzz_patterns import check


@pytest.mark.slow
@pytest.mark.parametrize("number", seeds(range(900, 912), step=6))
def test_every_size_ends_with_the_counts_of_its_spec(number: int) -> None:
    assert list(check(number)) == []
