"""The font comes with the program, whole and with its licences."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from schematics.document.lettering.text import FONT_FOLDER
from tests.drawing.fonts import BOLD, NORMAL

ROOT = Path(__file__).parents[3]

COPYRIGHT, WEIGHT, VERSION, LICENCE = 0, 2, 5, 13
"""Name IDs of the OpenType specification, 'name' table."""


def says(path: Path, name: int) -> str:
    return str(TTFont(path)["name"].getDebugName(name))


@pytest.mark.parametrize(("path", "weight"), [(NORMAL, "Book"), (BOLD, "Bold")])
def test_the_files_are_the_font_that_is_measured(path: Path, weight: str) -> None:
    assert (says(path, 1), says(path, WEIGHT)) == ("DejaVu Sans", weight)
    assert says(path, VERSION) == "Version 2.37"


@pytest.mark.parametrize("path", [NORMAL, BOLD])
def test_the_licence_the_font_carries_lies_beside_it_in_full(path: Path) -> None:
    beside = (FONT_FOLDER / "LICENSE.txt").read_text("utf-8").split()
    assert beside == f"{says(path, COPYRIGHT)} {says(path, LICENCE)}".split()


def test_the_folder_holds_nothing_else() -> None:
    """Any other font in it would be one that a sheet may be lettered with."""
    assert {path.name for path in FONT_FOLDER.iterdir()} == {
        NORMAL.name, BOLD.name, "LICENSE.txt", "copyright-debian.txt",
    }  # fmt: skip


def test_every_file_of_the_package_is_packed() -> None:
    """But for notes to developers (``.md``)."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    package = ROOT / "schematics"
    patterns = project["tool"]["setuptools"]["package-data"]["schematics"]
    packed = {path for pattern in [*patterns, "**/*.py", "**/*.md"] for path in package.glob(pattern)}
    files = {path for path in package.rglob("*") if path.is_file() and "__pycache__" not in path.parts}
    assert files <= packed
