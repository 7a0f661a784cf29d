"""The pattern made to measure says what its maker is to mind, and nothing where there is nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from schematics.document.writers import written
from schematics.fitting.to_measure.made_to_measure import Order, made_to_measure
from schematics.fitting.to_measure.poncho_pattern import poncho_pattern
from schematics.wearer.body import Body
from tests.fitting.children import IN_SIZE_6, demo


@pytest.mark.slow
@pytest.mark.parametrize(("wrist_cm", "is_minded"), [(9.0, True), (None, False)])
def test_what_is_to_be_minded_stands_before_the_sizes(wrist_cm: float | None, is_minded: bool) -> None:
    """A child whom size 6 fits, and one alike whose wrist is so slim that a band of 14.5 cm hangs loose."""
    wearer = IN_SIZE_6
    if wrist_cm:
        wearer = replace(wearer, own={**wearer.own, Body.WRIST_GIRTH: wrist_cm})
    poncho = made_to_measure(demo("tidepool"), Order(wearer=wearer, name="Mara", size="6", changes=("none",)))
    text = "".join(written([poncho_pattern(poncho, "md")], "md"))
    before, _, _ = text.partition("## Sizes")
    assert ("## What to mind for Mara" in before) is is_minded
    assert ("wider than the wrist (9 cm" in before) is is_minded
