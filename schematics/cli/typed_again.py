"""A command as it was typed, to be typed again with some of its options otherwise."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from typing import Any

import click
from click.core import ParameterSource


def typed_again(context: click.Context, **otherwise: object) -> str:
    """The whole command, ready for a shell: what was typed, but for the options of these names."""
    words = ["schematics", str(context.info_name)]
    for parameter in context.command.params:
        name = str(parameter.name)
        typed = context.get_parameter_source(name) is not ParameterSource.DEFAULT
        if name in otherwise or typed:
            words += _words(parameter, otherwise.get(name, context.params.get(name)))
    return shlex.join(words)


def _words(parameter: click.Parameter, value: Any) -> Iterator[str]:
    option = max(parameter.opts, key=len)
    for each in value if parameter.multiple else [value]:
        if isinstance(parameter, click.Argument):
            yield str(each)
        elif isinstance(parameter, click.Option) and parameter.is_flag:
            yield from [option] if each else ()
        elif str(each).startswith("-"):
            yield f"{option}={each}"
        else:
            yield from (option, str(each))
