"""``schematics check``: what is right and wrong with each size, without drawing anything."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.reports import report_options, report_specs
from schematics.cli.specs import spec_arguments


@click.command()
@spec_arguments
@click.option("--all", "show_all", is_flag=True, help="Show what is good too, not only its number.")
@report_options()
def check(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, show_all: bool, form: str) -> int:
    """Check every size of each SPEC (all of specs/*.yaml when none is named).

    Findings that stop come first: such a size cannot be made or worn. Nothing is written.
    """
    from schematics.analysis.check_report import check_document

    return report_specs(
        specs, sizes, form, lambda design, results: check_document(design, results, show_all=show_all)
    )
