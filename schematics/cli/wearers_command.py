"""``schematics wearers``: the rows a size can name as its wearer."""

from __future__ import annotations

import click

from schematics.cli.program import Exit
from schematics.cli.reports import print_documents, report_options


@click.command()
@click.argument("reference", required=False, metavar="[ROW]")
@report_options()
def wearers(reference: str | None, form: str) -> int:
    """List the rows a size can name as its wearer, or every measurement of ROW, such as child/4.

    Chart sizes are not ages: the child's own measurements beat any chart.
    """
    from schematics.analysis.wearer_tables import reference_document, references_document
    from schematics.wearer.listing import measurement_rows, reference_rows

    document = (
        references_document(reference_rows())
        if reference is None
        else reference_document(reference, measurement_rows(reference))
    )
    print_documents([document], form)
    return Exit.FINE
