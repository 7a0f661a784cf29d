"""Cases of a folded body at one stitch and one row to the centimetre, on the made-up child."""

from __future__ import annotations

from dataclasses import replace

from schematics.checks.finding import Case
from schematics.design.design import Parts
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions.folded.folded import FOLDED
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from tests.checks.cases import PARTS, make_case


def folded_case(*, slot: int = 20, panel_stitches: int = 20, parts: Parts = PARTS) -> Case:
    """A body 90 cm wide, 40 cm deep, with a neck of 24 cm, good throughout but for what is given."""
    plain = make_case(panel_stitches=panel_stitches, panel_rows=34, parts=parts)
    body = FoldedBody(
        width=90, front_rows=40, back_rows=40, neck=24, neck_front_rows=6, neck_back_rows=2, slot=slot
    )
    size = replace(plain.size, body=body, arms=FoldedArms(rows=18))
    made = FOLDED.build(size, plain.design.parts)
    design = replace(plain.design, construction="folded")
    return replace(plain, design=design, size=size, garment=made, freedom=arm_freedom(made))
