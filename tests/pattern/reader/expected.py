"""What a pattern has to end with, from the counts of its spec as YAML holds them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tests.pattern.reader.maker import Finished

Spec = Mapping[str, Any]


def faults(finished: Finished, size: Spec) -> list[str]:
    """Figures in hand that are not those of the size's counts, in words."""
    had = {name: getattr(finished, name) for name in Finished.__dataclass_fields__}
    wanted = expected(size)
    return [f"{name}: {had[name]}, not {wanted[name]}" for name in wanted if had[name] != wanted[name]] + [
        *_bands(finished),
        *_increases(finished, size["body"]),
    ]


def expected(size: Spec) -> dict[str, object]:
    """The figures that the counts of a size say, by their names in `Finished`."""
    panel = size["panel"]
    shared = {
        "panel_foot": panel["stitches"],
        "panel_rows": panel["rows"],
        "neck_band_stitches": size["neck_band"]["stitches"],
        "arm_band_stitches": size["arm_bands"]["stitches"],
    }
    return shared | (_folded(size) if "width" in size["body"] else _neck_down(size))


def _neck_down(size: Spec) -> dict[str, object]:
    body, arms = size["body"], size["arms"]
    hem = body["hem"] if "hem" in body else body["neck"] + 2 * body["lines"] * body["increase_rows"]
    first, run = arms["from_front"] + 1, arms["stitches"]
    return {
        "body_neck": body["neck"],
        "body_hem": hem,
        "body_rows": body["rows"],
        "front_rows": body["rows"],
        "shoulder_fold": 0,
        "neck_hole": 0,
        "neck_edge": body["neck"] + size["panel"]["stitches"],
        "arm_edge": run,
        "arm_right": (first, first + run - 1),
        "arm_left": (hem - first - run + 2, hem - first + 1),
        "side_seams": 0,
    }


def _folded(size: Spec) -> dict[str, object]:
    """The neck edge and the arm edge depend on gauge: they are held against their bands."""
    body, rows = size["body"], size["arms"]["rows"]
    front = body["front_rows"] - rows // 2
    sewn = front if body.get("side_seam", True) else 0
    return {
        "body_neck": body["width"],
        "body_hem": (body["width"] - body["slot"]) // 2,
        "body_rows": body["front_rows"] + body["back_rows"],
        "front_rows": body["front_rows"] - body["neck_front_rows"],
        "shoulder_fold": body["back_rows"],
        "neck_hole": body["neck"],
        "chained": (body["neck"] - body["slot"]) // 2,
        "arm_right": (front + 1, front + rows),
        "arm_left": (front + 1, front + rows),
        "side_seams": sewn,
    }


def _increases(finished: Finished, body: Spec) -> list[str]:
    """Increases lie in the rows that the spec says, in each of them where there are enough."""
    if "width" in body:
        return []
    every, until = body.get("increase_every", 1), body.get("increase_until", body["rows"])
    worked = finished.increase_rows
    asked = {row for row in range(2, until + 1) if (row % 3 != 1 if every == 1.5 else (row - 2) % every == 0)}
    number = body.get("increase_rows", min(len(asked), finished.body_hem - finished.body_neck))
    if asked.issuperset(worked) and len(worked) == number:
        return []
    return [f"increase rows {worked}, not {number} of {sorted(asked)}"]


def _bands(finished: Finished) -> list[str]:
    """A ribbing row to every edge stitch."""
    bands = {
        "neck band": (finished.neck_band_rows, finished.neck_edge),
        "arm bands": (finished.arm_band_rows, finished.arm_edge),
    }
    return [f"{name}: {rows} rows on {edge} edge sts" for name, (rows, edge) in bands.items() if rows != edge]
