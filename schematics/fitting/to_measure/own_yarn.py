"""A maker's own yarn in the place of the pattern's, and what her swatches then weigh."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from pydantic import ValidationError

from schematics.analysis.yarn.need import metres_per_gram
from schematics.crochet.fabric import Fabric, Swatch
from schematics.design.design import Yarn
from schematics.errors import UsageError
from schematics.fitting.to_measure.mixed_number import nearest_fraction
from schematics.reading.blocks import YarnBlock
from schematics.reading.scalars import core_scalar
from schematics.reading.spellings import GRAMS_PER, METRES_PER, parse_amount

_MASS_DECIMALS = 2
"""How finely grams are given of a swatch that nobody made: far finer than anybody weighs."""

OTHER_FIBRE = "fibre as on its label"
"""Said of a yarn that a maker names."""


def _ball(pattern: Yarn, mass_g: float | None, length_m: float | None) -> tuple[float | None, float | None]:
    """Grams and metres in a ball of hers; the pattern's where she says neither."""
    thickness = metres_per_gram(pattern)
    if mass_g is None and length_m is None:
        mass_g, length_m = pattern.ball_mass_g, pattern.ball_length_m
    elif thickness is not None and mass_g is not None and length_m is None:
        length_m = mass_g * thickness
    elif thickness is not None and length_m is not None and mass_g is None:
        mass_g = length_m / thickness
    return mass_g, length_m


_PER = {"ball_mass": GRAMS_PER, "ball_length": METRES_PER}


def _read(key: str, text: str) -> Any:
    """A number in grams or metres where it is one, else the text or what YAML has it for."""
    if key not in _PER:
        return text
    amount = parse_amount(text, _PER[key])
    scalar = core_scalar(text.strip()) if amount is None else amount
    return float(scalar) if type(scalar) is int else scalar


def own_yarn(pattern: Yarn, name: str | None, ball_mass: str | None, ball_length: str | None) -> Yarn | None:
    """The yarn with what a maker says of hers; None where she says nothing.

    Args:
        pattern: the pattern's yarn, as hers is in everything else.
        name: its name.
        ball_mass: grams in a ball, ``50`` or ``50 g``, or ``1.75 oz``.
        ball_length: metres in a ball, ``47.5`` or ``47.5 m``, or ``52 yd``.

    Of a ball of which one of both is given, the yarn is taken to be as thick as the pattern's.

    Raises:
        UsageError: something of it cannot be used; a line for each, beginning with its option.
    """
    typed = {"name": name, "ball_mass": ball_mass, "ball_length": ball_length}
    given = {key: value for key, value in typed.items() if value is not None}
    if not given:
        return None
    try:
        block = YarnBlock.model_validate(
            {"name": pattern.name, **{key: _read(key, value) for key, value in given.items()}}
        )
    except ValidationError as error:
        options = {"name": "--yarn", "ball_mass": "--ball-mass", "ball_length": "--ball-length"}
        raise UsageError(
            *(f"{options[str(each['loc'][0])]}: {each['ctx']['sentence']}" for each in error.errors())
        ) from None
    mass_g, length_m = _ball(pattern, block.ball_mass, block.ball_length)
    yarn = replace(pattern, name=block.name, ball_mass_g=mass_g, ball_length_m=length_m)
    if name is None:
        return yarn
    shades = tuple(each for each in yarn.shades if each[0] != yarn.colour)
    return replace(yarn, fibre=OTHER_FIBRE, colour=None, shades=shades)


def mass_ratio(pattern: Yarn, own: Yarn) -> float | None:
    """How much a metre of one's own yarn weighs over one of the pattern's; None where that is not known."""
    if own == pattern:
        return 1.0
    thickness, usual = metres_per_gram(own), metres_per_gram(pattern)
    return None if thickness is None or usual is None else usual / thickness


def with_mass(fabric: Fabric, lighter: float | None) -> Fabric:
    """The fabric in one's own yarn: stitches take as many metres as in the swatch that was weighed."""
    swatch, weighed = fabric.swatch, _in_own_yarn(fabric.weighed, lighter)
    if fabric.weighed is swatch:
        return replace(fabric, swatch=weighed)
    width_cm, height_cm = (
        nearest_fraction(each) if swatch.reckoned else each for each in (swatch.width_cm, swatch.height_cm)
    )
    own = replace(swatch, width_cm=width_cm, height_cm=height_cm, mass_g=None)
    return replace(fabric, swatch=own, pattern_swatch=weighed)


def _in_own_yarn(swatch: Swatch, lighter: float | None) -> Swatch:
    if swatch.mass_g is None or lighter is None:
        return replace(swatch, mass_g=None)
    return replace(swatch, mass_g=round(swatch.mass_g * lighter, _MASS_DECIMALS))
