"""``schematics figures``: everything a pattern needs in numbers, for every size at once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.specs import find_specs, outcome, read_specs, spec_arguments
from schematics.errors import SchematicsError, UsageError

if TYPE_CHECKING:
    from schematics.checks.evaluation import Result
    from schematics.design.design import Design

_FORMATS = ("md", "csv", "json", "html")


@click.command()
@spec_arguments
@click.option(
    "--format", "ending", type=click.Choice(_FORMATS), default="md", show_default=True,
    help="Markdown, comma-separated values, JSON or a page.",
)  # fmt: skip
@click.option(
    "--terms", type=click.Choice(("US", "UK"), case_sensitive=False),
    help="Whose stitch names to use; the spec's own choice, usually US, if left out.",
)  # fmt: skip
def figures(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, ending: str, terms: str | None) -> int:
    """Print the figures of each SPEC (all of specs/*.yaml when none is named), ready for a pattern.

    Finished measurements, foundation chains, rows, increases in words, repeats, joins, markers, ribbing
    and yarn, as size strings such as 60 (64, 68, 72). schematics build writes the same to
    output/<spec>/figures.md, .csv, .json and .html.
    """
    paths = find_specs(specs)
    if len(paths) > 1 and ending != "md":
        raise UsageError(
            f"--format {ending} takes one SPEC, got {len(paths)}; "
            "schematics build writes the files of every spec"
        )
    designs, problems = read_specs(paths)
    results: list[Result] = []
    for design in designs:
        try:
            results += _print(design, sizes, ending, terms)
        except SchematicsError as error:
            problems.append(str(error))
    return outcome(results, problems)


def _print(
    design: Design, sizes: tuple[str, ...] | None, ending: str, terms: str | None
) -> tuple[Result, ...]:
    from schematics.checks.evaluation import choose, evaluate
    from schematics.crochet.terms import Terms
    from schematics.document.writers import written
    from schematics.pattern import figures as figures_of

    results = choose(design, evaluate(design), sizes)
    document = figures_of(design, results, Terms(terms) if terms else None)
    click.echo("".join(written([document], ending)), nl=False)
    return results
