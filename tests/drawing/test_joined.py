"""The joined garment laid flat, against closed forms of the flat pieces and rules that hold for any."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from shapely import Point as ShapelyPoint
from shapely import Polygon

from schematics.design.limits import Limits
from schematics.drawing.assembly import joined
from schematics.drawing.assembly.joined import JoinedView
from schematics.drawing.assembly.joined_half import Half, Marker
from schematics.drawing.assembly.steps import instructions
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.garment.garment import Edge, Garment
from tests.drawing.joined_views import back_view, front_view, joined_views, width
from tests.examples import examples, marked, thorough
from tests.garment.constructions.samples import GUIDE, fabric, flared, folded, garment, mitred, parts

ANY = st.one_of(flared(), mitred(), folded())
SOME = examples(40, part=8)

NECK, HEM, ROWS, FROM_FRONT, RUN = 40, 132, 20, 26, 16
"""The worked example of the flared construction, at 9.5 stitches and 7 rows to 10 cm."""


def worked_example(**counts: int) -> Garment:
    return garment(
        FlaredBody(neck=NECK, hem=HEM, rows=ROWS),
        HemArms(from_front=FROM_FRONT, stitches=RUN),
        parts(GUIDE),
        **counts,
    )


def sector() -> tuple[float, float, float]:
    """Opening angle, inner and outer radius in cm of the worked example."""
    neck, hem, depth = NECK / 0.95, HEM / 0.95, ROWS / 0.7
    angle = (hem - neck) / depth
    return angle, neck / angle, neck / angle + depth


def side(view: JoinedView, *, left: bool) -> Half:
    (half,) = (each for each in view.halves if each.left is left)
    return half


def markers(made: Garment, *, left: bool) -> list[Marker]:
    return [marker for view in joined_views(made) for marker in side(view, left=left).markers]


def test_front_and_back_lie_equally_wide_about_a_fold_that_gives_the_panel_its_share() -> None:
    """The back is a sector of twice the angle t, the front two of half the opening a less t and the panel p.

    2R sin t = p + 2R sin(a/2 - t), so that by the difference of sines t = a/4 + asin(p / 4R cos(a/4)).
    """
    angle, _, outer = sector()
    panel = 10 / 0.95
    turn = angle / 4 + math.asin(panel / (4 * outer * math.cos(angle / 4)))
    front, back = map(width, joined_views(worked_example(panel_stitches=10)))
    assert back == pytest.approx(2 * outer * math.sin(turn), rel=1e-4)
    assert front == pytest.approx(back, rel=1e-6)


@pytest.mark.slow
@SOME
@given(made=st.one_of(flared(), mitred()))
def test_front_and_back_of_any_body_of_up_to_a_circle_lie_equally_wide(made: Garment) -> None:
    """Unless the panel is so wide that the fold would be nearly in front."""
    assume((made.opening_angle or 0.0) < math.tau)
    assume(
        made.piece("centre panel").edge("lower").length_cm < 0.2 * made.piece("body").edge("hem").length_cm
    )
    front, back = map(width, joined_views(made))
    assert front == pytest.approx(back, rel=1e-6)


def as_wide_by_its_hem_alone() -> Garment:
    """Back and front are equally wide at the hem for some fold, but what lies farthest out is not on it."""
    body = MitredBody(neck=15, lines=6, rows=4, increase_every=1, increase_rows=3)
    arms = HemArms(from_front=0, stitches=2)
    return garment(body, arms, parts(fabric(6, 9)), panel_stitches=2, panel_rows=1)


@pytest.mark.slow
@SOME
@given(made=st.one_of(flared(), mitred()))
@example(
    made=garment(FlaredBody(neck=20, hem=280, rows=12), HemArms(from_front=30, stitches=12), parts(GUIDE))
)
@example(made=as_wide_by_its_hem_alone())
def test_what_is_said_of_the_fold_is_so(made: Garment) -> None:
    front, back = map(width, joined_views(made))
    equally = front == pytest.approx(back, rel=1e-6)
    assert (
        "at the sides where front and back lie equally wide" in instructions(made, Limits()).legend
    ) is equally


def test_front_edges_hang_straight_down_beside_the_panel() -> None:
    right = side(front_view(worked_example(panel_stitches=10)), left=False)
    (seam,) = right.seams
    assert {round(x, 9) for x, _ in seam.path.coords} == {round(-10 / 0.95 / 2, 9)}
    assert max(y for _, y in seam.path.coords) == pytest.approx(0, abs=1e-9)
    assert min(y for _, y in seam.path.coords) == pytest.approx(-ROWS / 0.7)


def test_wearers_right_is_on_the_viewers_left_in_front_and_right_at_the_back() -> None:
    front, back = joined_views(worked_example())
    assert side(front, left=False).shape.centroid.x < 0 < side(front, left=True).shape.centroid.x
    assert side(back, left=True).shape.centroid.x < 0 < side(back, left=False).shape.centroid.x


def test_markers_are_on_the_hem_where_their_stitches_are() -> None:
    """By angle about the sector's centre, which the front has above the top of its front edge."""
    angle, inner, outer = sector()
    panel, per_cm = 10 / 0.95, 0.95
    made = worked_example(panel_stitches=10)
    (first,) = side(front_view(made), left=False).markers
    turn = FROM_FRONT / per_cm / outer
    assert first.number == FROM_FRONT + 1
    assert first.at[0] == pytest.approx(-panel / 2 - outer * math.sin(turn), abs=1e-3)
    assert first.at[1] == pytest.approx(inner - outer * math.cos(turn), abs=1e-3)
    (last,) = side(back_view(made), left=False).markers
    turn = angle / 2 - (FROM_FRONT + RUN) / per_cm / outer
    assert last.number == FROM_FRONT + RUN
    assert last.at[0] == pytest.approx(outer * math.sin(turn), abs=1e-3)
    assert last.at[1] == pytest.approx(inner - outer * math.cos(turn), abs=1e-3)


