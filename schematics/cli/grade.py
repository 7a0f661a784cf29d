"""``schematics grade``: find the counts a spec leaves out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.one_spec import chosen_sizes, sizes_option
from schematics.cli.program import Exit, tell

if TYPE_CHECKING:
    from schematics.grading.grade import Graded


@click.command()
@click.argument("spec", type=click.Path(path_type=Path))
@sizes_option
@click.option("--write", is_flag=True, help="Put the counts found into the spec; nothing else in it changes.")
@click.option("--diff", is_flag=True, help="Show what --write would change instead of the tables.")
def grade(spec: Path, sizes: tuple[str, ...] | None, write: bool, diff: bool) -> int:
    """Find whole stitch and row counts for every size of SPEC.

    They keep every rule, come as near as can be to the lengths the spec's grading block asks for, and step
    evenly from size to size. Counts given in the spec stay as they are. The exit code is 1 when a size has
    a finding that stops, and 2 when no counts keep all rules; the rules that clash are then named.
    """
    from schematics.evaluate import evaluate
    from schematics.grading.grade import grade as find
    from schematics.spec import read_draft

    graded = find(read_draft(spec))
    chosen = {size.name for size in chosen_sizes(graded.design, sizes)}
    if write or diff:
        _put_in(graded, write=write, diff=diff)
    results = evaluate(graded.design)
    if not diff:
        from schematics.report.grading import grading_tables
        from schematics.report.table import say

        say(grading_tables(graded, results, chosen))
    return Exit.STOPS if any(result.verdict == "stop" for result in results) else Exit.FINE


def _put_in(graded: Graded, *, write: bool, diff: bool) -> None:
    import difflib

    from schematics.report.files import write_over
    from schematics.spec.writing import with_counts

    draft = graded.draft
    path, before = draft.head.path, draft.content
    after = with_counts(draft, graded.found.counts)
    if diff:
        old, new = (content.decode("utf-8-sig").splitlines() for content in (before, after))
        for line in difflib.unified_diff(old, new, fromfile=str(path), tofile=str(path), lineterm=""):
            click.echo(line)
    if write and after != before:
        write_over(path, before, after)
        tell(f"{path}: the counts are in the spec now")
