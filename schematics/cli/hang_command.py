"""``schematics hang``: how every size hangs on a body, arms down and level, by both models."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.program import Exit, to_stderr
from schematics.cli.reports import print_documents, report_options
from schematics.cli.share_bar import share_bar
from schematics.cli.specs import (
    find_specs,
    only_spec,
    outcome,
    output_option,
    paper_option,
    read_specs,
    spec_arguments,
)
from schematics.errors import SchematicsError, UsageError

if TYPE_CHECKING:
    from schematics.analysis.drape.hang_report import SizeHang
    from schematics.design.design import Design

_PDF = ".pdf"


@click.command()
@spec_arguments
@output_option("Write six pictures of each size to FILE, a PDF.")
@paper_option("Paper of the pictures.")
@report_options()
def hang(
    specs: tuple[Path, ...], sizes: tuple[str, ...] | None, output: Path | None, paper: str, form: str
) -> Exit:
    """Show how each SPEC hangs on a body (all of specs/*.yaml when none is named).

    For each size, arms down: how far the hem hangs below the nape, and its lowest place against the knee;
    arms level: how high it comes against the waist; where the neck edge comes to rest, and whether it slides
    off the shoulders. Each is told by the plane model and on cloth, hung from the seamed pieces as heavy and
    as stretchy as the swatches, with its range over stiffness and friction. The more cautious decides. It
    takes some seconds a size. With -o the six pictures, of one spec, are written too.

    The exit code is 1 where a size has something that stops it, here or in schematics check.
    """
    from schematics.analysis.drape.hang_document import hang_document
    from schematics.analysis.drape.hang_report import size_hangs
    from schematics.checks.evaluation import choose, evaluate

    if output is not None:
        if output.suffix.lower() != _PDF:
            raise UsageError(f"-o writes a PDF; let the name {output.name!r} end in {_PDF}")
        only_spec(specs, "the pictures of one design")
    designs, problems = read_specs(find_specs(specs))
    documents, verdicts = [], []
    with share_bar("hanging") as advance:
        for number, design in enumerate(designs):
            try:
                results = choose(design, evaluate(design), sizes)
                hangs = size_hangs(design, results, partial(_advance, advance, number, len(designs)))
                documents.append(hang_document(design, hangs))
                verdicts += [each.verdict for hung in hangs for each in (hung, hung.result)]
                if output is not None:
                    _write_pictures(output, paper, design, hangs)
            except SchematicsError as error:
                problems.append(str(error))
    print_documents(documents, form, "designs")
    return outcome(verdicts, problems)


def _advance(advance: Callable[[float], None], number: int, total: int, share: float) -> None:
    advance((number + share) / total)


def _write_pictures(output: Path, paper: str, design: Design, hangs: Sequence[SizeHang]) -> None:
    """A page for each size that was hung on cloth, and a line for each that was not."""
    from schematics.drawing.compose import Setting
    from schematics.drawing.draped.hang_pages import hang_pages
    from schematics.drawing.ink.pdf import join, to_pdf
    from schematics.drawing.ink.sheet import PAPERS
    from schematics.reading.files.saving import write_output

    hung = [
        (each.result, each.figure, each.hung, tuple(decided.finding for decided in each.findings))
        for each in hangs
        if each.figure and each.hung
    ]
    without = [each.result.size.name for each in hangs if not each.hung]
    if not hung:
        raise UsageError(f"{design.path}: {output} was not written: no size could be hung on cloth")
    setting = Setting(design=design, results=tuple(each.result for each in hangs), paper=PAPERS[paper])
    pages = hang_pages(setting, hung)
    names = [f"size {result.size.name}" for result, *_ in hung]
    content = join(list(zip(names, map(to_pdf, pages), strict=True)), f"{design.title}: how it hangs")
    write_output(output, content, b"%PDF-")
    for page in pages:
        if page.unplaced:
            to_stderr(f"{page.title}: no room for {', '.join(page.unplaced)}")
    if without:
        to_stderr(f"{output}: without size{'' if len(without) == 1 else 's'} {', '.join(without)}")
