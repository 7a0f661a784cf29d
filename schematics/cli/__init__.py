"""The command line: the one layer that reads arguments, prints and sets the exit code.

Only click and the standard library are imported here; a command imports what it needs when it runs.
"""

from __future__ import annotations

import click

from schematics import __version__
from schematics.cli.build import build
from schematics.cli.check import check
from schematics.cli.compare import compare
from schematics.cli.coverage import coverage
from schematics.cli.explain import explain
from schematics.cli.figures import figures
from schematics.cli.fit import fit
from schematics.cli.grade import grade
from schematics.cli.program import Program
from schematics.cli.progress import progress
from schematics.cli.schema import schema
from schematics.cli.sensitivity import sensitivity
from schematics.cli.wearers import wearers
from schematics.cli.workings import workings
from schematics.cli.yarn import yarn


@click.group(cls=Program, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="schematics", message="%(prog)s %(version)s")
def main() -> None:
    """Counts, checks and dimensioned schematics for crochet ponchos, in every size at once.

    \b
    Exit codes: 0  fine
                1  some size has a finding that stops
                2  a spec, an argument or a file needs attention first
    """  # noqa: D301 - click wants the backspace itself


for command in (
    build,
    check,
    grade,
    figures,
    workings,
    sensitivity,
    fit,
    coverage,
    progress,
    yarn,
    compare,
    explain,
    wearers,
    schema,
):
    main.add_command(command)
