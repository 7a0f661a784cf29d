"""``schematics templates``: the pieces at full size, on pages to be joined, to block on."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.program import Exit
from schematics.cli.specs import (
    one_spec,
    only_spec,
    outcome_told,
    output_option,
    paper_option,
    spec_arguments,
)


@click.command()
@spec_arguments
@output_option("Write the PDF to FILE.", required=True)
@paper_option("Paper of the pages.")
@click.option("--whole", is_flag=True, help="Each size on one page as large as it needs, for a print shop.")
def templates(
    specs: tuple[Path, ...], sizes: tuple[str, ...] | None, output: Path, paper: str, whole: bool
) -> Exit:
    """Draw the pieces of the one SPEC at full size, for blocking, on pages that a printer at home can print.

    The first page of each size has a square to check the print and the plan of the pages. Pages lie over one
    another by 10 mm and meet at crosses; those with nothing on them are left out. A body on the fold comes by
    half. schematics build --templates writes the same of each size to output/<spec>/<size>/templates.pdf.
    """
    from schematics.checks.evaluation import choose, evaluate
    from schematics.drawing.ink.sheet import PAPERS
    from schematics.drawing.templates.templates import templates_pdf
    from schematics.reading.files.saving import write_output

    design = one_spec(only_spec(specs, "the templates of one design"))
    results = choose(design, evaluate(design), sizes)
    write_output(output, templates_pdf(design, results, PAPERS[paper], whole=whole), b"%PDF-")
    return outcome_told(results, design.path)
