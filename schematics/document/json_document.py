"""A document as JSON: its own data, or every figure and table with exact values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from schematics.document.csv_text import Value
from schematics.document.document import PROGRAM, Document, Figure, Section, cell_value, plain
from schematics.document.json_text import in_parts, number

FORMAT = 1
"""Goes up by one when a key is renamed, removed or changes its meaning."""


def write(documents: Sequence[Document], together: str) -> Iterator[str]:
    """The one document as JSON, or an object with all of them as a list under the key ``together``."""
    values = [to_json(document) for document in documents]
    yield from in_parts({together: values} if together else values[0])


def to_json(document: Document) -> Mapping[str, Any]:
    """The document as plain JSON values; a figure's lists are in the order of its sizes."""
    if document.data is not None:
        return document.data()
    head = document.head or {"format": FORMAT, "program": PROGRAM, "title": document.title}
    return {**head, "sections": [_section(document, section) for section in document.all_sections]}


def _section(document: Document, section: Section) -> dict[str, Any]:
    return {
        "key": section.key,
        "heading": plain(section.heading),
        "sentences": [plain(words) for words in section.sentences],
        "figures": [_figure(document, figure) for figure in section.figures],
        "tables": [
            {
                "caption": table.caption,
                "header": list(table.header),
                "rows": [[_value(cell_value(cell)) for cell in row] for row in table.rows],
            }
            for table in section.tables
        ],
    }


def _figure(document: Document, figure: Figure) -> dict[str, Any]:
    sizes = range(len(document.sizes))
    return {
        "key": figure.key,
        "name": figure.name,
        "unit": figure.unit or None,
        "values": [_value(figure.value(index)) for index in sizes],
        "printed": [figure.text(index) for index in sizes],
        "size_string": str(figure),
    }


def _value(value: Value) -> Value:
    return value if isinstance(value, str) else number(value)
