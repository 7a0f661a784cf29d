"""The figures of a design as a document: sections of figures in every size, and of tables to print.

Built once and written out as Markdown, CSV, JSON and HTML, so that the four never differ.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TypeVar

from schematics.design.size_string import size_string
from schematics.units import CM_PER_INCH, format_inches, round_half_up

NONE = "–"
"""Printed where a size has no such figure."""

Value = int | float | str | None
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure in every size.

    ``key`` is its name for programs, ``name`` for people. ``values`` are exact and in ``unit``;
    ``texts`` are the same as printed. Both stand in the order of the sizes, or hold one entry that is
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
        """The same as printed."""
        return self.texts[0] if len(self.texts) == 1 else self.texts[index]

    def __str__(self) -> str:
        """The figure as the trade prints it: ``42 (46, 50)``."""
        return size_string(self.texts)


Cell = str | Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows of cells under a header; ``caption`` says what the table shows."""

    caption: str
    header: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A part of the document: sentences, then tables.

    ``figures`` are all its figures for programs, shown in a table or not.
    """

    key: str
    heading: str
    sentences: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    figures: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """The figures of one design; ``stops`` are the sizes that a check stops."""

    title: str
    spec: str
    date: str | None
    program: str
    terms: str
    sizes: tuple[str, ...]
    stops: tuple[str, ...]
    sections: tuple[Section, ...]

    @property
    def figures(self) -> Iterator[tuple[Section, Figure]]:
        """Every figure with its section."""
        return ((section, figure) for section in self.sections for figure in section.figures)


def count_figure(key: str, name: str, unit: str, values: Iterable[int | None]) -> Figure:
    """A whole number in every size."""
    known = tuple(values)
    return Figure(
        key=key,
        name=name,
        unit=unit,
        values=known,
        texts=_texts(known, str),
    )


def text_figure(key: str, name: str, values: Iterable[str | None], *, detail: bool = False) -> Figure:
    """Words in every size."""
    known = tuple(values)
    texts = tuple(value or NONE for value in known)
    return Figure(key=key, name=name, unit="", values=known, texts=texts, detail=detail)


def cm_figure(key: str, name: str, lengths_cm: Iterable[float | None]) -> Figure:
    """A length in every size, printed to 0.5 cm."""
    known = tuple(lengths_cm)
    return Figure(
        key=f"{key}.cm",
        name=name,
        unit="cm",
        values=known,
        texts=_texts(known, lambda length_cm: f"{round_half_up(length_cm, 0.5):g}"),
    )


def inch_figure(key: str, name: str, lengths_cm: Iterable[float | None]) -> Figure:
    """The same length, printed to 1/4 in; its values are inches."""
    known = tuple(lengths_cm)
    return Figure(
        key=f"{key}.in",
        name=name,
        unit="in",
        values=tuple(None if value is None else value / CM_PER_INCH for value in known),
        texts=_texts(known, lambda length_cm: format_inches(length_cm).removesuffix(" in")),
    )


def number_figure(key: str, name: str, unit: str, values: Iterable[float | None], digits: int = 0) -> Figure:
    """A number in every size, printed to so many decimals at most."""
    known = tuple(values)
    return Figure(
        key=key,
        name=name,
        unit=unit,
        values=known,
        texts=_texts(known, lambda value: _decimal(value, digits)),
    )


def _texts(values: Iterable[T | None], printed: Callable[[T], str]) -> tuple[str, ...]:
    return tuple(NONE if value is None else printed(value) for value in values)


def _decimal(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    return text.rstrip("0").removesuffix(".") if digits else text
