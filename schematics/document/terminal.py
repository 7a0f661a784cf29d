"""Documents as text for the terminal: plain words in columns, readable at 80 columns and without colour."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence

from rich.cells import cell_len
from rich.console import Console, ConsoleOptions, RenderableType
from rich.padding import Padding
from rich.table import Table as Grid
from rich.text import Text

from schematics.checks.finding import Severity
from schematics.document.document import (
    Block,
    Document,
    Items,
    Picture,
    Rated,
    Row,
    Section,
    Table,
    Words,
    cell_words,
    runs,
)
from schematics.document.house_style import Photo

STYLES = {Severity.STOP: "bold red", Severity.MIND: "yellow", Severity.GOOD: "green"}

INDENT = 2
GAPS = (2, 1)
"""Blanks between the columns of a table: the second where the first makes it too wide."""

MOST_BEFORE_LAST = 0.6
"""Share of a line that the columns before the last may take; where they take more, all are wrapped."""

_NUMBER = re.compile(r"\d( \d+/\d+)? (sts|rows|cm|in)\b|\d \d/\d\b")
_NO_BREAK = "\N{NO-BREAK SPACE}"


def write(documents: Sequence[Document], _together: str) -> Iterator[str]:
    """The documents below each other, with colours where standard output is a terminal.

    Nothing in the text is taken for markup, and no line ends in blanks.
    """
    console = Console(highlight=False, markup=False, emoji=False)
    with console.capture() as capture:
        for number, document in enumerate(documents):
            if number:
                console.print()
            for part in _document(document, console.width):
                console.print(part)
    yield "".join(f"{line.rstrip()}\n" for line in capture.get().splitlines())


def _document(document: Document, width: int) -> Iterator[RenderableType]:
    yield Text(document.title, style="bold")
    yield from map(_text, document.lead)
    for number, section in enumerate((*document.sections, *document.closing)):
        if number or section.heading or document.lead:
            yield Text()
        yield from _section(section, width)


def _section(section: Section, width: int) -> Iterator[RenderableType]:
    """The heading, bold up to a verdict in it, and what is below it, indented."""
    if section.heading:
        yield _text(section.heading, style="bold")
    for block in section.blocks:
        yield from _block(block, width, INDENT if section.heading else 0)


def _block(block: Block, width: int, indent: int) -> Iterator[RenderableType]:
    if isinstance(block, Section):
        yield from _section(block, width)
    elif isinstance(block, Items):
        if block.caption:
            yield _indented(Text(block.caption))
        yield _columns([[Text("-"), _text(words)] for words in block.items])
    elif isinstance(block, Table):
        for table in block.by_size():
            if table.caption:
                yield from (Text(), _indented(Text(table.caption)))
            yield from _stacked(table) if table.stacked else _table(table, width - INDENT)
    elif isinstance(block, Row):
        yield _indented(Text.assemble((f"{block.label}:", "bold"), " ", block.instruction), indent)
    elif not isinstance(block, Picture | Photo):
        yield _indented(_text(block), indent)


def _text(words: Words, style: str = "") -> Text:
    text = Text()
    for run in runs(words):
        if isinstance(run, Rated):
            text.append(run.text, style=STYLES[run.severity])
            style = ""
        else:
            text.append(run, style=style)
    return text


def _indented(part: RenderableType, indent: int = INDENT) -> RenderableType:
    return Padding(part, (0, 0, 0, indent), expand=False)


def _table(table: Table, width: int) -> Iterator[RenderableType]:
    """The table; one of numbers that is too wide is parted, its first column before each part."""
    rows = [[_text(cell_words(cell)) for cell in row] for row in table.rows]
    if table.headed:
        rows.insert(0, [Text(name) for name in table.header])
    widths = [max(cell_len(row[index].plain) for row in rows) for index in range(len(table.header))]
    right = [index for index in range(len(widths)) if table.is_number(index)]
    gap = next((gap for gap in GAPS if _total(widths, gap) <= width), GAPS[0])
    if _total(widths, gap) <= width or len(right) < len(widths) - 1:
        before_last = _total(widths[:-1], gap)
        yield _columns(rows, right, gap, wrap_all=before_last > MOST_BEFORE_LAST * width)
        return
    for part in _parts(widths, width):
        yield _columns([[row[index] for index in part] for row in rows], range(1, len(part)))


def _total(widths: Sequence[int], gap: int) -> int:
    return sum(widths) + gap * (len(widths) - 1)


def _parts(widths: Sequence[int], width: int) -> Iterator[Sequence[int]]:
    """The columns in groups that fit, the first of them in each."""
    part = [0]
    for index in range(1, len(widths)):
        if len(part) > 1 and _total([widths[each] for each in (*part, index)], GAPS[0]) > width:
            yield part
            part = [0]
        part.append(index)
    yield part


def _columns(
    rows: Sequence[Sequence[Text]], right: Sequence[int] = (), gap: int = GAPS[0], *, wrap_all: bool = False
) -> RenderableType:
    """Rows in aligned columns, indented, without rules; only the last column wraps unless all do."""
    grid = Grid.grid(padding=(0, gap))
    width = max(map(len, rows), default=0)
    for index in range(width):
        no_wrap = index < width - 1 and not wrap_all
        grid.add_column(no_wrap=no_wrap, overflow="fold", justify="right" if index in right else "left")
    for row in rows:
        grid.add_row(*row)
    return _indented(grid)


def _stacked(table: Table) -> Iterator[RenderableType]:
    """``name: value`` on a line of its own, the rest of each row below it."""
    for row in table.rows:
        name, value, *rest = (_text(cell_words(cell)).plain for cell in row)
        yield _indented(_Unbroken(f"{name}: {value}"))
        if any(rest):
            yield _indented(_Unbroken("; ".join(filter(None, rest))), 3 * INDENT)


class _Unbroken:
    """Words wrapped so that no number loses its unit."""

    def __init__(self, words: str) -> None:
        self._words = _NUMBER.sub(lambda match: match[0].replace(" ", _NO_BREAK), words)

    def __rich_console__(self, _: Console, options: ConsoleOptions) -> Iterator[Text]:
        for line in textwrap.wrap(self._words, options.max_width, break_long_words=False):
            yield Text(line.replace(_NO_BREAK, " "))
