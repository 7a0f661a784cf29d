"""``schematics templates``: the pieces at full size, on pages to be joined, to block on."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.program import Exit
from schematics.cli.specs import find_specs, one_spec, outcome, spec_arguments
from schematics.errors import UsageError


@click.command()
@spec_arguments
@click.option(
    "-o", "--output", "output", required=True, type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE", help="Write the PDF to FILE.",
)  # fmt: skip
@click.option(
    "--paper", type=click.Choice(("a4", "letter")), default="a4", show_default=True,
    help="Paper of the pages.",
)  # fmt: skip
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

    paths = find_specs(specs)
    if len(paths) > 1:
        raise UsageError(
            f"-o takes the templates of one design, and there are {len(paths)} specs; name one of them"
        )
    design = one_spec(paths[0])
    results = choose(design, evaluate(design), sizes)
    write_output(output, templates_pdf(design, results, PAPERS[paper], whole=whole), b"%PDF-")
    return outcome(result.verdict for result in results)
