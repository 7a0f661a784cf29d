"""``schematics compare``: what to correct where a pattern was made from an older spec."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import outcome, outcome_told, read_specs

if TYPE_CHECKING:
    from schematics.checks.evaluation import Result
    from schematics.design.design import Design
    from schematics.document.document import Document


@click.command()
@click.argument("old", type=click.Path(path_type=Path))
@click.argument("new", type=click.Path(path_type=Path))
@click.option("--figures", is_flag=True, help="Compare what schematics figures prints, size by size.")
@report_options()
def compare(old: Path, new: Path, figures: bool, form: str) -> int:
    """Print the errata of the pattern of the spec OLD that make it read as that of the spec NEW.

    They say page, row and size, what to read and what not, and are ready to be published. The exit code is 1
    when a size of NEW has a finding that stops.
    """
    from schematics.checks.evaluation import evaluate

    designs, problems = read_specs([old, new])
    if problems:
        return outcome([], problems)
    before, after = designs
    results = evaluate(after)
    document = (_figures if figures else _errata)(before, evaluate(before), after, results)
    print_documents([document], form)
    return outcome_told(results, after.path)


def _errata(
    old: Design, old_results: Sequence[Result], new: Design, new_results: Sequence[Result]
) -> Document:
    from schematics.pattern.errata.errata_report import errata_document
    from schematics.pattern.errata.versions import compare_patterns

    return errata_document(old, new, compare_patterns(old, old_results, new, new_results))


def _figures(
    old: Design, old_results: Sequence[Result], new: Design, new_results: Sequence[Result]
) -> Document:
    from schematics.pattern.corrections import compare
    from schematics.pattern.corrections_report import corrections_document

    return corrections_document(old, new, compare(old, old_results, new, new_results))
