"""Bodies worked from the neck down, by hand: what they share, and those that are laid flat a ring sector.

A path on a sector that would cross the neck is taut round it: straight from the run till it touches the inner
arc, then along the arc.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from schematics.garment.amounts import (
    PI,
    ROWS,
    STITCHES,
    Formula,
    Given,
    Laid,
    Measure,
    arc_cosine,
    arc_tangent,
    cosine,
    root,
    sine,
    slope,
    squared,
    total,
)
from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.neck_down.neck_down_formulas import BODY_ROWS, FROM_FRONT, NECK, RUN
from schematics.garment.constructions.neck_down.neck_down_garment import ending_of
from schematics.garment.constructions.path_formulas import WorkedOut, path_measures
from schematics.garment.increases import IncreasePlan
from schematics.wearer.expr import Expr, node

RUN_MIDDLE = "the middle of the arm run"


def widens_rows(sheet: HandSheet) -> Expr:
    """The rows over which the body widens."""
    body, ending = sheet.size.body, ending_of(sheet.size.body)
    if ending is None or ending.widens_rows == body.rows:
        return BODY_ROWS
    return Given(ending.last_row - 1, "rows") + Given(body.increase_every, "rows") / 2


def widened_depth(sheet: HandSheet) -> Expr:
    """The depth over which the body widens."""
    if ending_of(sheet.size.body) is None:
        return sheet["body.depth"]
    return sheet.put(
        "shape.widens",
        "depth to which the body widens",
        Laid(widens_rows(sheet), ROWS, sheet.parts.body),
        "half an interval below the last increase row, or down to the hem",
    )


def area(sheet: HandSheet) -> None:
    """The body's area: of its outline, or of its stitches where increases end above the hem."""
    plan, fabric = sheet.garment.increases, sheet.parts.body
    if ending_of(sheet.size.body) is not None and plan is not None:
        stitches = Laid(_stitches(plan, sheet.size.body.rows), STITCHES, fabric)
        of: Expr = stitches * Laid(Given(1, "rows"), ROWS, fabric)
        source = "the stitches of the neck on all rows, and each increase from its row on, at a row's height"
    else:
        of = (sheet["body.neck"] + sheet["body.hem"]) / 2 * sheet["body.depth"]
        source = "half of neck and hem, times the depth"
    sheet.put("area.body", "area of the body", of, source, "cm²")


def widest(sheet: HandSheet) -> None:
    """Down to where the girth of the hem is reached, where that lies above the hem."""
    ending = ending_of(sheet.size.body)
    if ending is not None and ending.widens_rows < sheet.size.body.rows:
        sheet.put(
            "girth.widest",
            "centre back, neck edge to where the body widens no more",
            sheet["drop"] * widens_rows(sheet) / BODY_ROWS,
            "half an interval below the last increase row",
        )


def hem_stitches(sheet: HandSheet) -> Expr:
    """The stitches of the hem, as a result."""
    return Formula(sheet["body.hem"].count or NECK, "sts")


def middle_of_run() -> Expr:
    """Stitches from the front seam to the middle of the arm run."""
    return FROM_FRONT + RUN / 2


def to_the_panel(sheet: HandSheet, aside: Expr, below: Expr) -> WorkedOut:
    """The path to the panel's middle from a place so far from the front edge, so far below its top."""
    if "panel.top" in sheet.steps:
        return _to_leaning_middle(sheet, aside, below)
    half, short = sheet["panel.width"] / 2, below - sheet["panel.length"]
    if sheet.value(short) <= 0:
        return aside + half, "straight across, and half the panel"
    return slope(aside, short) + half, "round the lower end of the panel's seam, and half the panel"


def _to_leaning_middle(sheet: HandSheet, aside: Expr, below: Expr) -> WorkedOut:
    """The same to the middle of a panel that tapers, which leans off the seam."""
    lean, side = lean_of_panel(sheet)
    end = side if sheet.value(side) <= sheet.value(sheet["body.depth"]) else sheet["body.depth"]
    past = (below - end) * cosine(lean) - aside * sine(lean)
    if sheet.value(past) <= 0:
        words = ("square to the panel's middle, which leans off the seam by ", lean)
        return aside * cosine(lean) + below * sine(lean) + sheet["panel.top"] / 2, words
    round_end = slope(aside, below - end) + end * sine(lean) + sheet["panel.top"] / 2
    return round_end, "round the lower end of the panel's seam, and square to the panel's middle"


def lean_of_panel(sheet: HandSheet) -> tuple[Measure, Measure]:
    """The angle between seam and middle of a panel that tapers, and its side drawn straight."""
    half, length = (sheet["panel.width"] - sheet["panel.top"]) / 2, sheet["panel.length"]
    lean = sheet.put(
        "panel.lean",
        "angle between the panel's side and its middle",
        arc_tangent(half / length),
        "half of what the foot is wider than the top, over the length",
        "°",
    )
    return lean, sheet.put(
        "panel.straight", "panel side, drawn straight", slope(half, length), "from end to end"
    )


def sector_shape(sheet: HandSheet) -> None:
    """Opening angle and both radii of the flare, and area.

    The outer radius is that of a flare that goes on to the hem.
    """
    added = hem_stitches(sheet) - NECK
    widens = widened_depth(sheet)
    sheet.put(
        "shape.opening",
        "opening angle",
        Laid(added, STITCHES, sheet.parts.body) / widens * 180 / PI,
        "hem less neck, over the depth, is the angle in radians",
        "°",
    )
    if not _flat(sheet):
        inner = sheet.put(
            "shape.inner",
            "inner radius",
            widens * NECK / added,
            "is to the depth as the neck to what the hem has more",
        )
        sheet.put("shape.outer", "outer radius", inner + sheet["body.depth"], "inner radius and depth")
    area(sheet)


