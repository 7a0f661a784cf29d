"""The pictures of the steps read back from their SVG, against counts and the written pattern."""

from __future__ import annotations

import math
import re
from functools import cache

import pytest
from shapely import LineString, Polygon, line_merge, unary_union
from shapely import Point as ShapelyPoint

from schematics.checks.evaluation import Result
from schematics.document.document import Document, Section
from schematics.drawing.assembly.step_pictures import StepPicture, step_pictures
from schematics.drawing.ink.marks import Text
from schematics.drawing.ink.svg import to_svg
from schematics.pattern.written import written_pattern
from tests.drawing.audit_svg import svg_faults
from tests.drawing.readback import Page, Point, Stroke
from tests.drawing.step_pictures_read import NECK, caption, faults, pages_of, read
from tests.examples import marked, thorough
from tests.shipped import demos, shipped_design, shipped_results

ON_HEM, ON_SIDES = "tidepool", "driftwood"
EACH = pytest.mark.parametrize("name", [name for name in demos() if name.values[0] != "first-draft"])


@cache
def pages(name: str) -> dict[str, Page]:
    """The pictures of one size of a demo, by their captions."""
    return pages_of(one_size(name), shipped_design(name).publication.seam)


@cache
def one_size(name: str) -> tuple[Result, ...]:
    return shipped_results(name)[2:3]


@cache
def pictures_of(name: str) -> tuple[StepPicture, ...]:
    """Of all sizes of a demo at once."""
    return step_pictures(shipped_results(name), shipped_design(name).publication.seam)


def line(page: Page, group: str) -> LineString:
    """All that is drawn in a group as one line."""
    strokes = [LineString(stroke.points) for stroke in page.strokes if stroke.group == group]
    whole = strokes[0] if len(strokes) == 1 else line_merge(unary_union(strokes))
    assert isinstance(whole, LineString)
    return whole


def arrow(page: Page) -> tuple[Point, Point]:
    """From where the arrow of a picture comes, and its tip."""
    (shaft,) = (each for each in page.of_kind("arrow") if not each.filled)
    (head,) = (each for each in page.of_kind("arrow") if each.filled)
    return shaft.points[0], head.points[0]


def triangle(page: Page) -> tuple[Point, Point]:
    """The tip of the triangle at which yarn is joined, and the middle of its foot."""
    (found,) = page.of_kind("join")
    tip, first, second = found.points[:3]
    return tip, ((first[0] + second[0]) / 2, (first[1] + second[1]) / 2)


def middle(stroke: Stroke) -> Point:
    return stroke.shape.centroid.x, stroke.shape.centroid.y


def markers(page: Page) -> dict[str, Point]:
    return {stroke.group.removeprefix("marker-marker-"): middle(stroke) for stroke in page.of_kind("marker")}


SEAM_A, SEAM_B = "Seam A, from hem to neck.", "Seam B, from hem to neck."
MARKS = {False: "Markers on the wearer's right.", True: "Markers on the wearer's left."}
ARMS = {False: "Arm band on the wearer's right.", True: "Arm band on the wearer's left."}
HELD = {
    "driftwood": "right sides together",
    "kelp": "wrong sides together",
    "saltmarsh": "wrong sides together",
}
"""The demos whose seams are worked with a hook; the others are sewn edge to edge."""
SIDES = ("Seam C, from hem to arm band.", "Seam D, from hem to arm band.")


@pytest.mark.slow
@EACH
def test_steps_are_in_the_order_in_which_the_pattern_tells_them(name: str) -> None:
    design, results = shipped_design(name), shipped_results(name)
    pictures = pictures_of(name)
    parts = list(dict.fromkeys(picture.part for picture in pictures))
    told = [section.key for section in written_pattern(design, results).sections]
    assert parts == [key for key in told if key in parts]
    folded = results[0].garment.construction == "folded"
    held = [f"For each seam hold {HELD[name]}."] if name in HELD else []
    seams = ["Lay the panel in the opening.", *held, SEAM_A, SEAM_B]
    expected = [*seams, *MARKS.values(), NECK, *ARMS.values()]
    assert [caption(read(picture)) for picture in pictures] == [*expected, *(SIDES if folded else ())]


@pytest.mark.slow
@EACH
def test_each_has_its_number_a_short_phrase_and_words_for_who_does_not_see_it(name: str) -> None:
    for number, picture in enumerate(pictures_of(name), start=1):
        page = read(picture)
        assert page.texts("caption")[0] == str(number)
        assert len(caption(page).split()) <= 8
        assert picture.sheet.title == f"Step {number}: {caption(page)}"
        assert len(picture.sheet.description) > 60
        assert picture.sheet.paper.width == 50


