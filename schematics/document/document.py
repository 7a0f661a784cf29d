"""A document: a title, and sections of words, lists and tables, whatever it is written as.

A report is built once as a `Document`; the writers beside this file print it as text for the terminal,
Markdown, HTML, CSV and JSON, so that the five never differ. Escaping is the writers' concern: the texts
here are plain.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import groupby
from operator import itemgetter
from typing import Any, TypeVar

import schematics
from schematics.checks.finding import Severity
from schematics.design.size_string import size_string
from schematics.document.csv_text import Value
from schematics.document.house_style import HouseStyle, Photo
from schematics.units import AnyGrain, Grain, Unit, figure

PROGRAM = f"schematics {schematics.__version__}"

NONE = "–"
"""Printed where a size has no such figure, here and on sheets."""

_ACROSS = 8
"""So many sizes are beside each other in a table."""

_KEPT_TOGETHER = re.compile(
    r"(?<=\d) (?=\d/\d|%|\(\d|(?:sts?|cm|in|g|rows?)\b)|(?<=×) (?=\d)|(?<=[\d\]]) (?=×)"
)

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Rated:
    """Words that carry a verdict: coloured or bold where they can be."""

    text: str
    severity: Severity

    def __str__(self) -> str:
        return self.text


Words = str | Rated | tuple[str | Rated, ...]
"""A text, or parts of one that follow each other."""


def runs(words: Words) -> tuple[str | Rated, ...]:
    """The parts of the words in order."""
    return words if isinstance(words, tuple) else (words,)


def plain(words: Words) -> str:
    """The words as one text."""
    return "".join(map(str, runs(words)))


def unbroken(words: Words) -> Words:
    """The words with a number and its fraction, unit, times or larger sizes on one line."""
    return tuple(
        run if isinstance(run, Rated) else _KEPT_TOGETHER.sub("\N{NO-BREAK SPACE}", run)
        for run in runs(words)
    )


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number for programs, in ``unit``, and the same as printed."""

    value: float | None
    words: Words
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure in every size.

    ``key`` is its name for programs, ``name`` for people. ``values`` are exact and in ``unit``;
    ``texts`` are the same as printed. Both are in the order of the sizes, or hold one entry that is
    good for all of them. A ``detail`` only spells out what another figure says in words.
    """

    key: str
    name: str
    unit: str
    values: tuple[Value, ...]
    texts: tuple[str, ...]
    detail: bool = False

    def value(self, index: int) -> Value:
        """The value in the size of that index."""
        return self.values[0] if len(self.values) == 1 else self.values[index]

    def text(self, index: int) -> str:
        """The figure as printed in the size of that index."""
        return self.texts[0] if len(self.texts) == 1 else self.texts[index]

    def __str__(self) -> str:
        """The figure as the trade prints it: ``42 (46, 50)``."""
        return size_string(self.texts)


Cell = Words | Quantity | Figure


def cell_words(cell: Cell) -> Words:
    """A cell as printed."""
    if isinstance(cell, Quantity):
        return cell.words
    return str(cell) if isinstance(cell, Figure) else cell


def cell_value(cell: Cell) -> Value:
    """A cell for programs: the number of a quantity, else its text."""
    return cell.value if isinstance(cell, Quantity) else plain(cell_words(cell))


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows of cells under a header.

    The header of a table that is not ``headed`` says itself: the terminal leaves it out. A ``stacked`` table
    has so much in a row that the terminal gives it several lines: ``name: value``, then the rest. One with
    ``sizes`` has its figures below them where it is printed: `by_size`. From column ``shared`` on neighbours
    that are alike are one cell.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    caption: str = ""
    headed: bool = True
    stacked: bool = False
    sizes: tuple[str, ...] = ()
    shared: int | None = None

    def by_size(self) -> tuple[Table, ...]:
        """A table for each column of figures and as many sizes as are beside each other; else itself."""
        if not self.sizes:
            return (self,)
        names = [at for at in range(len(self.header)) if not any(self._figures(at))]
        across = math.ceil(len(self.sizes) / math.ceil(len(self.sizes) / _ACROSS))
        parts = [
            range(len(self.sizes))[start : start + across] for start in range(0, len(self.sizes), across)
        ]
        return tuple(
            Table(
                header=(*(self.header[name] for name in names), *(self.sizes[size] for size in part)),
                rows=tuple(
                    (*(row[name] for name in names), *(figure.text(size) for size in part))
                    for row, figure in zip(self.rows, self._figures(at), strict=True)
                ),
                caption=f"In {self.header[at]}",
                shared=len(names),
            )
            for at in range(len(self.header))
            if at not in names
            for part in parts
        )

    def _figures(self, index: int) -> Iterator[Figure]:
        return (cell for cell in self.column(index) if isinstance(cell, Figure))

    def size_by_size(self, row: Sequence[Cell]) -> Iterator[tuple[str, str]]:
        """The figures of a row for sizes that have them alike: ``Sizes 4, 6``, ``38 cm, 15 inches``."""
        figures = [
            (name, cell) for name, cell in zip(self.header, row, strict=True) if isinstance(cell, Figure)
        ]
        printed = [
            ", ".join(f"{cell.text(at)} {name}" for name, cell in figures) for at in range(len(self.sizes))
        ]
        for words, alike in groupby(zip(printed, self.sizes, strict=True), key=itemgetter(0)):
            names = [name for _, name in alike]
            yield f"Size{'s' if len(names) > 1 else ''} {', '.join(names)}", words

    def cells(self, row: Sequence[Cell]) -> Iterator[tuple[str, Words, int]]:
        """The name of each cell's columns, its words, and how many columns it takes."""
        named = list(zip(self.header, map(cell_words, row), strict=True))
        at = len(named) if self.shared is None else self.shared
        yield from ((name, words, 1) for name, words in named[:at])
        for words, alike in groupby(named[at:], key=itemgetter(1)):
            names = [name for name, _ in alike]
            yield ", ".join(names), words, len(names)

    def column(self, index: int) -> Iterator[Cell]:
        """The cells of a column that have something in them."""
        return (row[index] for row in self.rows if row[index] != "")

    def is_number(self, index: int) -> bool:
        """Whether a column holds quantities only."""
        cells = tuple(self.column(index))
        return bool(cells) and all(isinstance(cell, Quantity) for cell in cells)

    def keys(self) -> tuple[str, ...]:
        """The names of the columns for programs, such as ``metres (m)``."""
        return tuple(map(self._key, range(len(self.header))))

    def _key(self, index: int) -> str:
        units = {cell.unit for cell in self.column(index) if isinstance(cell, Quantity)}
        name = self.header[index].strip() or "name"
        return f"{name} ({unit})" if len(units) == 1 and (unit := units.pop()) else name


