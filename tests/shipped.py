"""The designs that come with the program: read, graded and worked out once for all tests of a process."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from schematics.checks.evaluation import Result, evaluate
from schematics.design.design import Design
from schematics.reading.design_file import read_design

SPECS = sorted((Path(__file__).parents[1] / "specs").glob("*.yaml"))


@cache
def shipped_design(name: str) -> Design:
    """A design by its file's name without the ending."""
    (path,) = (path for path in SPECS if path.stem == name)
    return read_design(path)


@cache
def shipped_results(name: str) -> tuple[Result, ...]:
    """All its sizes with their findings."""
    return evaluate(shipped_design(name))


@cache
def shipped_page(name: str) -> str:
    """Its page for the maker."""
    from schematics.fitting.page.fit_page import fit_page

    return fit_page(shipped_design(name), shipped_results(name))


@cache
def shipped_page_data(name: str) -> dict[str, Any]:
    """The data in that page; nobody changes it."""
    from schematics.fitting.page.page_data import page_data

    return page_data(shipped_design(name), shipped_results(name))
