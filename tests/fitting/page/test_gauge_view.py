"""The page's view at another gauge prints lengths as the page's own tables do."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.fitting.page.browser import Browser
from tests.fitting.page.conftest import few_sizes, few_written
from tests.fitting.page.form import type_in

GAUGE_VIEW = """
(() => [...document.querySelectorAll("[data-finished]")].map((cell) => {
  const [cm, inches] = ["cm", "in"].map((name) => cell.parentElement.querySelector(`[data-label="${name}"]`));
  return [cell.dataset.finished, cm.textContent, inches.textContent, cell.textContent];
}))()
"""


@pytest.mark.parametrize("name", ["driftwood", pytest.param("tidepool", marks=pytest.mark.thorough)])
def test_the_pages_gauge_view_prints_as_its_table(name: str, browser: Browser, tmp_path: Path) -> None:
    """At the pattern's own gauge, which both specs have in quarters of a stitch, it is the pattern again."""
    design = few_sizes(name)
    tab = browser.open(few_written(name, tmp_path))
    for unit, over in (("cm", 10), ("in", 10.16)):
        tab.run(f"document.getElementById('unit-{unit}').click()")
        body = design.parts.body
        type_in(tab, "gauge-stitches", f"{over * body.stitches_per_cm:.4f}")
        type_in(tab, "gauge-rows", f"{over * body.rows_per_cm:.4f}")
        cells = tab.run(GAUGE_VIEW)
        assert len(cells) == len(design.sizes) * len({key for key, *_ in cells})
        assert {"panel.width", "neck_band.depth", "panel.length"} <= {key for key, *_ in cells}
        for _, cm, inches, at_gauge in cells:
            assert at_gauge == f"{cm if unit == 'cm' else inches} {unit}"
    tab.close()
