"""``schematics pattern``: what the customer gets, every piece row by row in all sizes."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.reports import report_options, report_specs
from schematics.cli.specs import spec_arguments


@click.command()
@spec_arguments
@report_options("md")
@click.option(
    "--terms", type=click.Choice(("US", "UK"), case_sensitive=False),
    help="Whose stitch names to use; the spec's own choice, usually US, if left out.",
)  # fmt: skip
def pattern(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, terms: str | None, form: str) -> int:
    """Print the pattern of each SPEC (all of specs/*.yaml when none is named), as its maker gets it.

    Every piece is told row by row in all sizes, in size strings such as 60 (64, 68, 72).
    """
    from schematics.crochet.terms import Terms
    from schematics.pattern.written import written_pattern

    words = Terms(terms.upper()) if terms else None
    return report_specs(specs, sizes, form, lambda design, results: written_pattern(design, results, words))
