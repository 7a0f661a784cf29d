"""A sheet's marks drawn by cairo, for PNG and PDF, as the SVG has them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from threading import Lock
from types import ModuleType
from typing import Any

from schematics.document.lettering.text import FONT_FAMILY, font_size
from schematics.drawing.ink.cairo_font import take_shipped_font
from schematics.drawing.ink.layers import colour_of
from schematics.drawing.ink.marks import FILLING, STROKES, Area, Circle, Line, Mark, Pen, Point, Text
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.ink.svg import DECIMALS
from schematics.errors import MissingLibraryError

_MITRE_LIMIT = 4.0
"""The default of SVG; cairo's own is 10."""

_settling_fonts = Lock()
_take_shipped_font_once = cache(take_shipped_font)


def cairo() -> ModuleType:
    """The cairocffi module, loaded when first needed, drawing with the font that comes with the program.

    Raises:
        MissingLibraryError: the cairo library is not on this machine, or does not take the font.
    """
    try:
        import cairocffi
    except OSError as error:
        raise MissingLibraryError(
            "PNG and PDF need the cairo library: on Debian or Ubuntu type 'sudo apt-get install libcairo2', "
            "on a Mac 'brew install cairo'. The SVG files are complete without it."
        ) from error
    with _settling_fonts:
        _take_shipped_font_once(cairocffi)
    module: ModuleType = cairocffi
    return module


def draw(sheet: Sheet, surface: Any, per_mm: float, marks: Iterable[Mark] | None = None) -> None:
    """Draw a sheet, or some of its ``marks``, on a cairo surface that has ``per_mm`` units to the millimetre.

    What is not of its ink's accent is black; a surface without colours takes all alike.

    Raises:
        MissingLibraryError: as `cairo`.
    """
    lib = cairo()
    context = lib.Context(surface)
    context.scale(per_mm, per_mm)
    context.set_miter_limit(_MITRE_LIMIT)
    # Left to the kind of surface, hinting would hang on whichever kind drew the font first in this process.
    context.set_font_options(
        lib.FontOptions(hint_style=lib.HINT_STYLE_NONE, hint_metrics=lib.HINT_METRICS_OFF)
    )
    weight = sheet.ink.weight if sheet.ink else 1.0
    pen = colour = None
    for mark in marks_of(sheet) if marks is None else marks:
        if (ink := rgb(colour_of(mark, sheet.ink))) != colour:
            context.set_source_rgb(*ink)
            colour = ink
        if isinstance(mark, Text):
            _letter(context, lib.cairo, mark)
            continue
        if mark.pen is not pen:
            _take_pen(context, mark.pen, weight)
            pen = mark.pen
        _trace(context, lib.cairo, mark)
    context._check_status()


def fill(surface: Any, per_mm: float, faces: Iterable[tuple[Area, int]]) -> None:
    """Give every pixel of each face its number, 1 to 255, on a surface that has only how much is covered."""
    lib = cairo()
    context = lib.Context(surface)
    context.scale(per_mm, per_mm)
    context.set_antialias(lib.ANTIALIAS_NONE)
    context.set_operator(lib.OPERATOR_SOURCE)
    for face, number in faces:
        context.set_source_rgba(0, 0, 0, number / 255)
        _trace(context, lib.cairo, face)
    context._check_status()


def marks_of(sheet: Sheet) -> Iterator[Mark]:
    """All its marks in their order."""
    return (mark for group in sheet.groups for mark in group.marks)


def rgb(colour: str | None) -> tuple[float, float, float]:
    """The colour ``#rrggbb`` in parts of one; black if None."""
    if colour is None:
        return 0.0, 0.0, 0.0
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return red, green, blue


def _mm(value: float) -> float:
    """As it is written in the SVG."""
    return round(value, DECIMALS)


def _take_pen(context: Any, pen: Pen, weight: float) -> None:
    if pen not in FILLING:
        stroke = STROKES[pen]
        context.set_line_width(_mm(stroke.width * weight))
        context.set_dash(stroke.dashes)


