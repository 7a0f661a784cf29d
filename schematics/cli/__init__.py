"""The command line: the one layer that reads arguments, prints and sets the exit code.

Only click and the standard library are imported here; a command's file is imported when it is called, and
imports what it needs when it runs.
"""

from __future__ import annotations

import click

from schematics import __version__
from schematics.cli.program import Program

_COMMANDS = {
    "build": "Draw every size and write its measurements.",
    "check": "Check every size without drawing anything.",
    "compare": "List what changed between two versions of a spec.",
    "coverage": "Say what share of the children of each age the sizes suit.",
    "explain": "Say what findings, limits and the keys of the JSON mean.",
    "figures": "Print the figures a pattern needs, in all sizes.",
    "fit": "Say which size fits a child, and what would make it fit.",
    "grade": "Find the counts a spec leaves out.",
    "hang": "Show how every size hangs, arms down and level, by both models.",
    "make": "Make a pattern for one person, at your gauge, with your changes.",
    "new": "Write a commented spec from a swatch, to be graded.",
    "pattern": "Print the pattern as its maker gets it, row by row in all sizes.",
    "progress": "Hold a half-worked piece against the pattern.",
    "rescue": "Say what mends a finished poncho that came out otherwise, or whom it fits.",
    "schema": "Print the JSON Schema of a spec.",
    "sensitivity": "Show what one stitch or row more in a swatch would change.",
    "serve": "Serve makers in the browser, and yourself as you edit.",
    "templates": "Draw the pieces at full size, on pages to be joined, to block on.",
    "wearers": "List the rows a size can name as its wearer.",
    "workings": "Show every figure as arithmetic that can be worked again by hand.",
    "yarn": "Say how much yarn each size takes.",
}
"""Every command with what it does; the command ``name`` is in ``schematics.cli.name_command``."""


@click.group(
    cls=Program,
    summaries=_COMMANDS,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="schematics", message="%(prog)s %(version)s")
def main() -> None:
    """Counts, checks and dimensioned schematics for crochet ponchos, in every size at once.

    \b
    Exit codes: 0  fine
                1  some size has a finding that stops
                2  a spec, an argument or a file needs attention first
    """  # noqa: D301 - click wants the backspace itself
