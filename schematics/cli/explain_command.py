"""``schematics explain``: what the code of a finding means, and how to cure it."""

from __future__ import annotations

import click

from schematics.cli.program import Exit
from schematics.cli.reports import Form, print_documents, report_options


@click.command()
@click.argument("code", required=False)
@report_options()
def explain(code: str | None, form: Form) -> int:
    """Explain the finding CODE at length, or list all codes when none is given.

    The limits shown are the defaults; a spec may change them.
    """
    from schematics.analysis.check_report import codes_document, explanation_document
    from schematics.checks import FAMILIES
    from schematics.checks import explain as explanation_of

    document = codes_document(FAMILIES) if code is None else explanation_document(explanation_of(code))
    print_documents([document], form)
    return Exit.FINE
