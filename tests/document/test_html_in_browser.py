"""Pages of reports in a browser: by axe-core's rules, and no wider than a phone."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from schematics.cli import main
from tests.examples import seeds, thorough
from tests.fitting.page.browser import MISSING, PROGRAM, Browser
from tests.fitting.page.test_look import violations
from tests.pattern.test_page_in_browser import SIDEWAYS

pytestmark = [pytest.mark.skipif(PROGRAM is None, reason=MISSING), pytest.mark.slow]

SPECS = Path(__file__).parents[2] / "specs"
CHILD = ("--age", "6", "--head-girth", "56", "--all", "--gauge", "20 sts 15 rows over 20 cm")
REPORTS = {
    "check": ("check", "first-draft"),
    "fit": ("fit", "tidepool", *CHILD),
    "grade": ("grade", "sandpiper"),
    "keys": ("explain", "--keys"),
    "pattern": ("pattern", "tidepool"),
    "sensitivity": ("sensitivity", "first-draft"),
    "workings": ("workings", "tidepool", "--size", "6"),
    "yarn": ("yarn", "tidepool", "--have", "6 balls"),
}


@pytest.mark.parametrize("report", seeds([*REPORTS], step=len(REPORTS)))
def test_a_report_is_readable_by_everyone_on_a_phone(report: str, browser: Browser, tmp_path: Path) -> None:
    specs = {name: str(SPECS / f"{name}.yaml") for name in ("first-draft", "tidepool", "sandpiper")}
    words = [specs.get(word, word) for word in REPORTS[report]]
    path = tmp_path / "report.html"
    path.write_text(CliRunner().invoke(main, [*words, "--format", "html"]).stdout, "utf-8")
    tab = browser.open(path, width=320)
    assert tab.run(SIDEWAYS) == [0, 0]
    assert list(violations(tab)) == []
    tab.resize(1200, 800)
    if thorough():
        assert list(violations(tab)) == []
    assert tab.complaints == []
    tab.close()
