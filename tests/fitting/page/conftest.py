"""One Chromium for all tests of the page, and the page of a design on disk."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.fitting.page.fit_page import fit_page
from schematics.reading.design_file import read_design
from tests.fitting.page import browser as driver
from tests.fitting.page.browser import Browser, Tab

SPECS = Path(__file__).parents[3] / "specs"


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """Debian's Chromium. Without it the tests are skipped, but on the build machine they fail."""
    if driver.PROGRAM is None:
        if os.environ.get("CI"):
            pytest.fail(driver.MISSING)
        pytest.skip(driver.MISSING)
    running = Browser(tmp_path_factory.mktemp("chromium"))
    yield running
    running.close()


def written(spec: str, folder: Path) -> Path:
    """The page of a shipped spec, on disk."""
    design = read_design(SPECS / spec)
    path = folder / "fit.html"
    path.write_text(fit_page(design, evaluate(design)), encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def tidepool(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written("tidepool.yaml", tmp_path_factory.mktemp("tidepool"))


@pytest.fixture(scope="session")
def driftwood(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written("driftwood.yaml", tmp_path_factory.mktemp("driftwood"))


@pytest.fixture
def tab(browser: Browser, tidepool: Path) -> Iterator[Tab]:
    """The page of the tidepool poncho in a tab of its own, wide."""
    opened = browser.open(tidepool)
    yield opened
    opened.close()