@pytest.mark.slow
@EACH
def test_nothing_touches_in_all_sizes_at_once(name: str) -> None:
    for picture in pictures_of(name):
        assert picture.sheet.unplaced == ()
        assert faults(read(picture)) == []
        assert svg_faults(to_svg(picture.sheet)) == []


@pytest.mark.slow
@EACH
def test_what_is_joined_is_drawn_as_long_as_it_is(name: str) -> None:
    """Both seams, the panel and the hem to one scale; an arc of chords is a few parts in 10,000 short."""
    (result,) = one_size(name)
    garment = result.garment
    front = garment.piece("body").edge("front").length_cm
    page = pages(name)[SEAM_A]
    mm = line(page, "seam-A").length / front
    assert line(pages(name)[SEAM_B], "seam-B").length == pytest.approx(front * mm, rel=1e-4)
    panel = [LineString(each.points) for each in page.strokes if each.group == "fabric-panel"]
    ends = sorted(each.length / mm for each in panel)
    piece = garment.piece("centre panel")
    assert ends == pytest.approx(sorted(piece.edge(end).length_cm for end in ("top", "lower")), rel=1e-3)
    for left in (False, True):
        side = pages(name)[MARKS[left]]
        assert line(side, "seam-panel").length == pytest.approx(front * mm, rel=1e-3)
        edge = line(side, "fabric-outer-edge")
        if name == ON_SIDES:
            cm = {each.key: each.length_cm for each in garment.finished}
            hem = (cm["body.width"] - cm["body.slot"]) / 2 + cm["body.width"] / 2
            assert edge.length == pytest.approx((hem + cm["body.front"] + cm["body.back"]) * mm, rel=2e-3)
        else:
            assert 2 * edge.length == pytest.approx(garment.arm.edge.length_cm * mm, rel=2e-3)


@pytest.mark.slow
@EACH
@pytest.mark.parametrize("left", [False, True])
def test_markers_and_triangle_are_where_the_pattern_counts_them(name: str, left: bool) -> None:
    """A run has the edge's stitches from one marker to the other, both counted, after those before it."""
    (result,) = one_size(name)
    arm = result.garment.arm
    each_cm = arm.edge.length_cm / arm.edge.count
    page = pages(name)[MARKS[left]]
    edge, seam = line(page, "fabric-outer-edge"), line(page, "seam-panel")
    mm = seam.length / result.garment.piece("body").edge("front").length_cm
    hem_end = seam.coords[0]
    if ShapelyPoint(edge.coords[0]).distance(ShapelyPoint(hem_end)) > 0.01:
        edge = edge.reverse()
    before = _front_hem_cm(result) if name == ON_SIDES else 0.0
    at = {end: edge.project(ShapelyPoint(place)) / mm for end, place in markers(page).items()}
    assert at["front"] == pytest.approx(before + (arm.first - 1) * each_cm, abs=0.1)
    assert at["back"] == pytest.approx(before + arm.last * each_cm, abs=0.1)

    start = _joined_at(name, left=left)
    numbers = {"front": arm.mirrored(arm.first), "back": arm.mirrored(arm.last)} if left else {
        "front": arm.first, "back": arm.last,
    }  # fmt: skip
    (whose,) = (end for end, number in numbers.items() if number == start)
    assert whose == ("front" if left else "back")
    held = pages(name)[ARMS[left]]
    tip, foot = triangle(held)
    ends = markers(held)
    assert math.dist(tip, ends["start"]) < 2
    assert foot[1] > tip[1] > ends["start"][1]
    seam = line(held, "seam-panel")
    nearer = min(ends, key=lambda end: seam.distance(ShapelyPoint(ends[end])))
    assert (nearer == "start") is (whose == "front")


def _front_hem_cm(result: Result) -> float:
    return result.garment.piece("body").edge("front hem").length_cm


def _joined_at(name: str, *, left: bool) -> int:
    """The number of the stitch or row end at which the written pattern joins yarn on that side."""
    (text,) = (words for words in _written(name, "arm_bands") if words.startswith("Join yarn at a marker"))
    right, other = re.findall(r"in (?:hem st|row end) (\d+)", text)[:2]
    return int(other if left else right)


def _written(name: str, key: str) -> list[str]:
    (section,) = (each for each in _pattern(name).sections if each.key == key)
    return _texts(section)


