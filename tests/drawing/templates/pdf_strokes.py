"""The lines of a PDF's pages, read by pypdf and worked out after ISO 32000-1, 8.3 to 8.5; nothing of ours."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pypdf import PdfReader
from pypdf.generic import ContentStream
from shapely import LineString

Point = tuple[float, float]
_Matrix = tuple[float, ...]
_MM = 25.4 / 72
_AS_IT_IS: _Matrix = (1, 0, 0, 1, 0, 0)


@dataclass(frozen=True, slots=True)
class Stroke:
    """A stroked path in mm from the upper left corner of the paper, y down; a curve is known by its ends."""

    points: tuple[Point, ...]
    width: float
    dashed: bool
    curved: bool

    @property
    def line(self) -> LineString:
        return LineString(self.points)


@dataclass(frozen=True, slots=True)
class PdfPage:
    """A page: its bookmark, the size of its paper in mm, its lines and its words."""

    bookmark: str
    paper: tuple[float, float]
    strokes: tuple[Stroke, ...]
    text: str


def read_pdf(content: bytes) -> list[PdfPage]:
    pdf = PdfReader(io.BytesIO(content))
    titles = [str(each.title) for each in pdf.outline if not isinstance(each, list)]
    return [_page(title, page) for title, page in zip(titles, pdf.pages, strict=True)]


def _page(title: str, page: Any) -> PdfPage:
    box = page.mediabox
    assert (float(box.left), float(box.bottom)) == (0, 0)
    assert "/UserUnit" not in page
    width, height = float(box.width) * _MM, float(box.height) * _MM
    strokes = tuple(_strokes(page, height))
    return PdfPage(title, (width, height), strokes, re.sub(r"\s+", " ", page.extract_text()))


def _then(one: _Matrix, other: _Matrix) -> _Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def _strokes(page: Any, height: float) -> Iterator[Stroke]:
    matrix, kept = _AS_IT_IS, []
    width, dashed = 1.0, False
    paths: list[list[Point]] = []
    curved = False

    def placed(x: Any, y: Any) -> Point:
        a, b, c, d, e, f = matrix
        x, y = float(x), float(y)
        return (a * x + c * y + e) * _MM, height - (b * x + d * y + f) * _MM

    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        match operator:
            case b"q":
                kept.append((matrix, width, dashed))
            case b"Q":
                matrix, width, dashed = kept.pop()
            case b"cm":
                matrix = _then(tuple(map(float, operands)), matrix)
            case b"w":
                width = float(operands[0])
            case b"d":
                dashed = bool(operands[0])
            case b"m":
                paths.append([placed(*operands)])
            case b"l":
                paths[-1].append(placed(*operands))
            case b"c":
                curved = True
                paths[-1].append(placed(*operands[4:]))
            case b"h":
                paths[-1].append(paths[-1][0])
            case b"re":
                x, y, w, h = map(float, operands)
                corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y))
                paths.append([placed(*corner) for corner in corners])
            case b"S":
                scale = math.hypot(*matrix[:2]) * _MM
                yield from (
                    Stroke(tuple(path), width * scale, dashed, curved) for path in paths if len(path) > 1
                )
                paths, curved = [], False
            case b"f" | b"f*" | b"n" | b"B" | b"W":
                paths, curved = ([], False) if operator != b"W" else (paths, curved)
            case _:
                pass
