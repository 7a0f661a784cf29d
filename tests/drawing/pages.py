"""Made-up sheets for tests of what goes onto one: any marks on a page with its frame and title block."""

from __future__ import annotations

from collections.abc import Iterable

from schematics.drawing.ink.marks import Group
from schematics.drawing.ink.page import TitleBlock, page_groups
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.ink.svg import to_svg
from tests.drawing.readback import Page, read_page


def title_block(scale: int | None = 10, fabrics: int = 1) -> TitleBlock:
    """Every field as long as it may well get."""
    return TitleBlock(
        design="A design with a title that goes on and on until it cannot possibly fit its cell",
        size="Size 10 to 12 years, long in the body",
        wearer="chart row child/10",
        findings="1 stop, 2 mind of 24 checks",
        sheet="pieces, laid flat",
        gauge_heading="Gauge, washed; * guessed, not measured",
        gauges=(("ribbing, one hook size down, long tail", "33.5 sts x 40.5 rows over 15.2 x 15.2 cm"),)
        * fabrics,
        terms="UK terms",
        date="2026-09-14",
        number=12,
        total=34,
        scale=scale,
    )


def made_up_page(groups: Iterable[Group], paper: Paper, title: TitleBlock) -> Page:
    """The groups on the page, written as SVG and read back."""
    everything = (*groups, *page_groups(paper, title))
    sheet = Sheet(paper=paper, scale=title.scale, title="t", description="d", groups=everything)
    return read_page(to_svg(sheet))
