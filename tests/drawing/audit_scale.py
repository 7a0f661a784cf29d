"""The scale a sheet gives, and the bars that prove it on paper."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from tests.drawing.readback import Page

ISO_5455 = (1, 2, 5, 10, 20, 50)
"""Full size and the standard's reductions down to 1:50."""

BETWEEN = (3, 4, 6, 7, 8, 9, 12, 15, 25, 30, 40)
"""Those between that fill a page: every whole number up to ten, then fractions of 1:24, 1:100 and 1:120, as
rulers for scales have them."""

_CM = {"cm": 1.0, "in": 2.54}


@dataclass(frozen=True, slots=True)
class Bar:
    """A scale bar: where it lies on the sheet in mm, and what it says it is long."""

    x0: float
    x1: float
    y: float
    cm: float
    unit: str


def scale_bars(page: Page) -> list[Bar]:
    """The bars of the title block: filled steps in a row, and the words right of them."""
    steps = [stroke.shape.bounds for stroke in page.of_kind("title") if stroke.filled]
    bars = []
    for y in sorted({(y0 + y1) / 2 for _, y0, _, y1 in steps}):
        row = [(x0, x1) for x0, y0, x1, y1 in steps if y0 < y < y1]
        start, end = min(x0 for x0, _ in row), max(x1 for _, x1 in row)
        for words in page.words:
            said = re.fullmatch(r"(\d+(?:\.\d+)?) (cm|in)", words.text)
            x0, y0, _, y1 = words.box.bounds
            if said and words.kind == "title" and y0 < y < y1 and 0 < x0 - end < 5:
                bars.append(Bar(start, end, y, float(said[1]) * _CM[said[2]], said[2]))
    return bars


def scale_faults(page: Page) -> Iterator[str]:
    """A scale not of ISO 5455 nor between, bars that are missing or not to it; nothing without a scale."""
    if not any("Scale 1:" in text for text in page.texts("title")):
        return
    if page.scale not in (*ISO_5455, *BETWEEN):
        yield f"1:{page.scale} is no scale of ISO 5455, nor one between"
    bars = scale_bars(page)
    if {bar.unit for bar in bars} != {"cm", "in"}:
        yield f"there are scale bars in {[bar.unit for bar in bars]}, not in cm and in"
    for bar in bars:
        cm = (bar.x1 - bar.x0) * page.scale / 10
        if not math.isclose(cm, bar.cm, rel_tol=1e-3):
            yield f"a scale bar of {bar.cm} cm is drawn {cm:.3f} cm long"
