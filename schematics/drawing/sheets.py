"""Every sheet of a design, in the order of its workbook. A new sheet is one new file and one line here."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.assembly.assembly import draw_assembly
from schematics.drawing.charts.panel_chart import draw_panel_chart
from schematics.drawing.charts.part_charts import draw_part_charts
from schematics.drawing.compose import Drawing, Setting, finish
from schematics.drawing.cover import draw_cover
from schematics.drawing.draped.hang_sheet import (
    PICTURE,
    draw_hang,
    hang_content,
    hangs,
    picture_content,
)
from schematics.drawing.draped.worn_pictures import worn_picture
from schematics.drawing.ink.sheet import A4, Paper, Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.pieces.all_sizes import draw_all_sizes
from schematics.drawing.pieces.figures_look import wording_of
from schematics.drawing.pieces.nest import draw_nest
from schematics.drawing.pieces.pieces import common_scale, draw_pieces
from schematics.drawing.worn.worn import draw_worn
from schematics.garment.cloth.cloth_error import ClothError

DESIGN_SHEETS: dict[str, Callable[[Setting], Drawing | tuple[Drawing, ...] | None]] = {
    "cover": draw_cover,
    "sizes": draw_all_sizes,
    "nest": draw_nest,
    "panel": draw_panel_chart,
    "charts": draw_part_charts,
}
"""Sheets of a whole design by the stem of their files; None where a design has no use for one.

Several drawings under one stem are several sheets: ``panel``, ``panel-2`` and so on.
"""

WORN = "worn"
"""The stem of the sheets that take seconds to draw where sizes are hung on cloth."""

SIZE_SHEETS: dict[str, Callable[[Setting, Result], Drawing]] = {
    "pieces": draw_pieces,
    "assembly": draw_assembly,
    WORN: draw_worn,
}
"""Sheets of one size by the stem of their files."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Page:
    """A numbered sheet; ``size`` is None for a sheet of the whole design. In a notebook it shows itself."""

    stem: str
    size: str | None
    sheet: Sheet

    @property
    def bookmark(self) -> str:
        """The words by which the workbook's reader finds the page: ``size 6, pieces``."""
        return self.stem if self.size is None else f"size {self.size}, {self.stem}"

    @property
    def svg(self) -> str:
        """The page as a standalone SVG 1.1 document in millimetres."""
        return to_svg(self.sheet)

    @property
    def png(self) -> bytes:
        """The page as a grey PNG of 300 dots per inch, its resolution in it.

        Raises:
            MissingLibraryError: the cairo library is not on this machine.
        """
        from schematics.drawing.ink.raster import to_png

        return to_png(self.sheet)

    @property
    def pdf(self) -> bytes:
        """The page as a PDF, true to scale.

        Raises:
            MissingLibraryError: the cairo library is not on this machine.
        """
        from schematics.drawing.ink.pdf import join, to_pdf

        return join([(self.bookmark, to_pdf(self.sheet))], self.sheet.title)

    def __repr__(self) -> str:
        return f"<Page {self.bookmark!r}: {self.sheet.title}>"

    def _repr_svg_(self) -> str:
        return self.svg


def setting_of(
    design: Design,
    results: tuple[Result, ...],
    paper: Paper = A4,
    *,
    one_scale: bool = False,
    cloth: bool = False,
) -> Setting:
    """The setting of a design's sheets; with ``one_scale`` the largest at which every size's pieces fit."""
    scale = common_scale(results, paper, wording_of(design)) if one_scale else None
    return Setting(design=design, results=results, paper=paper, scale=scale, cloth=cloth)


class Pages:
    """The sheets of a design's workbook, each drawn when it is asked for, in any order.

    ``names`` are the stem and the size of each, the size None for a sheet of the whole design.
    """

    def __init__(self, setting: Setting) -> None:
        self._setting = setting
        self._own = [
            (f"{stem}-{number}" if number > 1 else stem, drawing)
            for stem, draw in DESIGN_SHEETS.items()
            for number, drawing in enumerate(_drawings(draw(setting)), start=1)
        ]
        self._sized = [(stem, result) for result in setting.results for stem in SIZE_SHEETS]
        self.hung: tuple[str, ...] = tuple(
            result.size.name for result in setting.results if setting.cloth and hangs(setting.design, result)
        )
        """The names of the sizes that are hung on cloth."""
        self.names: tuple[tuple[str, str | None], ...] = (
            *((stem, None) for stem, _ in self._own),
            *((stem, result.size.name) for stem, result in self._sized),
        )

    def content(self, index: int) -> str:
        """All that decides a page which takes long to draw; empty of any other."""
        stem, size = self.names[index]
        if stem != WORN or size not in self.hung:
            return ""
        result = self._sized[index - len(self._own)][1]
        return f"{index + 1} of {len(self.names)}: {hang_content(self._setting, result)}"

    def hung_content(self, size: str) -> str:
        """All that decides the bare picture of how a size hangs."""
        return picture_content(self._setting.design, self._result(size))

    def hung_picture(self, size: str) -> Iterator[tuple[str, Sheet]]:
        """The bare picture of how a size hangs, with its stem."""
        sheet = worn_picture(self._setting.design, self._result(size))
        if sheet is not None:
            yield PICTURE, sheet

    def _result(self, size: str) -> Result:
        return next(each for each in self._setting.results if each.size.name == size)

    def draw(self, index: int) -> Page:
        """The page at ``index``, from 0; it bears the number after that."""
        stem, size = self.names[index]
        result = None
        if index < len(self._own):
            drawing = self._own[index][1]
        else:
            result = self._sized[index - len(self._own)][1]
            drawing = self._drawn(stem, result)
        sheet = finish(self._setting, drawing, result, index + 1, len(self.names))
        return Page(stem=stem, size=size, sheet=sheet)

    def _drawn(self, stem: str, result: Result) -> Drawing:
        if stem == WORN and result.size.name in self.hung:
            with suppress(ClothError):
                return draw_hang(self._setting, result)
        return SIZE_SHEETS[stem](self._setting, result)


def _drawings(drawn: Drawing | tuple[Drawing, ...] | None) -> tuple[Drawing, ...]:
    if drawn is None:
        return ()
    return (drawn,) if isinstance(drawn, Drawing) else drawn
