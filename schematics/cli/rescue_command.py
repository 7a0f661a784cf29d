"""``schematics rescue``: a finished poncho that came out otherwise."""

from __future__ import annotations

from pathlib import Path

import click

from schematics.cli.program import Exit
from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import for_maker, unit_option
from schematics.cli.wearer_options import given_spec, wearer_options


@click.command()
@click.argument("spec", type=click.Path(path_type=Path))
@click.option("--size", required=True, metavar="NAME", help="The size that was worked.")
@click.option(
    "--measured", "measured", multiple=True, metavar="TEXT",
    help="A finished measurement, named as in the pattern, and its length: 'body hem edge 140', 'panel "
    "length 36 cm', laid flat without stretch. May be given several times.",
)  # fmt: skip
@wearer_options
@unit_option
@report_options()
def rescue(
    spec: Path,
    size: str,
    measured: tuple[str, ...],
    age: str | None,
    wearer_file: Path | None,
    unit: str | None,
    form: str,
    **measurements: str | None,
) -> int:
    """Say what becomes of a finished poncho of SPEC that came out otherwise: what mends it, or whom it fits.

    What you measure tells the gauge it was worked at. It is held against the wearer you tell of, or else
    against the one the size is meant for. Each repair is told step by step, with all that it changes, and has
    passed every check; what can only be mended by working the body anew is none.

    The exit code is 1 where it cannot be worn as it is.
    """
    from schematics.checks.evaluation import chosen_sizes
    from schematics.errors import Problems
    from schematics.fitting.rescue.measured_piece import read_measured
    from schematics.fitting.rescue.rescue import rescue as rescued
    from schematics.fitting.rescue.rescue_report import rescue_document

    design = for_maker(spec, unit)
    problems = Problems()
    wearer = None
    with problems.noted():
        wearer = given_spec(design, age, wearer_file, measurements)
    with problems.noted():
        (chosen,) = chosen_sizes(design, (size,))
        read_measured(measured, design, chosen)
    problems.refuse()
    result = rescued(design, size, measured, wearer)
    print_documents([rescue_document(result)], form)
    return Exit.FINE if result.wearable else Exit.STOPS
