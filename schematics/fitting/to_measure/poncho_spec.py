"""The spec of a design made to measure: the pattern's with one size, its wearer and the maker's swatches."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import yaml

from schematics.crochet.fabric import Swatch
from schematics.design.design import Design, Size, Yarn
from schematics.errors import UsageError
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure
from schematics.fitting.to_measure.mixed_number import mixed_number, nearest_fraction
from schematics.garment.constructions.base import counts_of
from schematics.reading.design_file import parse_draft
from schematics.reading.loading import content_of, parse
from schematics.reading.problems import SpecError
from schematics.reading.scalars import core_scalar
from schematics.units import Unit
from schematics.wearer.body import WearerSpec

SPEC = "design.yaml"
"""The name of its file."""

_HEAD = "# Made to measure by the program from the spec of the pattern; change it as any other.\n"


def poncho_spec(poncho: MadeToMeasure) -> bytes:
    """The text of a spec that reads as what was made; the pattern's is read for all that stays as it is.

    Raises:
        SchematicsError: the pattern's spec cannot be read any more, or no longer is the one that was read.
    """
    path = poncho.design.path
    data = dict(parse(path, content_of(path)).data)
    data.pop("grading", None)
    (size,), unit = poncho.design.sizes, Unit(data["unit"])
    data |= {
        "title": poncho.design.title,
        "yarn": _yarn(poncho.design.yarn),
        "fabrics": {name: _fabric(poncho, name, block, unit) for name, block in data["fabrics"].items()},
        "sizes": {size.name: {"wearer": _wearer(size.wearer, unit), **_counts(size)}},
    }
    content = (
        _HEAD + yaml.dump(data, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=100)
    ).encode()
    try:
        read = parse_draft(path.parent / SPEC, content).design()
    except SpecError as error:
        raise UsageError(f"{path}: no spec can be written of what was made: {error}") from None
    if _compared(read) != _compared(poncho.design):
        raise UsageError(f"{path}: it was changed since it was read; try again")
    return content


def files_beside(design: Design) -> Iterator[tuple[str, Path]]:
    """The images and fonts beside a design's spec that it names, each with its place in a folder."""
    publication = design.publication
    named = (
        publication.house.font,
        publication.house.lettering,
        publication.house.logo,
        *(each.file for each in publication.photos),
    )
    for name in dict.fromkeys(each for each in named if each):
        if (path := design.path.parent / name).is_file():
            yield name, path


def _compared(design: Design) -> tuple[Any, ...]:
    """What has to be read back as it was."""
    sizes = [(each.name, each.wearer, counts_of(each)) for each in design.sizes]
    return design.title, design.yarn, design.parts, sizes, design.limits, design.publication


def _yarn(yarn: Yarn) -> dict[str, Any]:
    values = {
        "name": yarn.name,
        "fibre": yarn.fibre,
        "colour": yarn.colour,
        "shades": dict(yarn.shades) or None,
        "weight": yarn.weight,
        "ball_mass": yarn.ball_mass_g,
        "ball_length": yarn.ball_length_m,
    }
    return {key: value for key, value in values.items() if value is not None}


def _fabric(poncho: MadeToMeasure, name: str, block: Mapping[str, Any], unit: Unit) -> dict[str, Any]:
    """The block of a fabric with the swatch that is worked to; one in no part stays as it is."""
    own = poncho.design.parts.fabrics.get(name)
    pattern = poncho.pattern.parts.fabrics.get(name)
    if own is None or own == pattern:
        return dict(block)
    swatches = {"swatch": own.swatch, "pattern_swatch": own.pattern_swatch}
    return {**block, **{key: _swatch(each, unit) for key, each in swatches.items() if each is not None}}


def _swatch(swatch: Swatch, unit: Unit) -> dict[str, Any]:
    values: dict[str, Any] = {
        "stitches": _number(swatch.stitches),
        "rows": _number(swatch.rows),
        "width": _length(swatch.width_cm, unit),
        "height": _length(swatch.height_cm, unit),
    }
    if swatch.mass_g is not None:
        values["mass"] = _number(swatch.mass_g)
    if swatch.bending_length_cm is not None:
        values["bending_length"] = _length(swatch.bending_length_cm, unit)
    told = {"guessed": swatch.guessed, "reckoned": swatch.reckoned}
    return values | {key: True for key, so in told.items() if so}


def _number(value: float) -> float | int:
    return int(value) if value == int(value) else value


def _length(length_cm: float, unit: Unit) -> float | int | str:
    """Exactly, and as short as it can be written in either unit; a number where bare ones are centimetres."""
    for each in (unit, *Unit):
        short = _number(round(each.from_cm(length_cm), _SHORT))
        if each.to_cm(short) == length_cm:
            return short if each is unit is Unit.CM else f"{short} {each}"
    if nearest_fraction(length_cm) == length_cm:
        return f"{mixed_number(length_cm)} cm"
    return _number(length_cm) if unit is Unit.CM else f"{length_cm!r} cm"


_SHORT = 4


def _age(years: float) -> float | int | str:
    """Exactly, in months where no number of years is as short."""
    months = round(12 * years)
    return f"{months} months" if years != round(years, 2) and months / 12 == years else _number(years)


def _wearer(wearer: WearerSpec, unit: Unit) -> dict[str, Any]:
    values: dict[str, Any] = {}
    if wearer.chart is not None:
        values["chart"] = wearer.chart
    if wearer.age_years is not None:
        values["age"] = _age(wearer.age_years)
    return values | {body.value: _length(cm, unit) for body, cm in wearer.own.items()}


def _counts(size: Size) -> dict[str, dict[str, Any]]:
    blocks: dict[str, dict[str, Any]] = {}
    for key, value in counts_of(size).items():
        block, _, name = key.partition(".")
        if value is not None:
            blocks.setdefault(block, {})[name] = value
    return blocks


class _Dumper(yaml.SafeDumper):
    """Writes what the program's own reader reads: by the core rules of YAML 1.2, without aliases."""

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002 - the base class has it so
        """Every value is written out."""
        return True


def _text(dumper: yaml.SafeDumper, text: str) -> yaml.ScalarNode:
    plain = isinstance(core_scalar(text), str)
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=None if plain else '"')


_Dumper.add_representer(str, _text)