def test_left_markers_are_counted_on_from_the_right_front_edge() -> None:
    front, back = joined_views(worked_example())
    (far,), (near,) = side(front, left=True).markers, side(back, left=True).markers
    assert far.number == HEM - FROM_FRONT
    assert near.number == HEM - FROM_FRONT - RUN + 1


def test_each_run_starts_at_its_right_end_seen_from_outside_with_the_hem_up() -> None:
    """That is the end farther in counting, as the stitches are counted from the wearer's right."""
    made = worked_example()
    assert [each.number for each in markers(made, left=False) if each.starts] == [FROM_FRONT + RUN]
    assert [each.number for each in markers(made, left=True) if each.starts] == [HEM - FROM_FRONT]


def test_a_run_wholly_in_front_of_the_fold_has_no_band_at_the_back() -> None:
    made = garment(
        FlaredBody(neck=NECK, hem=HEM, rows=ROWS), HemArms(from_front=4, stitches=16), parts(GUIDE)
    )
    front, back = joined_views(made)
    assert [half.band for half in back.halves] == [None, None]
    assert [len(half.markers) for half in front.halves] == [2, 2]
    assert not any(half.band and half.band.starts_folded for half in front.halves)


def test_overlapping_runs_have_no_far_markers() -> None:
    """Their ends would be on the other half, where the other run's stitches are."""
    made = garment(
        FlaredBody(neck=NECK, hem=HEM, rows=ROWS), HemArms(from_front=60, stitches=16), parts(GUIDE)
    )
    assert [each.number for each in markers(made, left=False)] == [61]
    assert [each.number for each in markers(made, left=True)] == [HEM - 60]


def test_panel_shorter_than_the_front_edge_leaves_both_ends_free() -> None:
    front, back = joined_views(worked_example(panel_rows=ROWS - 5))
    right = side(front, left=False)
    (seam,) = right.seams
    assert seam.path.length == pytest.approx((ROWS - 5) / 0.7)
    edges = [*right.edges, *side(back, left=False).edges]
    assert sum(path.length for path in edges) == pytest.approx(HEM / 0.95 / 2 + 5 / 0.7, rel=1e-4)
    assert front.panel is not None
    assert front.panel.edges[1].length == pytest.approx(10 / 0.95)


def test_panel_longer_than_the_front_edge_hangs_over() -> None:
    front = front_view(worked_example(panel_rows=ROWS + 7, panel_stitches=10))
    assert front.panel is not None
    assert side(front, left=True).seams[0].path.length == pytest.approx(ROWS / 0.7)
    assert front.panel.edges[1].length == pytest.approx(10 / 0.95 + 2 * 7 / 0.7)


def test_mitred_lines_are_inside_their_part() -> None:
    """Four lines: two on each half, one on the back and one on the front."""
    body = MitredBody(neck=36, lines=4, rows=24, increase_rows=11, increase_every=2)
    made = garment(body, HemArms(from_front=24, stitches=16), parts(fabric()))
    for view in joined_views(made):
        for half in view.halves:
            (line,) = half.creases
            assert half.shape.covers(line.interpolate(0.5, normalized=True))
            assert line.length == pytest.approx(math.hypot(24, 11))


