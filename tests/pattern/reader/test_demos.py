"""Every size of every demo worked from the text alone, in US and in UK terms."""

from __future__ import annotations

import pytest

from schematics.crochet.terms import Terms
from tests.pattern.reader.expected import faults
from tests.pattern.reader.maker import make, sizes_in
from tests.pattern.reader.patterns import DEMOS, demo


@pytest.mark.parametrize("terms", list(Terms))
@pytest.mark.parametrize("name", DEMOS)
def test_every_size_ends_with_the_counts_of_its_spec(name: str, terms: Terms) -> None:
    written = demo(name, terms)
    assert sizes_in(written.markdown) == tuple(written.sizes)
    assert {size: faults(make(written.markdown, size), counts) for size, counts in written.sizes.items()} == {
        size: [] for size in written.sizes
    }
