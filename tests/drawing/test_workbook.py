"""PDFs: the scale bar measured in points, and the workbook's pages, bookmarks, title and bytes."""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from pypdf import PageObject, PdfReader
from pypdf.generic import Destination

from schematics.batch import build_design
from schematics.batch.work import WORKBOOK
from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.drawing.ink import raster
from schematics.drawing.ink.pdf import join, to_pdf
from schematics.drawing.ink.sheet import LETTER
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import Page, Pages, setting_of
from schematics.drawing.templates import templates
from schematics.fitting.page import fit_page
from schematics.pattern import pattern_files
from tests.document.pdf_reading import bare
from tests.drawing.audit_scale import scale_bars
from tests.drawing.drawing_sheets import draw_sheets
from tests.drawing.readback import read_page
from tests.program import spare_bare_drawings, spare_pictures, spare_sheets
from tests.shipped import shipped_design, shipped_results
from tests.specs_for_tests import TIGHT_NECK, read

_PT_PER_MM = 72 / 25.4
"""PDF 32000-1, 8.3.2.3: the default unit of user space is 1/72 inch."""


@cache
def pieces() -> Page:
    design, results = shipped_design("saltmarsh"), shipped_results("saltmarsh")
    pages = Pages(setting_of(design, results[:1], LETTER))
    return pages.draw([stem for stem, _ in pages.names].index("pieces"))


@dataclass
class Filled:
    """Boxes round the filled paths of a PDF page, in points; ``placed`` is the matrix of their form."""

    boxes: list[tuple[float, float, float, float]] = field(default_factory=list)
    points: list[tuple[float, float]] = field(default_factory=list)
    placed: list[float] = field(default_factory=lambda: [1, 0, 0, 1, 0, 0])

    def see(self, operator: bytes, operands: list[Any], cm: list[float], _tm: list[float]) -> None:
        """Every operator with the matrix in force, as pypdf reads them (PDF 32000-1, 8.5.2 and 8.5.3)."""
        if operator == b"Do":  # PDF 32000-1, 8.10: a form is drawn in the space in force
            self.placed = cm
        elif operator in (b"m", b"l"):
            self._add(cm, *map(float, operands))
        elif operator == b"re":
            x, y, width, height = map(float, operands)
            self._add(cm, x, y)
            self._add(cm, x + width, y + height)
        elif operator in (b"f", b"f*", b"F", b"S", b"n", b"W"):
            if operator.lower().startswith(b"f") and self.points:
                xs, ys = zip(*self.points, strict=True)
                self.boxes.append((min(xs), min(ys), max(xs), max(ys)))
            self.points = []

    def _add(self, cm: list[float], x: float, y: float) -> None:
        for a, b, c, d, e, f in (cm, self.placed):
            x, y = a * x + c * y + e, b * x + d * y + f
        self.points.append((x, y))


def filled_boxes(page: PageObject) -> list[tuple[float, float, float, float]]:
    filled = Filled()
    page.extract_text(visitor_operand_before=filled.see)
    return filled.boxes


@pytest.mark.slow
def test_the_scale_bars_are_as_long_in_points_as_they_say() -> None:
    sheet = pieces().sheet
    (page,) = PdfReader(io.BytesIO(to_pdf(sheet))).pages
    assert [float(side) for side in page.mediabox[2:]] == pytest.approx([8.5 * 72, 11 * 72], abs=0.1)
    drawn = read_page(to_svg(sheet))
    bars = scale_bars(drawn)
    assert {bar.unit for bar in bars} == {"cm", "in"}
    boxes = filled_boxes(page)
    for bar in bars:
        y = (sheet.paper.height - bar.y) * _PT_PER_MM
        steps = [
            (x0, x1)
            for x0, y0, x1, y1 in boxes
            if y0 < y < y1 and y1 - y0 < 10 and bar.x0 - 1 < x0 / _PT_PER_MM < bar.x1
        ]
        assert len(steps) == 2
        length = max(x1 for _, x1 in steps) - min(x0 for x0, _ in steps)
        assert length / _PT_PER_MM / 10 * drawn.scale == pytest.approx(bar.cm, rel=1e-3)


@pytest.mark.slow
def test_every_line_of_a_sheet_can_be_searched_and_copied_from_its_pdf() -> None:
    sheet = pieces().sheet
    (page,) = PdfReader(io.BytesIO(to_pdf(sheet))).pages
    said = page.extract_text()
    lines = {words.text for words in read_page(to_svg(sheet)).words}
    assert len(lines) > 30
    assert not [line for line in lines if line not in said]


@pytest.fixture
def design(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Design:
    dot = io.BytesIO()
    Image.new("L", (1, 1)).save(dot, "PNG")
    monkeypatch.setattr(raster, "to_png", lambda sheet: dot.getvalue())
    monkeypatch.setattr(fit_page, "fit_page", lambda design, results: "<html>")
    monkeypatch.setattr(templates, "templates_pdf", lambda design, results, paper: b"%PDF")
    monkeypatch.setattr(pattern_files, "document_content", lambda document, form, look: b"%PDF")
    spare_sheets(monkeypatch)
    spare_bare_drawings(monkeypatch)
    spare_pictures(monkeypatch)
    return read(tmp_path, TIGHT_NECK)


@pytest.mark.slow
def test_the_workbook_is_findings_every_sheet_and_workings_with_bookmarks(
    design: Design, tmp_path: Path
) -> None:
    build_design(design, tmp_path / "output")
    content = (tmp_path / "output" / design.slug / WORKBOOK).read_bytes()
    workbook = PdfReader(io.BytesIO(content))
    sheets = list(draw_sheets(setting_of(design, evaluate(design))))
    marks = [
        (mark.title, workbook.get_destination_page_number(mark))
        for mark in workbook.outline
        if isinstance(mark, Destination)
    ]
    first, (cover, before), *_ = marks
    assert (first, cover) == (("findings", 0), "cover")
    assert before is not None
    after = before + len(sheets)
    assert marks[1 : 1 + len(sheets)] == [
        (page.bookmark, before + number) for number, page in enumerate(sheets)
    ]
    assert [mark for mark, _ in marks[1 + len(sheets) :]] == ["size 4, workings", "size 6 years, workings"]
    assert marks[1 + len(sheets)][1] == after
    texts = [page.extract_text().replace("\n", " ") for page in workbook.pages[: after + 2]]
    for number, text in enumerate(texts[before:after], start=1):
        assert f"{number} of {len(sheets)}" in text
    said = " ".join(texts[:before])
    assert said.index("What stops") < said.index("NECK-PASS") < said.index("What is to be minded")
    assert "Missing for the written pattern" in said
    assert bare("176 sts / (14 sts / 10 cm) = 125.7143 cm") in bare(" ".join(texts[after:]))
    assert workbook.metadata is not None
    assert workbook.metadata.title == f"{design.title}: the designer's workbook"
    assert b"CreationDate" not in content
    assert b"ModDate" not in content


@pytest.mark.slow
def test_no_pdf_says_when_it_was_made() -> None:
    """Cairo writes a date into every PDF if it is let; without it two builds differ in nothing."""
    made = to_pdf(pieces().sheet)
    for content in (made, join([("one", made)], "t")):
        document = PdfReader(io.BytesIO(content)).metadata
        assert document is not None
        assert document.creation_date is None
        assert document.modification_date is None


def test_a_page_shows_itself_in_a_notebook() -> None:
    page = pieces()
    assert page._repr_svg_() == to_svg(page.sheet)
