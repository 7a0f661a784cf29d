"""``schematics check``: what is right and wrong with each size, without drawing anything."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.specs import find_specs, outcome, read_specs, spec_arguments
from schematics.errors import SchematicsError

if TYPE_CHECKING:
    from schematics.checks.evaluation import Result
    from schematics.design.design import Design


@click.command()
@spec_arguments
@click.option("--all", "show_all", is_flag=True, help="Show what is good too, not only its number.")
@click.option("--json", "as_json", is_flag=True, help="Print the measurements and findings as JSON.")
def check(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, show_all: bool, as_json: bool) -> int:
    """Check every size of each SPEC (all of specs/*.yaml when none is named).

    Findings that stop come first: such a size cannot be made or worn. Nothing is written.
    """
    designs, problems = read_specs(find_specs(specs))
    checked: list[tuple[Design, tuple[Result, ...]]] = []
    for design in designs:
        try:
            checked.append((design, _check(design, sizes)))
        except SchematicsError as error:
            problems.append(str(error))
    if as_json:
        _print_json(checked)
    else:
        _print_tables(checked, show_all)
    return outcome([result for _, results in checked for result in results], problems)


def _check(design: Design, sizes: tuple[str, ...] | None) -> tuple[Result, ...]:
    from schematics.checks.evaluation import choose, evaluate

    return choose(design, evaluate(design), sizes)


def _print_json(checked: Sequence[tuple[Design, tuple[Result, ...]]]) -> None:
    from schematics.analysis.measurements import measurements
    from schematics.document.json_text import as_text

    document = {"designs": [measurements(design, results) for design, results in checked]}
    click.echo(as_text(document), nl=False)


def _print_tables(checked: Sequence[tuple[Design, tuple[Result, ...]]], show_all: bool) -> None:
    from schematics.document.table import cautions_parts, design_tables, say

    if not checked:
        return
    for design, results in checked:
        say(design_tables(design, results, show_all=show_all))
    click.echo("schematics explain CODE says what a finding means and how to cure it.\n")
    say(cautions_parts())