@dataclass(frozen=True, slots=True)
class Items:
    """A list of words, each with a bullet."""

    items: tuple[Words, ...]
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """One line of instructions: which row, what is worked, and the count at its end where it is given."""

    label: str
    work: str
    count: str = ""

    @property
    def instruction(self) -> str:
        """What is worked, and the count in brackets."""
        return f"{self.work} [{self.count}]" if self.count else self.work

    @property
    def text(self) -> str:
        """Such as ``Row 5 (RS): Ch 2, hdc in each st to end, turn. [54 sts]``."""
        return f"{self.label}: {self.instruction}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing of so many mm, described in words by what it ``shows``; forms without pictures leave it out.

    ``png`` makes the same as a PNG when it is asked for; it may raise a `MissingLibraryError`. ``narrow``
    is the SVG of the same drawn for a phone. ``lettering_mm`` is how high its capitals are at least.
    """

    shows: str
    width_mm: float
    height_mm: float
    svg: str = field(repr=False)
    png: Callable[[], bytes] = field(repr=False, compare=False)
    narrow: str = field(default="", repr=False)
    lettering_mm: float = 2.5


@dataclass(frozen=True, slots=True)
class Section:
    """A part of a document: paragraphs, lists, tables, rows, pictures and sections within it, in order.

    ``key`` is its name for programs. ``figures`` are all its figures for programs, shown in a table or not.
    One that is to be ``cut_out`` is on one page, with a line around it.
    """

    heading: Words
    blocks: tuple[Block, ...]
    key: str = ""
    figures: tuple[Figure, ...] = ()
    cut_out: bool = False

    @property
    def sentences(self) -> tuple[Words, ...]:
        """Every paragraph, every row and every item of a list."""
        return tuple(
            words
            for block in self.blocks
            if not isinstance(block, Table | Section | Picture | Photo)
            for words in _sentences(block)
        )

    @property
    def tables(self) -> tuple[Table, ...]:
        """Every table."""
        return tuple(block for block in self.blocks if isinstance(block, Table))

    def with_parts(self) -> Iterator[Section]:
        """The section, then those within it."""
        yield self
        for block in self.blocks:
            if isinstance(block, Section):
                yield from block.with_parts()


Block = Words | Items | Table | Row | Picture | Photo | Section


def _sentences(block: Words | Items | Row) -> tuple[Words, ...]:
    if isinstance(block, Items):
        return block.items
    return (block.text if isinstance(block, Row) else block,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """What one report says.

    Attributes:
        title: what it is about.
        lead: sentences below the title.
        sections: its parts.
        closing: parts that are printed once where several documents are printed together, below the last.
        sizes: the names of the sizes, where its sections have figures.
        head: what the JSON begins with.
        data: the JSON values where they are more than what is printed; made when asked for.
        records: the lines of the CSV, its header first, where they are not those of the tables.
        sold: whether it is for a designer's customers, who are not told which program wrote it.
        house: how it looks, where the designer says so.
    """

    title: str
    sections: tuple[Section, ...]
    lead: tuple[Words, ...] = ()
    closing: tuple[Section, ...] = ()
    sizes: tuple[str, ...] = ()
    head: Mapping[str, Any] = field(default_factory=dict)
    data: Callable[[], Mapping[str, Any]] | None = None
    records: Callable[[], Iterable[Sequence[Value]]] | None = None
    sold: bool = False
    house: HouseStyle | None = None

    @property
    def all_sections(self) -> Iterator[Section]:
        """Every section, those within another after it."""
        for section in (*self.sections, *self.closing):
            yield from section.with_parts()

    @property
    def figures(self) -> Iterator[tuple[Section, Figure]]:
        """Every figure with its section."""
        return ((section, figure) for section in self.sections for figure in section.figures)


def listed_section(
    *,
    key: str,
    heading: str,
    sentences: tuple[Words, ...] = (),
    tables: tuple[Table, ...] = (),
    figures: tuple[Figure, ...] = (),
) -> Section:
    """A section of a list of sentences, then tables."""
    return Section(heading, (Items(sentences), *tables), key, figures)


def count_figure(key: str, name: str, unit: str, values: Iterable[int | None]) -> Figure:
    """A whole number in every size."""
    given = tuple(values)
    return Figure(key=key, name=name, unit=unit, values=given, texts=_texts(given, str))


def text_figure(key: str, name: str, values: Iterable[str | None], *, detail: bool = False) -> Figure:
    """Words in every size."""
    given = tuple(values)
    texts = tuple(value or NONE for value in given)
    return Figure(key=key, name=name, unit="", values=given, texts=texts, detail=detail)


def length_figures(
    key: str, name: str, lengths_cm: Sequence[float | None], grain: AnyGrain = Grain.COARSE
) -> tuple[Figure, Figure]:
    """A length in every size, in centimetres and in inches, each with its values in its unit."""
    cm, inches = (
        Figure(
            key=f"{key}.{unit}",
            name=name,
            unit=unit.value,
            values=tuple(None if cm is None else unit.from_cm(cm) for cm in lengths_cm),
            texts=_texts(lengths_cm, partial(figure, unit=unit, grain=grain)),
        )
        for unit in Unit
    )
    return cm, inches


def number_figure(key: str, name: str, unit: str, values: Iterable[float | None], digits: int = 0) -> Figure:
    """A number in every size, printed to so many decimals at most."""
    given = tuple(values)
    texts = _texts(given, lambda value: _decimal(value, digits))
    return Figure(key=key, name=name, unit=unit, values=given, texts=texts)


def _texts(values: Iterable[T | None], printed: Callable[[T], str]) -> tuple[str, ...]:
    return tuple(NONE if value is None else printed(value) for value in values)


def _decimal(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    return text.rstrip("0").removesuffix(".") if digits else text