def _trace(context: Any, calls: Any, mark: Line | Area | Circle) -> None:
    """Draw the mark by the library's own ``calls``; whether all went well is asked for when all is drawn."""
    pointer = context._pointer
    if isinstance(mark, Circle):
        calls.cairo_arc(pointer, _mm(mark.centre[0]), _mm(mark.centre[1]), _mm(mark.radius), 0.0, math.tau)
        calls.cairo_close_path(pointer)
    else:
        start, *others = mark.points
        calls.cairo_move_to(pointer, round(start[0], DECIMALS), round(start[1], DECIMALS))
        line_to = calls.cairo_line_to
        for x, y in others:
            line_to(pointer, round(x, DECIMALS), round(y, DECIMALS))
        if isinstance(mark, Area):
            calls.cairo_close_path(pointer)
    (calls.cairo_fill if mark.pen in FILLING else calls.cairo_stroke)(pointer)


def _letter(context: Any, calls: Any, mark: Text) -> None:
    """The text, every letter in its place; a reader of the PDF can search it and copy it.

    Letters of a font that is not the program's own are drawn as outlines: no machine needs to have it.
    """
    text = _set(mark)
    if text.turned:
        context.save()
        context.translate(*text.origin)
        context.rotate(text.turned)
    if mark.font and text.outlined:
        _fill_outlines(context, text.outlined, mark.font.contents[mark.bold], text.size, text.base)
    if text.encoded:
        context.set_font_face(_face(mark.bold))
        context.set_font_size(text.size)
        calls.cairo_show_text_glyphs(
            context._pointer, text.encoded, len(text.encoded), text.glyphs, len(text.glyphs),
            text.clusters, len(text.clusters), 0,
        )  # fmt: skip
    if text.turned:
        context.restore()


@dataclass(frozen=True, slots=True)
class _Set:
    """A text as cairo takes it: letters of the program's own font, and those to be drawn as outlines.

    Turned in radians about its ``origin``. Its letters stand on the line at ``base``, from its origin then.
    """

    origin: Point
    turned: float
    base: float
    size: float
    outlined: tuple[tuple[str, float], ...]
    encoded: bytes
    glyphs: Any
    clusters: Any


@lru_cache(maxsize=2048)
def _set(mark: Text) -> _Set:
    """As PNG and PDF need it, one after the other."""
    words, starts = mark.letters
    origin = _mm(mark.at[0]), _mm(mark.at[1])
    turned = math.radians(_mm(mark.angle))
    left, base = (0.0, 0.0) if turned else origin
    placed = [(letter, _mm(at) - origin[0] + left) for letter, at in zip(words, starts, strict=True)]
    outlined = tuple(each for each in placed if mark.font and mark.font.has(each[0], bold=mark.bold))
    own = [each for each in placed if each not in outlined] if outlined else placed
    new = cairo().ffi.new
    return _Set(
        origin,
        turned,
        base,
        _mm(font_size(mark.height, mark.font)),
        outlined,
        "".join([letter for letter, _ in own]).encode(),
        new("cairo_glyph_t[]", [(_glyph(letter, mark.bold), at, base) for letter, at in own]),
        new("cairo_text_cluster_t[]", [(len(letter.encode()), 1) for letter, _ in own]),
    )


def _fill_outlines(
    context: Any, placed: Iterable[tuple[str, float]], content: bytes, size: float, base: float
) -> None:
    """Letters of a font's file, each where it starts on a level line."""
    from fontTools.pens.cairoPen import CairoPen

    from schematics.document.lettering.font_file import opened

    font = opened(content)
    glyphs, names, per_unit = font.getGlyphSet(), font.getBestCmap(), size / font["head"].unitsPerEm
    for letter, start in placed:
        context.save()
        context.translate(start, base)
        context.scale(per_unit, -per_unit)
        glyphs[names[ord(letter)]].draw(CairoPen(glyphs, context))
        context.restore()
    context.fill()


@cache
def _face(bold: bool) -> Any:
    lib = cairo()
    weight = lib.FONT_WEIGHT_BOLD if bold else lib.FONT_WEIGHT_NORMAL
    return lib.ToyFontFace(FONT_FAMILY.partition(",")[0], lib.FONT_SLANT_NORMAL, weight)


@cache
def _glyph(letter: str, bold: bool) -> int:
    """The font's number for a letter."""
    ((number, _, _),) = cairo().ScaledFont(_face(bold)).text_to_glyphs(0, 0, letter, with_clusters=False)
    count: int = number
    return count
