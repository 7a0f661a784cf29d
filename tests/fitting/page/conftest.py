"""The page of a design on disk."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.fitting.page.fit_page import fit_page
from schematics.fitting.page.page_data import page_data
from tests.examples import thorough
from tests.fitting.page.browser import Browser, Tab
from tests.shipped import shipped_design

FEW = {
    "tidepool": ("2", "6", "S"),
    "saltmarsh": ("2", "6", "M"),
    "driftwood": ("2", "6", "L"),
    "sandpiper": ("2", "6", "14"),
}
"""Sizes far apart: where time goes with the sizes, and any will do."""


@cache
def few_sizes(name: str = "tidepool") -> Design:
    """A shipped design with those of its sizes alone; by `make fuzz` with all."""
    design = shipped_design(name)
    if thorough() or name not in FEW:
        return design
    return replace(design, sizes=tuple(size for size in design.sizes if size.name in FEW[name]))


@cache
def few_data(name: str = "tidepool") -> dict[str, Any]:
    """The data in its page; nobody changes it."""
    return page_data(few_sizes(name), evaluate(few_sizes(name)))


@cache
def _few_page(name: str) -> str:
    return fit_page(few_sizes(name), evaluate(few_sizes(name)))


def few_written(name: str, folder: Path) -> Path:
    """Its page, on disk."""
    path = folder / "fit.html"
    path.write_text(_few_page(name), encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def few(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """That of tidepool."""
    return few_written("tidepool", tmp_path_factory.mktemp("few"))


@pytest.fixture
def tab(browser: Browser, few: Path) -> Iterator[Tab]:
    """The page of `few_sizes` in a tab of its own, wide."""
    opened = browser.open(few)
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def opened(browser: Browser, few: Path) -> Iterator[Tab]:
    """The page, opened once for all tests of a module."""
    tab = browser.open(few)
    yield tab
    tab.close()
