"""Hooks by their United States names, against the Craft Yarn Council's table, written down from memory."""

from __future__ import annotations

import pytest

from schematics.crochet.hooks_and_yarn import hooks, hooks_called

COUNCIL = {
    2.25: "B-1", 2.75: "C-2", 3.25: "D-3", 3.5: "E-4", 3.75: "F-5", 4.0: "G-6", 4.5: "7", 5.0: "H-8",
    5.5: "I-9", 6.0: "J-10", 6.5: "K-10 1/2", 8.0: "L-11", 9.0: "M/N-13", 10.0: "N/P-15", 15.0: "P/Q",
    16.0: "Q", 19.0: "S",
}  # fmt: skip
"""Crochet hook sizes of the Craft Yarn Council's "Hooks & Needles" page."""


def sizes(name: str) -> list[float] | None:
    found = hooks_called(name)
    return None if found is None else [hook.mm for hook in found]


@pytest.mark.parametrize(("mm", "name"), COUNCIL.items())
def test_every_name_of_the_council_finds_its_hook(mm: float, name: str) -> None:
    for written in (f"US {name}", f"us {name.lower()}", f" US  {name} "):
        assert mm in (sizes(written) or ())
    if any(sign.isalpha() for sign in name):
        assert mm in (sizes(name) or ())
        assert mm in (sizes(name.replace("-", "/")) or ())


@pytest.mark.parametrize(
    ("name", "mm"),
    [("L", 8.0), ("l", 8.0), ("US L/11", 8.0), ("L 11", 8.0), ("H", 5.0), ("K", 6.5), ("US K-10.5", 6.5),
     ("M", 9.0), ("N-13", 9.0), ("N/P", 10.0), ("US 7", 4.5), ("US 10 1/2", 6.5)],
)  # fmt: skip
def test_a_letter_or_a_number_is_enough_where_one_hook_has_it(name: str, mm: float) -> None:
    assert sizes(name) == [mm]


@pytest.mark.parametrize(
    ("name", "mm"),
    [("J", [5.75, 6.0]), ("N", [9.0, 10.0]), ("G", [4.0, 4.25]), ("P", [10.0, 11.5, 15.0]), ("Z", []),
     ("L-12", [])],
)  # fmt: skip
def test_several_hooks_or_none(name: str, mm: list[float]) -> None:
    assert sizes(name) == mm


@pytest.mark.parametrize("name", ["8", "8 mm", "10.5", "US", "mm", "steel", "", "L M", "US L 11 8 mm"])
def test_what_is_no_such_name(name: str) -> None:
    assert sizes(name) is None


def test_each_hook_is_found_by_the_name_it_is_printed_with() -> None:
    for hook in hooks():
        if hook.us_name:
            assert hook in (hooks_called(f"US {hook.us_name}") or ())
