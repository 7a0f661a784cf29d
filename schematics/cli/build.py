"""``schematics build``: draw every size and write the measurements."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.specs import find_specs, outcome, read_specs, spec_arguments
from schematics.errors import SchematicsError

if TYPE_CHECKING:
    from schematics.build import BuildReport
    from schematics.design import Design


@click.command(short_help="Draw every size and write its measurements.")
@spec_arguments
@click.option(
    "--out", default="output", show_default=True, type=click.Path(path_type=Path), metavar="DIR",
    help="Folder that gets one folder for each design.",
)  # fmt: skip
@click.option(
    "--paper", default="a4", show_default=True, type=click.Choice(["a4", "letter"]),
    help="Paper of the sheets.",
)  # fmt: skip
@click.option("--quiet", is_flag=True, help="Print problems only.")
def build(specs: tuple[Path, ...], sizes: tuple[str, ...] | None, out: Path, paper: str, quiet: bool) -> int:
    """Draw every size of each SPEC (all of specs/*.yaml when none is named).

    Writes every sheet as SVG, PNG and PDF, those of a size to DIR/<spec>/<size>, all of them bound
    into DIR/<spec>/booklet.pdf, the numbers to DIR/<spec>/measurements.json, and what a pattern needs
    of them to figures.md, .csv, .json and .html beside it. A size is drawn whatever its findings; the
    exit code is 1 when one of them stops. A spec that cannot be read does not keep the others from
    being built.
    """
    designs, problems = read_specs(find_specs(specs))
    designs = _apart(designs, problems)
    reports: list[BuildReport] = []
    with _progress(len(designs), quiet) as advance:
        for index, design in enumerate(designs):
            try:
                reports.append(_build(design, out, sizes, paper, partial(advance, index)))
            except SchematicsError as error:
                problems.append(str(error))
    if not quiet:
        for report in reports:
            click.echo(_summary(report))
    for each in (each for report in reports for each in report.unplaced):
        click.echo(each, err=True)
    problems += dict.fromkeys(problem for report in reports for problem in report.problems)
    return outcome([result for report in reports for result in report.results], problems)


def _build(
    design: Design,
    out: Path,
    sizes: tuple[str, ...] | None,
    paper: str,
    progress: Callable[[int, int], None],
) -> BuildReport:
    from schematics.build import build_design

    return build_design(design, out, sizes, paper, progress)


def _apart(designs: Sequence[Design], problems: list[str]) -> list[Design]:
    """The designs whose folder no earlier one takes; each of the others is a problem."""
    first_by_slug: dict[str, Design] = {}
    for design in designs:
        first = first_by_slug.setdefault(design.slug.casefold(), design)
        if first is not design:
            problems.append(
                f"{design.path}: not built, its folder is that of {first.path}; rename one of the two files"
            )
    return list(first_by_slug.values())


@contextmanager
def _progress(total: int, quiet: bool) -> Iterator[Callable[[int, int, int], None]]:
    """A bar on the error stream when that is a terminal, else nothing.

    Gives what moves it: called with the index of a design, the sheets of it drawn and its sheets.
    """
    if quiet or total == 0 or not sys.stderr.isatty():
        yield lambda _design, _done, _sheets: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("drawing", total=total)
        yield lambda design, done, sheets: bar.update(task, completed=design + done / sheets)


def _summary(report: BuildReport) -> str:
    """Such as ``Lake: 3 sizes in output/lake (1 stop, 2 good)``, and which sizes stop."""
    from schematics.evaluate import SEVERITIES

    counts = Counter(result.verdict for result in report.results)
    words = ", ".join(f"{counts[verdict]} {verdict.value}" for verdict in SEVERITIES if counts[verdict])
    sizes = f"{len(report.results)} size{'' if len(report.results) == 1 else 's'}"
    line = f"{report.design.title}: {sizes} in {report.folder} ({words})"
    stops = [result.size.name for result in report.results if result.verdict == "stop"]
    if not stops:
        return line
    return f"{line}\n  stop: {', '.join(stops)}; schematics check {report.design.path} says why"
