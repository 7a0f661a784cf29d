"""Each sheet is as large as its page takes, upright or turned; on request all sizes have one scale.

The files are read back: which way a sheet is turned from its width and height, how much of the frame is
filled from the boxes round words and lines. Scales are those of ISO 5455, given here anew.
"""

from __future__ import annotations

import re
from functools import cache

import pytest
from shapely import box
from shapely.geometry.base import BaseGeometry

from schematics.checks.finding import Severity
from schematics.drawing.compose import Setting, finish
from schematics.drawing.ink.marks import Text
from schematics.drawing.ink.sheet import A4, LETTER, Paper
from schematics.drawing.pieces.pieces import draw_pieces
from schematics.drawing.sheets import SIZE_SHEETS, Pages, setting_of
from tests.drawing.audit_scale import BETWEEN, ISO_5455
from tests.drawing.readback import Page, read_page
from tests.drawing.sheets import sample, shipped_one
from tests.examples import covering, thorough
from tests.shipped import demo_names, demos, shipped_design, shipped_results

TITLE = 21.0
"""Height of the title block, in mm."""

FILLED = 0.55
"""Least share of the frame over the title block that the box round a sheet of pieces fills."""


def inner_frame(page: Page) -> BaseGeometry:
    """The frame without the title block."""
    (frame,) = (stroke.shape.bounds for stroke in page.of_kind("frame") if stroke.pen == "frame")
    x0, y0, x1, y1 = frame
    return box(x0, y0, x1, y1 - TITLE)


def content(page: Page) -> list[BaseGeometry]:
    """Boxes round all that is drawn but frame and title block."""
    words = [each.box.bounds for each in page.words if each.kind != "title"]
    lines = [each.shape.bounds for each in page.strokes if each.kind not in ("title", "frame")]
    return [box(*bounds) for bounds in (*words, *lines)]


def extent(page: Page) -> tuple[float, float]:
    boxes = [each.bounds for each in content(page)]
    return (
        max(x1 for _, _, x1, _ in boxes) - min(x0 for x0, _, _, _ in boxes),
        max(y1 for _, _, _, y1 in boxes) - min(y0 for _, y0, _, _ in boxes),
    )


@pytest.mark.slow
@pytest.mark.parametrize("stem", demos("tidepool", "saltmarsh"))
def test_a_sheet_is_upright_or_turned_and_says_so_by_its_width_and_height(stem: str) -> None:
    for drawn in sample(stem):
        page = drawn.page
        sides = [float(side) for side in re.findall(r'(?:width|height)="([\d.]+)mm"', drawn.svg)]
        assert sorted(sides) == [210, 297], drawn.name
        turned = page.width > page.height
        assert turned == (drawn.sheet.paper == A4.turned), drawn.name
        frame = inner_frame(page).buffer(0.01)
        assert all(frame.contains(each) for each in content(page)), drawn.name


@pytest.mark.slow
@pytest.mark.parametrize(
    ("stem", "place"),
    [("driftwood", 2), ("driftwood", -1), ("sandpiper", 3), ("kelp", 4), ("saltmarsh", 4)],
)
def test_views_of_a_joined_garment_with_their_figures_are_nearly_as_wide_as_the_page(
    stem: str, place: int
) -> None:
    """At the next coarser scale, 8 or 10 for 7 or 9, they would be a tenth narrower and less."""
    page = shipped_one(stem, "assembly", place).page
    x0, _, x1, _ = inner_frame(page).bounds
    boxes = [each.box.bounds for each in page.words if each.kind not in ("title", "steps")]
    boxes += [each.shape.bounds for each in page.strokes if each.kind not in ("title", "frame")]
    across = max(right for _, _, right, _ in boxes) - min(left for left, *_ in boxes)
    assert page.scale in (7, 9)
    assert across > 0.85 * (x1 - x0)


