"""Bodies worked from the neck down, by hand: what flared and mitred ones share."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from schematics.analysis.workings.arithmetic import Sum, number, root, total
from schematics.analysis.workings.working_sheet import Derived, Run, Sheet
from schematics.design.design import Size
from schematics.garment.constructions.base import ROWS, STITCHES
from schematics.garment.constructions.neck_down_garment import Ending
from schematics.garment.garment import IncreasePlan


def derived_counts(size: Size, hem: Sum) -> Mapping[str, Derived]:
    """What is left of the hem across the back, and the ribbing rows of both bands."""
    arms, run = size.arms, number(size.arms.stitches, "sts")
    runs = number(2) * (number(arms.from_front, "sts") + run)
    neck = number(size.body.neck, "sts") + number(size.panel_stitches, "sts")
    return {
        "arm.back": Derived(count=hem - runs, words="the hem less both runs and what lies before them"),
        "neck.edge": Derived(count=neck, words="body neck edge and top of the panel"),
        "neck_band.length": Derived(count=neck, words="one ribbing row to each stitch of the neck edge"),
        "arm_band.length": Derived(count=run, words="one ribbing row to each stitch of the arm run"),
    }


class NeckDown:
    """The part of a `Shape` that does not depend on how the increases lie."""

    def neck(self, sheet: Sheet) -> tuple[Run, ...]:
        """The body's neck stitches."""
        return (self._run(sheet, sheet.size.body.neck),)

    def arm(self, sheet: Sheet) -> Run:
        """The run of hem stitches."""
        return self._run(sheet, sheet.size.arms.stitches)

    def girth(self, sheet: Sheet) -> None:
        """Round the neck edge, round hem and panel, and down to where that girth is reached."""
        sheet.length(
            "girth.top", "round the neck edge", sheet["neck.edge"], "the neck edge with the panel's top"
        )
        sheet.length(
            "girth.hem",
            "round the hem",
            sheet["body.hem"] + sheet["panel.width"],
            "the hem and the panel's foot",
        )
        rows = sheet.size.body.rows
        if ending(sheet.size) is not None and widens_rows(sheet.size).value < rows:
            sheet.length(
                "girth.widest",
                "centre back, neck edge to where the body widens no more",
                sheet["drop"] * widens_rows(sheet.size) / number(rows, "rows"),
                "half an interval below the last increase row",
            )

    def _widens(self, sheet: Sheet) -> Sum:
        """The depth over which the body widens."""
        if ending(sheet.size) is None:
            return sheet["body.depth"]
        return sheet.length(
            "shape.widens",
            "depth to which the body widens",
            sheet.ruler.length(widens_rows(sheet.size), ROWS, sheet.design.parts.body),
            "half an interval below the last increase row, or down to the hem",
        )

    def _run(self, sheet: Sheet, stitches: int) -> Run:
        return Run(count=number(stitches, "sts"), counted=STITCHES, fabric=sheet.design.parts.body)

    def _area(self, sheet: Sheet) -> None:
        plan, body = sheet.worked.garment.increases, sheet.design.parts.body
        if ending(sheet.size) is not None and plan is not None:
            sheet.area(
                "area.body",
                "area of the body",
                sheet.ruler.length(_stitches(plan, sheet.size.body.rows), STITCHES, body)
                * sheet.ruler.length(number(1, "rows"), ROWS, body),
                "the stitches of the neck on all rows, and each increase from its row on, at a row's height",
            )
            return
        sheet.area(
            "area.body",
            "area of the body",
            (sheet["body.neck"] + sheet["body.hem"]) / number(2) * sheet["body.depth"],
            "half of neck and hem, times the depth",
        )


def ending(size: Size) -> Ending | None:
    """Where the increases end, if the spec says so."""
    body = size.body
    return Ending.of(body.rows, body.increase_every, body.increase_until)


def widens_rows(size: Size) -> Sum:
    """The rows over which the body widens."""
    body, end = size.body, ending(size)
    if end is None or end.widens_rows == body.rows:
        return number(body.rows, "rows")
    return number(end.last_row - 1, "rows") + number(body.increase_every, "rows") / number(2)


def _stitches(plan: IncreasePlan, rows: int) -> Sum:
    """All stitches of the body: increases that are alike are worked on so many rows each."""
    worked_on: dict[int, list[int]] = {}
    for row, added in plan.used:
        worked_on.setdefault(added, []).append(rows - row + 1)
    more = [number(added, "sts") * _added_up(counts) for added, counts in worked_on.items()]
    return total([number(plan.start, "sts") * number(rows), *more])


def _added_up(counts: Sequence[int]) -> Sum:
    """The sum of falling numbers: so many times their mean where they fall evenly."""
    if len({before - after for before, after in pairwise(counts)}) == 1 and len(counts) > 3:
        return number(len(counts)) * (number(counts[0]) + number(counts[-1])) / number(2)
    return total(number(count) for count in counts)


def to_the_panel(sheet: Sheet, aside: Sum, below: Sum) -> tuple[Sum, str]:
    """The way to the panel's middle from a place so far from the front edge, so far below its top."""
    half, short = sheet["panel.width"] / number(2), below - sheet["panel.length"]
    if short.value <= 0:
        return aside + half, "straight across, and half the panel"
    return slope(aside, short) + half, "round the lower end of the panel's seam, and half the panel"


def middle_of_run(size: Size) -> Sum:
    """Stitches from the front seam to the middle of the arm run."""
    return number(size.arms.from_front, "sts") + number(size.arms.stitches, "sts") / number(2)


def slope(one: Sum, other: Sum) -> Sum:
    """The length of a slope that runs so far across and so far up."""
    return root(one.squared() + other.squared())
