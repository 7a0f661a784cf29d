"""The Markdown of a pattern as a page: sections with headings, lines of instructions, tables and words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class Heading:
    text: str


@dataclass(frozen=True)
class Words:
    text: str


@dataclass(frozen=True)
class Line:
    """``**Row 5 (RS):** work [12 (12, 16) sts]``"""

    label: str
    work: str
    count: str


@dataclass(frozen=True)
class Grid:
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


Block = Heading | Words | Line | Grid
Page = dict[str, list[Block]]

_LINE = re.compile(r"\*\*(?P<label>.+?):\*\* (?P<work>.*?)(?: \[(?P<count>[^][]+ (?:sts?|sl sts?|ss))\])?$")
_TO_COME = re.compile(r" ?\[to be added: [^]]*\]")


def read_page(markdown: str) -> Page:
    """The blocks of each section of the second level, by its heading; what stands before is under ``""``."""
    page: Page = {"": []}
    blocks = page[""]
    for block in _blocks(markdown):
        if isinstance(block, str):
            blocks = page.setdefault(block, [])
        else:
            blocks.append(block)
    return page


def _blocks(markdown: str) -> Iterator[Block | str]:
    for chunk in re.split(r"\n{2,}", markdown.strip()):
        lines = chunk.splitlines()
        if chunk.startswith("## "):
            yield plain(chunk[3:])
        elif chunk.startswith("#"):
            yield Heading(plain(chunk.lstrip("#").strip()))
        elif chunk.startswith("|"):
            header, _, *rows = [_cells(line) for line in lines]
            yield Grid(header, tuple(rows))
        elif chunk.startswith("- "):
            yield from (Words(plain(line.removeprefix("- "))) for line in lines)
        elif match := _LINE.match(chunk):
            work = plain(match["work"])
            yield Line(plain(match["label"]), _TO_COME.sub("", work), plain(match["count"] or ""))
        else:
            yield Words(plain(chunk))


def _cells(line: str) -> tuple[str, ...]:
    return tuple(plain(cell.strip()) for cell in re.split(r"(?<!\\)\|", line.strip())[1:-1])


def plain(text: str) -> str:
    """The text without the signs that keep Markdown from taking it for markup."""
    return re.sub(r"\\([^\w\s])", r"\1", text).strip()
