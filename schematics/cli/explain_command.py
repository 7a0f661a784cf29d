"""``schematics explain``: what findings, limits and the keys of the JSON mean."""

from __future__ import annotations

import click

from schematics.cli.program import Exit
from schematics.cli.reports import print_documents, report_options
from schematics.errors import UsageError


@click.command()
@click.argument("code", required=False)
@click.option("--limits", is_flag=True, help="List the limits a spec may change instead.")
@click.option("--keys", is_flag=True, help="List the keys of the JSON that the commands print instead.")
@report_options()
def explain(code: str | None, limits: bool, keys: bool, form: str) -> int:
    """Explain the finding CODE at length, or list all codes when none is given.

    The limits shown are the defaults; a spec may change them.
    """
    from schematics.analysis import explanations
    from schematics.analysis.drape.hang_keys import KEYS as HANG_KEYS
    from schematics.analysis.json_keys import KEYS
    from schematics.checks import TOPICS
    from schematics.checks import explain as explanation_of
    from schematics.fitting.fit_keys import KEYS as WEARER_KEYS

    if (code is not None) + limits + keys > 1:
        raise UsageError("give a CODE, --limits or --keys, and only one of them")
    if limits:
        document = explanations.limits_document()
    elif keys:
        document = explanations.keys_document({**KEYS, **HANG_KEYS, **WEARER_KEYS})
    elif code is None:
        document = explanations.codes_document(TOPICS)
    else:
        document = explanations.explanation_document(explanation_of(code))
    print_documents([document], form)
    return Exit.FINE
