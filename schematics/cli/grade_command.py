"""``schematics grade``: find the counts a spec leaves out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.program import to_stderr
from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import outcome, sizes_option
from schematics.errors import UsageError

if TYPE_CHECKING:
    from schematics.grading.grade import Graded


@click.command()
@click.argument("spec", type=click.Path(path_type=Path))
@sizes_option
@click.option("--write", is_flag=True, help="Put the counts found into the spec; nothing else in it changes.")
@click.option("--comments", is_flag=True, help="Put what was meant beside counts, as comments.")
@click.option("--diff", is_flag=True, help="Show what --write would change instead of the tables.")
@report_options()
def grade(
    spec: Path, sizes: tuple[str, ...] | None, write: bool, comments: bool, diff: bool, form: str
) -> int:
    """Find whole stitch and row counts for every size of SPEC.

    They keep every rule that would stop a size, give each length as the spec's grading block means it within
    its tolerance, grow from size to size, and increase by one rule in all sizes. Counts given in the spec
    stay as they are. What could not be had is told first, with the reason and the choice. The exit code is
    1 when a size has a finding that stops, and 2 when no counts keep all rules; those that clash are named.
    """
    from schematics.analysis.grading_report import grading_document
    from schematics.checks.evaluation import chosen_sizes, evaluate
    from schematics.grading.grade import grade as find
    from schematics.reading.design_file import read_draft

    if write:
        _put_back(spec)
    graded = find(read_draft(spec))
    chosen = {size.name for size in chosen_sizes(graded.design, sizes)}
    if write or diff:
        _put_in(graded, write=write, diff=diff, comments=comments)
    results = evaluate(graded.design)
    if not diff:
        print_documents([grading_document(graded, results, chosen)], form)
    return outcome([result.verdict for result in results])


def _put_back(spec: Path) -> None:
    from schematics.reading.files.saving import put_back

    if put_back(spec):
        to_stderr(
            f"{spec}: a run was stopped while it wrote this file; what stood there before has been put back"
        )


def _put_in(graded: Graded, *, write: bool, diff: bool, comments: bool) -> None:
    import difflib

    from schematics.reading.files.saving import write_whole
    from schematics.reading.writing import with_counts

    draft = graded.draft
    path, before = draft.head.path, draft.content
    after = with_counts(draft, graded.solution.counts, _comments(graded) if comments else ())
    if diff:
        old, new = (content.decode("utf-8-sig").splitlines() for content in (before, after))
        for line in difflib.unified_diff(old, new, fromfile=str(path), tofile=str(path), lineterm=""):
            click.echo(line)
    if write and after != before:
        _refuse_unreadable(path, after)
        write_whole(path, after, lambda now: now == before)
        to_stderr(f"{path}: the counts are in the spec now")


def _refuse_unreadable(path: Path, content: bytes) -> None:
    """Refuse to write what could not be read as a spec again.

    Raises:
        UsageError: the text has a line for each reason.
    """
    from schematics.reading.design_file import parse_draft
    from schematics.reading.problems import SpecError

    try:
        parse_draft(path, content)
    except SpecError as error:
        raise UsageError(
            f"{path}: nothing was written to it; with the counts found it could not be read again:\n{error}"
        ) from None


def _comments(graded: Graded) -> list[dict[str, str]]:
    """What was meant for each count that has a length of its own."""
    from schematics.checks.tape import Tape
    from schematics.garment.printed_lengths import grain_of
    from schematics.grading.reasons import rows

    tape = Tape(graded.design.unit)
    return [
        {
            row.key: f"{row.measurement.partition('.')[2]} "
            f"{tape.length(row.length_cm, grain_of(row.measurement))}, meant {tape.length(row.meant_cm)}"
            for row in rows(graded, case)
            if row.count is not None and row.length_cm is not None and row.meant_cm is not None
        }
        for case in graded.search.cases
    ]
