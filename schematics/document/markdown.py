"""Documents as Markdown (CommonMark with tables), ready to be pasted into a pattern."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

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

_SPECIAL = re.compile(r"([\\`*_<>|~&$])")
_CLOSING_SIGN = re.compile(r"(#+)$")
_BLOCK_SIGN = re.compile(r"^(\d*)([-+#=]|[.)](?!\S))")


def escape(text: str) -> str:
    r"""The text so that Markdown shows it as it stands: no markup, no link, no entity, no cell's end.

    >>> escape("a|b *c* [d](e)")
    'a\\|b \\*c\\* [d]\\(e)'
    """
    return _SPECIAL.sub(r"\\\1", text).replace("](", "]\\(").replace("]:", "]\\:")


def write(documents: Sequence[Document], _together: str) -> Iterator[str]:
    """The documents one after the other, ending in a line break."""
    yield "\n\n".join(block for document in documents for block in _document(document)) + "\n"


def _document(document: Document) -> Iterator[str]:
    if document.house and (logo := document.house.logo):
        yield f"![{escape(logo.shows)}]({logo.address})"
    yield _heading(document.title, 1)
    yield from map(_paragraph, document.lead)
    for section in (*document.sections, *document.closing):
        yield from _section(section, 2)


def _section(section: Section, level: int) -> Iterator[str]:
    if section.heading:
        yield _heading(section.heading, level)
    for block in section.blocks:
        yield from _block(block, level + 1)


def _block(block: Block, level: int) -> Iterator[str]:
    if isinstance(block, Section):
        yield from _section(block, level)
    elif isinstance(block, Table):
        for table in block.by_size():
            if table.caption:
                yield _heading(table.caption, level)
            yield _table(table)
    elif isinstance(block, Items):
        if block.caption:
            yield _heading(block.caption, level)
        if block.items:
            yield "\n".join(f"- {_paragraph(words)}" for words in block.items)
    elif isinstance(block, Row):
        yield f"**{escape(block.label)}:** {escape(block.instruction)}"
    elif isinstance(block, Photo):
        yield f"![{escape(block.shows)}]({block.address})"
    elif not isinstance(block, Picture):
        yield _paragraph(block)


def _heading(words: Words, level: int) -> str:
    """A heading, of which no sign at its end is taken for a closing one."""
    return "#" * level + " " + _CLOSING_SIGN.sub(r"\\\1", _words(words))


def _paragraph(words: Words) -> str:
    """Words that no sign at their start makes a list or a heading."""
    return _BLOCK_SIGN.sub(r"\1\\\2", _words(words))


def _table(table: Table) -> str:
    header = _row([escape(words) for words in table.header])
    rows = [_row([_words(cell_words(cell)) for cell in row]) for row in table.rows]
    ends = ["---:" if table.is_number(index) else "---" for index in range(len(table.header))]
    return "\n".join([header, _row(ends), *rows])


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _words(words: Words) -> str:
    return "".join(_rated(run) if isinstance(run, Rated) else escape(run) for run in runs(words))


def _rated(run: Rated) -> str:
    text = run.text.rstrip()
    return f"**{escape(text)}**{run.text[len(text) :]}"
