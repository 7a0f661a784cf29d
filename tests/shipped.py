"""The designs that come with the program: read, graded and worked out once for all tests of a process."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from schematics.checks import evaluation
from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.document.document import Document
from schematics.drawing.ink.sheet import A4, Paper
from schematics.pattern.pattern_files import LARGE, document_content, page_look, pattern_documents
from schematics.reading.design_file import read_design
from tests.examples import marked, thorough

SPECS = sorted((Path(__file__).absolute().parents[1] / "specs").glob("*.yaml"))
EACH_CONSTRUCTION = ("tidepool", "saltmarsh", "driftwood")
"""Designs that come with the program: flared, mitred, folded."""


def demos(*names: str) -> list[Any]:
    """For `pytest.mark.parametrize`: `demo_names` of these, marked."""
    return marked(demo_names(*names))


def demo_names(*names: str) -> list[str]:
    """All designs that come with the program by `make fuzz`, else those, or one of each construction.

    A test that uses it has the mark ``seeds``, as `covering` gives it.
    """
    return [path.stem for path in SPECS] if thorough() else [*(names or EACH_CONSTRUCTION)]


@cache
def shipped_design(name: str) -> Design:
    """A design by its file's name without the ending."""
    (path,) = (path for path in SPECS if path.stem == name)
    return read_design(path)


def shipped_text(name: str, *sizes: str) -> str:
    """Its spec; by `make fuzz` as it stands, else with those sizes alone, where time goes with the sizes.

    A test that uses it has the mark ``seeds``.
    """
    (path,) = (path for path in SPECS if path.stem == name)
    head, of_sizes, text = path.read_text("utf-8").partition("\nsizes:\n")
    if thorough():
        return f"{head}{of_sizes}{text}"
    each = re.split(r"^(?=  \S)", text, flags=re.MULTILINE)
    kept = [block for block in each if block.split(":")[0].strip(' "') in sizes]
    assert len(kept) == len(sizes)
    return f"{head}{of_sizes}{''.join(kept)}"


@cache
def shipped_results(name: str) -> tuple[Result, ...]:
    """All its sizes with their findings."""
    return evaluation.evaluate(shipped_design(name))


@cache
def shipped_patterns(name: str) -> Mapping[str, Document]:
    """Its pattern by the form it is for."""
    return pattern_documents(shipped_design(name), shipped_results(name))


@cache
def shipped_pattern(name: str, form: str, paper: Paper = A4) -> bytes:
    """Its pattern as a file of that form, such as ``pdf``."""
    look = page_look(shipped_design(name), paper, large=form == LARGE)
    return document_content(shipped_patterns(name)[form], form, look)
