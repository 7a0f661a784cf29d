"""The coverage as a chart: a strip for each size, as high as the share of children it suits, over age."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.design.design import Design
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, shorten, text_width, wrap
from schematics.drawing.ink.marks import Area, Group, Line, Pen, Text
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.fitting.coverage import AgeShares

WIDTH, MARGIN = 180.0, 10.0
STRIP, GAP = 12.0, 5.0
ANY = "any size"

NOTE = (
    "How high a strip is filled is the share of the children of that age whom the size suits by head, hand, "
    "reach and hang; the lines are none and all of them. Head, hand and height are taken as independent."
)


def coverage_chart(design: Design, shares: Sequence[AgeShares]) -> Sheet:
    """The chart as a sheet; ages run from left to right."""
    names = [*shares[0].sizes, ANY]
    labels = {name: shorten(f"size {name}" if name != ANY else name, 35.0) for name in names}
    left = MARGIN + max(text_width(each) for each in labels.values()) + 3
    right = WIDTH - MARGIN - text_width("100 %") - 2
    note = wrap(NOTE, WIDTH - 2 * MARGIN)
    title = wrap(f"{design.title}: who is served", WIDTH - 2 * MARGIN, LARGE, bold=True)
    top = MARGIN + LARGE + (len(title) - 1) * line_pitch(LARGE) + 6
    groups = [Group("title", "chart", tuple(_lines(title, MARGIN + LARGE, LARGE, bold=True)))]
    ages = [each.age_years for each in shares]
    across = [left + (right - left) * _share(age, ages) for age in ages]
    for row, name in enumerate(names):
        foot = top + row * (STRIP + GAP) + STRIP
        heights = [1 - each.none if name == ANY else each.sizes[name].all for each in shares]
        groups.append(_strip(name, labels[name], left, right, foot, list(zip(across, heights, strict=True))))
    bottom = top + len(names) * (STRIP + GAP)
    groups.append(_axis(ages, across, bottom))
    below = bottom + 2 * line_pitch(SMALL) + 6
    groups.append(Group("note", "chart", tuple(_lines(note, below, SMALL))))
    height = below + (len(note) - 1) * line_pitch(SMALL) + MARGIN
    return Sheet(
        paper=Paper(name="chart", width=WIDTH, height=height),
        scale=None,
        title=f"{design.title}: who is served",
        description=_description(shares),
        groups=tuple(groups),
    )


def _share(age: float, ages: Sequence[float]) -> float:
    return 0.5 if len(ages) == 1 else (age - ages[0]) / (ages[-1] - ages[0])


def _strip(
    name: str, label: str, left: float, right: float, foot: float, points: Sequence[tuple[float, float]]
) -> Group:
    top = [(x, foot - share * STRIP) for x, share in points]
    if len(top) == 1:
        top = [(left, top[0][1]), (right, top[0][1])]
    filled = Area((*top, (top[-1][0], foot), (top[0][0], foot)), Pen.SOLID)
    has_area = any(y < foot - 1e-3 for _, y in top)
    return Group(
        "strip",
        name,
        (
            *((filled,) if has_area else ()),
            Line(((left, foot), (right, foot))),
            Line(((left, foot - STRIP), (right, foot - STRIP))),
            Text((left - 3, foot - STRIP / 2 + SMALL / 2), label, anchor="end"),
            Text((right + 2, foot), "0 %"),
            Text((right + 2, foot - STRIP + SMALL), "100 %"),
        ),
    )


def _axis(ages: Sequence[float], across: Sequence[float], bottom: float) -> Group:
    """Ages below the strips, as many as have room."""
    marks: list[Text] = []
    free_from = 0.0
    for age, x in zip(ages, across, strict=True):
        words = f"{age:g}"
        half = text_width(words) / 2
        if x - half >= free_from:
            marks.append(Text((x, bottom + SMALL), words, anchor="middle"))
            free_from = x + half + 2
    middle = (across[0] + across[-1]) / 2
    return Group(
        "axis",
        "ages",
        (*marks, Text((middle, bottom + SMALL + line_pitch(SMALL)), "age in years", anchor="middle")),
    )


def _lines(lines: Sequence[str], first: float, height: float, *, bold: bool = False) -> list[Text]:
    return [
        Text((MARGIN, first + number * line_pitch(height)), line, height, bold=bold)
        for number, line in enumerate(lines)
    ]


def _description(shares: Sequence[AgeShares]) -> str:
    parts = []
    for name in shares[0].sizes:
        best = max(shares, key=lambda each: each.sizes[name].all)
        parts.append(
            f"size {name} suits most at {best.age_years:g} years, {best.sizes[name].all * 100:.0f} %"
        )
    return "; ".join(parts) + "."
