"""On which page of a typeset document a text begins, read from its PDF."""

from __future__ import annotations

import io
import re
import unicodedata
from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate

from pypdf import PdfReader

_SPACE = re.compile(r"\s+")


def page_numbers(pdf: bytes, texts: Sequence[str], foot: str) -> list[int | None]:
    """The page of each of the texts, which are in the order of the document; None of one not found.

    Args:
        pdf: the document.
        texts: what is looked for, each after the one before it; spaces do not count.
        foot: what is printed at the foot of each page before ``page 1 of 9``.
    """
    pages = PdfReader(io.BytesIO(pdf)).pages
    shown = [
        _bare(page.extract_text()).replace(_bare(f"{foot}page {number} of {len(pages)}"), "")
        for number, page in enumerate(pages, start=1)
    ]
    ends, all_of_it, at = [*accumulate(map(len, shown))], "".join(shown), 0
    numbers: list[int | None] = []
    for text in map(_bare, texts):
        start = all_of_it.find(text, at)
        numbers.append(None if start < 0 else bisect_right(ends, start) + 1)
        at = at if start < 0 else start + len(text)
    return numbers


def _bare(text: str) -> str:
    """The characters of a text alone: no space of any width, no ligature."""
    return _SPACE.sub("", unicodedata.normalize("NFKC", text).replace("\N{ZERO WIDTH SPACE}", ""))
