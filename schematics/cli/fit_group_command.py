"""``schematics fit --group``: a class or club at once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from schematics.cli.program import Exit, tell
from schematics.cli.reports import Form, print_documents

if TYPE_CHECKING:
    from schematics.design.design import Design, Size
    from schematics.fitting.gauge_text import OwnGauge

PROBLEMS_TOLD = 20


def fit_group(
    design: Design, sizes: tuple[Size, ...], path: Path, own: OwnGauge | None, *, show_all: bool, form: Form
) -> Exit:
    """Print a group's sizes, and what is wrong with its lines."""
    from schematics.fitting.group import group_fit
    from schematics.fitting.group_file import read_group
    from schematics.fitting.group_report import group_document

    group = read_group(path, design.unit)
    found = group_fit(design, sizes, group, own.parts if own else None)
    print_documents([group_document(design, found, own, show_all=show_all)], form)
    for each in group.unused:
        tell(f"{path}:1: {each}")
    for problem in group.problems[:PROBLEMS_TOLD]:
        tell(f"{path}:{problem.line}: {problem.sentence}")
    if len(group.problems) > PROBLEMS_TOLD:
        tell(f"{path}: {len(group.problems) - PROBLEMS_TOLD} more lines were not read; --json tells of each")
    if group.problems:
        return Exit.MISUSE
    return Exit.FINE if found.fits.all() else Exit.STOPS
