"""``schematics fit --group``: a class or club at once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.program import Exit, tell

if TYPE_CHECKING:
    from schematics.design.design import Design, Size
    from schematics.fitting.gauge_text import OwnGauge

PROBLEMS_TOLD = 20


def fit_group(
    design: Design, sizes: tuple[Size, ...], path: Path, own: OwnGauge | None, *, show_all: bool, as_: str
) -> Exit:
    """Print a group's sizes as ``text``, ``json`` or ``csv``, and what is wrong with its lines."""
    from schematics.fitting.group import group_fit
    from schematics.fitting.group_file import read_group
    from schematics.fitting.group_report import group_csv, group_json, group_parts

    group = read_group(path, design.unit)
    found = group_fit(design, sizes, group, own.parts if own else None)
    if as_ == "csv":
        click.echo(group_csv(found), nl=False)
    elif as_ == "json":
        from schematics.document.json_text import in_parts

        for part in in_parts(group_json(design, found, own)):
            click.echo(part, nl=False)
    else:
        from schematics.document.table import cautions_parts, say

        say(group_parts(design, found, own, show_all=show_all))
        say(cautions_parts())
    for each in group.unused:
        tell(f"{path}:1: {each}")
    for problem in group.problems[:PROBLEMS_TOLD]:
        tell(f"{path}:{problem.line}: {problem.sentence}")
    if len(group.problems) > PROBLEMS_TOLD:
        tell(f"{path}: {len(group.problems) - PROBLEMS_TOLD} more lines were not read; --json tells of each")
    if group.problems:
        return Exit.MISUSE
    return Exit.FINE if found.fits.all() else Exit.STOPS