@cache
def _pattern(name: str) -> Document:
    return written_pattern(shipped_design(name), one_size(name))


def _texts(section: Section) -> list[str]:
    return [block for block in section.blocks if isinstance(block, str)]


@pytest.mark.slow
@EACH
def test_seams_rise_from_the_triangle_at_the_hem(name: str) -> None:
    """The pattern: from the hem up, yarn joined at the hem; the wearer's right is on the viewer's left."""
    assert any("from the hem up to the neck" in words for words in _written(name, "seams"))
    places = {}
    for letter, step in (("A", SEAM_A), ("B", SEAM_B)):
        page = pages(name)[step]
        seam = line(page, f"seam-{letter}")
        low = max(seam.coords, key=lambda at: at[1])
        start, tip = arrow(page)
        assert tip[1] < start[1] - 0.6 * (seam.bounds[3] - seam.bounds[1])
        point, foot = triangle(page)
        assert math.dist(point, low) < 1
        assert foot[1] > point[1] > low[1]
        places[letter] = low[0]
    assert places["A"] < places["B"]


@pytest.mark.slow
@EACH
def test_arm_bands_are_worked_from_right_to_left(name: str) -> None:
    """The pattern: the edge at the top, right side facing; towards the other marker, which is on the left."""
    assert any("edge at the top" in words for words in _written(name, "arm_bands"))
    for left in (False, True):
        page = pages(name)[ARMS[left]]
        (start_x, start_y), (tip_x, tip_y) = arrow(page)
        ends = markers(page)
        assert tip_x < start_x
        assert tip_y == pytest.approx(start_y)
        assert ends["end"][0] < ends["start"][0]
        assert (start_x, tip_x) == pytest.approx((ends["start"][0], ends["end"][0]), abs=0.01)
        assert tip_y < min(y for y in (line(page, "fabric-outer-edge").bounds[1], ends["end"][1]))


@EACH
def test_what_is_counted_is_counted_the_way_the_arrow_points(name: str) -> None:
    """From seam A round to seam B along a hem; from the front hem along either side."""
    for left in (False, True):
        page = pages(name)[MARKS[left]]
        start, tip = arrow(page)
        seam = line(page, "seam-panel")
        from_front = seam.distance(ShapelyPoint(start)) < seam.distance(ShapelyPoint(tip))
        assert from_front is (name == ON_SIDES or not left)


@EACH
def test_the_neck_is_worked_from_the_centre_back_towards_the_wearers_left(name: str) -> None:
    """Front below: the wearer's left is on the viewer's right, seam B there, the panel between the seams."""
    page = pages(name)[NECK]
    (result,) = one_size(name)
    seams = {letter: line(page, f"seam-{letter}").coords[0] for letter in "AB"}
    assert seams["A"][0] < seams["B"][0]
    tip, foot = triangle(page)
    start, end = arrow(page)
    centre = (seams["A"][0] + seams["B"][0]) / 2
    assert tip[0] == pytest.approx(centre, abs=0.05)
    assert foot[1] < tip[1] < seams["A"][1]
    assert centre <= start[0] < end[0]
    assert start[1] < end[1]
    assert "the centre back" in page.texts("note")
    edges = [LineString(each.points).length for each in page.strokes if each.group == "fabric-neck-edge"]
    panel = line(page, "fabric-panel").length
    cm = {each.key: each.length_cm for each in result.garment.finished}
    top = cm.get("panel.top", cm["panel.width"])
    assert panel / (sum(edges) + panel) == pytest.approx(top / cm["neck.edge"], rel=0.05)


@EACH
def test_only_the_back_seen_through_the_opening_is_hatched(name: str) -> None:
    """The hatching lies between the front edges, above the panel; it has its words."""
    for step, page in pages(name).items():
        hatched = page.of_kind("wrong-side")
        assert bool(hatched) is step.startswith(("Lay", "For each seam"))
        if step.startswith("Lay"):
            assert "wrong side" in page.texts("leader")
            edges = [line(page, f"fabric-edge-{letter}") for letter in "AB"]
            opening = Polygon([*edges[0].coords, *reversed(edges[1].coords)])
            assert all(opening.contains(stroke.shape) for stroke in hatched)


