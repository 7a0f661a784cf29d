"""All sizes: a lettered outline and, under it or on sheets after it, the table of their measurements."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.checks.evaluation import Result
from schematics.document.lettering.text import PLAIN, SMALL
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, Label, bounds
from schematics.drawing.ink.page import Box, block_size, drawing_area, pack, placed_groups, unplaced_names
from schematics.drawing.pieces.figures_look import FiguresLook, measurement_letters
from schematics.drawing.pieces.name_over import name_over
from schematics.drawing.pieces.piece_block import dimensioned, view_of
from schematics.drawing.pieces.piece_texture import draw_texture
from schematics.drawing.pieces.pieces import pieces_fit
from schematics.drawing.pieces.size_table import Measured, measured_rows, size_table
from schematics.garment.garment import Finished, Span

_OVER_TABLE = 8.0
"""Between the outline and the table under it, in mm."""

_REDUCTIONS = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 25, 30, 40, 50)
"""Denominators tried for an outline that is not to scale."""

_LEAST_OUTLINE = 65.0
"""Where a table leaves the outline less, in mm, it goes onto sheets of its own."""


def draw_all_sizes(setting: Setting) -> tuple[Drawing, ...]:
    """The outline, that of the middle size and not to scale for the others, and the table of all sizes."""
    area, letters = drawing_area(setting.paper), measurement_letters(setting.results)
    shown, tables = setting.results[len(setting.results) // 2], _tables(setting, letters, 1)
    left = area.y1 - block_size(tables[0])[1] - _OVER_TABLE
    groups, unplaced = _outline(shown, letters, Box(area.x0, area.y0, area.x1, left))
    if groups and left - area.y0 >= _LEAST_OUTLINE:
        groups = (*groups, *tables.pop().at(area.x0, bounds(groups)[3] + _OVER_TABLE))
    else:
        groups, unplaced = _outline(shown, letters, area)
        tables = _fitting_tables(setting, letters, area)
    values = _values_in_words(setting, letters)
    first = _drawing(setting, groups, "finished measurements, all sizes", values, unplaced)
    return first, *(
        _drawing(setting, placed_groups([(each, (area.x0, area.y0))]), "finished measurements, table", values)
        for each in tables
    )


def _drawing(
    setting: Setting, groups: tuple[Group, ...], title: str, values: str, unplaced: tuple[str, ...] = ()
) -> Drawing:
    description = f"Finished measurements of {setting.design.title}: {values}."
    return Drawing(groups=groups, title=title, description=description, scale=None, unplaced=unplaced)


def _rows(setting: Setting, letters: dict[str, str], results: Sequence[Result]) -> tuple[Measured, ...]:
    return measured_rows(letters, results, FiguresLook(setting.design.units))


def _tables(setting: Setting, letters: dict[str, str], parts: int) -> list[Block]:
    """The table in so many parts, each of as many sizes."""
    area, each = drawing_area(setting.paper), -(-len(setting.results) // parts)
    tables = []
    for start in range(0, len(setting.results), each):
        results = setting.results[start : start + each]
        sizes = [result.size.name for result in results]
        rows = _rows(setting, letters, results)
        tables.append(size_table(rows, "Sizes", sizes, area.x1 - area.x0, SMALL))
    return tables


def _fitting_tables(setting: Setting, letters: dict[str, str], area: Box) -> list[Block]:
    """In as few parts as have room, a sheet each."""
    for parts in range(1, len(setting.results) + 1):
        tables = _tables(setting, letters, parts)
        if max(block_size(each)[1] for each in tables) <= area.y1 - area.y0:
            break
    return tables


def _values_in_words(setting: Setting, letters: dict[str, str]) -> str:
    """Every value, size by size."""
    names = [result.size.name for result in setting.results]
    return "; ".join(
        f"{row.letter} {row.name}, "
        + ", ".join(f"size {name} " + " ".join(f"{values[at]} {unit}" for unit, values in row.lines)
                    for at, name in enumerate(names))
        for row in _rows(setting, letters, setting.results)
    )  # fmt: skip


def _outline(result: Result, letters: dict[str, str], room: Box) -> tuple[tuple[Group, ...], tuple[str, ...]]:
    """The pieces of one size with a letter at every dimension, as large as they go into ``room``."""

    def letter(item: Finished, _span: Span, _halved: bool) -> tuple[Label, ...]:
        return (Label.lettered((letters[item.key],), PLAIN, bold=True),)

    garment = result.garment
    for scale in _REDUCTIONS:
        if not pieces_fit(garment, scale, room):
            continue
        blocks = [dimensioned(piece, garment, scale, letter, work=True) for piece in garment.pieces]
        for block, piece in zip(blocks, garment.pieces, strict=True):
            block.add("caption", piece.name, name_over(piece, block))
        corners = pack([block_size(block) for block in blocks], room)
        if corners is not None and not unplaced_names(blocks):
            for block, piece in zip(blocks, garment.pieces, strict=True):
                draw_texture(block, piece, view_of(piece, garment, scale))
            return placed_groups(zip(blocks, corners, strict=True)), ()
    return (), ("the lettered outline",)
