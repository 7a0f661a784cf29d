"""The page of a design on disk."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.fitting.page.browser import Browser, Tab
from tests.shipped import shipped_page


def written(spec: str, folder: Path) -> Path:
    """The page of a shipped spec, on disk."""
    path = folder / "fit.html"
    path.write_text(shipped_page(spec), encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def tidepool(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written("tidepool", tmp_path_factory.mktemp("tidepool"))


@pytest.fixture(scope="session")
def driftwood(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written("driftwood", tmp_path_factory.mktemp("driftwood"))


@pytest.fixture
def tab(browser: Browser, tidepool: Path) -> Iterator[Tab]:
    """The page of the tidepool poncho in a tab of its own, wide."""
    opened = browser.open(tidepool)
    yield opened
    opened.close()
