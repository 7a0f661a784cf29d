"""The page of what was made: its counts, in words for whoever has not read a spec."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from schematics.design.design import Design
from schematics.document.document import Table
from schematics.fitting.advice_words import NOT_HERS
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import Order
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.wearer.body import Body, WearerSpec
from tests.fitting.children import demo


def with_sections() -> Design:
    """Saltmarsh with the 44 stitches at the neck of its size 6 parted otherwise."""
    design = demo("saltmarsh")
    (six,) = (size for size in design.sizes if size.name == "6")
    parted = type(six.body).model_validate({**six.body.model_dump(), "sections": [6, 11, 10, 11, 6]})
    return replace(design, sizes=(replace(six, body=parted),))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("design", "words", "count"),
    [
        (with_sections, "body, stitches at the neck of each section between the lines", "6, 11, 10, 11, 6"),
        (lambda: demo("driftwood"), "body, stitches across the neck hole", "24"),
    ],
    ids=["saltmarsh", "driftwood"],
)
def test_every_count_is_named_in_words_and_printed(
    design: Callable[[], Design], words: str, count: str
) -> None:
    order = Order(wearer=WearerSpec(age_years=6.0), size="6", changes=("none",))
    document = poncho_document(made_to_measure(design(), order))
    (counts,) = (each for each in document.sections if each.heading == "Counts")
    (table,) = (block for block in counts.blocks if isinstance(block, Table))
    printed = {str(name): (mine, patterns) for name, mine, patterns in table.rows}
    (row,) = (row for name, row in printed.items() if name.startswith(words))
    assert row == (count, count)
    assert not any("_" in name for name in printed)


@pytest.mark.slow
def test_of_what_fits_it_is_not_said_that_it_is_not_hers() -> None:
    """No size of saltmarsh is for somebody so tall; the changes make one of M."""
    tall = WearerSpec(own={Body.HEIGHT: 185.0, Body.HEAD_GIRTH: 59.0})
    made = made_to_measure(demo("saltmarsh"), Order(wearer=tall, size="M"))
    assert made.start.is_not_hers
    assert made.fit.how == "right"
    assert NOT_HERS.format(size="M") not in poncho_document(made).sections[0].blocks


@pytest.mark.slow
@pytest.mark.parametrize("size", [None, "6"])
def test_what_is_graded_says_which_lengths_it_keeps_near(size: str | None) -> None:
    """A size that is nobody's choice but the nearest says so."""
    order = Order(wearer=WearerSpec(age_years=6.5), size=size, graded=True)
    made = made_to_measure(demo("tidepool"), order)
    lead = " ".join(map(str, poncho_document(made).lead))
    assert f"with finished lengths near those of size {made.start.name}" in lead
    assert ("the size that comes nearest to this body as it stands" in lead) is (size is None)
