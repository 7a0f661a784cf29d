"""The figure: breadths against elliptic integrals, heights and lengths against the measurements."""

from __future__ import annotations

import csv
import math
from dataclasses import fields, replace
from importlib.resources import files
from statistics import median
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe
from shapely import LineString, Polygon
from shapely.affinity import scale

from schematics.wearer.body import WearerSpec
from schematics.wearer.body_figure import HIP_TO_CHEST, FigureSize, Pose, ellipse_breadth, figure
from schematics.wearer.proportions import proportioned
from schematics.wearer.resolve import resolve
from tests.examples import examples

CHILD = FigureSize(
    height_cm=101,
    head_girth_cm=50,
    neck_girth_cm=24,
    chest_girth_cm=58,
    upper_arm_girth_cm=19,
    wrist_girth_cm=12,
    hand_girth_cm=14,
    shoulder_breadth_cm=25,
    centre_back_neck_to_wrist_cm=49,
    nape_height_cm=80,
    waist_height_cm=56,
    hip_height_cm=46,
    knee_height_cm=28,
)

NEAR = 0.05
"""What the drawing may be off, in cm."""


def sizes() -> st.SearchStrategy[FigureSize]:
    """The child with every measurement changed by up to a quarter on its own, then grown or shrunk."""
    names = [field.name for field in fields(FigureSize)]
    changes = st.fixed_dictionaries({name: st.floats(0.75, 1.25) for name in names})

    def made(by: dict[str, float], growth: float) -> FigureSize:
        changed: Any = {name: getattr(CHILD, name) * share * growth for name, share in by.items()}
        return FigureSize(**changed)

    return st.builds(made, changes, st.floats(0.5, 1.9))


def breadth_by_integral(girth_cm: float, depth_share: float) -> float:
    """The girth of an ellipse is 4 a E(1 - (b/a)^2), a and b its longer and shorter half."""
    shorter, longer = sorted((1.0, depth_share))
    return girth_cm / float(2 * longer * ellipe(1 - (shorter / longer) ** 2))


def across(shape: Polygon, y: float) -> list[tuple[float, float]]:
    """Where a level line runs through the shape, from left to right."""
    cut = shape.intersection(LineString([(-500, y), (500, y)]))
    parts = [part for part in getattr(cut, "geoms", [cut]) if isinstance(part, LineString)]
    return sorted((part.bounds[0], part.bounds[2]) for part in parts)


def upright(shape: Polygon, x: float) -> tuple[float, float]:
    """Lowest and highest point of the shape there."""
    cut = shape.intersection(LineString([(x, -500), (x, 500)]))
    return float(cut.bounds[1]), float(cut.bounds[3])


@given(st.floats(10, 200), st.floats(0.5, 2))
def test_an_ellipse_is_as_broad_as_its_girth_makes_it(girth: float, depth_share: float) -> None:
    assert ellipse_breadth(girth, depth_share) == pytest.approx(
        breadth_by_integral(girth, depth_share), rel=1e-8
    )


def test_a_circle() -> None:
    assert ellipse_breadth(math.pi, 1) == pytest.approx(1, rel=1e-12)


@given(sizes(), st.floats(math.radians(6), math.pi / 2))
@examples(60)
def test_the_outline_is_valid_in_one_part_and_the_same_on_both_sides(size: FigureSize, angle: float) -> None:
    outline = figure(size, angle).outline
    assert outline.is_valid
    mirrored = scale(outline, xfact=-1, origin=(0, 0))
    assert outline.symmetric_difference(mirrored).area < 1e-6 * outline.area
    assert outline.area > size.hip_height_cm * size.hip_breadth_cm / 4


@given(sizes(), st.floats(0.2, 4), st.sampled_from(Pose))
@examples(40)
def test_it_grows_with_its_measurements(size: FigureSize, growth: float, pose: Pose) -> None:
    grown: Any = {field.name: getattr(size, field.name) * growth for field in fields(FigureSize)}
    bigger = figure(FigureSize(**grown), pose.value).outline
    expected = scale(figure(size, pose.value).outline, growth, growth, origin=(0, 0))
    assert bigger.hausdorff_distance(expected) < 1e-6 * growth * size.height_cm


@given(sizes())
@examples(40)
def test_it_stands_on_the_floor_and_is_as_high_as_measured(size: FigureSize) -> None:
    outline = figure(size, Pose.LEVEL.value).outline
    assert outline.bounds[1] == pytest.approx(0, abs=NEAR)
    assert outline.bounds[3] == pytest.approx(max(size.height_cm, size.nape_height_cm), abs=NEAR)


