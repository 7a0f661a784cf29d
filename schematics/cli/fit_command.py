"""``schematics fit``: will it fit this child, with my gauge; one wearer or a whole group."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from schematics.cli.program import Exit, tell
from schematics.cli.reports import print_documents, report_options
from schematics.cli.specs import in_unit, one_spec, sizes_option, unit_option
from schematics.wearer.body import Body, WearerSpec

if TYPE_CHECKING:
    from schematics.design.design import Design, Size
    from schematics.fitting.gauge_text import OwnGauge


PROBLEMS_TOLD = 20
"""Lines of a group that could not be read and are named on the error stream."""


def _measurements(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command an option for each body measurement."""
    for body in reversed(Body):
        command = click.option(
            f"--{body.value.replace('_', '-')}", body.value, metavar="LENGTH", help=f"The {body.words}."
        )(command)
    return command


@click.command()
@click.argument("spec", type=click.Path(path_type=Path))
@click.option(
    "--age", metavar="AGE", help="6, '18 months'; what is not measured is then read from the age table."
)
@click.option(
    "--wearer", "wearer_file", type=click.Path(path_type=Path), metavar="FILE",
    help="A YAML file with measurements of one wearer.",
)  # fmt: skip
@click.option(
    "--gauge", multiple=True, metavar="TEXT",
    help="Your own swatch of the body: '20 sts 15 rows over 20 cm', any width; of another fabric: "
    "'rib: 20 sts ...'. May be given once for each fabric.",
)  # fmt: skip
@sizes_option
@unit_option
@click.option(
    "--group", type=click.Path(path_type=Path), metavar="FILE",
    help="A CSV file with one child a line: name, age and measurements as columns.",
)  # fmt: skip
@click.option("--all", "show_all", is_flag=True, help="Show every size's findings in full.")
@report_options()
@_measurements
def fit(
    spec: Path,
    age: str | None,
    wearer_file: Path | None,
    gauge: tuple[str, ...],
    sizes: tuple[str, ...] | None,
    unit: str | None,
    group: Path | None,
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
    from schematics.errors import UsageError
    from schematics.fitting.gauge_text import read_gauge

    given = {name: value for name, value in {"age": age, **measurements}.items() if value is not None}
    design = in_unit(one_spec(spec), unit)
    own = read_gauge(gauge, design) if gauge else None
    chosen = chosen_sizes(design, sizes)
    if group is not None:
        if given or wearer_file:
            raise UsageError("--group takes the measurements from its file; leave the others out")
        return _fit_group(design, chosen, group, own, show_all=show_all, form=form)
    if given or wearer_file:
        return _fit_one(design, chosen, _wearer(design, given, wearer_file), own, show_all, form)
    if own is not None:
        return _instead(design, chosen, own, form)
    raise UsageError(
        "say whom it is for: a measurement such as --head-girth 52, --age 6, --wearer FILE or --group FILE; "
        "or say how you work, with --gauge '20 sts 15 rows over 20 cm'"
    )


def _wearer(design: Design, given: dict[str, str], wearer_file: Path | None) -> WearerSpec:
    from schematics.fitting.measured import given_wearer, merged, read_wearer

    by_options = given_wearer(given, design.unit) if given else WearerSpec()
    return merged(read_wearer(wearer_file, design.unit), by_options) if wearer_file else by_options


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
    design: Design, sizes: tuple[Size, ...], path: Path, own: OwnGauge | None, *, show_all: bool, form: str
) -> Exit:
    """Print a group's sizes, and what is wrong with its lines."""
    from schematics.fitting.group import group_fit
    from schematics.fitting.group_file import read_group
    from schematics.fitting.group_report import group_document

    group = read_group(path, design.unit)
    result = group_fit(design, sizes, group, own.parts if own else None)
    print_documents([group_document(design, result, own, show_all=show_all)], form)
    for each in group.unused:
        tell(f"{path}:1: {each}")
    for problem in group.problems[:PROBLEMS_TOLD]:
        tell(f"{path}:{problem.line}: {problem.sentence}")
    if len(group.problems) > PROBLEMS_TOLD:
        tell(f"{path}: {len(group.problems) - PROBLEMS_TOLD} more lines were not read; --json tells of each")
    if group.problems:
        return Exit.MISUSE
    return Exit.FINE if result.fits.all() else Exit.STOPS
