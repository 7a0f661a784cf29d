"""Hostile names are read as they stand or refused where they stand, in one sentence."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError
from tests.examples import seeds
from tests.hostile.names import COUNT, NO_CHARACTERS, Hostile, every_name, no_line, plain, spec_of

PLACES = {
    "title": (1, 80), "yarn.name": (2, 80), "yarn_use.colours.body": (3, 40), "fabrics": (7, 40),
    "stitch": (8, 80), "parts.body": (15, 80),
}  # fmt: skip
"""Where the name stands as text: its line, and how long a text may be there."""
TAKEN = [each for each in every_name() if not each.as_text]
"""Those that a text may be."""
REFUSED = [each for each in every_name() if each.as_text]


def test_there_are_more_than_a_hundred() -> None:
    assert COUNT > 100
    assert len({each.name for each in every_name()} | set(NO_CHARACTERS)) == COUNT


@pytest.mark.parametrize("name", NO_CHARACTERS, ids=ascii)
def test_half_a_character(name: str, tmp_path: Path) -> None:
    path = tmp_path / "lake.yaml"
    path.write_text(spec_of([*plain(1), name, *plain(14)[2:]], ["4"]), encoding="ascii")
    with pytest.raises(SpecError) as error:
        read_design(path)
    sentence = "an escape such as \\U0001F9F6 names no character; write the character itself"
    assert str(error.value) == f"{path}:2: {sentence}"


@pytest.mark.slow
@pytest.mark.parametrize("hostile", [*REFUSED, *seeds(TAKEN, step=4)], ids=lambda each: ascii(each.name)[:40])
def test_each_name_at_each_place(hostile: Hostile, tmp_path: Path) -> None:
    name = hostile.name
    texts = plain(14)
    for place in (0, 1, 2, 6, 10):
        texts[place] = name
    path = tmp_path / "lake.yaml"
    path.write_text(spec_of(texts, [name]), encoding="ascii")
    expected = list(_refusals(hostile))
    if expected:
        with pytest.raises(SpecError) as error:
            read_design(path)
        found = [(_place(each.path), each.line, each.sentence) for each in error.value.entries]
        assert found == expected
        lines = str(error.value).splitlines()
        assert len(lines) == len(expected)
        assert all(line.isprintable() for line in lines)
    else:
        design = read_design(path)
        shown = "\u00e9" if name == "e\u0301" else name
        assert (design.title, design.yarn.name, design.parts.body.name) == (shown,) * 3
        assert (design.parts.body.stitch, design.yarn_use.colours["body"]) == (shown,) * 2
        assert [size.name for size in design.sizes] == [shown]


def _refusals(hostile: Hostile) -> list[tuple[str, int, str]]:
    """The place, line and sentence of each."""
    found = []
    for place, (line, longest) in PLACES.items():
        is_too_long = longest < len(hostile.name)
        if is_too_long or hostile.as_text.startswith("expected"):
            found.append((place, line, no_line(hostile.name, longest)))
        elif hostile.as_text:
            found.append((place, line, hostile.as_text))
    return found + ([("sizes", 17, hostile.as_size)] if hostile.as_size else [])


def _place(path: str) -> str:
    if path.endswith(".stitch"):
        return "stitch"
    return path if path in PLACES else path.partition(".")[0]
