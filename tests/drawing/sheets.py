"""Designs drawn as a build draws them, read back, and every fault of every sheet in one list."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, cached_property

from schematics.checks.evaluation import Result, evaluate
from schematics.design.design import Design
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.pieces.pieces import common_scale
from schematics.drawing.sheets import Pages, setting_of
from tests.drawing.audit_layout import layout_faults
from tests.drawing.audit_lengths import length_faults, overall_faults
from tests.drawing.audit_scale import scale_faults
from tests.drawing.audit_svg import svg_faults
from tests.drawing.audit_words import caution_faults, finding_faults, senseless_words, word_faults
from tests.drawing.drawing_sheets import draw_sheets, pieces_sheet
from tests.drawing.readback import Page, read_page
from tests.examples import thorough
from tests.shipped import shipped_design, shipped_results


@dataclass(frozen=True)
class Drawn:
    """One sheet; ``result`` is None where it shows all sizes."""

    design: Design
    result: Result | None
    stem: str
    sheet: Sheet
    svg: str

    @property
    def name(self) -> str:
        size = self.result.size.name if self.result else "all sizes"
        return f"{self.design.slug}, {size}, {self.stem}"

    @cached_property
    def page(self) -> Page:
        return read_page(self.svg)

    def faults(self) -> list[str]:
        """Every fault of the sheet, each with the sheet's name."""
        page = self.page
        found = [*svg_faults(self.svg), *layout_faults(page), *scale_faults(page)]
        found += [*word_faults(page, self.design), *senseless_words(page)]
        found += caution_faults(page, cover=self.stem == "cover")
        if self.result and self.stem == "pieces":
            found += length_faults(page, self.result.garment, self.sheet.unplaced)
        if self.stem in ("assembly", "worn"):
            found += overall_faults(page)
        if self.result:
            found += finding_faults(page, self.result.findings)
        return [f"{self.name}: {fault}" for fault in found]


@cache
def _shipped_pages(stem: str) -> Pages:
    return Pages(setting_of(shipped_design(stem), shipped_results(stem)))


@cache
def _shipped_sheet(stem: str, index: int) -> Drawn:
    return _drawn(shipped_design(stem), shipped_results(stem), _shipped_pages(stem), index)


def _drawn(design: Design, results: tuple[Result, ...], pages: Pages, index: int) -> Drawn:
    page = pages.draw(index)
    result = next((each for each in results if each.size.name == page.size), None)
    return Drawn(design, result, page.stem, page.sheet, to_svg(page.sheet))


def shipped(stem: str, *kinds: str) -> list[Drawn]:
    """The booklet of a demo design, or its sheets of those stems; each is drawn once for all tests."""
    names = _shipped_pages(stem).names
    return [
        _shipped_sheet(stem, index) for index, (kind, _) in enumerate(names) if kind in (kinds or (kind,))
    ]


def shipped_one(stem: str, kind: str, place: int = 0) -> Drawn:
    """One sheet of that stem, such as that of the smallest size; the others need not be drawn for it."""
    indices = [index for index, (each, _) in enumerate(_shipped_pages(stem).names) if each == kind]
    return _shipped_sheet(stem, indices[place])


def sample(stem: str, *kinds: str) -> list[Drawn]:
    """Of `shipped` all by `make fuzz`, else the smallest size, the largest and what is of the whole design.

    A test that uses it has the mark ``seeds``.
    """
    pages = _shipped_pages(stem)
    asked = _asked(shipped_design(stem), pages)
    return [_shipped_sheet(stem, index) for index in asked if not kinds or pages.names[index][0] in kinds]


def sample_of(design: Design, results: tuple[Result, ...]) -> list[Drawn]:
    """The same of any design."""
    pages = Pages(setting_of(design, results))
    return [_drawn(design, results, pages, index) for index in _asked(design, pages)]


def _asked(design: Design, pages: Pages) -> list[int]:
    names = {None, design.sizes[0].name, design.sizes[-1].name}
    return [index for index, (_, size) in enumerate(pages.names) if thorough() or size in names]


def every_sheet(design: Design, results: tuple[Result, ...]) -> Iterator[Drawn]:
    """Every sheet."""
    by_size = {result.size.name: result for result in results}
    for page in draw_sheets(setting_of(design, results)):
        result = by_size[page.size] if page.size is not None else None
        yield Drawn(design, result, page.stem, page.sheet, to_svg(page.sheet))


def pieces_sheets(design: Design) -> Iterator[Drawn]:
    """The pieces of every size: what most of the measuring is about, and quicker than all of them."""
    results = evaluate(design)
    scale = common_scale(results)
    for result in results:
        sheet = pieces_sheet(design, result, scale)
        yield Drawn(design, result, "pieces", sheet, to_svg(sheet))
