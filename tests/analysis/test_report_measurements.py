"""measurements.json: complete, documented, and the same bytes every time."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from schematics.analysis.json_keys import MEASUREMENTS
from schematics.analysis.measurements import measurements
from schematics.checks.evaluation import evaluate
from schematics.document.json_text import as_text, number
from tests.specs_for_tests import SPEC, read

NAMED = re.compile(r"(\.wearer\.body|\.figures)\.[^.]+")
"""Keys that are names of things, which `MEASUREMENTS` writes as a star."""


_GUESSED = SPEC.replace("along: 0.15}", "along: 0.15, guessed: true}")
ODD = _GUESSED.replace("wearer: child/6", "wearer: {chart: child/6, shoulder_breadth: 12}")
"""With all that is told only where there is something to tell."""


@pytest.fixture(scope="module")
def document(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    design = read(tmp_path_factory.mktemp("spec"), ODD)
    return measurements(design, evaluate(design))


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(value, dict):
        for key, each in value.items():
            yield from leaves(each, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for each in value:
            yield from leaves(each, f"{path}[]")
    else:
        yield path, value


def size(document: dict[str, Any], name: str = "4") -> dict[str, Any]:
    return next(each for each in document["sizes"] if each["name"] == name)


def test_every_key_is_documented_and_every_documented_key_is_there(document: dict[str, Any]) -> None:
    emitted = {NAMED.sub(r"\1.*", path) for path, _ in leaves(document)}
    assert emitted == set(MEASUREMENTS)


def test_head_of_the_file(document: dict[str, Any]) -> None:
    assert document["format"] == 1
    assert re.fullmatch(r"schematics \d+\.\d+\.\d+", document["program"])
    assert [document[key] for key in ("spec", "title", "date", "unit", "construction")] == [
        "lake.yaml",
        "Lake poncho",
        "2024-03-01",
        "cm",
        "flared",
    ]
    assert [each["name"] for each in document["sizes"]] == ["4", "6 years"]


def test_lengths_are_counts_over_the_gauge(document: dict[str, Any]) -> None:
    """Closed form: 176 stitches at 14 to 10 cm are 125.714 cm, 49.49 in; 30 rows at 10 to 10 cm are 30 cm."""
    finished = {each["key"]: each for each in size(document)["finished"]}
    assert finished["body.hem"] == {
        "key": "body.hem",
        "name": "body hem edge",
        "cm": 125.714,
        "cm_printed": 125.5,
        "inches_printed": "49 1/2",
        "count": 176,
        "counted": "sts",
        "fabric": "half double",
    }
    assert finished["body.depth"]["cm"] == 30.0
    assert size(document)["drop_cm"] == 30.0
    assert finished["panel.width"]["cm"] == 7.5, "12 stitches at 16 to 10 cm"


def test_the_opening_angle_is_in_degrees(document: dict[str, Any]) -> None:
    """Closed form: (125.714 - 42.857) / 30 radians are 158.24 degrees."""
    assert size(document)["opening_angle_degrees"] == pytest.approx(158.24, abs=0.01)


def test_rings_at_rest_and_at_full_stretch(document: dict[str, Any]) -> None:
    """Closed form: the neck edge is 60/1.4 + 12/1.6 cm; stretched, 60/1.4 x 1.25 + 12/1.6 x 1.15.

    Its band has 72 rows at 14 to 10 cm: 51.429 cm, stretched by 0.6 to 82.286 cm.
    """
    neck, arm = size(document)["rings"]
    assert (neck["name"], arm["name"]) == ("neck", "arm")
    assert neck["edge_count"] == neck["band_rows"] == 72
    assert neck["edge_cm"] == neck["rest_cm"] == 50.357
    assert neck["edge_full_cm"] == neck["full_cm"] == 62.196
    assert (neck["band_cm"], neck["band_full_cm"]) == (51.429, 82.286)
    assert neck["band_depth_cm"] == 4.286
    assert arm["edge_count"] == 20


def test_markers_are_counted_inclusively_and_mirror_each_other(document: dict[str, Any]) -> None:
    arm = size(document)["arm"]
    assert arm["right"] == {"first": 41, "last": 60}
    assert arm["left"] == {"first": 117, "last": 136}
    assert arm["count"] == arm["right"]["last"] - arm["right"]["first"] + 1 == 20
    assert arm["back_count"] == 116 - 60


def test_increases_lead_from_neck_to_hem(document: dict[str, Any]) -> None:
    plan = size(document)["increases"]
    stitches = plan["start"]
    assert stitches == 60
    for row in plan["rows"]:
        assert row["before"] == stitches
        stitches += row["increases"]
        assert row["after"] == stitches
    assert stitches == 176


def test_seams_join_all_rows(document: dict[str, Any]) -> None:
    seams = size(document)["seams"]
    assert [each["letter"] for each in seams] == ["A", "B"]
    for seam in seams:
        assert seam["first"]["count"] == seam["second"]["count"] == 30
        assert (seam["join"]["first"], seam["join"]["second"], seam["join"]["longer"]) == (1, 1, None)
        assert seam["join"]["shares"] == [1] * 30


def test_a_join_of_unequal_edges_adds_up_to_both(tmp_path: Path) -> None:
    from tests.specs_for_tests import SPEC

    design = read(
        tmp_path, SPEC.replace("panel: {stitches: 12, rows: 30}", "panel: {stitches: 12, rows: 45}")
    )
    seam = size(measurements(design, evaluate(design)))["seams"][0]
    shares = seam["join"]["shares"]
    assert (len(shares), sum(shares)) == (30, 45)
    assert seam["join"]["longer"] == "second"
    assert (seam["join"]["first"], seam["join"]["second"]) == (2, 3)


def test_the_verdict_is_the_worst_of_all(document: dict[str, Any]) -> None:
    order = ["stop", "mind", "good"]
    for each in document["sizes"]:
        assert each["verdict"] == min((finding["severity"] for finding in each["findings"]), key=order.index)
    assert document["verdict"] == min((each["verdict"] for each in document["sizes"]), key=order.index)


def test_the_name_of_a_figure_tells_its_unit(document: dict[str, Any]) -> None:
    names = {
        name for each in document["sizes"] for finding in each["findings"] for name in finding["figures"]
    }
    assert [
        name for name in names if not name.endswith(("_cm", "_count", "_rows", "_radians", "_fraction"))
    ] == []


def test_every_body_measurement_says_where_it_comes_from(document: dict[str, Any]) -> None:
    body = size(document)["wearer"]["body"]
    assert body["chest_girth"]["origin"] == "chart"
    assert body["chest_girth"]["borrowed"] is False
    assert body["head_girth"]["borrowed"] is True
    for value in body.values():
        assert value["source"]
        assert value["low_cm"] <= value["cm"] <= value["high_cm"]


def test_cautions_go_along(document: dict[str, Any]) -> None:
    words = " ".join(each["sentence"] for each in document["cautions"])
    for word in ("cords", "under three", "harness", "sleeping", "flames", "local rules"):
        assert word in words


def test_the_same_design_gives_the_same_bytes(document: dict[str, Any], tmp_path: Path) -> None:
    design = read(tmp_path, ODD)
    again = as_text(measurements(design, evaluate(design)))
    assert again == as_text(document)
    assert again.endswith("}\n")
    assert json.loads(again) == document


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (1.0004999, 1.0),
        (2.0006, 2.001),
        (3, 3),
        (None, None),
        (float("inf"), None),
        (float("nan"), None),
    ],
)
def test_number(value: float | None, expected: float | None) -> None:
    assert number(value) == expected


def test_a_small_negative_number_is_not_minus_nought() -> None:
    assert str(number(-0.0001)) == "0.0"
