"""Bodies worked from the neck down, by hand: what flared and mitred ones share."""

from __future__ import annotations

from collections.abc import Mapping

from schematics.constructions.base import STITCHES
from schematics.design import Size
from schematics.workings.arithmetic import Sum, number, root
from schematics.workings.sheet import Derived, Run, Sheet


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
        """Round the neck edge, and round hem and panel."""
        sheet.length(
            "girth.top", "round the neck edge", sheet["neck.edge"], "the neck edge with the panel's top"
        )
        sheet.length(
            "girth.hem",
            "round the hem",
            sheet["body.hem"] + sheet["panel.width"],
            "the hem and the panel's foot",
        )

    def _run(self, sheet: Sheet, stitches: int) -> Run:
        return Run(count=number(stitches, "sts"), counted=STITCHES, fabric=sheet.design.parts.body)

    def _area(self, sheet: Sheet) -> None:
        sheet.area(
            "area.body",
            "area of the body",
            (sheet["body.neck"] + sheet["body.hem"]) / number(2) * sheet["body.depth"],
            "half of neck and hem, times the depth",
        )


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
