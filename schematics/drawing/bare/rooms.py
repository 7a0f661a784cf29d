"""What a bare drawing may take of a page or a screen, and how it is cropped to what it shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from schematics.document.lettering.text import CAP_HEIGHT, SMALL
from schematics.drawing.ink.marks import Group, bounds, moved_group
from schematics.drawing.ink.page import Box
from schematics.drawing.ink.sheet import BareInk, Paper, Sheet
from schematics.units import HAIR

EDGE = 1.0
"""Paper left round the marks, in mm."""

PIXEL = 25.4 / 96
"""A CSS pixel, in mm."""

POINT = 25.4 / 72
"""In mm."""


@dataclass(frozen=True, slots=True)
class Room:
    """What a drawing may take, and how high its capitals are, in mm; it is not to be scaled.

    The words under it that explain its marks, a few lines, may go beyond the height, as far as a page has
    room, but not where it is ``amid_text``. Where it ``scrolls``, a drawing of more than one part may be
    higher.
    """

    width: float
    height: float
    lettering: float = SMALL
    scrolls: bool = False
    amid_text: bool = False

    @property
    def inside(self) -> Box:
        """The room less the paper left round the marks."""
        return Box(0.0, 0.0, self.width - 2 * EDGE, self.height - 2 * EDGE)


PAGE = Room(170.0, 78.0, amid_text=True)
"""Of A4 or Letter: as wide as the text, and so high that it finds a place on most pages."""

PHONE = Room(78.0, 240.0, amid_text=True)
"""The text of a page on a phone of 320 CSS pixels; lettering of 2.5 mm is a font of 13 pixels."""

LARGE_PT = 22.0
"""The text of the large-print edition, in points."""

LARGE_PAGE = Room(180.0, 170.0, LARGE_PT * POINT * CAP_HEIGHT, amid_text=True)
"""Of that edition, lettered like its text."""

HIGHEST = 235.0
"""What a page of A4 or Letter has room for, in mm."""

WIDTHS = {
    "column": Room(85.0, HIGHEST),
    "page": Room(170.0, HIGHEST),
    "phone": Room(360 * PIXEL, 900 * PIXEL, 12 * PIXEL * CAP_HEIGHT, scrolls=True),
}
"""As wide and as high as the widest and the highest may be. The widths that a designer places drawings in,
by the ending of a file's name: one of two columns of a page, the page, and a phone of 360 CSS pixels that is
lettered in a font of 12."""

ONE_PIECE = 120.0
"""A piece by itself is no higher than this, in mm, so that words find room beside it on a page."""


def cropped(
    groups: Sequence[Group],
    title: str,
    description: str,
    *,
    scale: float | None = None,
    ink: BareInk | None = None,
) -> Sheet:
    """The marks on paper just as large as they are."""
    x0, y0, x1, y1 = bounds(groups)
    paper = Paper(name="drawing", width=x1 - x0 + 2 * EDGE, height=y1 - y0 + 2 * EDGE)
    right, down = EDGE - x0, EDGE - y0
    if max(abs(right), abs(down)) > HAIR:
        groups = [moved_group(group, right, down) for group in groups]
    marks = tuple(groups)
    return Sheet(paper=paper, scale=scale, title=title, description=description, groups=marks, ink=ink)