def test_the_last_increase_row_goes_all_round() -> None:
    """Four fifths down a flare from 40 to 120 cm it is 40 + 64 cm long, half of it on either side."""
    body = FlaredBody(neck=40, hem=120, rows=20, increase_every=2, increase_until=16)
    made = garment(body, HemArms(from_front=24, stitches=12), parts(fabric()))
    halves = [half for view in joined_views(made) for half in view.halves]
    for half in halves:
        (row,) = half.creases
        assert half.shape.buffer(1e-6).covers(row)
    assert sum(half.creases[0].length for half in halves) == pytest.approx(104, rel=2e-4)


@pytest.mark.slow
@pytest.mark.parametrize("circles", marked([1.2, 1.9, 2.4, 3.6] if thorough() else [1.2, 2.4]))
def test_bodies_over_a_full_circle_still_give_valid_views(circles: float) -> None:
    """Over two circles the body overlaps itself, over four its quarter would too."""
    rows = 10
    made = garment(
        FlaredBody(neck=36, hem=36 + round(circles * math.tau * rows), rows=rows),
        HemArms(from_front=20, stitches=10),
        parts(fabric()),
    )
    area = sum(shape.area for view in joined_views(made) for shape in view.shapes)
    opening = made.opening_angle or 0
    inner = 36 / opening
    body = opening / 2 * ((inner + rows) ** 2 - inner**2)
    assert area == pytest.approx(body + 10 * 20, rel=1e-3)
    for view in joined_views(made):
        for shape in (*view.shapes, view.neck_band.shape):
            assert shape.is_valid
        for half in view.halves:
            assert lengths_round(view, half) == pytest.approx(half.shape.exterior.length, abs=1e-6)


def test_a_body_of_which_a_quarter_overlaps_itself_has_no_views() -> None:
    """From four full circles on."""
    body = FlaredBody(neck=36, hem=36 + round(4.1 * math.tau * 10), rows=10)
    made = garment(body, HemArms(from_front=20, stitches=10), parts(fabric()))
    assert joined.joined_views(made, Limits()) is None


@pytest.mark.slow
def test_neck_band_deeper_than_the_neck_is_wide_is_drawn_less_deep() -> None:
    made = garment(FlaredBody(neck=10, hem=90, rows=10), HemArms(from_front=20, stitches=10), parts(fabric()))
    inner = 10 / 8.0
    for view in joined_views(made):
        assert view.neck_band.depth_cm == pytest.approx(0.95 * inner, rel=1e-3)
        assert made.neck.band_depth_cm == 4
        assert view.neck_band.shape.is_valid


@pytest.mark.slow
@SOME
@given(made=ANY)
def test_both_views_together_show_all_the_fabric_once(made: Garment) -> None:
    shown = sum(shape.area for view in joined_views(made) for shape in view.shapes)
    assert shown == pytest.approx(made.piece("body").area_cm2 + panel_area(made), rel=1e-6)


def panel_area(made: Garment) -> float:
    """Of the panel as it is joined: one that the front edge can be seamed to is drawn as long."""
    panel, front = made.piece("centre panel"), made.piece("body").edge("front")
    side = panel.edge("left side")
    return panel.area_cm2 * (front.length_cm / side.length_cm if eases(front, side) else 1.0)


def eases(one: Edge, other: Edge) -> bool:
    """By the limits as `explain` prints them: 3 %, 1 cm or a row of the coarser edge, whichever is most."""
    apart, longest = abs(one.length_cm - other.length_cm), max(one.length_cm, other.length_cm)
    row = max(each.length_cm / each.count for each in (one, other))
    return apart <= max(0.03 * longest, 1.0, row) + 1e-9


@pytest.mark.slow
@SOME
@given(made=ANY)
def test_every_shape_is_valid(made: Garment) -> None:
    for view in joined_views(made):
        bands = [view.neck_band, *(half.band for half in view.halves if half.band)]
        for shape in (*view.shapes, *(band.shape for band in bands)):
            assert shape.is_valid
            assert shape.area > 0


def touching_the_fold() -> Garment:
    """A mitred body of one and a quarter circles, a corner of whose hem lies on the line of the fold."""
    body = MitredBody(neck=74, lines=5, rows=4, increase_every=2, increase_rows=2)
    return garment(body, HemArms(from_front=39, stitches=6), parts(fabric(18, 36)), panel_rows=1)


