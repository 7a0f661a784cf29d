"""Every size of every demo worked from the text alone, in US and in UK terms."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from schematics.crochet.terms import Terms
from tests.examples import covering, thorough
from tests.pattern.reader.expected import faults
from tests.pattern.reader.maker import make, sizes_in
from tests.pattern.reader.measures import wrong_measures
from tests.pattern.reader.patterns import WORKED, demo, markdown_of
from tests.pattern.reader.yarn_bought import wrong_materials
from tests.pattern.test_border_words import TWO_SIZES, with_charted_bands
from tests.specs_for_tests import read


@pytest.mark.slow
@pytest.mark.parametrize(("name", "terms"), covering(WORKED if thorough() else WORKED[-2:], [*Terms]))
def test_every_size_ends_with_the_counts_of_its_spec(name: str, terms: Terms) -> None:
    written = demo(name, terms)
    assert sizes_in(written.markdown) == tuple(written.sizes)
    made = {size: make(written.markdown, size) for size in written.sizes}
    assert {size: faults(made[size], counts) for size, counts in written.sizes.items()} == {
        size: [] for size in written.sizes
    }
    assert {
        size: [
            *wrong_measures(written.markdown, size, each),
            *wrong_materials(written.markdown, size, each, written.spec),
        ]
        for size, each in made.items()
    } == {size: [] for size in written.sizes}


@pytest.mark.slow
def test_borders_and_bands_from_charts_are_worked_too(tmp_path: Path) -> None:
    """A yoke and a hem edging in the body, its rows counted on; ribbing by a chart of two rows."""
    text = with_charted_bands(TWO_SIZES)
    finished = make(markdown_of(read(tmp_path, text), Terms.US), "4")
    assert faults(finished, yaml.safe_load(text)["sizes"]["4"]) == []


@pytest.mark.slow
def test_stitches_into_rows_further_down_are_named_once_in_uk_terms() -> None:
    """A US treble is a UK double treble, and no triple treble."""
    assert "\n| dtr 3 rows below | Work dtr into the free front loop" in demo("kelp", Terms.UK).markdown