def sector_paths(sheet: HandSheet) -> Iterator[Measure]:
    """The paths from the middle of the run to nape, centre back and panel."""
    if _flat(sheet):
        return _flat_paths(sheet)
    outer, inner = sheet["shape.outer"], sheet["shape.inner"]
    half, hem = sheet["shape.opening"] / 2, hem_stitches(sheet) / 2
    from_front = middle_of_run()
    to_back = sheet.put(
        "angle.back",
        "angle from centre back to the middle of the arm run",
        (hem - from_front) / hem * half,
        "its share of half the hem, of half the opening angle",
        "°",
    )
    to_front = sheet.put(
        "angle.front",
        "angle from the front edge to the middle of the arm run",
        from_front / hem * half,
        "likewise from the front",
        "°",
    )
    touches = sheet.put(
        "angle.straight",
        "angle up to which a way from the hem clears the neck",
        arc_cosine(inner / outer),
        "a way that only touches the inner arc",
        "°",
    )
    tangent = root(squared(outer) - squared(inner))

    def along_arc(angle: Expr) -> Expr:
        return 2 * PI * inner * (angle - touches) / 360

    clear = sheet.value(to_back) <= sheet.value(touches)
    if clear:
        reach: Expr = root(squared(inner) + squared(outer) - 2 * inner * outer * cosine(to_back))
        source = ("straight, since ", to_back, " is no more than ", touches)
    else:
        reach = tangent + along_arc(to_back)
        source = ("round the neck, since ", to_back, " is more than ", touches)
    back = (outer * sine(to_back), "straight across") if clear else None
    if "panel.top" in sheet.steps:
        front = _to_leaning_panel(sheet, to_front, touches, tangent)
    elif sheet.value(to_front) <= sheet.value(touches):
        front = to_the_panel(sheet, outer * sine(to_front), outer * cosine(to_front) - inner)
    else:
        round_the_neck = tangent + along_arc(to_front) + sheet["panel.width"] / 2
        front = round_the_neck, "round the neck and along the panel's top"
    return path_measures(RUN_MIDDLE, ((reach, source), back, front))


def _to_leaning_panel(sheet: HandSheet, to_front: Expr, touches: Expr, tangent: Expr) -> WorkedOut:
    """From the middle of the run to the middle of a panel that tapers."""
    outer, inner = sheet["shape.outer"], sheet["shape.inner"]
    off, down = outer * sine(to_front), outer * cosine(to_front) - inner
    lean, _ = lean_of_panel(sheet)
    if sheet.value(lean) < 0 and sheet.value(to_front + lean) > sheet.value(touches):
        arc = 2 * PI * inner * (to_front + lean - touches) / 360
        words = "round the neck, and along a tangent square to the panel's middle"
        return tangent + arc - inner * sine(lean) + sheet["panel.top"] / 2, words
    if sheet.value(lean) < 0 or (
        sheet.value(to_front + lean) < 90 and sheet.value(down * cosine(lean) - off * sine(lean)) >= 0
    ):
        return _to_leaning_middle(sheet, off, down)
    if sheet.value(to_front) <= sheet.value(touches):
        return slope(off, down) + sheet[
            "panel.top"
        ] / 2, "to the upper end of the seam and along the panel's top"
    arc = 2 * PI * inner * (to_front - touches) / 360
    return tangent + arc + sheet["panel.top"] / 2, "round the neck and along the panel's top"


def _flat(sheet: HandSheet) -> bool:
    return sheet.value(hem_stitches(sheet)) == sheet.value(NECK)


def _flat_paths(sheet: HandSheet) -> Iterator[Measure]:
    fabric, depth = sheet.parts.body, sheet["body.depth"]
    across = sheet.put(
        "run.back",
        "centre back to the middle of the arm run",
        Laid(hem_stitches(sheet) / 2 - middle_of_run(), STITCHES, fabric),
        "along the hem",
    )
    aside = sheet.put(
        "run.front",
        "front edge to the middle of the arm run",
        Laid(middle_of_run(), STITCHES, fabric),
        "along the hem",
    )
    reach, back = (slope(across, depth), "straight"), (across, "along the hem")
    return path_measures(RUN_MIDDLE, (reach, back, to_the_panel(sheet, aside, depth)))


def _stitches(plan: IncreasePlan, rows: int) -> Expr:
    """All stitches of the body: increases that are alike are worked on so many rows each."""
    worked_on: dict[int, list[int]] = {}
    for row, added in plan.used:
        worked_on.setdefault(added, []).append(rows - row + 1)
    more = [Given(added, "sts") * _added_up(counts) for added, counts in worked_on.items()]
    return total([Given(plan.start, "sts") * node(rows), *more])


def _added_up(counts: Sequence[int]) -> Expr:
    """The sum of falling numbers: so many times their mean where they fall evenly."""
    if len({before - after for before, after in pairwise(counts)}) == 1 and len(counts) > 3:
        return node(len(counts)) * (node(counts[0]) + node(counts[-1])) / 2
    return total(node(count) for count in counts)
