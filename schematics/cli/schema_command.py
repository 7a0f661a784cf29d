"""``schematics schema``: the form of a spec, for editors."""

from __future__ import annotations

import click


@click.command()
def schema() -> int:
    """Print the JSON Schema of a spec, which editors use to complete and check one as it is typed."""
    from schematics.document.json_text import as_text
    from schematics.reading.json_schema import design_schema

    click.echo(as_text(design_schema()), nl=False)
    return 0
