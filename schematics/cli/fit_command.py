"""``schematics fit``: will it fit this child, with my gauge; one wearer or a whole group."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.program import Exit, to_stderr
from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import for_maker, paper_option, sizes_option, unit_option
from schematics.cli.wearer_options import gauge_option, given_spec, wearer_options

if TYPE_CHECKING:
    from schematics.design.design import Design, Size
    from schematics.fitting.gauge_text import OwnGauge
    from schematics.fitting.group import GroupFit
    from schematics.wearer.body import WearerSpec


PROBLEMS_PRINTED = 20
"""Lines of a group that could not be read and are named on the error stream."""


@click.command()
@click.argument("spec", type=click.Path(path_type=Path))
@wearer_options
@gauge_option
@sizes_option
@unit_option
@click.option(
    "--group", type=click.Path(path_type=Path), metavar="FILE",
    help="A CSV file with one child a line: name, age and measurements as columns.",
)  # fmt: skip
@click.option(
    "--cards", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE",
    help="Write a card for each of the group to FILE, to be printed and cut out: .pdf or .html.",
)  # fmt: skip
@paper_option("That of the cards' pages.")
@click.option("--all", "show_all", is_flag=True, help="Show every size's findings in full.")
@report_options()
def fit(
    spec: Path,
    age: str | None,
    wearer_file: Path | None,
    gauge: tuple[str, ...],
    sizes: tuple[str, ...] | None,
    unit: str | None,
    group: Path | None,
    cards: Path | None,
    paper: str,
    show_all: bool,
    form: str,
    **measurements: str | None,
) -> int:
    """Say how SPEC fits one child, in every size: what is to spare, which size to work, what to change.

    A length without a unit is in that of --unit; 20.5in, '20 1/2 in', '4 ft 2' and 1.16m say theirs. What is
    not measured is estimated from the height, and with --age read from the age table. With --gauge
    everything is reckoned at your own gauge; with nothing else, it says which size to work instead of
    each. With --group, a class or club at once. Nothing that is given here is written anywhere.

    The exit code is 1 where every size has something that stops it.
    """
    from schematics.checks.evaluation import chosen_sizes
    from schematics.errors import Problems, UsageError
    from schematics.fitting.gauge_text import read_gauge

    design = for_maker(spec, unit)
    problems = Problems()
    wearer = own = None
    chosen: tuple[Size, ...] = ()
    with problems.noted():
        wearer = given_spec(design, age, wearer_file, measurements)
    with problems.noted():
        own = read_gauge(gauge, design) if gauge else None
    with problems.noted():
        chosen = chosen_sizes(design, sizes)
    problems.refuse()
    if cards is not None and group is None:
        raise UsageError("--cards writes the cards of a group; name its file with --group")
    if group is not None:
        if wearer is not None:
            raise UsageError("--group takes the measurements from its file; leave the others out")
        with_cards = None if cards is None else _Cards(cards, paper)
        return _fit_group(design, chosen, group, own, with_cards, show_all=show_all, form=form)
    if wearer is not None:
        return _fit_one(design, chosen, wearer, own, show_all, form)
    if own is not None:
        return _instead(design, chosen, own, form)
    raise UsageError(
        "say whom it is for: a measurement such as --head-girth 52, --age 6, --wearer FILE or --group FILE; "
        "or say how you work, with --gauge '20 sts 15 rows over 20 cm'"
    )


def _fit_one(
    design: Design,
    sizes: tuple[Size, ...],
    spec: WearerSpec,
    own: OwnGauge | None,
    show_all: bool,
    form: str,
) -> Exit:
    from schematics.fitting.fit_report import fitting_document
    from schematics.fitting.fitting import fitting
    from schematics.fitting.measured import resolved

    result = fitting(design, sizes, resolved(spec), own.parts if own else None)
    print_documents([fitting_document(design, result, own, show_all=show_all)], form)
    return Exit.FINE if result.wearable else Exit.STOPS


def _instead(design: Design, sizes: tuple[Size, ...], own: OwnGauge, form: str) -> Exit:
    from schematics.fitting.fit_report import instead_document
    from schematics.fitting.fitting import instead
    from schematics.wearer.resolve import resolve

    wearers = [resolve(size.wearer, size.name) for size in sizes]
    result = instead(design, sizes, wearers, own.parts)
    print_documents([instead_document(design, result, own)], form)
    return Exit.STOPS if all(each.instead.verdict == "stop" for each in result) else Exit.FINE


def _fit_group(
    design: Design,
    sizes: tuple[Size, ...],
    path: Path,
    own: OwnGauge | None,
    cards: _Cards | None,
    *,
    show_all: bool,
    form: str,
) -> Exit:
    """Print a group's sizes, and what is wrong with its lines."""
    from schematics.fitting.group import group_fit
    from schematics.fitting.group_file import read_group
    from schematics.fitting.group_report import group_document

    group = read_group(path, design.unit)
    result = group_fit(design, sizes, group, own.parts if own else None)
    print_documents([group_document(design, result, own, show_all=show_all)], form)
    for each in group.unused:
        to_stderr(f"{path}:1: {each}")
    for problem in group.problems[:PROBLEMS_PRINTED]:
        to_stderr(f"{path}:{problem.line}: {problem.sentence}")
    if len(group.problems) > PROBLEMS_PRINTED:
        to_stderr(
            f"{path}: {len(group.problems) - PROBLEMS_PRINTED} more lines were not read; --json tells of each"
        )
    if cards is not None:
        cards.write(design, result)
    if group.problems:
        return Exit.MISUSE
    return Exit.FINE if result.fits.all() else Exit.STOPS


@dataclass(frozen=True, slots=True)
class _Cards:
    """The file that a group's cards go to."""

    file: Path
    paper: str

    def __post_init__(self) -> None:
        """Refuse a file of another kind."""
        from schematics.errors import UsageError

        if self.file.suffix.lower() not in (".pdf", ".html"):
            raise UsageError(f"--cards: expected a file that ends in .pdf or .html, got {str(self.file)!r}")

    def write(self, design: Design, result: GroupFit) -> None:
        """Write them."""
        from schematics.document.typeset import OPENING
        from schematics.drawing.ink.sheet import PAPERS
        from schematics.fitting.group_cards import cards_document, unprinted_names
        from schematics.pattern.pattern_files import document_content, page_look
        from schematics.reading.files.saving import write_output

        form = self.file.suffix.lower().removeprefix(".")
        look = page_look(design, PAPERS[self.paper])
        document = cards_document(design, result, lettered=form == "pdf")
        content = document_content(document, form, look)
        write_output(self.file, content, OPENING if form == "pdf" else content.partition(b"\n")[0])
        group = result.group
        if form == "pdf" and (lost := unprinted_names(group.names, group.lines.tolist())):
            to_stderr(f"{self.file}: {lost}")
