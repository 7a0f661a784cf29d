"""Numbers and triangles of the arm runs on the joined views: each is seen to belong to its marker."""

from __future__ import annotations

import math

import pytest
from shapely import LineString, MultiLineString, Point, Polygon
from shapely.ops import nearest_points

from schematics.drawing.assembly.joined_block import view_block
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Area, Group, Line, Mark, Text
from schematics.units import Unit
from tests.drawing.joined_views import joined_views
from tests.examples import thorough
from tests.shipped import shipped_results

pytestmark = [pytest.mark.seeds, pytest.mark.slow]

SCALE = 8
SIZES = (
    [(stem, size) for stem in ("tidepool", "sandpiper", "kelp", "driftwood") for size in range(7)]
    if thorough()
    else [
        ("tidepool", 5),
        ("sandpiper", 2),
        ("sandpiper", 3),
        ("sandpiper", 6),
        ("kelp", 1),
        ("driftwood", 0),
    ]
)


def blocks(stem: str, size: int) -> list[Block]:
    garment = shipped_results(stem)[size].garment
    return [
        view_block(view, garment, SCALE, tuple(Unit), girth=True, widest=180)
        for view in joined_views(garment)
    ]


def of_kind(block: Block, kind: str) -> list[Group]:
    return [each for each in block.groups if each.kind == kind]


def tick(block: Block, group: Group) -> Point:
    """Where a marker's tick meets the edge of the fabric."""
    (line,) = group.marks
    assert isinstance(line, Line)
    edges = [
        LineString(mark.points)
        for each in of_kind(block, "fabric")
        for mark in each.marks
        if isinstance(mark, Line)
    ]
    on_tick, _ = nearest_points(LineString(line.points), MultiLineString(edges))
    return on_tick


def words(marks: tuple[Mark, ...]) -> list[Text]:
    return [mark for mark in marks if isinstance(mark, Text)]


@pytest.mark.parametrize(("stem", "size"), SIZES)
def test_every_number_is_beside_its_marker_or_has_an_arrow_to_it(stem: str, size: int) -> None:
    for block in blocks(stem, size):
        for marker in of_kind(block, "marker"):
            number = marker.name.removeprefix("marker ")
            (group,) = (
                each
                for kind in ("marker-number", "leader")
                for each in of_kind(block, kind)
                if [text.words for text in words(each.marks)] == [number]
                and not (kind == "leader" and tick(block, marker).distance(arrow_tip(each)) > 1)
                and not (kind == "marker-number" and tick(block, marker).distance(middle(each)) > 9)
            )
            assert group


def middle(group: Group) -> Point:
    (text,) = words(group.marks)
    return Point(text.box().centroid)


def arrow_tip(group: Group) -> Point:
    line = next(mark for mark in group.marks if isinstance(mark, Line))
    return Point(line.points[0])


@pytest.mark.parametrize(("stem", "size"), SIZES)
def test_triangles_are_clear_of_folds_and_point_to_their_markers(stem: str, size: int) -> None:
    for block in blocks(stem, size):
        folds = [
            LineString(mark.points)
            for each in of_kind(block, "fold")
            for mark in each.marks
            if isinstance(mark, Line)
        ]
        ticks = [tick(block, each) for each in of_kind(block, "marker")]
        for group in (each for each in of_kind(block, "join") if each.name != "neck"):
            (triangle,) = group.marks
            assert isinstance(triangle, Area)
            tip, one, other = triangle.points
            shape = Polygon(triangle.points)
            assert all(shape.distance(fold) > 0.3 for fold in folds)
            at = min(ticks, key=Point(tip).distance)
            foot = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
            facing = math.atan2(tip[1] - foot[1], tip[0] - foot[0])
            assert math.atan2(at.y - foot[1], at.x - foot[0]) == pytest.approx(facing, abs=0.02)


def test_a_view_with_a_sliver_of_an_arm_run_shows_no_band_there() -> None:
    """Tidepool, size 6: 16 of 166 stitches from 36 on the front on, 37 to 52, and 115 to 130 on the left.

    Seen edge on in front, a band reads as a stick there; its marker is where it is, inside the edge, and
    words say where the band is seen.
    """
    front, back = blocks("tidepool", 2)
    numbers = [
        {each.name.removeprefix("marker ") for each in of_kind(view, "marker")} for view in (front, back)
    ]
    assert numbers == [{"37", "130"}, {"52", "115"}]
    assert [each.name for each in of_kind(front, "band")] == ["neck band"]
    assert {each.name for each in of_kind(back, "band")} == {"neck band", "arm band left", "arm band right"}
    referred = [[each for each in view.groups if each.name == "arm band"] for view in (front, back)]
    assert [[text.words for text in words(each.marks)] for each in referred[0]] == [
        ["arm band:", "see back view"]
    ] * 2
    assert [words(each.marks)[0].words for each in referred[1]] == ["arm band round"]


@pytest.mark.parametrize(("stem", "size"), SIZES)
def test_no_number_on_an_arrow_reads_as_the_first_line_of_what_the_arm_band_is_round(
    stem: str, size: int
) -> None:
    for block in blocks(stem, size):
        leaders = [words(each.marks) for each in of_kind(block, "leader")]
        round_it = [each for each in leaders if each[0].words == "arm band round"]
        for (number,) in (each for each in leaders if each[0].words.isdigit()):
            assert all(number.box().distance(text.box()) > 2 for label in round_it for text in label)
