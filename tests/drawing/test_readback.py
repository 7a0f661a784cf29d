"""What the tests measure on sheets is what svgelements reads of their files."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any

import pytest
import svgelements
from shapely import LineString, Point, Polygon

from tests.drawing.readback import Stroke, Words, boxed
from tests.drawing.sheets import shipped_one


def named_groups(group: Any) -> Iterator[Any]:
    for element in group:
        if isinstance(element, svgelements.Group):
            if element.values.get("id") and element.values.get("class") != "layer":
                yield element
            else:
                yield from named_groups(element)


def words_of(group: str, kind: str, element: Any) -> Words:
    turn = element.transform
    matrix = (turn.a, turn.b, turn.c, turn.d, turn.e, turn.f)
    at = ([float(x) for x in element.values["x"].split()], float(element.y))
    bold = element.font_weight == "bold"
    return boxed(group, kind, element.text, at, float(element.font_size), element.anchor, bold, matrix)


def stroke_of(group: str, kind: str, element: Any) -> Stroke:
    filled = element.fill is not None and element.fill.value is not None
    pen, width = element.values["class"], 0.0 if filled else float(element.stroke_width)
    if isinstance(element, svgelements.Circle):
        disc = Point(element.cx, element.cy).buffer(float(element.rx), quad_segs=32)
        ring = tuple((float(x), float(y)) for x, y in disc.exterior.coords)
        return Stroke(group, kind, pen, disc if filled else disc.exterior, width, ring)
    segments = list(element)
    points = tuple((s.end.x, s.end.y) for s in segments if not isinstance(s, svgelements.Close))
    closed = isinstance(segments[-1], svgelements.Close)
    shape = Polygon(points) if filled else LineString((*points, points[0]) if closed else points)
    return Stroke(group, kind, pen, shape, width, points)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("stem", "kind"), [("tidepool", "cover"), ("saltmarsh", "pieces"), ("driftwood", "worn")]
)
def test_a_sheet_is_read_as_svgelements_reads_it(stem: str, kind: str) -> None:
    """At 25.4 px to the inch a millimetre is one px, but for a hundred-thousandth."""
    drawn = shipped_one(stem, kind)
    document = svgelements.SVG.parse(io.StringIO(drawn.svg), ppi=25.4)
    page = drawn.page
    assert (page.width, page.height) == pytest.approx((float(document.width), float(document.height)))
    words, strokes = list(page.words), list(page.strokes)
    assert len(words) + len(strokes) > 30
    for group in named_groups(document):
        name, of_kind = group.values["id"], group.values["class"]
        for element in group:
            if isinstance(element, svgelements.Text):
                read, text = words_of(name, of_kind, element), words.pop(0)
                assert (text.group, text.kind, text.text) == (read.group, read.kind, read.text)
                assert text.box.equals_exact(read.box, 1e-3)
                assert (*text.along, text.astray) == pytest.approx((*read.along, read.astray), abs=1e-3)
            elif of_kind != "tint":
                line, stroke = stroke_of(name, of_kind, element), strokes.pop(0)
                assert (stroke.group, stroke.kind, stroke.pen) == (line.group, line.kind, line.pen)
                assert stroke.width == pytest.approx(line.width)
                assert stroke.shape.equals_exact(line.shape, 1e-3)
                assert len(stroke.points) == len(line.points)
    assert not words
    assert not strokes
