"""``schematics figures``: everything a pattern needs in numbers, for every size at once."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.reports import report_options, report_specs
from schematics.cli.specs import spec_arguments, terms_option


@click.command()
@spec_arguments
@report_options("md")
@terms_option
def figures(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, terms: str | None, form: str) -> int:
    """Print the figures of each SPEC (all of specs/*.yaml when none is named), ready for a pattern.

    Finished measurements, foundation chains, rows, increases in words, repeats, joins, markers, ribbing
    and yarn, as size strings such as 60 (64, 68, 72). schematics build writes the same to
    output/<spec>/figures.md, .csv, .json and .html.
    """
    from schematics.crochet.terms import Terms
    from schematics.pattern import figures as figures_of

    words = Terms(terms) if terms else None
    return report_specs(specs, sizes, form, lambda design, results: figures_of(design, results, words))
