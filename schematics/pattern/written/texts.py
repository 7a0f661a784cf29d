"""Every text of a section, whatever block it is in."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.document.document import Section, cell_words, plain


def texts_of(section: Section) -> Iterator[str]:
    """Headings, paragraphs, rows, items of lists and cells of tables, those of sections within it too."""
    for part in section.with_parts():
        yield plain(part.heading)
        yield from map(plain, part.sentences)
        for table in part.tables:
            yield table.caption
            yield from table.header
            yield from (plain(cell_words(cell)) for row in table.rows for cell in row)
