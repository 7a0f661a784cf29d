"""Tables for the terminal: plain words in columns, readable at 80 columns and without colour."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Sequence

import click
from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from schematics.checks.evaluation import SEVERITIES, Result
from schematics.checks.finding import Explanation, Family, Finding, Severity
from schematics.design.cautions import CAUTIONS
from schematics.design.design import Design
from schematics.design.limits import LIMIT_FIELDS, Limits

STYLES = {Severity.STOP: "bold red", Severity.MIND: "yellow", Severity.GOOD: "green"}


def say(parts: Iterable[RenderableType]) -> None:
    """Print the parts on standard output, with colours on a terminal only.

    Nothing in the text is taken for markup, and no line ends in blanks.
    """
    console = Console(highlight=False, markup=False, emoji=False)
    with console.capture() as capture:
        for part in parts:
            console.print(part)
    for line in capture.get().splitlines():
        click.echo(line.rstrip())


def columns(rows: Sequence[Sequence[Text | str]], right: Container[int] = ()) -> RenderableType:
    """Rows in aligned columns, indented, without rules.

    Only the last column wraps; the columns numbered in ``right``, from 0, are set to the right.
    """
    grid = Table.grid(padding=(0, 2))
    width = max(map(len, rows), default=0)
    for index in range(width):
        last = index == width - 1
        grid.add_column(no_wrap=not last, overflow="fold", justify="right" if index in right else "left")
    for row in rows:
        grid.add_row(*row)
    return Padding(grid, (0, 0, 0, 2), expand=False)


def heading(words: str) -> Text:
    """A line that stands out where there is colour."""
    return Text(words, style="bold")


def design_tables(design: Design, results: Sequence[Result], *, show_all: bool) -> Iterator[RenderableType]:
    """A heading, then for each size its verdict and its findings, those that stop first.

    Findings that are good are only counted unless ``show_all``.
    """
    yield heading(f"{design.title}, {design.construction} ({design.path})")
    for result in results:
        yield Text()
        yield _verdict_line(result)
        shown = [each for each in result.findings if show_all or each.severity is not Severity.GOOD]
        shown.sort(key=lambda finding: SEVERITIES.index(finding.severity))
        if shown:
            yield columns([_row(finding) for finding in shown])
    yield Text()


def cautions_parts() -> Iterator[RenderableType]:
    """The cautions for the maker, below a heading."""
    yield heading("Before it is worn")
    yield columns([["-", caution.sentence] for caution in CAUTIONS])


def codes_parts(families: Iterable[Family]) -> Iterator[RenderableType]:
    """Every code a finding may have, by family."""
    for family in families:
        yield heading(family.name)
        yield columns([[each.code, each.title] for each in family.explanations])


def explanation_parts(explanation: Explanation) -> Iterator[RenderableType]:
    """What a code means, at length, with the default limits it is held against."""
    yield heading(f"{explanation.code}: {explanation.title}")
    rows = [
        ["means", explanation.meaning],
        ["cure", explanation.cure],
        ["origin", explanation.origin],
    ]
    for name in explanation.limits:
        about = LIMIT_FIELDS[name].metadata
        rows.append(["limit", f"{name} {getattr(Limits(), name):g}: {about['words']} ({about['source']})"])
    yield columns(rows)


def _verdict_line(result: Result) -> Text:
    counts = Counter(finding.severity for finding in result.findings)
    counted = ", ".join(f"{counts[severity]} {severity.value}" for severity in SEVERITIES if counts[severity])
    line = Text(f"Size {result.size.name}, {result.wearer.label}: ", style="bold")
    line.append(result.verdict.value, style=STYLES[result.verdict])
    line.append(f" ({counted})" if counted else "", style="not bold")
    return line


def _row(finding: Finding) -> list[Text | str]:
    return [Text(finding.severity.value, style=STYLES[finding.severity]), finding.code, finding.sentence]