@pytest.mark.slow
@pytest.mark.parametrize("name", marked([*HELD] if thorough() else ["driftwood", "saltmarsh"]))
def test_edges_are_held_as_the_pattern_says(name: str) -> None:
    """With right sides together the nearer layer shows its wrong side, the other its right one."""
    (words,) = (each for each in _written(name, "seams") if each.startswith("Work each seam"))
    assert HELD[name] in words
    assert "Join yarn at the hem, with the hem at your right," in words
    page = pages(name)[f"For each seam hold {HELD[name]}."]
    (start, _), (end, _) = arrow(page)
    (tip, _), (foot_x, _) = triangle(page)
    (hem,) = (stroke for stroke in page.strokes if stroke.group == "fabric-hem")
    assert end < start < tip == pytest.approx(foot_x) == pytest.approx(hem.points[0][0])
    at = {group: _middle_of(page, group) for group in ("note-right-side", "note-wrong-side")}
    nearer = "note-wrong-side" if HELD[name].startswith("right") else "note-right-side"
    cut = line(page, "break-near-layer")
    assert at[nearer] > cut.bounds[2]
    assert min(at.values()) < cut.bounds[0]
    hatched = unary_union([stroke.shape for stroke in page.of_kind("wrong-side")])
    assert hatched.envelope.contains(ShapelyPoint(at["note-wrong-side"], hatched.centroid.y))
    assert not hatched.envelope.contains(ShapelyPoint(at["note-right-side"], hatched.centroid.y))


def _middle_of(page: Page, group: str) -> float:
    boxes = [words.box for words in page.words if words.group == group]
    x0, _, x1, _ = unary_union(boxes).bounds
    return float(x0 + x1) / 2


@EACH
def test_panel_and_hem_meet_without_a_step(name: str) -> None:
    """The lower corners of the panel are the ends of the hem; its texture keeps off the seams."""
    page = pages(name)[SEAM_B]
    hems = [LineString(each.points) for each in page.strokes if each.group.startswith("fabric-body")]
    ends = [ShapelyPoint(hem.coords[at]) for hem in hems for at in (0, -1)]
    seams = [line(page, f"seam-{letter}") for letter in "AB"]
    for seam in seams:
        low = ShapelyPoint(max(seam.coords, key=lambda at: at[1]))
        assert min(low.distance(end) for end in ends) < 0.01
    for stroke in page.of_kind("texture"):
        assert all(stroke.shape.distance(seam) > 0.9 for seam in seams)


def test_both_sides_are_each_others_mirror_image() -> None:
    """So no half is wider than the other."""
    for steps in (MARKS, ARMS):
        right, left = (line(pages(ON_HEM)[steps[side]], "fabric-outer-edge") for side in (False, True))
        assert right.length == pytest.approx(left.length, rel=1e-6)
        widths = [edge.bounds[2] - edge.bounds[0] for edge in (right, left)]
        assert widths[0] == pytest.approx(widths[1], abs=0.01)


@pytest.mark.slow
def test_markers_carry_the_numbers_of_every_size() -> None:
    """As the table of the pattern has them, in its size strings."""
    design, results = shipped_design(ON_HEM), shipped_results(ON_HEM)
    drawn = {caption(page): page for page in map(read, step_pictures(results))}
    (section,) = (each for each in written_pattern(design, results).sections if each.key == "markers")
    (table,) = section.tables
    cells = {str(row[0]): str(row[1]) for row in table.rows}
    for left, whose in ((False, "right"), (True, "left")):
        page = drawn[MARKS[left]]
        for end in ("front", "back"):
            number = cells[f"wearer's {whose}, {end}"]
            assert page.label(f"marker-number-{end}").replace("\n", " ") == f"st {number}"


@pytest.mark.slow
@pytest.mark.parametrize("name", demos())
def test_captions_of_one_part_are_level(name: str) -> None:
    """From the top of each picture, where they stand beside each other, the number's baseline."""
    levels: dict[str, set[float]] = {}
    heights: dict[str, set[float]] = {}
    for picture in pictures_of(name):
        (marks,) = (group.marks for group in picture.sheet.groups if group.kind == "caption")
        number = next(mark for mark in marks if isinstance(mark, Text))
        levels.setdefault(picture.part, set()).add(round(number.at[1], 6))
        heights.setdefault(picture.part, set()).add(round(picture.sheet.paper.height, 6))
    assert {part: len(each) for part, each in levels.items()} == dict.fromkeys(levels, 1)
    assert {part: len(each) for part, each in heights.items()} == dict.fromkeys(levels, 1)


@pytest.mark.slow
@pytest.mark.parametrize("name", demos())
def test_pictures_of_markers_say_from_where_is_counted(name: str) -> None:
    for picture in pictures_of(name):
        if picture.part == "markers":
            assert [group.name for group in picture.sheet.groups].count("count") == 2
