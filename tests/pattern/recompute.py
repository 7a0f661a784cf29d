"""The garment worked out anew from the spec's own numbers: exact fractions and closed forms."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

Spec = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Cloth:
    """One stitch's width and one row's height in cm, grams to a stitch, chains at the turn."""

    stitch: Fraction
    row: Fraction
    grams: Fraction
    turning: int


@dataclass(frozen=True, slots=True)
class Anew:
    """One size: lengths in cm by their names, counts, seams in cm."""

    lengths: dict[str, float]
    counts: dict[str, int]
    stitches: dict[str, int]
    chains: dict[str, int]
    rows: dict[str, int]
    neck_edge: int
    join_stitch: int
    arm_edge: int
    picked_up: dict[str, tuple[int, int]]
    markers: tuple[int, int, int, int]
    joins: dict[str, tuple[int, int]]
    seam_cm: dict[str, float]


def cloth(spec: Spec, part: str) -> Cloth:
    """The fabric of a part; the swatches of random designs are square and in cm."""
    fabric = spec["fabrics"][spec["parts"][part]]
    swatch = fabric["swatch"]
    over = Fraction(swatch["width"].split()[0])
    return Cloth(
        stitch=over / swatch["stitches"],
        row=over / swatch["rows"],
        grams=Fraction(str(swatch["mass"])) / (swatch["stitches"] * swatch["rows"]),
        turning=fabric["turning_chains"],
    )


def half_up(value: Fraction | float, step: Fraction) -> Fraction:
    """Rounded to the nearest step, halves up; a float that is a hair short of a half counts as one."""
    exact = value if isinstance(value, Fraction) else Fraction(value + 1e-9 * float(step))
    return math.floor(exact / step + Fraction(1, 2)) * step


def even_with(exact: Fraction, besides: int) -> int:
    """The whole number nearest to ``exact`` that makes ``besides`` even; of two, the larger."""
    near = [number for number in range(max(0, math.floor(exact) - 2), math.ceil(exact) + 3) if number > 0]
    fitting = [number for number in near if (number + besides) % 2 == 0] or [2 - besides % 2]
    return min(fitting, key=lambda number: (abs(number - exact), -number))


def anew(spec: Spec, size: Spec) -> Anew:
    """One size of the spec."""
    body, panel = cloth(spec, "body"), cloth(spec, "centre_panel")
    neck_band, arm_band = cloth(spec, "neck_band"), cloth(spec, "arm_bands")
    across, up = size["panel"]["stitches"], size["panel"]["rows"]
    deep, arm_deep = size["neck_band"]["stitches"], size["arm_bands"]["stitches"]
    folded = spec["construction"] == "folded"
    shape = _folded(size, body) if folded else _neck_down(spec, size, body)
    neck_edge, edge_cm = shape.neck + across, shape.neck_cm + across * panel.stitch
    lengths, counts, picked_up = shape.lengths, shape.counts, {}
    if folded:
        side = size["body"]["neck_front_rows"] + size["body"]["neck_back_rows"]
        at_sides = even_with(2 * side * body.row / body.stitch, shape.neck + across)
        neck_edge += at_sides
        edge_cm += 2 * side * body.row
        lengths |= {"picked up at the neck sides": 2 * side * body.row}
        counts |= {"picked up at the neck sides": at_sides}
        picked_up = _picked_up(size["arms"]["rows"], shape.arm_edge, side, at_sides)
    lengths |= {
        "panel width": across * panel.stitch,
        "panel length": up * panel.row,
        "neck edge with panel top": edge_cm,
        "neck band length": neck_edge * neck_band.row,
        "neck band depth": deep * neck_band.stitch,
        "arm band length": shape.arm_edge * arm_band.row,
        "arm band depth": arm_deep * arm_band.stitch,
    }
    front_cm = shape.front_rows * body.row
    seams = {"A": max(front_cm, up * panel.row), "B": max(front_cm, up * panel.row)}
    joins = {"A": (shape.front_rows, up), "B": (shape.front_rows, up)}
    if shape.side_rows is not None:
        front, back = shape.side_rows
        joins |= {"C": (front, back), "D": (front, back)}
        seams |= {"C": max(front, back) * body.row, "D": max(front, back) * body.row}
    bands = {
        "neck": edge_cm + deep * neck_band.stitch,
        "arm": 2 * (shape.arm_cm + arm_deep * arm_band.stitch),
    }
    counts |= {
        "panel width": across,
        "panel length": up,
        "neck edge with panel top": neck_edge,
        "neck band length": neck_edge,
        "neck band depth": deep,
        "arm band length": shape.arm_edge,
        "arm band depth": arm_deep,
    }
    stitches = {"body": shape.first_row, "centre panel": across, "neck band": deep, "arm band": arm_deep}
    turns = {"body": body, "centre panel": panel, "neck band": neck_band, "arm band": arm_band}
    return Anew(
        lengths={name: float(length) for name, length in lengths.items()},
        counts=counts,
        stitches=stitches,
        chains={name: count + turns[name].turning for name, count in stitches.items()},
        rows={"body": shape.rows, "centre panel": up, "neck band": neck_edge, "arm band": shape.arm_edge},
        neck_edge=neck_edge,
        join_stitch=shape.back_neck // 2 + 1,
        arm_edge=shape.arm_edge,
        picked_up=picked_up,
        markers=shape.markers,
        joins=joins,
        seam_cm={name: float(length) for name, length in (seams | bands).items()},
    )


def _picked_up(opening: int, arm_edge: int, side: int, at_sides: int) -> dict[str, tuple[int, int]]:
    """Row ends and stitches by place; an odd stitch at the neck goes to the right."""
    found = {"each arm opening": (opening, arm_edge)}
    if at_sides > 1 and at_sides % 2:
        found["right side of the neck hole"] = (side, at_sides // 2 + 1)
        found["left side of the neck hole"] = (side, at_sides // 2)
    elif at_sides > 1:
        found["each side of the neck hole"] = (side, at_sides // 2)
    return found


@dataclass(frozen=True, slots=True)
class _Shape:
    lengths: dict[str, Fraction | float]
    counts: dict[str, int]
    back_neck: int
    first_row: int
    rows: int
    front_rows: int
    side_rows: tuple[int, int] | None
    neck: int
    neck_cm: Fraction
    arm_edge: int
    arm_cm: Fraction
    markers: tuple[int, int, int, int]


def hem_count(body: Spec) -> int:
    """Stitches at the hem of a body worked from the neck down."""
    return int(body.get("hem", body["neck"] + 2 * body.get("lines", 0) * body.get("increase_rows", 0)))


def _neck_down(spec: Spec, size: Spec, body: Cloth) -> _Shape:
    counts, arms = size["body"], size["arms"]
    neck, rows, hem = counts["neck"], counts["rows"], hem_count(counts)
    run, free = arms["stitches"], arms["from_front"]
    depth = rows * body.row
    stitches = {
        "body neck edge": neck,
        "body hem edge": hem,
        "front seam to arm run": free,
        "arm run on the hem": run,
        "hem free across the back": hem - 2 * (free + run),
    }
    lengths: dict[str, Fraction | float] = {name: count * body.stitch for name, count in stitches.items()}
    lengths |= {"body depth, neck to hem": depth, "centre back, neck edge to hem": depth}
    if spec["construction"] == "mitred":
        line = math.hypot(counts["increase_rows"] * body.stitch, depth)
        lengths["increase line, neck to hem"] = line
        if counts["lines"] % 2:
            lengths["centre back, neck edge to hem"] = line
    return _Shape(
        lengths=lengths,
        counts=stitches | {"body depth, neck to hem": rows},
        back_neck=neck,
        first_row=neck,
        rows=rows,
        front_rows=rows,
        side_rows=None,
        neck=neck,
        neck_cm=neck * body.stitch,
        arm_edge=run,
        arm_cm=run * body.stitch,
        markers=(free + 1, free + run, hem - free - run + 1, hem - free),
    )


def _folded(size: Spec, body: Cloth) -> _Shape:
    counts, opening = size["body"], size["arms"]["rows"]
    width, neck, slot = counts["width"], counts["neck"], counts["slot"]
    front, back = counts["front_rows"], counts["back_rows"]
    down, nape = counts["neck_front_rows"], counts["neck_back_rows"]
    below = front - opening // 2, back - opening // 2
    first, last = front - opening // 2 + 1, front + opening // 2
    seamed = counts.get("side_seam", True) and min(below) > 0
    stitches = {"body width": width, "neck width": neck, "slot for the panel": slot}
    rows = {
        "front, fold to hem": front,
        "back, fold to hem": back,
        "front neck depth": down,
        "back neck depth": nape,
        "front edge, neck to hem": front - down,
        "arm opening": opening,
    }
    return _Shape(
        lengths={
            **{name: count * body.stitch for name, count in stitches.items()},
            **{name: count * body.row for name, count in rows.items()},
            "centre back, neck edge to hem": (back - nape) * body.row,
        },
        counts=stitches | rows,
        back_neck=neck,
        first_row=width,
        rows=front + back,
        front_rows=front - down,
        side_rows=below if seamed else None,
        neck=2 * neck - slot,
        neck_cm=(2 * neck - slot) * body.stitch,
        arm_edge=even_with(opening * body.row / body.stitch, 0),
        arm_cm=opening * body.row,
        markers=(first, last, first, last),
    )
