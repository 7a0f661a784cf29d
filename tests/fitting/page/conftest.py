"""The page of a design on disk."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.fitting.page.fit_page import fit_page
from schematics.reading.design_file import read_design
from tests.fitting.page.browser import Browser, Tab

SPECS = Path(__file__).parents[3] / "specs"


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
