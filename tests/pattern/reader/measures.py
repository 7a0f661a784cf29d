"""Finished measurements against the printed gauge and what is in hand at the end."""

from __future__ import annotations

import re
from collections.abc import Mapping

from tests.pattern.reader.maker import Finished
from tests.pattern.reader.page import Grid, Heading, Page, Words, read_page

_GAUGE = re.compile(r"(.+): ([\d.]+) sts and ([\d.]+) rows to (\d+) (cm|in)\b")
_CM = 2.54
_PRINTED_GAUGE = 0.005
"""Half of the last figure that a gauge is printed with."""

_COARSE, _FINE = 0.25, 0.125
"""Half of what lengths, and widths of bands and panel, are printed to, in cm."""


def wrong_measures(markdown: str, size: str, finished: Finished) -> list[str]:
    """Measurements of the size that do not follow from the gauge, in words; those of edges and bands."""
    page = read_page(markdown)
    gauge = _gauges(page)
    told = _in_cm(page, size)
    return [
        f"{name}: {told[name]} cm, not {length:.2f}"
        for name, (length, give) in _lengths(finished, gauge).items()
        if name in told and abs(told[name] - length) > give
    ]


def _in_cm(page: Page, size: str) -> dict[str, float]:
    """The measurements of a size by their names: of several sizes there is a table in cm, of one a column."""
    found: dict[str, float] = {}
    unit = ""
    for block in page["Finished measurements"]:
        if isinstance(block, Heading):
            unit = block.text
        elif isinstance(block, Grid):
            names = [name for name, wanted in (("cm", ""), (size, "In cm")) if unit == wanted]
            at = [block.header.index(name) for name in names if name in block.header]
            found |= {row[1]: float(row[column]) for row in block.rows for column in at}
    return found


def _lengths(made: Finished, gauge: Mapping[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    """Each length in cm, and how far the printed one may be from it."""
    first, last = made.arm_right
    counted = {
        "body neck edge": ("Body", 0, made.body_neck, _COARSE),
        "body hem edge": ("Body", 0, made.body_hem, _COARSE),
        "body depth, neck to hem": ("Body", 1, made.body_rows, _COARSE),
        "body width": ("Body", 0, made.body_neck, _COARSE),
        "front seam to arm run": ("Body", 0, first - 1, _COARSE),
        "arm run on the hem": ("Body", 0, last - first + 1, _COARSE),
        "arm opening": ("Body", 1, last - first + 1, _COARSE),
        "panel width": ("Centre panel", 0, made.panel_foot, _FINE),
        "panel length": ("Centre panel", 1, made.panel_rows, _COARSE),
        "neck band length": ("Neck band", 1, made.neck_band_rows, _COARSE),
        "neck band depth": ("Neck band", 0, made.neck_band_stitches, _FINE),
        "arm band length": ("Arm bands", 1, made.arm_band_rows, _COARSE),
        "arm band depth": ("Arm bands", 0, made.arm_band_stitches, _FINE),
    }
    return {
        name: (count / gauge[part][way], give + count / gauge[part][way] ** 2 * _PRINTED_GAUGE / 10 + 1e-6)
        for name, (part, way, count, give) in counted.items()
        if part in gauge
    }


def _gauges(page: Page) -> dict[str, tuple[float, float]]:
    """Stitches and rows to a cm of each part."""
    found: dict[str, tuple[float, float]] = {}
    for block in page["Tension" if "Tension" in page else "Gauge"]:
        match = _GAUGE.match(block.text) if isinstance(block, Words) else None
        if match:
            over = float(match[4]) * (_CM if match[5] == "in" else 1)
            each = float(match[2]) / over, float(match[3]) / over
            found |= {f"{name[0].upper()}{name[1:]}": each for name in re.split(r", | and ", match[1])}
    return found
