"""The figures as Markdown (CommonMark with tables), ready to be pasted into a pattern."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from schematics.design.size_string import size_string
from schematics.document.document import Document, Section, Table

_SPECIAL = re.compile(r"([\\`*_<>|~&$])")


def escape(text: str) -> str:
    r"""The text so that Markdown shows it as it stands: no markup, no link, no entity, no cell's end.

    >>> escape("a|b *c* [d](e)")
    'a\\|b \\*c\\* [d]\\(e)'
    """
    return _SPECIAL.sub(r"\\\1", text).replace("](", "]\\(").replace("]:", "]\\:")


def to_markdown(document: Document) -> str:
    """The whole document, ending in a line break."""
    return "\n\n".join(_blocks(document)) + "\n"


def _blocks(document: Document) -> Iterator[str]:
    yield f"# {escape(document.title)}: figures for the pattern"
    dated = f", {document.date}" if document.date else ""
    yield f"Sizes {escape(size_string(document.sizes))}. Stitch names in {document.terms} terms."
    yield escape(f"Made from {document.spec}{dated}, by {document.program}.")
    for section in document.sections:
        yield f"## {escape(section.heading)}"
        yield from _sentences(section)
        for table in section.tables:
            yield f"### {escape(table.caption)}"
            yield _table(table)


def _sentences(section: Section) -> Iterator[str]:
    if section.sentences:
        yield "\n".join(f"- {escape(sentence)}" for sentence in section.sentences)


def _table(table: Table) -> str:
    header = _row(table.header)
    rule = _row(["---"] * len(table.header))
    return "\n".join([header, rule, *(_row([str(cell) for cell in row]) for row in table.rows)])


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(escape(cell) for cell in cells)} |"
