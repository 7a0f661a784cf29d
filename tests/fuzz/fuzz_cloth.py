"""Hang garments of random gauges and feels on random bodies: at rest, outside the body, twice the same.

    .venv/bin/python -m tests.fuzz.fuzz_cloth [--designs 200] [--first 0]

The same numbers give the same designs and bodies. The exit code is 1 when a garment hangs as none can.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator, Sequence
from dataclasses import asdict, replace

import numpy as np

from schematics.checks.evaluation import Result, evaluate
from schematics.checks.finding import Severity
from schematics.crochet.fabric import Fabric
from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.draped import Draped
from schematics.garment.cloth.draping import settled
from schematics.garment.cloth.material import ROUGHEST, SMOOTHEST, SOFTEST_CM, STIFFEST_CM, Feel
from schematics.garment.garment import Garment, Piece
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.proportions import proportioned
from tests.fuzz.numbered import check_designs
from tests.shipped import SPECS, shipped_design

POINTS = 200
UNWEARABLE = {"NECK-PASS", "ARM-PASS", "ARM-PLACE"}
TWICE = 10
"""Every so many designs are hung twice."""
MOST_DEEP_CM, STILL_CM, MOST_STRETCHED = 0.1, 0.051, 1.9


def weighed(garment: Garment, grams_per_cm2: float | None) -> Garment:
    """The garment with all its swatches weighed, or none."""

    def heavy(piece: Piece) -> Piece:
        swatch = piece.fabric.weighed
        mass = grams_per_cm2 and grams_per_cm2 * swatch.width_cm * swatch.height_cm
        fabric = replace(piece.fabric, swatch=replace(swatch, mass_g=mass), pattern_swatch=None)
        return replace(piece, fabric=fabric)

    return replace(garment, pieces=tuple(map(heavy, garment.pieces)))


def some_body(size: FigureSize, dice: random.Random) -> FigureSize:
    """A body of about that size: all girths together, the shoulders and the arms are others."""
    girth, shoulder, arm = (dice.uniform(low, 2 - low) for low in (0.85, 0.92, 0.92))
    lengths = {name: value * girth if "girth" in name else value for name, value in asdict(size).items()}
    lengths["shoulder_breadth_cm"] *= shoulder
    lengths["centre_back_neck_to_wrist_cm"] *= arm
    return FigureSize(**lengths)


def faults(worn: Draped, pose: str) -> Iterator[str]:
    """What is wrong with how it hangs."""
    if not np.isfinite(worn.vertices).all():
        yield f"{pose}: a vertex is nowhere"
        return
    distance, _ = worn.body.distance(worn.vertices[worn.vertices[:, 0] >= 0])
    if -distance.min() > MOST_DEEP_CM:
        yield f"{pose}: {-distance.min():.2f} cm inside the body"
    if worn.moved_cm > STILL_CM:
        yield f"{pose}: still moving by {worn.moved_cm:.2f} cm"
    corners = worn.vertices[worn.triangles]
    area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1)
    one, other = worn.flat[:, 1] - worn.flat[:, 0], worn.flat[:, 2] - worn.flat[:, 0]
    grown = area.sum() / np.abs(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]).sum()
    if not 1 / MOST_STRETCHED < grown < MOST_STRETCHED:
        yield f"{pose}: {grown:.2f} times its area"


def some_result(dice: random.Random) -> Result | None:
    """A size of a design that comes with the program, at another gauge; None if it cannot be put on."""
    design = shipped_design(dice.choice(SPECS).stem)
    factor = dice.uniform(0.92, 1.08)

    def regauged(fabric: Fabric) -> Fabric:
        swatch = fabric.swatch
        wider = replace(swatch, width_cm=swatch.width_cm * factor, height_cm=swatch.height_cm * factor)
        return replace(fabric, swatch=wider)

    worked = design.parts
    parts = replace(
        worked,
        body=regauged(worked.body),
        centre_panel=regauged(worked.centre_panel),
        neck_band=regauged(worked.neck_band),
        arm_bands=regauged(worked.arm_bands),
    )
    (result,) = evaluate(replace(design, parts=parts, sizes=(dice.choice(design.sizes),)))
    stops = {each.code for each in result.findings if each.severity is Severity.STOP}
    return None if stops & UNWEARABLE else result


def check(number: int) -> Iterator[str]:
    """What is wrong with a garment of that number on a body of that number."""
    dice = random.Random(number)
    result = some_result(dice)
    figure = result and proportioned(result.wearer)
    if not (result and figure):
        return
    garment, body = weighed(result.garment, dice.uniform(0.05, 0.15)), some_body(figure.size, dice)
    feel = Feel(
        bending_length_cm=dice.uniform(SOFTEST_CM, STIFFEST_CM), friction=dice.uniform(SMOOTHEST, ROUGHEST)
    )
    try:
        hung = settled(garment, body, feel, POINTS).hung
    except ClothError as error:
        yield str(error)
        return
    yield from faults(hung.down, "down")
    yield from faults(hung.level, "level")
    if number % TWICE == 0:
        again = settled(garment, body, feel, POINTS).hung
        if again.level.vertices.tobytes() != hung.level.vertices.tobytes():
            yield "another time it hangs otherwise"


def main(arguments: Sequence[str] | None = None) -> int:
    """Hang so many designs and print what is wrong."""
    return check_designs(__doc__, check, 200, arguments)


if __name__ == "__main__":
    sys.exit(main())
