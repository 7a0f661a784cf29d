"""What is read back of a drawing, held against svgelements, a reader of all of SVG."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any

import pytest
import svgelements

from tests.drawing.fonts import face
from tests.drawing.readback import read_page
from tests.drawing.sheets import shipped_one

_WITHIN = 2e-4
"""In mm: what is a millimetre here is 1.00000054 to svgelements, which goes by inches."""


def read_by_svgelements(svg: str) -> tuple[list[Any], list[Any]]:
    """Words and strokes of every group with an id; at 25.4 pixels to the inch a millimetre is one."""
    words, strokes = [], []
    for group in named_groups(svgelements.SVG.parse(io.StringIO(svg), ppi=25.4)):
        for element in group:
            if isinstance(element, svgelements.Text):
                words.append((group, element))
            elif group.values["class"] != "tint":
                strokes.append((group, element))
    return words, strokes


def named_groups(group: Any) -> Iterator[Any]:
    for element in group:
        if isinstance(element, svgelements.Group):
            yield from [element] if element.values.get("id") else named_groups(element)


def reach(element: Any) -> float:
    """How far the ink of words reaches above their baseline, in ems."""
    top, _ = face(element.font_weight == "bold").reach(element.text)
    return top


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["pieces", "assembly"])
def test_words_and_strokes_are_those_that_svgelements_reads(kind: str) -> None:
    svg = shipped_one("tidepool", kind).svg
    page = read_page(svg)
    words, strokes = read_by_svgelements(svg)
    assert [(each.group, each.kind, each.text) for each in page.words] == [
        (group.values["id"], group.values["class"], element.text) for group, element in words
    ]
    for ours, (_, element) in zip(page.words, words, strict=True):
        turn, size = element.transform, float(element.font_size)
        assert ours.along == pytest.approx((turn.a, turn.b), abs=_WITHIN)
        x, y = float(element.values["x"].split()[0]), float(element.y) - size * reach(element)
        corner = (turn.a * x + turn.c * y + turn.e, turn.b * x + turn.d * y + turn.f)
        assert ours.box.exterior.coords[0] == pytest.approx(corner, abs=_WITHIN)
    assert len(page.strokes) == len(strokes)
    for stroke, (group, element) in zip(page.strokes, strokes, strict=True):
        told = (group.values["id"], group.values["class"], element.values["class"])
        assert (stroke.group, stroke.kind, stroke.pen) == told
        assert stroke.filled is (element.fill.value is not None)
        assert stroke.width == pytest.approx(0.0 if stroke.filled else float(element.stroke_width))
        assert stroke.shape.bounds == pytest.approx(element.bbox(), abs=_WITHIN)
        assert stroke.shape.length == pytest.approx(element.length(), rel=2e-4)
