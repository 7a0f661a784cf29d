"""A flared body by hand: a ring sector, its arm runs on the outer arc.

A way on it that would cross the neck is taut round it: straight from the run till it touches the inner
arc, then along the arc.
"""

from __future__ import annotations

from collections.abc import Mapping

from schematics.analysis.workings.arithmetic import PI, Sum, arc_cosine, cosine, number, root, sine
from schematics.analysis.workings.neck_down_by_hand import (
    NeckDown,
    derived_counts,
    middle_of_run,
    slope,
    to_the_panel,
)
from schematics.analysis.workings.working_sheet import Derived, Sheet
from schematics.garment.constructions.base import STITCHES


class Flared(NeckDown):
    """The workings of a flared body."""

    def derived(self, sheet: Sheet) -> Mapping[str, Derived]:
        """The counts that follow."""
        return derived_counts(sheet.size, number(sheet.size.body.hem, "sts"))

    def lengths(self, _: Sheet) -> Mapping[str, tuple[Sum, str]]:
        """None but single counts."""
        return {}

    def shape(self, sheet: Sheet) -> None:
        """Opening angle and both radii of the flare, area and drop.

        The outer radius is that of a flare that goes on to the hem.
        """
        body, fabric, depth = sheet.size.body, sheet.design.parts.body, sheet["body.depth"]
        neck, added = number(body.neck, "sts"), number(body.hem, "sts") - number(body.neck, "sts")
        widens = self._widens(sheet)
        sheet.angle(
            "shape.opening",
            "opening angle",
            sheet.ruler.length(added, STITCHES, fabric) / widens * number(180) / PI,
            "hem less neck, over the depth, is the angle in radians",
        )
        if not _flat(sheet):
            inner = sheet.length(
                "shape.inner",
                "inner radius",
                widens * neck / added,
                "is to the depth as the neck to what the hem has more",
            )
            sheet.length("shape.outer", "outer radius", inner + depth, "inner radius and depth")
        self._area(sheet)
        sheet.length("drop", "centre back, neck edge to hem", depth, "the depth", finished=True)
        sheet.length(
            "longest_drop", "longest way from neck edge to hem", depth, "the depth, all along the hem"
        )

    def ways(self, sheet: Sheet) -> None:
        """From the middle of the run to nape, centre back and panel."""
        if _flat(sheet):
            _flat_ways(sheet)
            return
        outer, inner = sheet["shape.outer"], sheet["shape.inner"]
        half, hem = sheet["shape.opening"] / number(2), number(sheet.size.body.hem, "sts") / number(2)
        from_front = middle_of_run(sheet.size)
        to_back = sheet.angle(
            "angle.back",
            "angle from centre back to the middle of the arm run",
            (hem - from_front) / hem * half,
            "its share of half the hem, of half the opening angle",
        )
        to_front = sheet.angle(
            "angle.front",
            "angle from the front edge to the middle of the arm run",
            from_front / hem * half,
            "likewise from the front",
        )
        touches = sheet.angle(
            "angle.straight",
            "angle up to which a way from the hem clears the neck",
            arc_cosine(inner / outer),
            "a way that only touches the inner arc",
        )
        tangent = root(outer.squared() - inner.squared())

        def along_arc(angle: Sum) -> Sum:
            return number(2) * PI * inner * (angle - touches) / number(360)

        clear = to_back.value <= touches.value
        if clear:
            reach = root(inner.squared() + outer.squared() - number(2) * inner * outer * cosine(to_back))
            source = f"straight, since {to_back.text} is no more than {touches.text}"
        else:
            reach = tangent + along_arc(to_back)
            source = f"round the neck, since {to_back.text} is more than {touches.text}"
        nape = sheet.length("way.reach", "from the nape to the middle of the arm run", reach, source)
        across = outer * sine(to_back) if clear else nape
        sheet.length(
            "way.back",
            "from the middle of the arm run to the centre back",
            across,
            "straight across" if clear else "the nape is the nearest place of it",
        )
        if to_front.value <= touches.value:
            front, source = to_the_panel(sheet, outer * sine(to_front), outer * cosine(to_front) - inner)
        else:
            front = tangent + along_arc(to_front) + sheet["panel.width"] / number(2)
            source = "round the neck and along the panel's top"
        sheet.length("way.front", "from the middle of the arm run to the panel's middle", front, source)


def _flat(sheet: Sheet) -> bool:
    return bool(sheet.size.body.hem == sheet.size.body.neck)


def _flat_ways(sheet: Sheet) -> None:
    fabric, stitch = sheet.design.parts.body, sheet.ruler
    from_front = middle_of_run(sheet.size)
    to_back = number(sheet.size.body.hem, "sts") / number(2) - from_front
    across = sheet.length(
        "run.back",
        "centre back to the middle of the arm run",
        stitch.length(to_back, STITCHES, fabric),
        "along the hem",
    )
    aside = sheet.length(
        "run.front",
        "front edge to the middle of the arm run",
        stitch.length(from_front, STITCHES, fabric),
        "along the hem",
    )
    depth = sheet["body.depth"]
    sheet.length("way.reach", "from the nape to the middle of the arm run", slope(across, depth), "straight")
    sheet.length("way.back", "from the middle of the arm run to the centre back", across, "along the hem")
    front, source = to_the_panel(sheet, aside, depth)
    sheet.length("way.front", "from the middle of the arm run to the panel's middle", front, source)