@pytest.mark.slow
@pytest.mark.parametrize("stem", demos())
def test_the_title_block_is_in_the_frame_and_smaller_than_a_tenth_of_an_upright_sheet(stem: str) -> None:
    for drawn in sample(stem, "cover", "pieces", "worn"):
        page = drawn.page
        x0, _, x1, bottom = inner_frame(page).bounds
        block = box(x0, bottom, x1, bottom + TITLE)
        texts = [words.box for words in page.words if words.kind == "title"]
        lines = [stroke.shape for stroke in page.of_kind("title")]
        assert all(block.contains(each) for each in (*texts, *lines)), drawn.name
        if page.height > page.width:
            assert page.height > 10 * TITLE
        assert max(stroke.width for stroke in page.of_kind("frame")) == pytest.approx(0.35, abs=1e-6)


@cache
def _forced(stem: str, name: str, scale: int, paper: Paper) -> tuple[str, ...]:
    """What finds no room at that scale on that paper, or not in a whole sentence."""
    design, results = shipped_design(stem), shipped_results(stem)
    (result,) = (each for each in results if each.size.name == name)
    setting = Setting(design=design, results=(result,), paper=paper, scale=scale)
    drawing = draw_pieces(setting, result)
    words = " ".join(mark.words for group in drawing.groups for mark in group.marks if isinstance(mark, Text))
    stops = [each.sentence for each in result.findings if each.severity is Severity.STOP]
    short = [each for each in stops if each not in words]
    return (*finish(setting, drawing, result, 1, 1).unplaced, *short)


@pytest.mark.slow
@pytest.mark.parametrize("stem", demos())
def test_drawn_at_the_next_larger_scale_pieces_have_no_room_upright_or_turned(stem: str) -> None:
    for drawn in sample(stem, "pieces")[None if thorough() else -1 :]:
        assert drawn.result
        assert drawn.page.scale in (*ISO_5455, *BETWEEN)
        larger = max(each for each in ISO_5455 if each < drawn.page.scale)
        for paper in (A4, A4.turned):
            assert _forced(stem, drawn.result.size.name, larger, paper), drawn.name


@pytest.mark.slow
@pytest.mark.parametrize("stem", demos())
def test_pieces_fill_their_page(stem: str) -> None:
    for drawn in sample(stem, "pieces"):
        width, height = extent(drawn.page)
        area: float = inner_frame(drawn.page).area
        assert width * height > FILLED * area, (drawn.name, width * height / area)


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("name", "paper"), covering(demo_names("first-draft"), (A4, LETTER) if thorough() else (LETTER,))
)
def test_on_request_all_sizes_have_one_scale_upright(name: str, paper: Paper) -> None:
    design, results = shipped_design(name), shipped_results(name)
    pages = Pages(setting_of(design, results, paper, one_scale=True))
    shown = {results[0].size.name, results[-1].size.name}
    asked = [
        index
        for index, (stem, size) in enumerate(pages.names)
        if stem in SIZE_SHEETS and (thorough() or size in shown)
    ]
    sheets = {pages.names[index]: pages.draw(index).sheet for index in asked}
    assert {sheet.paper for sheet in sheets.values()} == {paper}
    for kind in ("pieces", "assembly", "worn"):
        (scale,) = {sheet.scale for (stem, _), sheet in sheets.items() if stem == kind}
        assert scale in ISO_5455


@pytest.mark.slow
@pytest.mark.parametrize("stem", demos())
@pytest.mark.parametrize("kind", ["pieces", "assembly", "worn"])
def test_what_the_description_says_is_what_is_drawn(stem: str, kind: str) -> None:
    """Each length drawn on a sheet, in cm and in inches, is in the words for those who listen."""
    for drawn in sample(stem, kind):
        told = drawn.sheet.description
        assert not re.search(r"verdict|all good|json", told, re.IGNORECASE)
        page = read_page(drawn.svg)
        labels = [*(each.label for each in page.dimensions()), *(each.label for each in page.leaders())]
        figures = {
            figure for label in labels for figure in re.findall(r"[\d./]+(?: \d+/\d+)? (?:cm|in)\b", label)
        }
        assert len(figures) > (10 if kind == "pieces" else 3)
        said = set(re.findall(r"[\d./]+(?: \d+/\d+)? (?:cm|in)\b", told))
        assert figures <= said, (drawn.name, figures - said)
