"""The good spec, and edits of it, as files to read."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.design.design import Design
from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError

HERE = Path(__file__).parent
GOOD = (HERE / "good.yaml").read_text(encoding="utf-8")


def edited(*edits: tuple[str, str]) -> str:
    """The good spec with each first text replaced by the second, once."""
    text = GOOD
    for old, new in edits:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def write(folder: Path, content: str | bytes, name: str = "lake.yaml") -> Path:
    path = folder / name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def read(folder: Path, content: str | bytes) -> Design:
    return read_design(write(folder, content))


def told(folder: Path, content: str | bytes) -> list[str]:
    """The problems of a spec without the file's name."""
    path = write(folder, content)
    with pytest.raises(SpecError) as error:
        read_design(path)
    assert str(error.value).splitlines() == [str(problem) for problem in error.value.entries]
    return [line.removeprefix(f"{path}:").lstrip() for line in str(error.value).splitlines()]
