"""A document as comma-separated values: its records, one line a figure, or the rows of its tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.document.csv_text import Value, csv_text
from schematics.document.document import Document, Section, cell_value, plain
from schematics.document.json_text import number

HEADER = ("section", "key", "figure", "unit")


def write(documents: Sequence[Document], _together: str) -> Iterator[str]:
    """The lines, numbers to 3 decimals; what a line does not have is an empty cell.

    Those of several documents are one table, with the title of its document before each line.
    """
    lines = _lines(documents[0]) if len(documents) == 1 else _one_table(documents)
    yield csv_text([value if isinstance(value, str) else number(value) for value in line] for line in lines)


def _one_table(documents: Sequence[Document]) -> Iterator[Sequence[Value]]:
    """The lines of all documents below the names of all their columns."""
    tables = [(document.title, iter(_lines(document))) for document in documents]
    headers = [tuple(map(str, next(lines))) for _, lines in tables]
    names = dict.fromkeys(name for header in headers for name in header)
    yield ("design", *names)
    for header, (title, lines) in zip(headers, tables, strict=True):
        for line in lines:
            cells = dict(zip(header, line, strict=True))
            yield (title, *map(cells.get, names))


def _lines(document: Document) -> Iterator[Sequence[Value]]:
    """The header of one document, and its lines."""
    if document.records is not None:
        return iter(document.records())
    return _figures(document) if document.sizes else _tables(tuple(document.all_sections))


def _figures(document: Document) -> Iterator[Sequence[Value]]:
    """Every figure with its exact value in each size."""
    yield (*HEADER, *(f"size {name}" for name in document.sizes))
    sizes = range(len(document.sizes))
    for section, figure in document.figures:
        yield (section.key, figure.key, figure.name, figure.unit, *map(figure.value, sizes))


def _tables(sections: Sequence[Section]) -> Iterator[Sequence[Value]]:
    """The rows of all tables below the names of all their columns, then each section's sentences."""
    keys = {table: table.keys() for section in sections for table in section.tables}
    names = dict.fromkeys(name for each in keys.values() for name in each)
    yield ("section", *names, "sentence")
    for section in sections:
        heading = plain(section.heading)
        for table in section.tables:
            for row in table.rows:
                cells = dict(zip(keys[table], map(cell_value, row), strict=True))
                yield (table.caption or heading, *map(cells.get, names), None)
        for words in section.sentences:
            yield (heading, *(None for _ in names), plain(words))
