"""``schematics compare``: what to correct where a pattern was made from an older spec."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.program import Exit, tell
from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import outcome, read_specs


@click.command()
@click.argument("old", type=click.Path(path_type=Path))
@click.argument("new", type=click.Path(path_type=Path))
@report_options()
def compare(old: Path, new: Path, form: str) -> int:
    """List, size by size, the figures that read otherwise in the spec NEW than in the spec OLD.

    The list is what a designer publishes as corrections. The exit code is 1 when a size of NEW has a
    finding that stops.
    """
    from schematics.checks.evaluation import evaluate
    from schematics.pattern.corrections import compare as compare_designs
    from schematics.pattern.corrections_report import corrections_document

    designs, problems = read_specs([old, new])
    if problems:
        return outcome([], problems)
    before, after = designs
    results = evaluate(after)
    comparison = compare_designs(before, evaluate(before), after, results)
    print_documents([corrections_document(before, after, comparison)], form)
    code = outcome([result.verdict for result in results])
    if code is Exit.STOPS:
        stops = ", ".join(result.size.name for result in results if result.verdict == "stop")
        tell(f"stop: {stops}; schematics check {after.path} says why")
    return code
