"""A sheet's SVG through a renderer of its own, resvg, looks as the PNG that cairo draws of its marks."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import numpy as np
import pytest
import resvg_py
from numpy.typing import NDArray
from PIL import Image

from schematics.drawing.ink.cairo_pen import cairo
from schematics.drawing.ink.raster import to_png
from schematics.drawing.ink.sheet import Sheet
from tests.drawing.fonts import BOLD, NORMAL
from tests.drawing.sheets import Drawn, sample, shipped_one
from tests.shipped import shipped_design

Grey = NDArray[np.float32]
"""From 0, black, to 255; of single precision the likeness takes a quarter of the time."""

FINENESS, REDUCED = 200, 2
"""Both are drawn at so many dots an inch and reduced by this much, to what an eye sees at arm's length."""


def pages_of(name: str, stems: tuple[str, ...] = ()) -> list[Drawn]:
    """The sheets of the design itself and of its largest size; if stems are given, the last of each alone."""
    if stems:
        return [shipped_one(name, stem, -1) for stem in stems]
    largest = shipped_design(name).sizes[-1]
    return [each for each in sample(name) if each.result is None or each.result.size == largest]


@cache
def ours(sheet: Sheet) -> Grey:
    return grey(to_png(sheet, FINENESS))


def theirs(svg: str, width_mm: float) -> Grey:
    width = round(width_mm / 25.4 * FINENESS)
    png = resvg_py.svg_to_bytes(
        svg_string=svg,
        dpi=FINENESS,
        width=width,
        background="white",
        skip_system_fonts=True,
        font_files=[str(NORMAL), str(BOLD)],
    )
    return grey(bytes(png))


def through_cairosvg(svg: str) -> Grey:
    """The SVG read by CairoSVG, drawn by the same cairo with the font that it has already taken."""
    import cairosvg

    cairo()
    png: bytes = cairosvg.svg2png(bytestring=svg.encode(), scale=FINENESS / 96)
    return grey(png)


def grey(png: bytes) -> Grey:
    with Image.open(io.BytesIO(png)) as image:
        return np.asarray(image.convert("L").reduce(REDUCED), np.float32)


def likeness(one: Grey, other: Grey) -> float:
    """Structural similarity after Wang et al. 2004, as scikit-image computes it with their settings."""
    from skimage.metrics import structural_similarity

    measure: Any = structural_similarity
    settings = {"gaussian_weights": True, "sigma": 1.5, "use_sample_covariance": False, "data_range": 255}
    return float(measure(one, other, **settings))


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize(
    ("name", "stems"),
    [
        pytest.param("tidepool", (), marks=pytest.mark.thorough),
        ("saltmarsh", ("pieces",)),
        pytest.param("driftwood", ("assembly",), marks=pytest.mark.thorough),
    ],
)
def test_both_renderers_draw_the_same_sheets(name: str, stems: tuple[str, ...]) -> None:
    for page in pages_of(name, stems):
        assert likeness(ours(page.sheet), theirs(page.svg, page.sheet.paper.width)) > 0.97, page.stem


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("name", "stems"), [("tidepool", ()), ("saltmarsh", ("pieces",)), ("driftwood", ("assembly",))]
)
def test_the_same_cairo_draws_the_svg_as_it_draws_the_marks(name: str, stems: tuple[str, ...]) -> None:
    for page in pages_of(name, stems):
        assert likeness(ours(page.sheet), through_cairosvg(page.svg)) > 0.99, page.stem


@pytest.mark.slow
def test_a_shift_of_a_millimetre_is_told_apart() -> None:
    (page,) = pages_of("saltmarsh", ("pieces",))
    sheet, svg = page.sheet, page.svg
    shifted = svg.replace('viewBox="0 0 ', 'viewBox="1 0 ')
    assert shifted != svg
    assert likeness(ours(sheet), theirs(shifted, sheet.paper.width)) < 0.9
