"""How a size hangs by the plane model, in lengths that are to be held beside those on cloth."""

from __future__ import annotations

from collections.abc import Mapping

from schematics.checks.evaluation import Result
from schematics.checks.rules.hang import worn_cm
from schematics.design.design import Design
from schematics.drawing.worn.drape import Hanging, wear
from schematics.wearer.body_figure import FigureSize, Pose

Lengths = Mapping[str, float]
"""In cm, by the names of the fields of `schematics.checks.cloth_findings.HangLengths`."""


def plane_lengths(design: Design, result: Result, size: FigureSize) -> Lengths | None:
    """The plane model's result; its hem is as low at the centre back as at the centre front.

    The neck edge lies on the nape; how far it spreads is half its breadth when it is laid flat.

    Returns:
        None where the garment is too short to be worn.
    """
    garment, limits = result.garment, design.limits
    hanging = Hanging(garment=garment, freedom=result.freedom, worn_drop_cm=worn_cm(garment.drop_cm, limits))
    down, level = (wear(size, hanging, pose) for pose in (Pose.DOWN, Pose.LEVEL))
    if down is None or level is None:
        return None
    nape = size.nape_height_cm
    return {
        "back": nape - down.hem_height_cm,
        "side": nape - down.hem.coords[-1][1],
        "front": nape - down.hem_height_cm,
        "lowest": worn_cm(garment.longest_drop_cm, limits),
        "level_back": nape - level.hem_height_cm,
        "level_front": nape - level.hem_height_cm,
        "neck_back": 0.0,
        "neck_beside": garment.neck.rest_cm / 4,
    }
