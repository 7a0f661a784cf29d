"""``schematics coverage``: what share of the children of each age the sizes suit."""

from __future__ import annotations

import re
from pathlib import Path

import click

from schematics.cli.program import Exit
from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import one_spec, sizes_option

_OLDEST = 18


def _ages(_ctx: click.Context, _param: click.Parameter, value: str) -> range:
    match = re.fullmatch(r"\s*([0-9]{1,2})\s*(?:-|to)\s*([0-9]{1,2})\s*", value)
    first, last = (int(match[1]), int(match[2])) if match else (1, 0)
    if not first <= last <= _OLDEST:
        raise click.BadParameter(
            f"expected whole years from the youngest to the oldest, up to {_OLDEST}: 2-10"
        )
    return range(first, last + 1)


@click.command()
@click.argument("spec", type=click.Path(path_type=Path))
@sizes_option
@click.option(
    "--ages", default="2-14", show_default=True, metavar="FROM-TO", callback=_ages, help="Whole years."
)
@click.option(
    "--svg", "svg", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE",
    help="Draw it as a chart, too.",
)  # fmt: skip
@report_options()
def coverage(spec: Path, sizes: tuple[str, ...] | None, ages: range, svg: Path | None, form: str) -> int:
    """Say what share of the children of each age each size of SPEC suits, by head, hand, reach and hang.

    Children vary as in the age tables. Where the sizes leave gaps and where they overlap is said below.
    """
    from schematics.checks.evaluation import chosen_sizes
    from schematics.fitting.coverage import coverage as coverage_of
    from schematics.fitting.coverage_report import coverage_document

    design = one_spec(spec)
    shares = coverage_of(design, chosen_sizes(design, sizes), ages)
    if svg is not None:
        from schematics.drawing.ink.svg import OPENING, to_svg
        from schematics.fitting.coverage_chart import coverage_chart
        from schematics.reading.files.saving import write_output

        write_output(svg, to_svg(coverage_chart(design, shares)).encode(), OPENING.encode())
    print_documents([coverage_document(design, shares)], form)
    return Exit.FINE
