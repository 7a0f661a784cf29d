"""The pictures of the markers say all that the pattern's text refers to, and their numbers stand apart."""

from __future__ import annotations

import pytest
from shapely import unary_union

from schematics.drawing.assembly.step_pictures import MARKERS, step_pictures
from tests.drawing.step_pictures_read import read
from tests.shipped import shipped_results

pytestmark = pytest.mark.slow

_READ_AS_TWO = 5.0
"""Millimetres of paper between two lists of numbers; between two words of one it is about 1."""


@pytest.mark.parametrize("name", ["tidepool", "driftwood", "kelp", "sandpiper", "saltmarsh"])
def test_sides_seam_and_counting_are_named_beside_numbers_that_are_apart(name: str) -> None:
    marked = [each for each in step_pictures(shipped_results(name)) if each.part == MARKERS]
    for picture, letter in zip(marked, "AB", strict=True):
        page = read(picture)
        assert {"front", "back"} <= set(page.texts("note"))
        assert page.texts("seam-letter") == [letter]
        assert page.label("note-count").startswith("count")
        front, back = (
            unary_union([each.box for each in page.words if each.group == f"marker-number-{end}"])
            for end in ("front", "back")
        )
        assert front.distance(back) >= _READ_AS_TWO
