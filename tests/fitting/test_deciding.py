"""What to measure to be sure, of 25 children: held against one child at a time, with one length at a time."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from statistics import NormalDist

import pytest

from schematics.checks.certainty import chance_words
from schematics.checks.check_names import check_name, check_names
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.size_rules import asked_bodies
from schematics.design.design import Design
from schematics.document.document import Table
from schematics.document.writers import written
from schematics.fitting.deciding import MOST_DECIDED
from schematics.fitting.gauge import SizeAtGauge, size_at_gauge
from schematics.fitting.group import GroupFit, group_fit
from schematics.fitting.group_file import read_group
from schematics.fitting.group_report import group_document, rows
from schematics.fitting.sizing import best, size_fits
from schematics.units import Unit
from schematics.wearer.body import Body, Origin, WearerSpec
from schematics.wearer.resolve import resolve
from tests.examples import marked, thorough
from tests.fitting.children import demo

ALL = {
    "age": "6", "height": "116", "head_girth": "52", "neck_girth": "27", "chest_girth": "59",
    "upper_arm_girth": "18", "wrist_girth": "13", "hand_girth": "15.5", "shoulder_breadth": "27",
    "centre_back_neck_to_wrist": "50", "armhole_depth": "14", "back_waist_length": "27",
    "nape_height": "94.5", "forearm_length": "17", "waist_height": "68", "hip_height": "58",
    "knee_height": "31",
}  # fmt: skip
"""A six-year-old of whom everything was measured."""

AGE = {"age": "6"}
TALLER = {"age": "9", "height": "134", "centre_back_neck_to_wrist": "58", "nape_height": "110.5"}


def bodies(found: GroupFit) -> dict[int, Body]:
    return {place: decided.body for place, decided in (found.deciding or {}).items()}


def without(*keys: str, **changes: str) -> dict[str, str]:
    return {key: value for key, value in (ALL | changes).items() if key not in keys}


LINES: tuple[dict[str, str], ...] = (
    ALL,
    without("head_girth"),
    without("neck_girth"),
    without("chest_girth"),
    without("wrist_girth"),
    without("hand_girth"),
    without("shoulder_breadth"),
    without("centre_back_neck_to_wrist"),
    without("knee_height"),
    without("back_waist_length"),
    without("centre_back_neck_to_wrist", "wrist_girth"),
    without("centre_back_neck_to_wrist", "head_girth", "hand_girth"),
    without("wrist_girth", "hand_girth", "neck_girth"),
    without("centre_back_neck_to_wrist", **TALLER | {"head_girth": "53"}),
    {"age": "2"},
    {"age": "3 1/2"},
    {"age": "6"},
    {"age": "8"},
    {"age": "11"},
    {"age": "6", "height": "116"},
    {"age": "9", "height": "133"},
    {"age": "6", "head_girth": "54"},
    {"age": "4", "height": "103", "head_girth": "51", "wrist_girth": "12"},
    {"age": "6", "height": "125", "head_girth": "51", "shoulder_breadth": "29"},
    {"age": "12", "height": "150", "head_girth": "54.5", "hand_girth": "19"},
    {
        "age": "6", "height": "121", "head_girth": "51", "neck_girth": "25.7", "chest_girth": "57",
        "upper_arm_girth": "17", "hand_girth": "15", "shoulder_breadth": "29", "forearm_length": "18.4",
        "armhole_depth": "13.7", "back_waist_length": "29.9", "nape_height": "100.6", "waist_height": "70.7",
        "hip_height": "57.5", "knee_height": "32.4",
    },
)  # fmt: skip
SOME = (5, 25)
"""Of one nothing is to be measured, of one rather for the size."""
TRIED = 15
"""Lengths of each measurement, each as likely as another: a share is known to one of them at either end."""


def told(design: Design, lines: tuple[Mapping[str, str], ...], folder: Path) -> GroupFit:
    columns = dict.fromkeys(key for line in lines for key in line)
    text = [",".join(columns), *(",".join(line.get(key, "") for key in columns) for line in lines)]
    path = folder / "class.csv"
    path.write_text("\n".join(text) + "\n", encoding="utf-8")
    group = read_group(path, Unit.CM)
    assert group.problems == ()
    return group_fit(design, design.sizes, group)


@cache
def made() -> tuple[Design, tuple[SizeAtGauge, ...]]:
    """A demo in its sizes from 4 to 10."""
    design = demo("tidepool")
    design = replace(design, sizes=design.sizes[1:5])
    return design, tuple(size_at_gauge(design, size) for size in design.sizes)


def advice(spec: WearerSpec) -> tuple[str, Answer]:
    """The size and its worst answer, as `schematics fit` finds them for one child."""
    design, sizes = made()
    fit = best(size_fits(design, sizes, resolve(spec, "the child")))
    worst = fit.on_wearer
    return ("" if worst is Answer.STOP else fit.name), max(worst, Answer.UNKNOWN)


def lengths(body: Body, spec: WearerSpec) -> list[float]:
    """What it may come out as: by the table's spread, or what it is estimated from, and the rest of it.

    The ends of a spread are at 1.645 standard deviations, the high end of heads at 1.881.
    """
    value = resolve(spec, "the child").values[body]
    spread = (value.high_cm - value.low_cm) / 2
    if value.origin is Origin.AGE_TABLE:
        sd_cm = spread / (1.881 if body is Body.HEAD_GIRTH else 1.645)
    else:
        sd_cm = math.hypot(spread / 1.645, value.sd_cm)
    return [NormalDist(value.cm, sd_cm or 1e-9).inv_cdf((place + 0.5) / TRIED) for place in range(TRIED)]


def shares(line: Mapping[str, str]) -> dict[Body, tuple[float, float]]:
    """How often the size, and how often size or verdict, would be another if each measurement were taken."""
    own = {body: float(line[body]) for body in Body if body in line}
    spec = WearerSpec(age_years=float(line["age"].replace(" 1/2", ".5")), own=own)
    before, found = advice(spec), {}
    for body in asked_bodies(made()[0].limits) - own.keys():
        after = [advice(replace(spec, own=own | {body: each})) for each in lengths(body, spec)]
        size = sum(each[0] != before[0] for each in after)
        found[body] = size / TRIED, sum(each != before for each in after) / TRIED
    return found


@pytest.mark.slow
@pytest.mark.parametrize("place", marked(range(len(LINES)) if thorough() else SOME))
def test_it_is_what_most_often_changes_the_advice_of_one_child(place: int, tmp_path: Path) -> None:
    found = bodies(told(made()[0], LINES[place : place + 1], tmp_path)).get(0)
    expected = shares(LINES[place])
    sizes = {body: size for body, (size, _) in expected.items()}
    either = {body: both for body, (_, both) in expected.items()}
    off = 2 / TRIED
    if found is None:
        assert max(either.values(), default=0.0) < 0.1 + off, expected
    elif max(sizes.values()) > 0.1 + off:
        assert sizes[found] > max(sizes.values()) - off, (found, expected)
    else:
        assert either[found] > 0.1 - off, (found, expected)
        assert max(sizes[found], 0.1) + off > max(sizes.values())
        assert either[found] > max(either.values()) - off or sizes[found] > 0.1 - off, (found, expected)


@pytest.mark.slow
def test_where_one_measurement_is_wanting_it_is_that_or_none(tmp_path: Path) -> None:
    """Whatever was measured is known: nothing is said of it, and nothing at all of who has everything."""
    keys = sorted(ALL.keys() - {"age"})
    found = bodies(told(demo("tidepool"), (*map(without, keys), ALL), tmp_path))
    assert found
    assert found.items() <= {place: Body(key) for place, key in enumerate(keys)}.items()


@pytest.mark.parametrize(("deviates", "expected"), [(0.5, {0: Body.HEAD_GIRTH}), (4.0, {})])
def test_where_only_the_head_is_wanting_it_is_the_head_if_it_may_not_pass(
    deviates: float, expected: dict[int, Body], tmp_path: Path
) -> None:
    """The band gives to so many standard deviations above the middle of heads: 31 % do not pass, or none.

    The high end, the 97th percentile, is 1.881 of them up.
    """
    head = resolve(WearerSpec(age_years=6), "the child").values[Body.HEAD_GIRTH]
    full_cm = head.cm + deviates * (head.high_cm - head.cm) / 1.881
    tight = with_band_giving(made()[0], full_cm)
    assert bodies(told(tight, (without("head_girth"),), tmp_path)) == expected


def with_band_giving(design: Design, full_cm: float) -> Design:
    """Its size 6 alone, with a neck band that gives to that girth and is known to."""
    size = design.sizes[1]
    band = design.parts.neck_band
    rest_cm = size_at_gauge(design, size).garment.neck.band_cm
    fabric = replace(band, name="neck", stretch_along=full_cm / rest_cm - 1, stretch_pulls=10_000)
    return replace(design, sizes=(size,), parts=replace(design.parts, neck_band=fabric))


@pytest.mark.slow
def test_without_an_age_the_height_lets_most_be_judged(tmp_path: Path) -> None:
    """The height tells neck to wrist, waist and knee: reach, spread and both ways to hang can be judged."""
    group = told(demo("tidepool"), ({"head_girth": "52"}, {"head_girth": "52", "height": "116"}), tmp_path)
    first, second = rows(group)
    assert first["measure"] == "height"
    assert {"REACH-BAND", "HANG-KNEE", "SPREAD-ARMS"} <= set(first["not_checked"])
    assert not {"REACH-BAND", "HANG-KNEE", "SPREAD-ARMS"} & set(second["not_checked"])


def test_a_crowd_is_told_that_it_is_not_worked_out(tmp_path: Path) -> None:
    lines = ({"age": "6"},) * (MOST_DECIDED + 1)
    found = told(replace(demo("tidepool"), sizes=demo("tidepool").sizes[:1]), lines, tmp_path)
    assert found.deciding is None
    assert next(rows(found))["measure"] is None


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (ALL | {"head_girth": "50"}, "sure"),
        (ALL | {"head_girth": "53.4"}, "nothing measured would settle it"),
        (without("head_girth"), "head girth, for the size"),
        (ALL | {"head_girth": "28"}, "what is asked about below"),
    ],
)
def test_whom_nothing_is_to_be_measured_of_is_told_why(
    line: dict[str, str], words: str, tmp_path: Path
) -> None:
    """The band lets 53.6 cm through, a head is measured to 0.5 cm; of the third child it is not known,
    the fourth was measured in other units or wrongly."""
    tight = with_band_giving(made()[0], 53.6)
    (section, *_) = (
        each
        for each in group_document(tight, told(tight, (line,), tmp_path), None, show_all=False).sections
        if isinstance(each.blocks[0], Table) and each.blocks[0].header[-1] == "measure first"
    )
    assert isinstance(section.blocks[0], Table)
    (row,) = section.blocks[0].rows
    assert row[-1] == words


@pytest.mark.slow
def test_whom_to_measure_is_told_by_the_measurement_that_helps_most(tmp_path: Path) -> None:
    """Two of whom only the age is known, one half measured, one of whom nothing is wanting."""
    lines = tuple(
        {"name": name, **line}
        for name, line in zip(("Ann", "Bo", "Cy", "Di"), (AGE, ALL, without("height"), AGE), strict=True)
    )
    found = told(demo("tidepool"), lines, tmp_path)
    document = group_document(demo("tidepool"), found, None, show_all=False)
    text = " ".join("".join(written([document], "md")).split())
    wanted = {each["name"]: each["measure"] for each in rows(found)}
    assert wanted["Ann"] == wanted["Di"] is not None
    alike = [name for name, measure in wanted.items() if measure == wanted["Ann"]]
    assert f"The {wanted['Ann']} of {', '.join(alike[:-1])} and {alike[-1]}: it may change the " in text
    for row, uncertain in zip(rows(found), found.uncertain, strict=True):
        assert uncertain or row["measure_for"] != "the size"
        assert set(row["not_sure"]) <= set(row["minds"])
        found_so = [code for code in row["minds"] if code not in row["not_sure"]]
        assert not found_so or f"mind: {', '.join(check_names(found_so))}" in text
        for code, chance in zip(row["not_sure"], row["not_sure_chances"], strict=True):
            assert f"{check_name(code)} ({chance_words(chance)})" in text
