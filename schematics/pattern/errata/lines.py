"""A written pattern as lines with labels, each of which some sizes work."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from schematics.checks.wording import sentence_case
from schematics.document.document import (
    Block,
    Document,
    Items,
    Picture,
    Row,
    Section,
    Table,
    cell_words,
    plain,
)
from schematics.document.house_style import Photo
from schematics.pattern.errata.some_sizes import in_some, named
from schematics.units import Unit

_ONLY = re.compile(r"Sizes? (?P<names>.+?) only(?P<then>, |: )", re.DOTALL)
_UNITS = frozenset(unit.words for unit in Unit)


@dataclass(frozen=True, slots=True)
class Reading:
    """A line as it is read in some sizes; of a paragraph the label is empty."""

    label: str
    text: str

    @property
    def words(self) -> str:
        """The whole line."""
        return f"{self.label}: {self.text}" if self.label else self.text


@dataclass(frozen=True, slots=True)
class PatternLine:
    """One line of a pattern, for these ``sizes``, in whose order its size strings are.

    ``number`` is its place in the pattern, from 0; ``printed`` is its text, the cells of a table one
    after the other.
    """

    number: int
    label: str
    text: str
    sizes: tuple[str, ...]
    printed: str

    def among(self, chosen: Sequence[str]) -> Reading:
        """The line for some of its sizes."""
        return Reading(*(in_some(text, self.sizes, chosen) for text in (self.label, self.text)))


@dataclass(frozen=True, slots=True)
class Headed:
    """The lines below one heading; ``path`` is that heading after those it is below."""

    path: tuple[str, ...]
    lines: tuple[PatternLine, ...]

    def of(self, size: str) -> tuple[PatternLine, ...]:
        """The lines that a size works."""
        return tuple(line for line in self.lines if size in line.sizes)


def parts_of(document: Document, names: Sequence[str]) -> tuple[Headed, ...]:
    """Every part of a pattern in these sizes, in order."""
    numbers = count()
    return tuple(part for section in document.sections for part in _parts(section, (), tuple(names), numbers))


def _parts(
    section: Section, above: tuple[str, ...], names: tuple[str, ...], numbers: count[int]
) -> Iterator[Headed]:
    path = (*above, plain(section.heading))
    own: list[PatternLine] = []
    within: list[Headed] = []
    for block in section.blocks:
        if isinstance(block, Section):
            within += _parts(block, path, names, numbers)
        elif isinstance(block, str) and not own and (only := _only(block, names)):
            names = only[0]
            own.append(PatternLine(next(numbers), "", block, names, block))
        else:
            own += _lines(block, names, numbers)
    yield Headed(path, tuple(own))
    yield from within


def _lines(block: Block, names: tuple[str, ...], numbers: count[int]) -> Iterator[PatternLine]:
    match block:
        case Row():
            sizes, label = _only(block.label, names) or (names, block.label)
            yield PatternLine(next(numbers), label, block.instruction, sizes, block.text)
        case Table():
            yield from _of_table(block, names, numbers)
        case Items() | str() | tuple():
            for words in Section("", (block,)).sentences:
                yield PatternLine(next(numbers), "", plain(words), names, plain(words))
        case Picture() | Photo() | Section():
            return


def _only(label: str, names: tuple[str, ...]) -> tuple[tuple[str, ...], str] | None:
    """The sizes that a label says it is for alone, and the label without saying so."""
    match = _ONLY.match(label)
    sizes = named(match["names"], names) if match else None
    return (sizes, sentence_case(label[match.end() :])) if match and sizes else None


def _of_table(table: Table, names: tuple[str, ...], numbers: count[int]) -> Iterator[PatternLine]:
    """A line for each row: in a table of sizes, for those it names; else under the name it begins with."""
    for row in table.rows:
        cells = [plain(cell_words(cell)) for cell in row]
        sizes, label, at = names, cells[0], 0
        if table.header[0] == "size":
            sizes = names if cells[0] == "all" else named(cells[0], names) or names
            label = "" if table.caption else f"Table of {table.header[1]}"
        elif not table.header[0] and len(cells) > 2 and table.header[1] not in _UNITS:
            at, label = 1, cells[1]
        label = ", ".join(filter(None, (table.caption, label)))
        named_cells = [(table.header[1 + at + place], cell) for place, cell in enumerate(cells[1 + at :])]
        text = named_cells[0][1] if len(named_cells) == 1 else _cell_text(named_cells)
        if at:
            text = f"{text}; letter {cells[0]}"
        yield PatternLine(next(numbers), label, text, sizes, "".join(cells[:2] if table.sizes else cells))


def _cell_text(cells: Sequence[tuple[str, str]]) -> str:
    """``38 cm; 15 inches``, ``body row: 12; panel row: 16``."""
    return "; ".join(
        f"{cell} {name}" if name in _UNITS else f"{name.replace(',', '')}: {cell}" for name, cell in cells
    )
