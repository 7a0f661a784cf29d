"""A page for each size with the six pictures of how it hangs, framed as working sheets are."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.checks.evaluation import Result
from schematics.checks.finding import Finding
from schematics.drawing.compose import Setting, finish
from schematics.drawing.draped.hang_sheet import hung_drawing
from schematics.drawing.ink.sheet import Sheet
from schematics.garment.cloth.draping import Hung
from schematics.wearer.body_figure import FigureSize

HungSize = tuple[Result, FigureSize, Hung, tuple[Finding, ...]]
"""A size, the body it hangs on, how it came to rest, and the findings on that."""


def hang_pages(setting: Setting, sizes: Sequence[HungSize]) -> list[Sheet]:
    """The pages of the sizes, on the setting's paper lying."""
    return [
        finish(setting, hung_drawing(setting, *each), each[0], number, len(sizes))
        for number, each in enumerate(sizes, start=1)
    ]
