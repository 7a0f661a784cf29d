"""``schematics sensitivity``: what a swatch counted a stitch or a row differently would do."""

from __future__ import annotations

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
def sensitivity(specs: tuple[Path, ...], sizes: tuple[str, ...] | None) -> int:
    """Show how far each SPEC rests on its swatches (all of specs/*.yaml when none is named).

    For each swatch: what one stitch or row more, or fewer, in ten centimetres (four inches in a spec in
    inches) would do to every finished measurement and to every finding, the counts being what they are.
    Findings whose verdict would change are named with what they would say. The exit code is about the
    spec as it stands.
    """
    designs, problems = read_specs(find_specs(specs))
    results: list[Result] = []
    for design in designs:
        try:
            results += _print(design, sizes)
        except SchematicsError as error:
            problems.append(str(error))
    return outcome(results, problems)


def _print(design: Design, sizes: tuple[str, ...] | None) -> tuple[Result, ...]:
    from dataclasses import replace

    from schematics.analysis.sensitivity.sensitivity_tables import sensitivity_parts
    from schematics.analysis.sensitivity.swatch_changes import outlooks
    from schematics.checks.evaluation import choose, evaluate
    from schematics.document.table import say

    results = choose(design, evaluate(design), sizes)
    asked = replace(design, sizes=tuple(result.size for result in results))
    say(sensitivity_parts(asked, results, tuple(outlooks(asked))))
    return results
