"""The page of what was made: its counts, in words for whoever has not read a spec."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from schematics.design.design import Design
from schematics.document.document import Table
from schematics.fitting.to_measure.made_to_measure import Order, made_to_measure
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.wearer.body import WearerSpec
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
