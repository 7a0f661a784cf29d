"""Sheets of a design drawn without its files."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.compose import Setting, finish
from schematics.drawing.ink.sheet import A4, Paper, Sheet
from schematics.drawing.pieces.pieces import draw_pieces
from schematics.drawing.sheets import Page, Pages


def draw_sheets(setting: Setting) -> Iterator[Page]:
    """The pages of a design's workbook, in order and numbered."""
    pages = Pages(setting)
    yield from map(pages.draw, range(len(pages.names)))


def pieces_sheet(design: Design, result: Result, scale: int, paper: Paper = A4) -> Sheet:
    """The pieces sheet of one size on its own, numbered among the design's sizes."""
    setting = Setting(design=design, results=(result,), paper=paper, scale=scale)
    number = [size.name for size in design.sizes].index(result.size.name) + 1
    return finish(setting, draw_pieces(setting, result), result, number, len(design.sizes))
