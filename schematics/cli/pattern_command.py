"""``schematics pattern``: what the customer gets, every piece row by row in all sizes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.program import Exit
from schematics.cli.reports import report_options, report_specs
from schematics.cli.specs import (
    one_spec,
    only_spec,
    outcome_told,
    output_option,
    paper_option,
    spec_arguments,
    terms_option,
)
from schematics.document.page_look import PAGED_FORMS
from schematics.errors import UsageError

if TYPE_CHECKING:
    from schematics.design.design import Design

_OPENINGS = {"pdf": b"%PDF-", "docx": b"PK", "html": b"<!DOCTYPE html>", "md": b"# ", "json": b"{"}
"""How the files of a form begin; a text begins with its title, a CSV with the names of its columns."""


@click.command()
@spec_arguments
@report_options("md", PAGED_FORMS, "; pdf or docx, which go to a file")
@output_option("Write it to FILE, of one SPEC; its ending names the form, such as kelp.pdf.")
@terms_option
@paper_option("That of its pages, where it has any.")
@click.option("--large", is_flag=True, help="In large print, 22 points, as PDF.")
def pattern(
    specs: tuple[Path, ...],
    sizes: tuple[str, ...] | None,
    terms: str | None,
    form: str,
    output: Path | None,
    paper: str,
    large: bool,
) -> int:
    """Print the pattern of each SPEC (all of specs/*.yaml when none is named), as its maker gets it.

    Every piece is told row by row in all sizes, in size strings such as 60 (64, 68, 72). A PDF, a page and
    a file for a word processor show the stitch charts and the schematic as well. schematics build writes
    the same to output/<spec>/pattern.pdf, .docx, .html and .md.
    """
    from schematics.crochet.terms import Terms
    from schematics.pattern.pattern_files import pattern_document

    def in_terms(design: Design) -> Design:
        return replace(design, terms=Terms(terms.upper())) if terms else design

    if large and form != "pdf":
        raise UsageError("--large is for --format pdf")
    if output is not None:
        return _write(specs, output, sizes, in_terms, form, paper, large)
    if form in PAGED_FORMS:
        raise UsageError(f"--format {form} goes to a file; name it, such as -o pattern.{form}")
    return report_specs(
        specs, sizes, form, lambda design, results: pattern_document(in_terms(design), results, form)
    )


def _write(
    specs: Sequence[Path],
    output: Path,
    sizes: tuple[str, ...] | None,
    in_terms: Callable[[Design], Design],
    form: str,
    paper: str,
    large: bool,
) -> Exit:
    """Write the pattern of the one spec to the file."""
    from schematics.checks.evaluation import choose, evaluate
    from schematics.drawing.ink.sheet import PAPERS
    from schematics.pattern.pattern_files import LARGE, document_content, page_look, pattern_document
    from schematics.reading.files.saving import write_output

    design = in_terms(one_spec(only_spec(specs, "one pattern")))
    results = choose(design, evaluate(design), sizes)
    look = page_look(design, PAPERS[paper], large=large)
    document = pattern_document(design, results, LARGE if large else form)
    content = document_content(document, form, look)
    write_output(output, content, _OPENINGS.get(form) or content.partition(b"\n")[0])
    return outcome_told(results, design.path)
