"""A folded body by hand: a rectangle less neck hole and slot; ways bend at the corners of the hole."""

from __future__ import annotations

import functools
from collections.abc import Mapping

from schematics.analysis.workings.arithmetic import Sum, largest, number
from schematics.analysis.workings.neck_down_by_hand import slope
from schematics.analysis.workings.working_sheet import Derived, Run, Sheet
from schematics.garment.constructions.base import ROWS, STITCHES
from schematics.garment.constructions.folded_counts import FoldedBody

_EVEN = "stitches along that length, to the nearest number that makes the ribbing rows even"


class Folded:
    """The workings of a folded body."""

    def derived(self, sheet: Sheet) -> Mapping[str, Derived]:
        """The front edge, what is picked up along row ends, and the ribbing rows."""
        body: FoldedBody = sheet.size.body
        neck, arm = sheet.worked.garment.neck, sheet.worked.garment.arm.ring
        stitches = self._neck_stitches(body) + number(sheet.size.panel_stitches, "sts")
        picked_up = neck.edge_count - round(stitches.value)
        edge = stitches + number(picked_up, "sts")
        picked = functools.partial(sheet.ruler.count, counted=STITCHES, fabric=sheet.design.parts.body)
        return {
            "body.front_edge": Derived(
                count=number(body.front_rows, "rows") - number(body.neck_front_rows, "rows"),
                words="the front less the front neck depth",
            ),
            "neck.picked_up": Derived(
                count=picked(self._row_ends(sheet, self._neck_rows(body))), words=_EVEN, taken=picked_up
            ),
            "neck.edge": Derived(
                count=edge, words="back and front of the hole, panel, and picked up at its sides"
            ),
            "neck_band.length": Derived(count=edge, words="one ribbing row to each stitch of the neck edge"),
            "arm_band.length": Derived(
                count=picked(self._row_ends(sheet, number(sheet.size.arms.rows, "rows"))),
                words=_EVEN,
                taken=arm.edge_count,
            ),
        }

    def lengths(self, sheet: Sheet) -> Mapping[str, tuple[Sum, str]]:
        """What stitches are picked up along."""
        return {"neck.picked_up": (self._row_ends(sheet, self._neck_rows(sheet.size.body)), "")}

    def neck(self, sheet: Sheet) -> tuple[Run, ...]:
        """Stitches at back and front of the hole, row ends at its sides."""
        body, fabric = sheet.size.body, sheet.design.parts.body
        return (
            Run(count=self._neck_stitches(body), counted=STITCHES, fabric=fabric),
            Run(count=self._neck_rows(body), counted=ROWS, fabric=fabric),
        )

    def arm(self, sheet: Sheet) -> Run:
        """Row ends of one opening."""
        return Run(count=number(sheet.size.arms.rows, "rows"), counted=ROWS, fabric=sheet.design.parts.body)

    def shape(self, sheet: Sheet) -> None:
        """The front's width, the body's area, what lies beside the neck, and the drops."""
        two = number(2)
        width, neck, slot = sheet["body.width"], sheet["body.neck_width"], sheet["body.slot"]
        front, back = sheet["body.front"], sheet["body.back"]
        front_neck, back_neck = sheet["body.neck_front"], sheet["body.neck_back"]
        sheet.length(
            "front_width",
            "front width",
            width - slot + sheet["panel.width"],
            "the panel in place of the slot",
        )
        sheet.area(
            "area.body",
            "area of the body",
            width * (front + back) - neck * (front_neck + back_neck) - slot * sheet["body.front_edge"],
            "the whole rectangle less neck hole and slot",
        )
        shoulder = sheet.length(
            "shoulder", "shoulder, neck to side", (width - neck) / two, "half of what the neck leaves"
        )
        drop = sheet.length(
            "drop", "centre back, neck edge to hem", back - back_neck, "below the neck hole", finished=True
        )
        sheet.length(
            "longest_drop",
            "longest way from neck edge to hem",
            largest([slope(shoulder, front), slope(shoulder, drop)]),
            "to a corner, from the neck edge at the fold or behind it",
        )

    def girth(self, sheet: Sheet) -> None:
        """Back, both fronts and panel, the same from top to hem."""
        around = number(2) * sheet["body.width"] - sheet["body.slot"] + sheet["panel.width"]
        top = sheet.length(
            "girth.top", "round the body", around, "back, and front with the panel in the slot"
        )
        sheet.length("girth.hem", "round the hem", top, "as everywhere")

    def ways(self, sheet: Sheet) -> None:
        """From the middle of the opening, on the shoulder fold, to nape, centre back and panel."""
        two, shoulder, neck = number(2), sheet["shoulder"], sheet["body.neck_width"]
        nape = sheet.length(
            "way.reach",
            "from the nape to the middle of the arm opening",
            neck / two + slope(shoulder, sheet["body.neck_back"]),
            "along the back neck, then straight from its corner",
        )
        sheet.length(
            "way.back",
            "from the middle of the arm opening to the centre back",
            nape,
            "the nape is the nearest place of it",
        )
        to_panel = (neck - sheet["body.slot"]) / two + sheet["panel.width"] / two
        sheet.length(
            "way.front",
            "from the middle of the arm opening to the panel's middle",
            slope(shoulder, sheet["body.neck_front"]) + to_panel,
            "straight to the corner of the hole, then along the front neck and the panel's top",
        )

    def _neck_stitches(self, body: FoldedBody) -> Sum:
        return number(2) * number(body.neck, "sts") - number(body.slot, "sts")

    def _neck_rows(self, body: FoldedBody) -> Sum:
        return number(2) * (number(body.neck_front_rows, "rows") + number(body.neck_back_rows, "rows"))

    def _row_ends(self, sheet: Sheet, rows: Sum) -> Sum:
        return sheet.ruler.length(rows, ROWS, sheet.design.parts.body)
