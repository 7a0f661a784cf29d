"""``schematics build``: draw every size and write the measurements."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.program import STOPPED, Exit, WholeNumber, to_stderr
from schematics.cli.share_bar import share_bar
from schematics.cli.specs import (
    edited_note,
    find_specs,
    force_option,
    graded_note,
    listed_files,
    outcome,
    paper_option,
    spec_arguments,
    stops_words,
    terms_option,
)
from schematics.errors import SchematicsError, UsageError

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from schematics.batch import BuildReport, Options


@click.command()
@spec_arguments
@click.option(
    "--out", default="output", show_default=True, type=click.Path(path_type=Path), metavar="DIR",
    help="Folder that gets one folder for each design.",
)  # fmt: skip
@paper_option("Paper of the sheets.")
@terms_option
@click.option(
    "--common-scale", is_flag=True,
    help="Draw all sizes at one scale, so that prints compare; else each sheet as large as fits.",
)  # fmt: skip
@click.option(
    "--jobs", type=WholeNumber(1, 1024), metavar="N",
    help="Processes to draw with; as many as there are processors when not given.",
)  # fmt: skip
@force_option
@click.option("--prune", is_flag=True, help="Remove files of sizes a spec no longer has.")
@click.option("--templates", is_flag=True, help="Draw the templates of each size too; they are many pages.")
@click.option(
    "--no-cloth", "cloth", flag_value=False, default=True,
    help="Leave out how each size hangs on cloth, which takes some seconds of each.",
)  # fmt: skip
@click.option("--watch", is_flag=True, help="Go on, and build again whatever is saved, until Ctrl-C.")
@click.option("--quiet", is_flag=True, help="Print problems only.")
def build(
    specs: tuple[Path, ...],
    sizes: tuple[str, ...] | None,
    out: Path,
    paper: str,
    terms: str | None,
    common_scale: bool,
    jobs: int | None,
    force: bool,
    prune: bool,
    templates: bool,
    cloth: bool,
    watch: bool,
    quiet: bool,
) -> int:
    """Draw every size of each SPEC (all of specs/*.yaml when none is named).

    For customers it writes to DIR/<spec> the pattern, as pattern.pdf, .docx, .html and .md with a PDF on
    the other paper and one in large print, fit.html, the page for the maker, and with --templates
    <size>/templates.pdf, the pieces at full size to block on. All else is for the designer: every working
    sheet as SVG, PNG and PDF, those of a size in a folder of its own; workbook.pdf, which binds them with
    the findings, worst first, what is guessed or missing, and the workings; measurements.json; and
    figures.md, .csv, .json and .html. A size is drawn whatever its findings; the exit code is 1 when one of
    them stops. A spec that cannot be read does not keep the others from being built.

    What is there already and would come out the same is left alone. DIR/<spec>/manifest.json lists the
    files with their hashes; files the program did not write are never replaced or removed.
    """
    from schematics.batch import Options

    options = Options(
        sizes=sizes, paper=paper, common_scale=common_scale, force=force, prune=prune, eager=watch,
        templates=templates, terms=terms, cloth=cloth,
    )  # fmt: skip
    if watch:
        return _build_and_watch(specs, out, options, jobs, quiet)
    return _build(find_specs(specs), out, options, jobs, quiet)


def _build(
    paths: Sequence[Path],
    out: Path,
    options: Options,
    jobs: int | None,
    quiet: bool,
    executor: Executor | None = None,
) -> Exit:
    """Build the specs and tell what came of it."""
    from schematics.batch import BuildReport, build_sources, spec_source, usual_jobs

    apart, problems = _apart(paths)
    sources = [spec_source(path) for path in apart]
    with share_bar("drawing", shown=bool(sources) and not quiet) as advance:
        outcomes = build_sources(
            sources, out, options, executor=executor, jobs=jobs or usual_jobs(), progress=advance
        )
    reports = [each for each in outcomes if isinstance(each, BuildReport)]
    for report in reports:
        if not quiet:
            click.echo(_summary(report))
        for line in _notes(report):
            to_stderr(line)
    problems += [str(each.error) for each in outcomes if not isinstance(each, BuildReport)]
    problems += dict.fromkeys(problem for report in reports for problem in report.problems)
    return outcome([verdict for report in reports for _, verdict in report.verdicts], problems)


def _build_and_watch(
    specs: Sequence[Path], out: Path, options: Options, jobs: int | None, quiet: bool
) -> Exit:
    """Build the specs, then again whatever is saved, until interrupted; the processes stay warm."""
    from schematics.batch import usual_jobs
    from schematics.batch.pool import processes
    from schematics.batch.watch import rounds

    find_specs(specs)

    def find() -> tuple[Path, ...]:
        try:
            return find_specs(specs)
        except UsageError:
            return ()

    try:
        with processes(jobs or usual_jobs()) as pool:
            for number, each in enumerate(rounds(find)):
                for path in each.gone:
                    to_stderr(f"{path}: gone; what was drawn of it stays")
                try:
                    _build(each.changed, out, options, jobs, quiet, pool)
                except SchematicsError as error:
                    to_stderr(str(error))
                if number == 0 and not quiet:
                    click.echo("watching for changes; Ctrl-C ends it")
                options = replace(options, force=False)
    except KeyboardInterrupt:
        if not quiet:
            click.echo(STOPPED)
    return Exit.FINE


def _apart(paths: Sequence[Path]) -> tuple[list[Path], list[str]]:
    """The specs whose folder no earlier one takes, and a problem for each of the others."""
    first_by_slug: dict[str, Path] = {}
    problems: list[str] = []
    for path in paths:
        first = first_by_slug.setdefault(path.stem.casefold(), path)
        if first is not path:
            problems.append(f"{path}: not built, its folder is that of {first}; rename one of the two files")
    return list(first_by_slug.values()), problems


def _summary(report: BuildReport) -> str:
    """Such as ``Lake: 3 sizes in output/lake (1 stop, 2 good)``, and which sizes stop."""
    counts = Counter(verdict for _, verdict in report.verdicts)
    words = ", ".join(
        f"{counts[verdict]} {verdict}" for verdict in ("stop", "mind", "good") if counts[verdict]
    )
    sizes = f"{len(report.verdicts)} size{'' if len(report.verdicts) == 1 else 's'}"
    line = f"{report.title}: {sizes} in {report.folder} ({words})"
    if not report.written:
        line += ", as it was"
    stops = [name for name, verdict in report.verdicts if verdict == "stop"]
    if stops:
        line += f"\n  {stops_words(stops, report.path)}"
    if report.removed:
        line += f"\n  removed: {listed_files(report.folder, report.removed)}"
    return line


def _notes(report: BuildReport) -> Iterator[str]:
    """What its author should know, a line each."""
    if report.graded:
        yield graded_note(report.path, report.graded, report.size_count)
    yield from report.unplaced
    yield from report.asked
    if report.edited:
        yield edited_note(report.folder, report.edited)
    if report.orphans:
        yield (
            f"{report.folder}: no longer part of {report.path}, still there: "
            f"{listed_files(report.folder, report.orphans)}; schematics build --prune removes those nobody "
            "has changed"
        )
