"""What is read off a garment on a body: how high its hem hangs, where its neck edge rests."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from schematics.garment.cloth.draped import Draped


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """In cm: the hem's heights above the floor, the neck edge's depths below the nape and its spread.

    ``hem_side_cm`` is where an arm band's ends meet on the hem, else at its corner between front and back.
    ``neck_beside_cm`` is how far the neck edge lies beside the middle, at its widest.
    """

    hem_back_cm: float
    hem_side_cm: float
    hem_front_cm: float
    hem_lowest_cm: float
    neck_back_cm: float
    neck_beside_cm: float


def answers(worn: Draped) -> Answers:
    """What is read off one garment at rest on a body."""
    hem, neck = (worn.vertices[worn.lines[name]] for name in ("hem", "neck edge"))
    half = len(hem) // 2
    return Answers(
        hem_back_cm=float(hem[0, 1]),
        hem_side_cm=float(hem[_side(worn), 1]),
        hem_front_cm=float(hem[half, 1]),
        hem_lowest_cm=float(hem[:, 1].min()),
        neck_back_cm=float(worn.body.size.nape_height_cm - neck[0, 1]),
        neck_beside_cm=float(np.abs(neck[:, 0]).max()),
    )


def _side(worn: Draped) -> int:
    hem = worn.lines["hem"]
    (met,) = np.nonzero(hem == worn.lines["arm band edge right"][0])
    if len(met):
        return int(met[0])
    right = worn.vertices[hem[: len(hem) // 2 + 1]]
    return int(right[:, 0].argmin())
