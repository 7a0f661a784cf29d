"""What the commands about one design share: reading its spec, and the sizes they are asked for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from schematics.cli.specs import size_names, told
from schematics.errors import UsageError

if TYPE_CHECKING:
    from schematics.design.design import Design, Size


def one_spec(path: Path) -> Design:
    """The design of a spec.

    Raises:
        SchematicsError: it cannot be read; the text begins with the file.
    """
    from schematics.reading.design_file import read_design
    from schematics.reading.files.saving import reason

    try:
        return told(read_design(path))
    except OSError as error:
        raise UsageError(f"{path}: {reason(error)}") from None


def unit_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the option ``--unit``, None for the spec's."""
    return click.option(
        "--unit", type=click.Choice(["cm", "in"]),
        help="Unit of what you give without one, and of what is said.  [default: the spec's]",
    )(command)  # fmt: skip


def in_unit(design: Design, unit: str | None) -> Design:
    """The design, told of in that unit; in its own if it is None."""
    from schematics.units import Unit

    return design if unit is None else replace(design, unit=Unit(unit))


def sizes_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the option ``--sizes``: a tuple of names, None for all."""
    return click.option(
        "--sizes", "--size", "sizes", metavar="NAMES", callback=_names,
        help="Only these sizes, with commas between them: 2,4,6.",
    )(command)  # fmt: skip


def _names(_ctx: click.Context, _param: click.Parameter, value: str | None) -> tuple[str, ...] | None:
    return None if value is None else size_names(value)


def chosen_sizes(design: Design, names: tuple[str, ...] | None) -> tuple[Size, ...]:
    """The sizes of those names in the spec's order; all when ``names`` is None.

    Raises:
        UsageError: a name is no size of the design; the message lists those there are.
    """
    if names is None:
        return design.sizes
    known = [size.name for size in design.sizes]
    unknown = [name for name in dict.fromkeys(names) if name not in known]
    if unknown or not names:
        said = " and ".join(f"'{name}'" for name in unknown) or "nothing"
        raise UsageError(f"{design.path}: no size {said}; the sizes are {', '.join(known)}")
    return tuple(size for size in design.sizes if size.name in names)
