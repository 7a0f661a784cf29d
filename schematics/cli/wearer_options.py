"""What the commands share that ask about one person and her gauge."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from schematics.wearer.body import Body, WearerSpec

if TYPE_CHECKING:
    from schematics.design.design import Design

_Command = Callable[..., Any]


def wearer_options(command: _Command) -> _Command:
    """Give a command ``age``, ``wearer_file`` and an option for each body measurement, by its name."""
    for body in reversed(Body):
        command = click.option(
            f"--{body.value.replace('_', '-')}", body.value, metavar="LENGTH", help=f"The {body.words}."
        )(command)
    command = click.option(
        "--wearer", "--for", "wearer_file", type=click.Path(path_type=Path), metavar="FILE",
        help="A YAML file with measurements of one wearer.",
    )(command)  # fmt: skip
    return click.option(
        "--age", metavar="AGE", help="6, '18 months'; what is not measured is then read from the age table."
    )(command)


gauge_option = click.option(
    "--gauge", multiple=True, metavar="TEXT",
    help="Your own swatch of the body: '20 sts 15 rows over 20 cm', any width; of another part: "
    "'neck band: 20 sts ...'. How far it gives may follow: ', 20 % across, 8 % along, 3 pulls', or stand "
    "alone. May be given once for each fabric.",
)  # fmt: skip


have_option = click.option(
    "--have", "have", multiple=True, metavar="AMOUNT",
    help="Yarn at hand: '450 g', '5 balls', '400 m'; 'sand: 450 g' where parts differ in colour. "
    "May be given once for each colour.",
)  # fmt: skip


def given_spec(
    design: Design, age: str | None, wearer_file: Path | None, measurements: dict[str, str | None]
) -> WearerSpec | None:
    """The wearer that is given, by a file, by options or by both; None where nothing is.

    Raises:
        SchematicsError: a file or a measurement cannot be used.
    """
    from schematics.fitting.measured import given_wearer, merged, read_wearer

    given = {name: value for name, value in {"age": age, **measurements}.items() if value is not None}
    if not given and wearer_file is None:
        return None
    by_options = given_wearer(given, design.unit) if given else WearerSpec()
    return merged(read_wearer(wearer_file, design.unit), by_options) if wearer_file else by_options
