"""``schematics make``: from a child and a gauge to a pattern for exactly that child."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.program import Exit, to_stderr
from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import edited_note, for_maker, force_option, paper_option, unit_option
from schematics.cli.typed_again import typed_again
from schematics.cli.wearer_options import gauge_option, given_spec, have_option, wearer_options
from schematics.errors import Problems, UsageError

if TYPE_CHECKING:
    from schematics.design.design import Design
    from schematics.fitting.to_measure.made_to_measure import MadeToMeasure
    from schematics.fitting.to_measure.order import Order


@click.command()
@click.argument("spec", type=click.Path(path_type=Path))
@wearer_options
@gauge_option
@click.option("--size", metavar="NAME", help="The size to start from; the best one if left out.")
@click.option(
    "--change", "changes", multiple=True, metavar="TEXT",
    help="A count to change, 'hem +2' or 'body rows 30', or a suggestion of fit or yarn by its number. May "
    "be given several times. 'none' takes the size as the pattern has it.",
)  # fmt: skip
@click.option("--grade", "graded", is_flag=True, help="Find all counts anew, for exactly this body.")
@click.option("--name", default="", metavar="NAME", help="Whom it is for, as the pattern's title names her.")
@click.option("--yarn", "yarn_name", metavar="NAME", help="Your own yarn.")
@click.option("--ball-mass", metavar="MASS", help="How heavy a ball of it is: 50 g, 1.75 oz.")
@click.option("--ball-length", metavar="LENGTH", help="How long a ball of it is: 120 m, 131 yd.")
@have_option
@click.option(
    "-o", "--output", "folder", type=click.Path(path_type=Path, file_okay=False), metavar="DIR",
    help="Folder to write to.  [default: output/<design>/made/<name>]",
)  # fmt: skip
@click.option("--spec", "with_spec", is_flag=True, help="Write design.yaml too, a spec of what was made.")
@paper_option("That of the pattern's pages.")
@unit_option
@force_option
@report_options()
@click.pass_context
def make(
    context: click.Context,
    /,
    spec: Path,
    age: str | None,
    wearer_file: Path | None,
    gauge: tuple[str, ...],
    size: str | None,
    changes: tuple[str, ...],
    graded: bool,
    name: str,
    yarn_name: str | None,
    ball_mass: str | None,
    ball_length: str | None,
    have: tuple[str, ...],
    folder: Path | None,
    with_spec: bool,
    paper: str,
    unit: str | None,
    force: bool,
    form: str,
    **measurements: str | None,
) -> int:
    """Make a pattern of SPEC for one person: her measurements, your gauge, your yarn, the counts you want.

    It starts from the size that fits best, or from --size. Without --change the smallest changes are made
    that make it right, where any are needed; with --grade all counts are found for this body. Every check is
    made on what comes out. Written are the pattern (PDF, HTML, Markdown), a page with the verdict, the counts
    and the measurements against the body, and drawings: every piece, and the poncho on a figure of this body.
    The spec is not changed.

    What is printed is that page, and where the files are. The exit code is 1, and nothing is written or
    printed but a sentence that says why, where something stops it.
    """
    from schematics.batch.poncho_files import usual_folder, write_poncho, written_document
    from schematics.fitting.to_measure.made_to_measure import doubted, made_to_measure, refuse
    from schematics.fitting.to_measure.order import NotWearableError, UnworkableError
    from schematics.wearer.asking import ASKED_HEADING

    design = for_maker(spec, unit)
    problems = Problems()
    order = _order(
        design, age, wearer_file, measurements, gauge, have, (yarn_name, ball_mass, ball_length), problems
    ).asking(size=size, changes=changes, graded=graded, name=name)
    with problems.noted():
        refuse(design, order)
    problems.refuse()
    try:
        poncho = made_to_measure(design, order)
    except UnworkableError as error:
        to_stderr(str(error))
        _print_alternatives(context, error.instead)
        return Exit.MISUSE
    except NotWearableError as error:
        to_stderr(str(error))
        _print_alternatives(context, error.instead)
        for each in doubted(design, order):
            to_stderr(f"{ASKED_HEADING}: {each}")
        return Exit.STOPS
    files = write_poncho(poncho, folder or usual_folder(poncho), paper=paper, spec=with_spec, force=force)
    print_documents([written_document(poncho, files)], form)
    _print_ways_on(context, poncho)
    if files.edited:
        to_stderr(edited_note(files.folder, files.edited))
    if files.problem:
        to_stderr(f"no PNG or PDF of the drawings was made: {files.problem}")
    return Exit.MISUSE if files.problem else Exit.FINE


def _print_alternatives(context: click.Context, changes: tuple[str, ...]) -> None:
    """What can be typed where the changes that were asked for cannot be had."""
    if changes:
        to_stderr(f"This can be worn; ask for it instead: {typed_again(context, changes=changes)}")
    elif changes_asked := context.params["changes"]:
        from schematics.fitting.to_measure.asked_changes import asks_for_none

        less = "Leave --change out" if asks_for_none(changes_asked) else "Ask for less, or leave --change out"
        to_stderr(f"{less}: then what makes it right is looked for.")


def _print_ways_on(context: click.Context, poncho: MadeToMeasure) -> None:
    """What can be typed for what the report says can be had besides."""
    if poncho.far_off_start:
        to_stderr(
            f"To find all counts for exactly this body: {typed_again(context, graded=True, changes=())}"
        )
    if changes := poncho.asks_for_not_made:
        to_stderr(f"To have the changes that were not made: {typed_again(context, changes=changes)}")


def _order(
    design: Design,
    age: str | None,
    wearer_file: Path | None,
    measurements: dict[str, str | None],
    gauge: tuple[str, ...],
    have: tuple[str, ...],
    yarn_words: tuple[str | None, str | None, str | None],
    problems: Problems,
) -> Order:
    """Whom it is for, and what it is worked with; what cannot be used of it is put with the problems."""
    from dataclasses import replace

    from schematics.analysis.yarn.stash import read_stash
    from schematics.fitting.gauge_text import read_gauge
    from schematics.fitting.to_measure.order import Order
    from schematics.fitting.to_measure.own_yarn import own_yarn
    from schematics.wearer.body import WearerSpec

    wearer = parts = yarn = None
    stash_g: dict[str, float] = {}
    with problems.noted():
        wearer = given_spec(design, age, wearer_file, measurements)
        if wearer is None:
            raise UsageError(
                "say whom it is for: a measurement such as --head-girth 52, --age 6 or --for FILE"
            )
    with problems.noted():
        parts = read_gauge(gauge, design).parts if gauge else None
    with problems.noted():
        yarn = own_yarn(design.yarn, *yarn_words)
    with problems.noted():
        stash_g = read_stash(have, replace(design, yarn=yarn or design.yarn))
    return Order(wearer=wearer or WearerSpec(), parts=parts, yarn=yarn, stash_g=stash_g)
