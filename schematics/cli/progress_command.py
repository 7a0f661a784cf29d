"""``schematics progress``: half-way through a piece, is it as it should be."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import click

from schematics.cli.program import Exit, WholeNumber
from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import for_maker, unit_option
from schematics.errors import Problems, UsageError

_MASS = re.compile(r"\s*([0-9]{1,5}(?:\.[0-9]{1,4})?)\s*(g|oz)?\s*", re.ASCII)


@click.command()
@click.argument("spec", type=click.Path(path_type=Path))
@click.option("--size", required=True, metavar="NAME", help="The size that is being worked.")
@click.option("--rows", required=True, type=WholeNumber(0), metavar="N", help="Rows worked so far.")
@click.option(
    "--piece", default="body", show_default=True,
    type=click.Choice(["body", "panel", "neck-band", "arm-band"]), help="Which piece.",
)  # fmt: skip
@click.option(
    "--measured", nargs=2, metavar="WIDTH HEIGHT", help="Along the last row, and up the rows, lying flat.",
)  # fmt: skip
@click.option("--weighed", metavar="GRAMS", help="What the piece weighs now: 120, '120 g' or '4.2 oz'.")
@click.option(
    "--have", multiple=True, metavar="AMOUNT",
    help="Yarn still at hand: '350 g', '3 balls'; 'sand: 200 g' where parts differ in colour.",
)  # fmt: skip
@click.option(
    "--wearer", "--for", "wearer_file", type=click.Path(path_type=Path), metavar="FILE",
    help="A YAML file with measurements of the wearer, in place of the size's own.",
)  # fmt: skip
@unit_option
@report_options()
def progress(
    spec: Path,
    size: str,
    rows: int,
    piece: str,
    measured: tuple[str, str] | None,
    weighed: str | None,
    have: tuple[str, ...],
    wearer_file: Path | None,
    unit: str | None,
    form: str,
) -> int:
    """Say what a piece of SPEC should measure and weigh after so many rows, and what becomes of it.

    With --measured: your real gauge, and how the garment comes out if you go on. With --weighed and
    --have: whether the yarn lasts. The exit code is 1 where it would come out unwearable. Of a finished
    poncho schematics rescue says what mends it.
    """
    from schematics.analysis.yarn.stash import read_stash
    from schematics.checks.evaluation import chosen_sizes
    from schematics.fitting import progress as half_way
    from schematics.fitting.measured import read_wearer, resolved
    from schematics.fitting.progress_report import OwnPiece, progress_document

    design = for_maker(spec, unit)
    problems = Problems()
    lengths: list[float] = []
    chosen = now = weighed_g = wearer = None
    stash: Mapping[str, float] = {}
    with problems.noted():
        (chosen,) = chosen_sizes(design, (size,))
        now = half_way.piece_progress(design, chosen, half_way.PIECES[piece], rows)
    for each in measured or ():
        with problems.noted():
            lengths.append(_length(each, design.unit.value))
    with problems.noted():
        weighed_g = None if weighed is None else _grams(weighed)
    with problems.noted():
        stash = read_stash(have, design)
    with problems.noted():
        wearer = resolved(read_wearer(wearer_file, design.unit)) if wearer_file else None
    if chosen is None or now is None or problems:
        raise UsageError(*problems)
    width, height = lengths or (None, None)
    own = OwnPiece(width_cm=width, height_cm=height, weighed_g=weighed_g)
    outcome = None
    if width is not None and height is not None:
        outcome = half_way.outcome(design, chosen, wearer, now, width, height)
    yarn = half_way.yarn_left(design, chosen, now, own.weighed_g, stash)
    print_documents([progress_document(design, size, now, own, outcome, yarn)], form)
    return Exit.STOPS if outcome is not None and outcome.fit.verdict == "stop" else Exit.FINE


def _length(text: str, unit: str) -> float:
    from schematics.reading.spellings import parse_length
    from schematics.units import Unit

    try:
        length = parse_length(text, Unit(unit))
    except ValueError as error:
        raise UsageError(f"--measured: {error}") from None
    if length <= 0:
        raise UsageError(f"--measured: expected a length over 0, got {text!r}")
    return length


def _grams(text: str) -> float:
    from schematics.units import GRAMS_PER_OUNCE

    match = _MASS.fullmatch(text)
    if match is None or float(match[1]) <= 0:
        raise UsageError(f"--weighed: expected a weight such as 120, '120 g' or '4.2 oz', got {text!r}")
    return float(match[1]) * (GRAMS_PER_OUNCE if match[2] == "oz" else 1.0)
