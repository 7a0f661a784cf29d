"""A maker's own yarn in the place of the pattern's."""

from __future__ import annotations

from dataclasses import replace

from pydantic import ValidationError

from schematics.design.design import Yarn
from schematics.errors import UsageError
from schematics.reading.blocks import YarnBlock
from schematics.reading.scalars import core_scalar

OTHER_FIBRE = "fibre as on its label"
"""Said of a yarn that a maker names."""


def own_yarn(pattern: Yarn, name: str | None, ball_mass: str | None, ball_length: str | None) -> Yarn | None:
    """The yarn with what a maker says of hers; None where she says nothing.

    Args:
        pattern: the pattern's yarn, as hers is in everything else.
        name: its name.
        ball_mass: grams in a ball, ``50`` or ``50 g``.
        ball_length: metres in a ball, ``47.5`` or ``47.5 m``.

    Raises:
        UsageError: something of it cannot be used; a line for each, beginning with its option.
    """
    said = {"name": name, "ball_mass": ball_mass, "ball_length": ball_length}
    given = {key: value for key, value in said.items() if value is not None}
    if not given:
        return None
    usual = {"name": pattern.name, "ball_mass": pattern.ball_mass_g, "ball_length": pattern.ball_length_m}
    read = {key: value if key == "name" else core_scalar(value.strip()) for key, value in given.items()}
    try:
        block = YarnBlock.model_validate(
            {key: value for key, value in {**usual, **read}.items() if value is not None}
        )
    except ValidationError as error:
        options = {"name": "--yarn", "ball_mass": "--ball-mass", "ball_length": "--ball-length"}
        raise UsageError(
            *(f"{options[str(each['loc'][0])]}: {each['ctx']['sentence']}" for each in error.errors())
        ) from None
    yarn = replace(pattern, name=block.name, ball_mass_g=block.ball_mass, ball_length_m=block.ball_length)
    if name is None:
        return yarn
    shades = tuple(each for each in yarn.shades if each[0] != yarn.colour)
    return replace(yarn, fibre=OTHER_FIBRE, colour=None, shades=shades)
