"""The PNG of a sheet: its resolution, its size, and a scale bar as long as it says, counted in pixels."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Iterator
from functools import cache
from itertools import groupby

import pytest
from PIL import Image

from schematics.drawing.ink.raster import to_png
from schematics.drawing.ink.sheet import A4, LETTER, Paper, Sheet
from schematics.drawing.ink.svg import to_svg
from tests.drawing.audit_scale import scale_bars
from tests.drawing.drawing_sheets import pieces_sheet
from tests.drawing.readback import Page, read_page
from tests.shipped import shipped_design, shipped_results

_PX_PER_MM = 300 / 25.4


@cache
def drawn() -> tuple[Sheet, bytes]:
    """A demo sheet, and the same as PNG."""
    design = shipped_design("tidepool")
    results = shipped_results("tidepool")
    sheet = pieces_sheet(design, results[0], 10)
    return sheet, to_png(sheet)


def _chunks(png: bytes) -> Iterator[tuple[bytes, bytes]]:
    """The chunks of a PNG by its specification: length, type, data, checksum."""
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    at = 8
    while at < len(png):
        length, kind = struct.unpack(">I4s", png[at : at + 8])
        data = png[at + 8 : at + 8 + length]
        assert struct.unpack(">I", png[at + 8 + length : at + 12 + length])[0] == zlib.crc32(kind + data)
        yield kind, data
        at += 12 + length


@pytest.mark.slow
@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_the_file_says_300_dots_to_the_inch_and_has_as_many(paper: Paper) -> None:
    """300 dpi is 11811 pixels to the metre, the unit of the pHYs chunk."""
    empty = Sheet(paper=paper, scale=None, title="", description="", groups=())
    chunks = dict(_chunks(drawn()[1] if paper is A4 else to_png(empty)))
    assert struct.unpack(">IIB", chunks[b"pHYs"]) == (11811, 11811, 1)
    width, height = struct.unpack(">II", chunks[b"IHDR"][:8])
    assert width == pytest.approx(paper.width * _PX_PER_MM, abs=1)
    assert height == pytest.approx(paper.height * _PX_PER_MM, abs=1)


def _page() -> Page:
    return read_page(to_svg(drawn()[0]))


@pytest.mark.slow
def test_the_scale_bars_are_as_long_in_pixels_as_they_say() -> None:
    """Black, white, black; a white step's border lies half on its black neighbours."""
    with Image.open(io.BytesIO(drawn()[1])) as image:
        grey = image.convert("L")
    page = _page()
    bars = scale_bars(page)
    assert {bar.unit for bar in bars} == {"cm", "in"}
    for bar in bars:
        start, end = (round(edge * _PX_PER_MM) for edge in (bar.x0 - 0.5, bar.x1 + 0.5))
        y = round(bar.y * _PX_PER_MM)
        row = grey.crop((start, y, end, y + 1)).tobytes()
        runs = [(black, len(list(run))) for black, run in groupby(row, lambda value: value < 128)]
        assert [black for black, _ in runs] == [False, True, False, True, False]
        step = bar.cm * 10 / page.scale / 3 * _PX_PER_MM
        border = 0.25 * _PX_PER_MM
        lengths = [length for _, length in runs[1:4]]
        assert lengths == pytest.approx([step + border / 2, step - border, step + border / 2], abs=1.5)
        assert sum(lengths) * page.scale / 10 / _PX_PER_MM == pytest.approx(bar.cm, rel=5e-3)


@pytest.mark.slow
def test_a_sheet_is_black_on_white_with_much_white() -> None:
    with Image.open(io.BytesIO(drawn()[1])) as image:
        counts = image.convert("L").histogram()
    total = sum(counts)
    assert counts[255] / total > 0.85
    assert sum(counts[:64]) / total > 0.005


def test_the_same_sheet_gives_the_same_png() -> None:
    sheet, png = drawn()
    assert to_png(sheet) == png


def test_words_are_drawn_where_they_are_measured() -> None:
    """The ink of the large headings, pixel by pixel, fills the boxes measured from the font."""
    with Image.open(io.BytesIO(drawn()[1])) as image:
        grey = image.convert("L")
    for words in _page().words:
        if words.text not in {"body", "neck band", "centre panel"}:
            continue
        box = [edge * _PX_PER_MM for edge in words.box.bounds]
        x0, y0, x1, y1 = round(box[0]) - 12, round(box[1]) - 8, round(box[2]) + 12, round(box[3]) + 8
        ink = grey.crop((x0, y0, x1, y1)).point(lambda value: 255 if value < 128 else 0).getbbox()
        assert ink is not None
        found = (ink[0] + x0, ink[1] + y0, ink[2] + x0, ink[3] + y0)
        assert found == pytest.approx(box, abs=6)
