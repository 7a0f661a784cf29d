"""``schematics sensitivity``: what a swatch counted a stitch or a row differently would do."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.reports import report_options, report_specs
from schematics.cli.specs import spec_arguments


@click.command()
@spec_arguments
@report_options()
def sensitivity(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, form: str) -> int:
    """Show how far each SPEC rests on its swatches (all of specs/*.yaml when none is named).

    For each swatch: what one stitch or row more, or fewer, in ten centimetres (four inches in a spec in
    inches) would do to every finished measurement and to every finding, the counts being what they are.
    Findings whose verdict would change are named with what they would say. The exit code is about the
    spec as it stands.
    """
    from schematics.analysis.sensitivity.sensitivity_tables import sensitivity_document

    return report_specs(specs, sizes, form, sensitivity_document)
