"""What the page draws a child and a poncho from: lengths of the figure, and the choices of its drawing."""

from __future__ import annotations

import math
from typing import Any

from schematics.drawing.worn.drape import LEAST_ANGLE
from schematics.garment.garment import Garment
from schematics.wearer import body_figure
from schematics.wearer.body_figure import Pose, ellipse_breadth
from schematics.wearer.expr import expr_json, terms
from schematics.wearer.over_arms import CHEST_DEPTH_SHARE
from schematics.wearer.proportions import proportions


def figure_json() -> dict[str, Any]:
    """Plain JSON values.

    ``lengths`` are the measurements of a `schematics.wearer.body_figure.FigureSize` as trees, without their
    unit: what is missing follows from the height. The rest are numbers of its drawing: breadths of ellipses
    over their girths, shares of the height or of other breadths, angles in radians.
    """
    lengths = proportions()
    return {
        "terms": {name: expr_json(tree) for name, tree in terms(lengths.values()).items()},
        "lengths": {body.value: expr_json(tree) for body, tree in lengths.items()},
        "head_breadth": ellipse_breadth(1.0, body_figure.HEAD_LENGTH_SHARE),
        "trunk_breadth": ellipse_breadth(1.0, CHEST_DEPTH_SHARE),
        "head_height": body_figure.HEAD_HEIGHT_SHARE * body_figure.HEAD_LENGTH_SHARE,
        "hip_to_chest": body_figure.HIP_TO_CHEST,
        "slope": math.tan(body_figure.SHOULDER_SLOPE),
        "hand": body_figure.HAND_SHARE,
        "foot": body_figure.FOOT_SHARE,
        "ankle_height": body_figure.ANKLE_SHARE,
        "knee_breadth": body_figure.KNEE_BREADTH_SHARE,
        "ankle_breadth": body_figure.ANKLE_BREADTH_SHARE,
        "arms_down": Pose.DOWN.value,
        "least_angle": LEAST_ANGLE,
    }


def worn_json(garment: Garment) -> dict[str, Any]:
    """Of one size: what an arm band is on, and the counts of its run and of what is before it."""
    arm = garment.arm
    return {"on": arm.on.value, "counted": arm.edge.counted.words, "run": arm.count, "before": arm.first - 1}