def lengths_round(view: JoinedView, half: Half) -> float:
    """All that lies round a half together."""
    lines = [half.neck, half.fold, *half.edges, *(seam.path for seam in half.seams)]
    return sum(line.length for line in lines) + (view.middle.length if view.panel is None else 0.0)


@pytest.mark.slow
@SOME
@given(made=ANY)
@example(made=touching_the_fold())
def test_edges_seams_neck_and_fold_go_all_round_a_half(made: Garment) -> None:
    for view in joined_views(made):
        for half in view.halves:
            assert lengths_round(view, half) == pytest.approx(half.shape.exterior.length, abs=1e-6)


def test_a_corner_on_the_line_of_the_fold_is_not_taken_for_its_end() -> None:
    """Front and back have half of the body's neck edge between them, whatever else lies above it."""
    made = touching_the_fold()
    corners = made.piece("body").corners
    assert max(y for x, y in corners if abs(x) < 1e-9) > corners[-1][1] + 1
    for front, back in zip(*(view.halves for view in joined_views(made)), strict=True):
        assert front.neck.length + back.neck.length == pytest.approx(74 / 1.8 / 2)


@pytest.mark.slow
@SOME
@given(made=ANY)
def test_seams_are_as_long_as_the_shorter_of_their_edges(made: Garment) -> None:
    for seam in made.seams:
        drawn = [
            each.path.length
            for view in joined_views(made)
            for half in view.halves
            for each in half.seams
            if each.letter == seam.letter
        ]
        to_panel = {seam.first_piece, seam.second_piece} != {"body"}
        lengths = [seam.first.length_cm, seam.second.length_cm]
        joined = max(lengths) if eases(seam.first, seam.second) else min(lengths)
        front = made.piece("body").edge("front").length_cm
        assert sorted(drawn) == pytest.approx([min(joined, front)] if to_panel else sorted(lengths))


@pytest.mark.slow
@SOME
@given(made=ANY)
def test_left_half_mirrors_the_right_one(made: Garment) -> None:
    for view in joined_views(made):
        right, left = side(view, left=False), side(view, left=True)
        mirrored = Polygon([(-x, y) for x, y in right.shape.exterior.coords])
        assert mirrored.equals_exact(left.shape, 1e-9)
        for one, other in zip(right.markers, left.markers, strict=True):
            assert (-one.at[0], one.at[1]) == pytest.approx(other.at, abs=1e-9)
            assert (-one.inward[0], one.inward[1]) == pytest.approx(other.inward, abs=1e-9)


@pytest.mark.slow
@SOME
@given(made=ANY)
def test_markers_carry_the_numbers_of_the_run(made: Garment) -> None:
    assert sorted(each.number for each in markers(made, left=False)) == [made.arm.first, made.arm.last]
    assert sorted(each.number for each in markers(made, left=True)) == list(made.arm.left)


@pytest.mark.slow
@SOME
@given(made=ANY)
def test_markers_lie_as_far_along_the_edge_as_their_numbers_say(made: Garment) -> None:
    """On the drawn outline from the run's front corner, or from the fold at the back; either way round."""
    edge, arm = made.arm.edge, made.arm
    before = {arm.first: arm.first - 1, arm.last: arm.last}
    front, back = (side(view, left=False) for view in joined_views(made))
    corner = _front_corner(front, made)
    to_folds = _ways(front, corner, front.fold.coords[-1])
    for marker in front.markers:
        expected = edge.length_cm * before[marker.number] / edge.count
        assert any(way == pytest.approx(expected, abs=0.01) for way in _ways(front, corner, marker.at))
    for marker in back.markers:
        expected = edge.length_cm * before[marker.number] / edge.count
        ways = [each + way for each in to_folds for way in _ways(back, back.fold.coords[-1], marker.at)]
        assert any(way == pytest.approx(expected, abs=0.01) for way in ways)


def _front_corner(front: Half, made: Garment) -> tuple[float, float]:
    """Where counting starts: the foot of the front edge, or on a folded body the outer corner at the hem."""
    foot = -made.piece("body").edge("front").length_cm
    if made.construction == "folded":
        return front.shape.bounds[0], foot
    return front.neck.coords[0][0], foot


def _ways(half: Half, start: tuple[float, ...], end: tuple[float, ...]) -> tuple[float, float]:
    """Both distances along the outline."""
    ring = half.shape.exterior
    one = abs(ring.project(ShapelyPoint(start)) - ring.project(ShapelyPoint(end)))
    return one, ring.length - one
