"""A page for each size with the six pictures of how it hangs, framed as working sheets are."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.checks.evaluation import Result
from schematics.checks.finding import Finding
from schematics.drawing.compose import Setting, finish
from schematics.drawing.draped.hang_drawing import seen_hung
from schematics.drawing.draped.hang_sheet import hung_drawing
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.notes import worded
from schematics.garment.cloth.draping import Hung
from schematics.wearer.body_figure import FigureSize

HungSize = tuple[Result, FigureSize, Hung, tuple[Finding, ...]]
"""A size, the body it hangs on, how it came to rest, and the findings on that."""


def hang_pages(setting: Setting, sizes: Sequence[HungSize]) -> list[Sheet]:
    """The pages of the sizes, with what was found of each under its pictures."""
    return [_page(setting, number, len(sizes), *each) for number, each in enumerate(sizes, start=1)]


def _page(
    setting: Setting,
    number: int,
    total: int,
    result: Result,
    size: FigureSize,
    hung: Hung,
    findings: tuple[Finding, ...],
) -> Sheet:
    words = [worded(each, setting.design.terms) for each in findings]
    seen = seen_hung(result.garment, size, hung)
    return finish(setting, hung_drawing(setting, result, seen, words, findings), result, number, total)
