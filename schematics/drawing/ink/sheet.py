"""A finished sheet: paper, marks and words for screen readers."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.document.lettering.text import Font
from schematics.drawing.ink.marks import Group


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet of paper, in mm."""

    name: str
    width: float
    height: float

    @property
    def turned(self) -> Paper:
        """The same sheet on its side."""
        return Paper(name=self.name, width=self.height, height=self.width)


A4 = Paper(name="a4", width=210, height=297)
"""ISO 216."""

LETTER = Paper(name="letter", width=215.9, height=279.4)
"""ANSI/ASME Y14.1 size A."""

PAPERS = {paper.name: paper for paper in (A4, LETTER)}
"""The papers by name."""

MARGIN = 10.0
"""From the paper's edge to the frame, in mm, as ISO 5457 asks on three sides of an A4 sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BareInk:
    """How a drawing is inked that is placed into somebody's page: on nothing, in layers.

    ``name`` is that of no other drawing of the design. Lines are ``weight`` times as wide as usual; bold
    words are in the colour ``accent``, ``#rrggbb``, where there is one. ``font`` is that of its words, None
    for the program's own.
    """

    name: str
    weight: float = 1.0
    accent: str | None = None
    font: Font | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One drawing on one page; ``unplaced`` names dimensions that had no room.

    ``scale`` is the denominator of 1:n, None where nothing is to scale. ``ink`` is that of a bare drawing;
    any other is black on a white page.
    """

    paper: Paper
    scale: float | None
    title: str
    description: str
    groups: tuple[Group, ...]
    unplaced: tuple[str, ...] = ()
    ink: BareInk | None = None
