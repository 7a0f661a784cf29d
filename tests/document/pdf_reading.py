"""What a PDF says of itself and shows, read by pypdf."""

from __future__ import annotations

import io
import re
import unicodedata
from collections.abc import Iterator
from typing import Any

from pypdf import PdfReader

_SPACE = re.compile(r"\s+")


def reader(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf))


def bare(text: str) -> str:
    """The characters of a text alone: no space of any width, no ligature."""
    return _SPACE.sub("", unicodedata.normalize("NFKC", text).replace("\N{ZERO WIDTH SPACE}", ""))


def shown(pdf: bytes, foot: str) -> str:
    """All that the pages show one after the other, `bare`, without the foot of each."""
    pages = reader(pdf).pages
    texts = [bare(page.extract_text()) for page in pages]
    feet = [bare(f"{foot}page {number} of {len(pages)}") for number in range(1, len(pages) + 1)]
    assert all(text.count(each) == 1 for text, each in zip(texts, feet, strict=True))
    return "".join(text.replace(each, "") for text, each in zip(texts, feet, strict=True))


def root(pdf: bytes) -> Any:
    """What the PDF says of itself as a whole."""
    return reader(pdf).trailer["/Root"]


def tags(pdf: bytes) -> list[dict[str, Any]]:
    """The elements of the tree of tags, each before what is in it."""
    return list(_elements(root(pdf)["/StructTreeRoot"]["/K"]))


def _elements(node: Any) -> Iterator[dict[str, Any]]:
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
