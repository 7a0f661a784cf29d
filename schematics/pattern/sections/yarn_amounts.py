"""Yarn of every size, by part and by colour."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from schematics.analysis.yarn.need import ColourYarn, YarnNeed, spare_words, yarn_need
from schematics.analysis.yarn.yarn_report import yarn_notes
from schematics.document.document import Figure, Section, Table, listed_section, number_figure
from schematics.pattern.book import Book, figure_table
from schematics.units import METRES_PER_YARD


def section(book: Book) -> Section:
    """Grams by part; grams, metres and balls by colour, with the margin."""
    needs = tuple(yarn_need(book.design, garment) for garment in book.garments)
    parts = tuple(filter(_has_figures, (_part(needs, index) for index in range(len(needs[0].parts)))))
    colours = range(len(needs[0].colours))
    totals = tuple(filter(_has_figures, (each for index in colours for each in _colour(book, needs, index))))
    by_part = figure_table("In the pieces, without joins and tails", ("part", "g"), parts)
    in_all = Table(
        caption="In all",
        header=("yarn", "amount", "unit"),
        rows=tuple((figure.name, figure, figure.unit) for figure in totals),
    )
    return listed_section(
        key="yarn",
        heading="Yarn",
        sentences=yarn_notes(book.design, needs),
        tables=tuple(table for table in (by_part, in_all) if table.rows),
        figures=(*parts, *totals),
    )


def _has_figures(figure: Figure) -> bool:
    """Whether it is known of any size: for what was not weighed there is a sentence instead."""
    return any(value is not None for value in figure.values)


def _part(needs: tuple[YarnNeed, ...], index: int) -> Figure:
    first = needs[0].parts[index]
    times = f" ×{first.quantity}" if first.quantity > 1 else ""
    colour = f", {first.colour}" if first.colour else ""
    key = f"yarn.{first.part.replace(' ', '_')}"
    return number_figure(
        key, f"{first.part}{times}{colour}", "g", [need.parts[index].mass_g for need in needs]
    )


def _colour(book: Book, needs: tuple[YarnNeed, ...], index: int) -> tuple[Figure, ...]:
    colour = needs[0].colours[index].colour
    key, of = (f"yarn.colour.{colour}", f"{colour}: ") if colour else ("yarn.all", "")
    spare = spare_words(book.design.yarn_use, needs)

    def figure(
        name: str, words: str, unit: str, value: Callable[[ColourYarn], float | None], digits: int = 0
    ) -> Figure:
        values = [value(need.colours[index]) for need in needs]
        return number_figure(f"{key}.{name}", f"{of}{words}", unit, values, digits)

    return (
        figure("joins_and_tails", "joins and tails", "m", lambda each: each.thread_m, 1),
        figure("net_g", "in the poncho", "g", lambda each: each.net_g),
        replace(
            figure("error_g", "in the poncho, give or take", "g", lambda each: each.error_g), detail=True
        ),
        figure("buy_g", f"to buy, with {spare} to spare", "g", lambda each: each.buy_g),
        figure("buy_m", "to buy, in metres", "m", lambda each: each.length_m),
        figure(
            "buy_yd", "to buy, in yards", "yd", lambda each: each.length_m and each.length_m / METRES_PER_YARD
        ),
        figure("balls", "balls to buy", "balls", lambda each: each.balls),
    )
