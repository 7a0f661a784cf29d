"""The spec that is written of what was made keeps whose gauge it is, and the swatches that were weighed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from schematics.analysis.yarn.need import yarn_need
from schematics.checks.evaluation import evaluate
from schematics.document.writers import written
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import Order
from schematics.fitting.to_measure.own_yarn import with_mass
from schematics.pattern.written import written_pattern
from tests.fitting.children import IN_SIZE_6
from tests.fitting.to_measure.test_made_to_measure import TIDEPOOL, read_again


@pytest.mark.slow
def test_the_pattern_of_the_written_spec_knows_that_the_gauge_is_her_own(tmp_path: Path) -> None:
    parts = read_gauge(["20 sts 15 rows over 20 cm"], TIDEPOOL).parts
    again = read_again(made_to_measure(TIDEPOOL, Order(wearer=IN_SIZE_6, parts=parts)), tmp_path)
    text = "".join(written([written_pattern(again, evaluate(again))], "md"))
    assert "with your own hook for the body" in text
    assert "your own for the body and centre panel; the pattern has 9 mm" in text
    assert text.count("(taken from the body's, not measured)") == 2
    assert "reckoned by the pattern’s swatches, stitch for stitch" in text


def test_what_a_stitch_takes_is_as_sure_as_the_swatch_that_was_weighed() -> None:
    """The same gauge read over half the width: what the pattern's swatch weighs is no less sure for it."""
    needs = []
    for gauge in ("20 sts 15 rows over 20 cm", "10 sts 7.5 rows over 10 cm"):
        own = read_gauge([gauge], TIDEPOOL).parts.with_fabrics(lambda fabric: with_mass(fabric, 1.0))
        design = replace(TIDEPOOL, parts=own)
        needs.append(yarn_need(design, size_at_gauge(design, design.sizes[2]).garment))
    (one,), (other,) = (need.colours for need in needs)
    assert (one.buy_g, one.error_g) == pytest.approx((other.buy_g, other.error_g))
