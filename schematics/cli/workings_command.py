"""``schematics workings``: every figure of a size as its arithmetic, for a technical editor."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.reports import report_options, report_specs
from schematics.cli.specs import spec_arguments


@click.command()
@spec_arguments
@report_options()
def workings(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, form: str) -> int:
    """Show how every figure of each SPEC comes about (all of specs/*.yaml when none is named).

    Each finished measurement is written as its count over its swatch, with the key of the count in the
    spec, and so are angles, areas, openings, reach, spread and girth: everything can be worked again on
    a pocket calculator. Nothing is written to a file.
    """
    from schematics.analysis.workings.workings_tables import workings_document

    return report_specs(specs, sizes, form, workings_document)
