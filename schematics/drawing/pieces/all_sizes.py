"""All sizes on one sheet: a lettered outline and, under it, size strings ``A 42 (46, 50, 55) cm``."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.checks.evaluation import Result
from schematics.design.size_string import size_string
from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, wrap
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, Label, Mark, Text, bounds
from schematics.drawing.ink.page import Box, block_size, drawing_area, pack, placed_groups, unplaced_names
from schematics.drawing.pieces.piece_block import dimensioned, measurement_letters
from schematics.drawing.pieces.pieces import pieces_fit
from schematics.garment.garment import Finished, Span
from schematics.garment.printed_lengths import finished_figure
from schematics.units import Unit

_CAPTION_PITCH = 5.0

_REDUCTIONS = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 25, 30, 40, 50)
"""Denominators tried for an outline that is not to scale."""

_NOT_DRAWN = "\N{EN DASH}"
"""Stands for the letter of a measurement that is not on the outline."""


def draw_all_sizes(setting: Setting) -> Drawing:
    """The sheet of all sizes; its outline is that of the middle size and not to scale for the others."""
    area = drawing_area(setting.paper)
    letters = measurement_letters(setting.results)
    table = _table(setting, letters, area.x1 - area.x0)
    table_height = block_size(table)[1]
    room = Box(area.x0, area.y0, area.x1, area.y1 - table_height - _CAPTION_PITCH)
    outline, unplaced = lettered_outline(setting.results[len(setting.results) // 2], letters, room)
    lowest = bounds(outline)[3] if outline else area.y0
    top = min(lowest + 2 * _CAPTION_PITCH, area.y1 - table_height)
    groups = (*outline, *table.at(area.x0, top))
    if table_height > area.y1 - area.y0:
        groups, unplaced = (), ("the table of all sizes",)
    sizes = size_string([size.name for size in setting.design.sizes])
    return Drawing(
        groups=groups,
        title="finished measurements, all sizes",
        description=f"Finished measurements of {setting.design.title} in sizes {sizes}: "
        f"{'; '.join(_strings(setting))}.",
        scale=None,
        unplaced=unplaced,
    )


def lettered_outline(
    result: Result, letters: dict[str, str], room: Box, height: float = SMALL
) -> tuple[tuple[Group, ...], tuple[str, ...]]:
    """The pieces of one size with a letter at every dimension, as large as they go into ``room``.

    ``height`` is that of capitals in mm.
    """

    def letter(item: Finished, _span: Span, _halved: bool) -> tuple[Label, ...]:
        return (Label((letters[item.key],), height, bold=True),)

    garment = result.garment
    for scale in _REDUCTIONS:
        if not pieces_fit(garment, scale, room):
            continue
        blocks = [
            _named(
                dimensioned(piece, garment, scale, letter, markers=False, height=height), piece.name, height
            )
            for piece in garment.pieces
        ]
        corners = pack([block_size(block) for block in blocks], room)
        if corners is not None and not unplaced_names(blocks):
            return placed_groups(zip(blocks, corners, strict=True)), ()
    return (), ("the lettered outline",)


def _named(block: Block, name: str, height: float) -> Block:
    x0, y0, _, _ = block.bounds()
    block.add("caption", name, [Text((x0, y0 - 1.2 * height), name, height, bold=True)])
    return block


def _table(setting: Setting, letters: dict[str, str], width: float) -> Block:
    """One entry a measurement: letter and name, then the size strings in cm, inches and counts."""
    sizes = size_string([result.size.name for result in setting.results])
    block = Block()
    marks: list[Mark] = [Text((0, 0), f"Sizes {sizes}", LARGE, bold=True)]
    y = 1.2
    for first, (name, cm, inches) in zip(setting.results[0].garment.finished, _rows(setting), strict=True):
        y += line_pitch(SMALL)
        marks.append(Text((0, y), letters.get(first.key, _NOT_DRAWN), SMALL, bold=True))
        for line in (f"{name}: {cm}", inches):
            for part in wrap(line, width - 7):
                marks.append(Text((7, y), part))
                y += line_pitch(SMALL)
        y -= line_pitch(SMALL)
    block.add("table", "all sizes", marks)
    return block


def _rows(setting: Setting) -> Iterator[tuple[str, str, str]]:
    """Each measurement: its name, its centimetres as a size string, its inches and counts."""
    for number, first in enumerate(setting.results[0].garment.finished):
        items = [result.garment.finished[number] for result in setting.results]
        cm, inches = (
            f"{texts_in_sizes([finished_figure(item, unit, bare=True) for item in items])} {unit}"
            for unit in Unit
        )
        yield first.name, cm, f"{inches}{_counts(items)}"


def _strings(setting: Setting) -> Iterator[str]:
    """Each measurement's name and size strings, as the table has them."""
    for name, cm, inches in _rows(setting):
        yield f"{name}: {cm}, {inches}"


def _counts(items: Sequence[Finished]) -> str:
    """The counts, where it is counted at all."""
    counts = [str(item.count) for item in items if item.count is not None]
    return f"; {texts_in_sizes(counts)} {items[0].counted}" if counts else ""
