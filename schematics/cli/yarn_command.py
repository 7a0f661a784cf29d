"""``schematics yarn``: how much yarn each size takes, and whether a stash does."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.specs import find_specs, outcome, read_specs, spec_arguments
from schematics.errors import SchematicsError

if TYPE_CHECKING:
    from schematics.analysis.yarn.yarn_report import SizeYarn
    from schematics.checks.evaluation import Result
    from schematics.design.design import Design


@click.command()
@spec_arguments
@click.option(
    "--have", "have", multiple=True, metavar="AMOUNT",
    help="Yarn at hand: '450 g', '5 balls', '400 m'; 'sand: 450 g' where parts differ in colour. "
    "May be given once for each colour.",
)  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def yarn(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, have: tuple[str, ...], as_json: bool) -> int:
    """Say how much yarn each size of each SPEC takes (all of specs/*.yaml when none is named).

    Grams, metres and balls by part and by colour, from the masses of the swatches. With --have: which
    sizes the yarn at hand is enough for, and what to shorten in the others. Nothing is written.
    """
    designs, problems = read_specs(find_specs(specs))
    worked: list[tuple[Design, dict[str, float], tuple[SizeYarn, ...]]] = []
    for design in designs:
        try:
            worked.append(_work(design, sizes, have))
        except SchematicsError as error:
            problems.append(str(error))
    if as_json:
        _print_json(worked)
    else:
        _print_tables(worked)
    results: list[Result] = [size.result for _, _, each in worked for size in each]
    return outcome(results, problems)


def _work(
    design: Design, sizes: tuple[str, ...] | None, have: tuple[str, ...]
) -> tuple[Design, dict[str, float], tuple[SizeYarn, ...]]:
    from schematics.analysis.yarn.stash import read_stash
    from schematics.analysis.yarn.yarn_report import size_yarns
    from schematics.checks.evaluation import choose, evaluate

    stash = read_stash(have, design)
    return design, stash, size_yarns(design, choose(design, evaluate(design), sizes), stash)


def _print_json(worked: Sequence[tuple[Design, dict[str, float], tuple[SizeYarn, ...]]]) -> None:
    from schematics.analysis.yarn.yarn_tables import yarn_json
    from schematics.document.json_text import as_text

    document = {"designs": [yarn_json(design, sizes, stash) for design, stash, sizes in worked]}
    click.echo(as_text(document), nl=False)


def _print_tables(worked: Sequence[tuple[Design, dict[str, float], tuple[SizeYarn, ...]]]) -> None:
    from schematics.analysis.yarn.yarn_tables import yarn_parts
    from schematics.document.table import say

    for design, stash, sizes in worked:
        say(yarn_parts(design, sizes, stash))
