"""Finished measurements, in cm and in inches, against the printed gauge and what is in hand at the end."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from tests.pattern.reader.complaint import CannotWorkError
from tests.pattern.reader.maker import Finished, chosen_in
from tests.pattern.reader.page import Grid, Heading, Page, Words, read_page

_GAUGE = re.compile(r"(.+): ([\d.]+) sts and ([\d.]+) rows to (\d+) (cm|in)\b")
_CM = 2.54
_PRINTED_GAUGE = 0.005
"""Half of the last figure that a gauge is printed with."""

_COARSE, _FINE = 0.25, 0.125
"""Half of what lengths, and widths of bands and panel, are printed to, in cm."""

_NARROW = {
    "panel width", "neck band depth", "arm band depth", "slot for the panel", "front neck depth",
    "back neck depth", "panel width at the top", "arm run on the hem", "arm opening", "arm band length",
}  # fmt: skip
"""Those printed to a quarter of a cm and an eighth of an inch."""


def wrong_measures(markdown: str, size: str, finished: Finished) -> list[str]:
    """Measurements of the size that do not follow from the gauge, in words; those of edges and bands."""
    page = read_page(markdown)
    gauge = gauges(page)
    told, to_fit = _in_both(page, size), _to_fit(page, size)
    lengths = _lengths(finished, gauge)
    return [
        *(
            f"{name}: {told[name][0]} cm, not {length:.2f}"
            for name, (length, give) in lengths.items()
            if name in told and abs(told[name][0] - length) > give
        ),
        *(
            f"{name}: {inches} inches, which is {inches * _CM:.2f} cm, not {cm}"
            for name, (cm, inches) in (told | to_fit).items()
            if abs(inches * _CM - cm) > _apart(name)
        ),
    ]


def _apart(name: str) -> float:
    """How far the same length in the other unit may be: half of what each is rounded to, 1/4 or 1/8 inch."""
    return (_FINE + _CM / 16 if name in _NARROW else _COARSE + _CM / 8) + 1e-6


def _in_both(page: Page, size: str) -> dict[str, tuple[float, float]]:
    """The measurements of a size in cm and in inches: of several sizes a table each, of one a column each."""
    found: dict[str, dict[str, float]] = {}
    table = ""
    for block in page["Finished measurements"]:
        if isinstance(block, Heading):
            table = block.text
        elif isinstance(block, Grid):
            for unit in ("cm", "inches"):
                names = [name for name, wanted in ((unit, ""), (size, f"In {unit}")) if table == wanted]
                for at in [block.header.index(name) for name in names if name in block.header]:
                    for row in block.rows:
                        if row[at] not in ("-", "–"):
                            found.setdefault(row[1], {})[unit] = _number(row[at])
    return {name: (both["cm"], both["inches"]) for name, both in found.items()}


def _to_fit(page: Page, size: str) -> dict[str, tuple[float, float]]:
    """The same of the body that a size is to fit."""
    grid = next((block for block in page["Sizes"] if isinstance(block, Grid)), None)
    if grid is None:
        return {}
    names = chosen_in(page, size).names
    told = {
        row[0]: [size_values(row[grid.header.index(unit)], names)[size] for unit in ("cm", "inches")]
        for row in grid.rows
    }
    return {
        name: (_number(cm), _number(inches)) for name, (cm, inches) in told.items() if cm not in ("-", "–")
    }


def size_values(cell: str, names: Sequence[str]) -> dict[str, str]:
    """The figures of a size string by size; all have the one of a single figure."""
    values = cell.removesuffix(")").replace(" (", ", ").split(", ")
    if len(values) not in (1, len(names)):
        raise CannotWorkError("Sizes", f"{cell} has {len(values)} figures for {len(names)} sizes")
    return dict(zip(names, values * (len(names) if len(values) == 1 else 1), strict=True))


def _number(text: str) -> float:
    """``14 1/4``, ``36.5``."""
    return float(sum(map(Fraction, text.split())))


def _lengths(made: Finished, gauge: Mapping[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    """Each length in cm, and how far the printed one may be from it."""
    first, last = made.arm_right
    counted = {
        "body neck edge": ("Body", 0, made.body_neck, _COARSE),
        "body hem edge": ("Body", 0, made.body_hem, _COARSE),
        "body depth, neck to hem": ("Body", 1, made.body_rows, _COARSE),
        "body width": ("Body", 0, made.body_neck, _COARSE),
        "front seam to arm run": ("Body", 0, first - 1, _COARSE),
        "arm run on the hem": ("Body", 0, last - first + 1, _FINE),
        "arm opening": ("Body", 1, last - first + 1, _FINE),
        "panel width": ("Centre panel", 0, made.panel_foot, _FINE),
        "panel length": ("Centre panel", 1, made.panel_rows, _COARSE),
        "neck band length": ("Neck band", 1, made.neck_band_rows, _COARSE),
        "neck band depth": ("Neck band", 0, made.neck_band_stitches, _FINE),
        "arm band length": ("Arm bands", 1, made.arm_band_rows, _FINE),
        "arm band depth": ("Arm bands", 0, made.arm_band_stitches, _FINE),
    }
    return {
        name: (count / gauge[part][way], give + count / gauge[part][way] ** 2 * _PRINTED_GAUGE / 10 + 1e-6)
        for name, (part, way, count, give) in counted.items()
        if part in gauge
    }


def gauges(page: Page) -> dict[str, tuple[float, float]]:
    """Stitches and rows to a cm of each part."""
    found: dict[str, tuple[float, float]] = {}
    for block in page["Tension" if "Tension" in page else "Gauge"]:
        match = _GAUGE.match(block.text) if isinstance(block, Words) else None
        if match:
            over = float(match[4]) * (_CM if match[5] == "in" else 1)
            each = float(match[2]) / over, float(match[3]) / over
            found |= {f"{name[0].upper()}{name[1:]}": each for name in re.split(r", | and ", match[1])}
    return found
