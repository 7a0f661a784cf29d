"""The figures as JSON: every figure with its exact values, its texts and its size string."""

from __future__ import annotations

from typing import Any

from schematics.design.cautions import CAUTIONS
from schematics.document.document import Document, Figure, Section, Value
from schematics.document.json_text import number

FORMAT = 1
"""Goes up by one when a key is renamed, removed or changes its meaning."""


def to_json(document: Document) -> dict[str, Any]:
    """The document as plain JSON values; a figure's lists stand in the order of ``sizes``."""
    return {
        "format": FORMAT,
        "program": document.program,
        "spec": document.spec,
        "title": document.title,
        "date": document.date,
        "terms": document.terms,
        "sizes": list(document.sizes),
        "stops": list(document.stops),
        "cautions": [{"sentence": each.sentence, "source": each.source} for each in CAUTIONS],
        "sections": [_section(document, section) for section in document.sections],
    }


def _section(document: Document, section: Section) -> dict[str, Any]:
    return {
        "key": section.key,
        "heading": section.heading,
        "sentences": list(section.sentences),
        "figures": [_figure(document, figure) for figure in section.figures],
        "tables": [
            {
                "caption": table.caption,
                "header": list(table.header),
                "rows": [[str(cell) for cell in row] for row in table.rows],
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
