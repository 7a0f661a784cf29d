"""Sections and documents written in US terms, in those asked for."""

from __future__ import annotations

from dataclasses import replace

from schematics.crochet.terms import Terms
from schematics.document.document import (
    Block,
    Cell,
    Document,
    Figure,
    Items,
    Picture,
    Quantity,
    Rated,
    Row,
    Section,
    Table,
    Words,
)
from schematics.document.house_style import Photo


def document_in_terms(document: Document, terms: Terms) -> Document:
    """The document with every sentence and table turned once, and whose terms they are; not its data."""
    if terms is Terms.US:
        return document
    return replace(
        document,
        lead=(*(_words(each, terms) for each in document.lead), f"Stitch names are in {terms.value} terms."),
        sections=tuple(section_in_terms(each, terms) for each in document.sections),
        closing=tuple(section_in_terms(each, terms) for each in document.closing),
    )


def section_in_terms(section: Section, terms: Terms) -> Section:
    """Every text of the section, and of those within it, turned once."""
    if terms is Terms.US:
        return section
    return replace(
        section,
        heading=_words(section.heading, terms),
        blocks=tuple(_block(block, terms) for block in section.blocks),
        figures=tuple(_figure(figure, terms) for figure in section.figures),
    )


def _block(block: Block, terms: Terms) -> Block:
    match block:
        case Section():
            return section_in_terms(block, terms)
        case Picture() | Photo():
            return block
        case Items():
            return Items(tuple(_words(each, terms) for each in block.items), terms.text(block.caption))
        case Row():
            return Row(*map(terms.text, (block.label, block.work, block.count)))
        case Table():
            return replace(
                block,
                header=tuple(map(terms.text, block.header)),
                caption=terms.text(block.caption),
                rows=tuple(tuple(_cell(cell, terms) for cell in row) for row in block.rows),
            )
    return _words(block, terms)


def _cell(cell: Cell, terms: Terms) -> Cell:
    if isinstance(cell, Figure):
        return _figure(cell, terms)
    if isinstance(cell, Quantity):
        return replace(cell, words=_words(cell.words, terms))
    return _words(cell, terms)


def _figure(figure: Figure, terms: Terms) -> Figure:
    return replace(figure, name=terms.text(figure.name), texts=tuple(map(terms.text, figure.texts)))


def _words(words: Words, terms: Terms) -> Words:
    if isinstance(words, tuple):
        return tuple(_run(run, terms) for run in words)
    return _run(words, terms)


def _run(run: str | Rated, terms: Terms) -> str | Rated:
    return Rated(terms.text(run.text), run.severity) if isinstance(run, Rated) else terms.text(run)
