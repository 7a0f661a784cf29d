"""``schematics explain``: what the code of a finding means, and how to cure it."""

from __future__ import annotations

import click

from schematics.cli.program import Exit


@click.command()
@click.argument("code", required=False)
def explain(code: str | None) -> int:
    """Explain the finding CODE at length, or list all codes when none is given.

    The limits shown are the defaults; a spec may change them.
    """
    from schematics.checks import FAMILIES
    from schematics.checks import explain as explanation_of
    from schematics.document.table import codes_parts, explanation_parts, say

    say(codes_parts(FAMILIES) if code is None else explanation_parts(explanation_of(code)))
    return Exit.FINE
