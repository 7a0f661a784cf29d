"""``schematics workings``: every figure of a size as its arithmetic, for a technical editor."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.specs import find_specs, outcome, read_specs, spec_arguments
from schematics.errors import SchematicsError, UsageError

if TYPE_CHECKING:
    from schematics.checks.evaluation import Result
    from schematics.design.design import Design


@click.command()
@spec_arguments
@click.option("--csv", "as_csv", is_flag=True, help="Print comma-separated values, of one SPEC.")
def workings(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, as_csv: bool) -> int:
    """Show how every figure of each SPEC comes about (all of specs/*.yaml when none is named).

    Each finished measurement is written as its count over its swatch, with the key of the count in the
    spec, and so are angles, areas, openings, reach, spread and girth: everything can be worked again on
    a pocket calculator. Nothing is written to a file.
    """
    paths = find_specs(specs)
    if len(paths) > 1 and as_csv:
        raise UsageError(f"--csv takes one SPEC, got {len(paths)}")
    designs, problems = read_specs(paths)
    results: list[Result] = []
    for design in designs:
        try:
            results += _print(design, sizes, as_csv)
        except SchematicsError as error:
            problems.append(str(error))
    return outcome(results, problems)


def _print(design: Design, sizes: tuple[str, ...] | None, as_csv: bool) -> tuple[Result, ...]:
    from schematics.analysis.workings.workings import workings as worked_out
    from schematics.analysis.workings.workings_tables import workings_csv, workings_parts
    from schematics.checks.evaluation import choose, evaluate
    from schematics.document.table import say

    results = choose(design, evaluate(design), sizes)
    worked = [(result, worked_out(design, result)) for result in results]
    if as_csv:
        click.echo(workings_csv(worked), nl=False)
    else:
        say(workings_parts(design, worked))
    return results
