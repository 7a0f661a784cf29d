"""A page for the maker without most of its table of gauges, for tests of what it says."""

from __future__ import annotations

import pytest

from schematics.design.design import Design
from schematics.fitting.gauge_table import GaugeTable, facts_by_gauge
from schematics.fitting.page import page_data


def spare_the_gauges(monkeypatch: pytest.MonkeyPatch) -> None:
    """The table, which takes long, has no words and prints no length, has the pattern's own gauge alone."""

    def at_its_own(design: Design) -> GaugeTable:
        body = design.parts.body
        return facts_by_gauge(design, (10 * body.stitches_per_cm,), (10 * body.rows_per_cm,))

    monkeypatch.setattr(page_data, "facts_by_gauge", at_its_own)
