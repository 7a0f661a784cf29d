"""What a PDF says of itself and shows, read by pypdf."""

from __future__ import annotations

import io
import math
import re
import unicodedata
from collections.abc import Iterator
from functools import cache, lru_cache
from typing import Any

from pypdf import PdfReader
from pypdf.generic import ContentStream

_SPACE = re.compile(r"\s+")


@lru_cache(maxsize=10)
def reader(pdf: bytes) -> PdfReader:
    """Those of the last few; what one has looked up it knows."""
    return PdfReader(io.BytesIO(pdf))


def bare(text: str) -> str:
    """The characters of a text alone: no space of any width, no ligature."""
    return _SPACE.sub("", unicodedata.normalize("NFKC", text).replace("\N{ZERO WIDTH SPACE}", ""))


@cache
def page_texts(pdf: bytes) -> tuple[str, ...]:
    """What each page shows."""
    return tuple(page.extract_text() for page in reader(pdf).pages)


def shown(pdf: bytes, foot: str) -> str:
    """All that the pages show one after the other, `bare`, without the foot of each."""
    texts = [bare(text) for text in page_texts(pdf)]
    feet = [bare(f"{foot}page {number} of {len(texts)}") for number in range(1, len(texts) + 1)]
    assert all(text.count(each) == 1 for text, each in zip(texts, feet, strict=True))
    return "".join(text.replace(each, "") for text, each in zip(texts, feet, strict=True))


def root(pdf: bytes) -> Any:
    """What the PDF says of itself as a whole."""
    return reader(pdf).trailer["/Root"]


def tags(pdf: bytes) -> list[Any]:
    """The elements of the tree of tags, each before what is in it."""
    return list(_elements(root(pdf)["/StructTreeRoot"]["/K"]))


def _elements(node: Any) -> Iterator[Any]:
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for each in node:
            yield from _elements(each)
    elif isinstance(node, dict) and "/S" in node:
        yield node
        yield from _elements(node.get("/K", []))


def bookmarks(outline: Any) -> list[Any]:
    """The titles of the bookmarks, those below one as a list after it."""
    return [bookmarks(each) if isinstance(each, list) else each.title for each in outline]


def figure_letters(pdf: bytes, shows: str) -> list[float]:
    """The sizes of the letters in the drawing whose words begin so, in points as they are on the paper."""
    whole = reader(pdf)
    (figure,) = (
        each for each in tags(pdf) if each["/S"] == "/Figure" and str(each["/Alt"]).startswith(shows)
    )
    (page,) = (page for page in whole.pages if _number(page) == figure.raw_get("/Pg").idnum)
    return [size for mark, size in _letters(page) if mark in figure["/K"]]


def _number(page: Any) -> int:
    number: int = page.indirect_reference.idnum
    return number


_Matrix = tuple[float, ...]
_UNTURNED: _Matrix = (1, 0, 0, 1, 0, 0)


def _then(one: _Matrix, other: _Matrix) -> _Matrix:
    """First the one, then the other (ISO 32000-1, 8.3.4)."""
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def _letters(page: Any) -> Iterator[tuple[int, float]]:
    """The number of the marked content that letters are in, and their size."""
    now, kept, placed, size, marked = _UNTURNED, [_UNTURNED], _UNTURNED, 0.0, [-1]
    for operands, operator in ContentStream(page["/Contents"].get_object(), page.pdf).operations:
        match operator:
            case b"BDC":
                marked.append(operands[1].get("/MCID", -1))
            case b"EMC":
                marked.pop()
            case b"q":
                kept.append(now)
            case b"Q":
                now = kept.pop()
            case b"cm":
                now = _then(tuple(map(float, operands)), now)
            case b"Tf":
                size = float(operands[1])
            case b"Tm":
                placed = tuple(map(float, operands))
            case b"Tj" | b"TJ":
                yield marked[-1], size * math.hypot(*_then(placed, now)[2:4])
            case _:
                pass
