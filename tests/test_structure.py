"""A thing has one name: in the package no file and no public class is called as another is."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "schematics"
FILES = sorted(PACKAGE.rglob("*.py"))
MOST_ROOMS = 20


def several(named: Iterable[tuple[str, Path]]) -> dict[str, list[str]]:
    """The names that are those of more than one thing, and the files they are in."""
    places: dict[str, list[str]] = defaultdict(list)
    for name, path in named:
        places[name].append(str(path.relative_to(PACKAGE)))
    return {name: files for name, files in places.items() if len(files) > 1}


def test_no_file_is_called_as_another() -> None:
    assert several((path.name, path) for path in FILES if path.name != "__init__.py") == {}


def test_no_public_class_is_called_as_another() -> None:
    public = re.compile(r"^class ([A-Za-z]\w*)", re.MULTILINE)
    assert several((name, path) for path in FILES for name in public.findall(path.read_text("utf-8"))) == {}


def test_the_package_has_few_rooms_at_its_top() -> None:
    assert len([path for path in PACKAGE.iterdir() if path.name != "__pycache__"]) <= MOST_ROOMS
