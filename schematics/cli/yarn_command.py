"""``schematics yarn``: how much yarn each size takes, and whether a stash does."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.reports import report_options, report_specs
from schematics.cli.specs import spec_arguments
from schematics.cli.wearer_options import have_option


@click.command()
@spec_arguments
@have_option
@report_options()
def yarn(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, have: tuple[str, ...], form: str) -> int:
    """Say how much yarn each size of each SPEC takes (all of specs/*.yaml when none is named).

    Grams, metres and balls by part and by colour, from the masses of the swatches. With --have: which
    sizes the yarn at hand is enough for, and what to shorten in the others. Nothing is written.
    """
    from schematics.analysis.yarn.yarn_tables import yarn_document

    return report_specs(specs, sizes, form, lambda design, results: yarn_document(design, results, have))
