"""Running text on a sheet: a heading, and paragraphs wrapped under it."""

from __future__ import annotations

from collections.abc import Iterable

from schematics.document.lettering.text import LARGE, SMALL, line_pitch, wrap
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Mark, text_lines

_OVER_HEADING = 3.5
"""Room in mm over a heading in the middle of a text."""


class TextBlock:
    """A text ``width`` mm wide under a heading, whose first baseline is at y = 0.

    The next line comes ``below`` mm under the heading; ``y`` is the baseline of the line that comes next.
    """

    def __init__(self, heading: str, width: float, below: float = line_pitch(SMALL) + 1.0) -> None:
        self.width = width
        self.marks: list[Mark] = []
        self.y = 0.0
        self._below = below
        self._head(heading)

    def block(self, kind: str, name: str) -> Block:
        """A block of one group that holds the text."""
        block = Block()
        block.add(kind, name, self.marks)
        return block

    def head(self, heading: str) -> None:
        """Another heading, for what comes next."""
        self.y += _OVER_HEADING
        self._head(heading)

    def _head(self, heading: str) -> None:
        lines = wrap(heading, self.width, LARGE, bold=True)
        self.marks += text_lines((0, self.y), lines, LARGE, bold=True)
        self.y += (len(lines) - 1) * line_pitch(LARGE) + self._below

    def add(self, texts: Iterable[str], after: float = 0.0, indent: float = 0.0) -> None:
        """Paragraphs ``indent`` mm from the left, with ``after`` mm of room under each."""
        for text in texts:
            lines = wrap(text, self.width - indent)
            self.marks += text_lines((indent, self.y), lines)
            self.y += len(lines) * line_pitch(SMALL) + after