def test_where_things_come_on_the_child() -> None:
    """Read on the outline, against the measurements and the formulas of a circle and an ellipse."""
    outline = figure(CHILD, Pose.LEVEL.value).outline
    assert outline.bounds[3] == pytest.approx(101, abs=NEAR)
    assert outline.bounds[1] == pytest.approx(0, abs=NEAR)
    neck = 24 / math.pi / 2
    shoulder = 80 - (12.5 - neck) * math.tan(math.radians(20))
    assert upright(outline, 12.5 + 1e-6)[1] == pytest.approx(shoulder, abs=NEAR)
    ((left, right),) = across(outline, 80 - 0.5)
    assert right - left == pytest.approx(2 * (neck + 0.5 / math.tan(math.radians(20))), abs=NEAR)
    ((left, right),) = across(outline, 80 + 0.5)
    assert right - left == pytest.approx(2 * neck, abs=NEAR)
    under_arm = shoulder - 19 / math.pi
    ((left, right),) = across(outline, under_arm - 0.01)
    assert right - left == pytest.approx(breadth_by_integral(58, 0.69), abs=NEAR)
    ((left, right),) = across(outline, 46.05)
    assert right - left == pytest.approx(breadth_by_integral(58 * HIP_TO_CHEST, 0.69), abs=NEAR)
    head = breadth_by_integral(50, 1 / 0.78)
    height = 1.1 * head / 0.78
    ((left, right),) = across(outline, 101 - height / 2)
    assert right - left == pytest.approx(head, abs=NEAR)
    knees = across(outline, 28)
    assert [b - a for a, b in knees] == pytest.approx([0.06 * 101] * 2, abs=0.1)


@given(sizes())
@examples(40)
def test_level_arms_reach_as_far_as_measured(size: FigureSize) -> None:
    """Centre back neck to wrist lies level: there the arm is a wrist thick, a hand further it ends."""
    body = figure(size, Pose.LEVEL.value)
    wrist = max(size.centre_back_neck_to_wrist_cm, size.shoulder_breadth_cm / 2)
    assert body.outline.bounds[2] == pytest.approx(wrist + 0.108 * size.height_cm, abs=NEAR)
    low, high = upright(body.outline, wrist)
    if size.arm_cm > size.upper_arm_girth_cm:
        assert high - low == pytest.approx(size.wrist_girth_cm / math.pi, rel=0.03)
    assert body.arm.at(0)[1] == pytest.approx(size.shoulder_height_cm - size.upper_arm_girth_cm / math.tau)


@given(sizes(), st.floats(math.radians(6), math.pi / 2))
@examples(60)
def test_arms_are_as_long_in_every_pose(size: FigureSize, angle: float) -> None:
    arm = figure(size, angle).arm
    outer = arm.upper_radius_cm
    assert arm.at(0, outer) == pytest.approx((size.shoulder_breadth_cm / 2, size.shoulder_height_cm))
    assert math.dist(arm.at(0, outer), arm.at(arm.length_cm, outer)) == pytest.approx(
        size.centre_back_neck_to_wrist_cm - size.shoulder_breadth_cm / 2, abs=1e-9
    )
    assert math.dist(*(arm.side(arm.length_cm, way) for way in (1, -1))) == pytest.approx(
        size.wrist_girth_cm / math.pi
    )


def test_a_wrist_nearer_than_the_shoulder_leaves_no_arm() -> None:
    assert figure(replace(CHILD, centre_back_neck_to_wrist_cm=10)).arm.length_cm == 0


def test_limbs_without_girth_are_left_out() -> None:
    bare = figure(replace(CHILD, upper_arm_girth_cm=0, wrist_girth_cm=0, hand_girth_cm=0)).outline
    assert bare.is_valid
    assert bare.bounds[3] == pytest.approx(101, abs=NEAR)


def test_hips_over_chest_are_the_middle_of_the_trades_chart() -> None:
    """Craft Yarn Council, Standards & Guidelines: hips over chest or bust of every row, the median."""
    text = files("schematics.wearer").joinpath("data/body_sizes.csv").read_text("utf-8")
    rows: dict[tuple[str, str], dict[str, float]] = {}
    for row in csv.DictReader(text.splitlines()):
        middle = (float(row["cm_low"]) + float(row["cm_high"])) / 2
        rows.setdefault((row["group"], row["size"]), {})[row["measure"]] = middle
    shares = [row["hips"] / row.get("chest", row.get("bust", math.nan)) for row in rows.values()]
    assert pytest.approx(median(shares), abs=0.01) == HIP_TO_CHEST


@pytest.mark.parametrize(("row", "heads"), [("child/4", 5), ("woman/M", 7.5)])
def test_so_many_heads_high(row: str, heads: float) -> None:
    """Figure drawing's canon, from memory: five heads at four years, seven and a half grown."""
    body = proportioned(resolve(WearerSpec(chart=row), "x"))
    assert body is not None
    assert body.size.height_cm / body.size.head_height_cm == pytest.approx(heads, abs=0.25)
