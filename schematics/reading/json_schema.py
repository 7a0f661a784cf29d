"""The JSON Schema of a spec, for editors; ``python -m schematics.reading.write_schema`` writes it anew."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from schematics.crochet.fabric import MOST_STRETCH
from schematics.garment.constructions import CONSTRUCTIONS, Construction
from schematics.garment.constructions.base import Counts
from schematics.reading.count_blocks import findable, models
from schematics.reading.spec_block import LARGEST_COUNT
from schematics.reading.spec_model import MOST_SIZES, DesignBlock
from schematics.reading.spec_words import SIZE_NAME_PATTERN
from schematics.reading.values import Fraction, LengthValue

SCHEMA_PATH = Path(__file__).with_name("design.schema.json")
_SHARED = {
    "Length": LengthValue(0, 0).schema(),
    "Stretch": Fraction(0, MOST_STRETCH).schema(),
    "LimitFraction": Fraction(-1, 2).schema(),
}


def design_schema() -> dict[str, Any]:
    """The schema, after JSON Schema draft 2020-12.

    It knows the counts of every construction. What needs two places of the file at once (part
    names, folder names, plausible lengths) only reading finds, see `design_file`.
    """
    schema = DesignBlock.model_json_schema(mode="validation")
    sizes = schema["properties"]["sizes"]
    sizes["maxProperties"] = MOST_SIZES
    sizes["propertyNames"]["pattern"] = SIZE_NAME_PATTERN
    schema["allOf"] = [
        _counts_of(each, graded=graded) for each in CONSTRUCTIONS.values() for graded in (False, True)
    ]
    schema = _tidied(schema)
    schema["$defs"] |= _SHARED
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **schema,
        "title": "Poncho design",
    }


def _tidied(part: Any) -> Any:
    """Without titles that repeat the key and defaults that say nothing; shared kinds by name.

    Whole numbers lose their point: ``typing`` hands out the first made of two equal annotations, so whether
    a limit is 2 or 2.0 would depend on what was imported first.
    """
    if isinstance(part, float) and part.is_integer():
        return int(part)
    if isinstance(part, list):
        return [_tidied(each) for each in part]
    if not isinstance(part, dict):
        return part
    for name, kind in _SHARED.items():
        if part == kind:
            return {"$ref": f"#/$defs/{name}"}
    return {
        key: _tidied(each)
        for key, each in part.items()
        if not (key == "title" and isinstance(each, str)) and not (key == "default" and each is None)
    }


def _counts_of(construction: Construction, *, graded: bool) -> dict[str, Any]:
    """What a size must hold; where there is a grading block, only what grading cannot find."""
    counts = {}
    for key, model in models(construction).items():
        counts[key] = _counts(model)
        if graded:
            free = findable(key, model, construction)
            left = [name for name in counts[key].get("required", []) if name not in free]
            counts[key] = {**counts[key], "required": left}
    required = [key for key, each in counts.items() if each["required"]]
    word = {"properties": {"construction": {"const": construction.word}}, "required": ["construction"]}
    block = {"required": ["grading"]} if graded else {"not": {"required": ["grading"]}}
    return {
        "if": {"allOf": [word, block]},
        "then": {
            "properties": {"sizes": {"additionalProperties": {"required": required, "properties": counts}}}
        },
    }


def _counts(model: type[Counts]) -> dict[str, Any]:
    schema = model.model_json_schema(mode="validation")
    for each in schema["properties"].values():
        if each.get("type") == "integer":
            each.setdefault("maximum", LARGEST_COUNT)
    return schema


def write_schema(path: Path = SCHEMA_PATH) -> None:
    """Write the schema as the package ships it."""
    path.write_text(schema_text(), encoding="utf-8")


def schema_text() -> str:
    """The text of the file."""
    return json.dumps(design_schema(), indent=2, ensure_ascii=False) + "\n"
