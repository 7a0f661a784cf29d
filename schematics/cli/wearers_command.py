"""``schematics wearers``: the rows a size can name as its wearer."""

from __future__ import annotations

import click

from schematics.cli.program import Exit


@click.command()
@click.argument("reference", required=False, metavar="[ROW]")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def wearers(reference: str | None, as_json: bool) -> int:
    """List the rows a size can name as its wearer, or every measurement of ROW, such as child/4.

    Chart sizes are not ages: the child's own measurements beat any chart.
    """
    from schematics.analysis.wearer_tables import (
        reference_json,
        reference_parts,
        references_json,
        references_parts,
    )
    from schematics.document.json_text import as_text
    from schematics.document.table import say
    from schematics.wearer.listing import measurement_rows, reference_rows

    if reference is None:
        every = reference_rows()
        document, parts = references_json(every), references_parts(every)
    else:
        rows = measurement_rows(reference)
        document, parts = reference_json(reference, rows), reference_parts(reference, rows)
    if as_json:
        click.echo(as_text(document), nl=False)
        return Exit.FINE
    say(parts)
    return Exit.FINE
