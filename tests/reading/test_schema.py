"""The JSON Schema that editors use: current, itself valid, and of one mind with the reader."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from schematics.design.limits import LIMIT_FIELDS
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import read_design
from schematics.reading.json_schema import SCHEMA_PATH, design_schema, schema_text, write_schema
from schematics.reading.loading import load
from schematics.reading.problems import SpecError
from schematics.wearer.body import Body
from schematics.wearer.rows import references
from tests.reading.files import HERE, edited, write

SCHEMA = design_schema()
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def test_the_shipped_schema_is_current() -> None:
    assert SCHEMA_PATH.read_text(encoding="utf-8") == schema_text(), (
        "run: python -m schematics.reading.write_schema"
    )


def test_writing_the_schema(tmp_path: Path) -> None:
    write_schema(tmp_path / "schema.json")
    assert json.loads((tmp_path / "schema.json").read_text(encoding="utf-8")) == SCHEMA


@pytest.mark.slow
def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_the_good_spec_is_valid() -> None:
    assert list(VALIDATOR.iter_errors(load(HERE / "good.yaml").data)) == []


BAD_FOR_BOTH = [
    ("title: Harbour poncho", "titel: Harbour poncho"),
    ("title: Harbour poncho", "title: 7"),
    ("unit: cm", "unit: mm"),
    ("construction: flared", "construction: flaired"),
    ("weight: 5", "weight: 8"),
    ("hook: 9", "hook: Z"),
    ("hook: 9", "hook: 50"),
    ("stitches: 19,", "stitches: 0,"),
    ("width: 20,", "width: -20,"),
    ("width: 20,", "width: 1:30,"),
    ("across: 0.15", "across: 15"),
    ("along: 10 %", "along: ten"),
    ("of: 4", "of: 4.5"),
    ("turning_chains: 3", "turning_chains: 11"),
    ("arm_bands: rib\n", "\n"),
    ("neck_clearance_cm: 3", "neck_clearance: 3"),
    ("arm_rest_high_fraction: 40 %", "arm_rest_high_fraction: 40"),
    ("wearer: child/4", "wearer: child/44"),
    ("wearer: child/4", "wearer: {inside_leg: 50}"),
    ("hem: 168", "hem: 168.5"),
    ("hem: 168", "hemm: 168"),
    ("hem: 168", "hem: 10001"),
    ("arms: {from_front: 34, stitches: 18}", "arms: {from_front: 34}"),
    ("panel: {stitches: 14, rows: 43}", "panel: 14"),
    ('"6":', '"6/8":'),
    ('"6":', '"..":'),
]


@pytest.mark.parametrize(("old", "new"), BAD_FOR_BOTH)
def test_schema_and_reader_refuse_the_same(old: str, new: str, tmp_path: Path) -> None:
    path = write(tmp_path, edited((old, new)))
    assert not VALIDATOR.is_valid(load(path).data)
    with pytest.raises(SpecError):
        read_design(path)


GOOD_FOR_BOTH = [
    ("date: 2026-09-14", "date:"),
    ("hook: 9", "hook: 9.5 mm"),
    ("hook: 9", "hook: M"),
    ("hook: 9", "hook: US L/11"),
    ("hook: 9", "hook: US 10 1/2"),
    ("width: 20,", "width: 8 1/2 in,"),
    ("width: 20,", "width: .5 in,"),
    ("width: 20,", "width: '8 1/2\"',"),
    ("across: 0.15", "across: 15%"),
    ("wearer: child/4", "wearer: age/6.5"),
    ("wearer: child/4", "wearer: {head_girth: 50, age: 4}"),
]


@pytest.mark.parametrize(("old", "new"), GOOD_FOR_BOTH)
def test_schema_and_reader_accept_the_same(old: str, new: str, tmp_path: Path) -> None:
    path = write(tmp_path, edited((old, new)))
    assert list(VALIDATOR.iter_errors(load(path).data)) == []
    read_design(path)


def test_an_editor_can_offer_every_key_and_word() -> None:
    definitions = SCHEMA["$defs"]
    offered = {each["const"]: each["description"] for each in SCHEMA["properties"]["construction"]["oneOf"]}
    assert offered == {each.word: each.summary for each in CONSTRUCTIONS.values()}
    assert set(definitions["WearerBlock"]["properties"]) == {"chart", "age", *Body}
    assert set(definitions["LimitsBlock"]["properties"]) == set(LIMIT_FIELDS)
    wearer = definitions["SizeBlock"]["properties"]["wearer"]["anyOf"]
    assert list(references()) in [each.get("enum") for each in wearer[0]["anyOf"]]


def _properties(part: Any) -> dict[str, Any]:
    if isinstance(part, list):
        part = dict(enumerate(part))
    if not isinstance(part, dict):
        return {}
    found = {
        key: each for key, each in part.get("properties", {}).items() if "type" in each or "anyOf" in each
    }
    for each in part.values():
        found |= _properties(each)
    return found


def test_every_key_is_described() -> None:
    described = _properties({key: part for key, part in SCHEMA.items() if key != "allOf"})
    assert len(described) > 40
    assert [key for key, each in described.items() if not each.get("description")] == []
    for rule in SCHEMA["allOf"]:
        counts = rule["then"]["properties"]["sizes"]["additionalProperties"]["properties"]
        for block in counts.values():
            assert all(each.get("description") for each in block["properties"].values())
