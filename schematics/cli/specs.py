"""What the commands that take specs share: their arguments, finding and reading the files."""

from __future__ import annotations

import os
import unicodedata
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from schematics.cli.program import Exit, to_stderr
from schematics.errors import SchematicsError, UsageError

if TYPE_CHECKING:
    from schematics.checks.evaluation import Result
    from schematics.design.design import Design

_Command = Callable[..., Any]

SPECS = Path("specs")
"""Folder looked in, under the current one, when no spec is named."""


def _size_names(_ctx: click.Context, _param: click.Parameter, value: str | None) -> tuple[str, ...] | None:
    """The names in a list with commas; accented letters as a spec has them, however they were typed."""
    if value is None:
        return None
    parts = (part.strip() for part in unicodedata.normalize("NFC", value).split(","))
    names = tuple(part for part in parts if part)
    if not names:
        raise click.BadParameter("expected size names with commas between them, such as 2,4,6")
    return names


sizes_option = click.option(
    "--sizes", "--size", "sizes", metavar="NAMES", callback=_size_names,
    help="Only these sizes, with commas between them: 2,4,6.",
)  # fmt: skip
"""A tuple of names, None for all."""


def spec_arguments(command: _Command) -> _Command:
    """Give a command the argument ``specs`` and the option ``--sizes``."""
    specs = click.argument("specs", nargs=-1, metavar="[SPEC]...", type=click.Path(path_type=Path))
    return specs(sizes_option(command))


terms_option = click.option(
    "--terms", type=click.Choice(("US", "UK"), case_sensitive=False),
    help="Whose stitch names to use; the spec's own choice, usually US, if left out.",
)  # fmt: skip
"""None for the spec's."""


def paper_option(words: str) -> Callable[[_Command], _Command]:
    """The option ``--paper``, with what it is said to be of."""
    papers = click.Choice(("a4", "letter"))
    return click.option("--paper", type=papers, default="a4", show_default=True, help=words)


def output_option(words: str, *, required: bool = False) -> Callable[[_Command], _Command]:
    """The option ``--output`` for a file, with what is said of it; None where it is not ``required``."""
    file = click.Path(path_type=Path, dir_okay=False)
    return click.option("-o", "--output", required=required, type=file, metavar="FILE", help=words)


unit_option = click.option(
    "--unit", type=click.Choice(["cm", "in"]),
    help="Unit of what you give without one, and of what is said.  [default: the spec's]",
)  # fmt: skip
"""None for the spec's."""


def in_unit(design: Design, unit: str | None) -> Design:
    """The design, reported in that unit; in its own if it is None."""
    from schematics.units import Unit

    return design if unit is None else replace(design, unit=Unit(unit))


def force_option(command: _Command) -> _Command:
    """``--force``, handed on as ``force``."""
    words = "Make everything anew, and replace files of others."
    return click.option("--force", is_flag=True, help=words)(command)


def edited_note(folder: Path, edited: Iterable[Path]) -> str:
    """A sentence: files of the folder which somebody had changed were written anew."""
    return (
        f"{folder}: changed by somebody since they were written, and now written anew: "
        f"{listed_files(folder, edited)}"
    )


def listed_files(folder: Path, files: Iterable[Path]) -> str:
    """Files as they lie in the folder."""
    return ", ".join(path.relative_to(folder).as_posix() for path in files)


def find_specs(named: Sequence[Path]) -> tuple[Path, ...]:
    """The specs named, each once, or else all in the folder `SPECS` but hidden files, which editors leave.

    Raises:
        UsageError: none was named and there is none.
    """
    if named:
        once: dict[str, Path] = {}
        for path in named:
            once.setdefault(os.path.realpath(path), path)
        return tuple(once.values())
    paths = sorted(
        path
        for ending in ("*.yaml", "*.yml")
        for path in SPECS.glob(ending)
        if path.is_file() and not path.name.startswith(".")
    )
    if not paths:
        raise UsageError(
            f"no spec was named and there is no {SPECS}/*.yaml here; name one, such as my-poncho.yaml"
        )
    return tuple(paths)


def only_spec(named: Sequence[Path], takes: str) -> Path:
    """The one spec of which ``-o`` ``takes`` something; a `UsageError` where there are several, or none."""
    paths = find_specs(named)
    if len(paths) > 1:
        raise UsageError(f"-o takes {takes}, and there are {len(paths)} specs; name one of them")
    return paths[0]


def read_specs(paths: Sequence[Path]) -> tuple[list[Design], list[str]]:
    """The designs that can be read, and what is wrong with the other specs."""
    designs: list[Design] = []
    problems: list[str] = []
    for path in paths:
        try:
            designs.append(one_spec(path))
        except SchematicsError as error:
            problems.append(str(error))
    return designs, problems


def one_spec(path: Path) -> Design:
    """The design of a spec, with a line on the error stream where some of its counts were found by grading.

    Raises:
        SchematicsError: it cannot be read; the text begins with the file.
    """
    design = _read(path)
    if design.graded:
        to_stderr(graded_note(design.path, design.graded, len(design.sizes)))
    return design


def for_maker(path: Path, unit: str | None) -> Design:
    """The design of a spec for a maker, who need not know how its counts came about; see `in_unit`.

    Raises:
        SchematicsError: it cannot be read; the text begins with the file.
    """
    return in_unit(_read(path), unit)


def _read(path: Path) -> Design:
    from schematics.reading.design_file import read_design
    from schematics.reading.files.saving import reason

    try:
        return read_design(path)
    except OSError as error:
        raise UsageError(f"{path}: {reason(error)}") from None


def graded_note(path: Path, graded: Sequence[str], size_count: int) -> str:
    """A line that says of which of the sizes counts were found."""
    some = f"size{'' if len(graded) == 1 else 's'} {', '.join(graded)}"
    which = "all sizes" if len(graded) == size_count else some
    return f"{path}: counts left out in {which} were found; schematics grade {path} shows them"


def stops_words(names: Sequence[str], path: Path) -> str:
    """Which sizes a check stops, and where to read why."""
    return f"stop: {', '.join(names)}; schematics check {path} says why"


def outcome_told(results: Iterable[Result], path: Path) -> Exit:
    """The exit code that the results of a spec come to; sizes that stop are named on the error stream."""
    stops = [result.size.name for result in results if result.verdict == "stop"]
    if stops:
        to_stderr(stops_words(stops, path))
    return Exit.STOPS if stops else Exit.FINE


def outcome(verdicts: Iterable[str], problems: Sequence[str] = ()) -> Exit:
    """Print each problem on the error stream; the exit code that verdicts and problems come to."""
    for problem in problems:
        to_stderr(problem)
    if problems:
        return Exit.MISUSE
    return Exit.STOPS if "stop" in verdicts else Exit.FINE
