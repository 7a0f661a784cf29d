"""The steps in words, against the counts they are about."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from schematics.design.limits import Limits
from schematics.drawing.assembly.steps import assembly_steps, instructions, steps_block
from schematics.drawing.ink.page import block_size
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.garment import Garment
from tests.examples import examples
from tests.garment.constructions.samples import GUIDE, fabric, flared, folded, garment, mitred, parts


def flared_steps(**counts: int) -> tuple[str, ...]:
    body = FlaredBody(neck=40, hem=132, rows=20)
    return assembly_steps(
        garment(body, HemArms(from_front=26, stitches=16), parts(GUIDE), panel_stitches=10, **counts)
    )


def test_front_seams_give_ratio_and_schedule() -> None:
    """1.4 to 1: of the ratios within 5 %, 4 to 3 has the smallest numbers."""
    first, *_ = flared_steps(panel_rows=28)
    assert first == (
        "Seams A and B: join the body's front edges to both sides of the centre panel, level at the neck, "
        "from the hem up. Join 4 panel rows to 3 body rows; exactly, 28 "
        "panel rows to 20 body rows: 12 take 1 and 8 take 2, in turn [1, 2, 1, 2, 1] × 4."
    )


def test_equal_rows_are_joined_one_to_one() -> None:
    first, *_ = flared_steps(panel_rows=20)
    assert first.endswith("from the hem up. 20 panel rows to 20 body rows: one to one.")


def test_neck_band_takes_a_row_to_each_stitch_of_body_and_panel() -> None:
    _, second, _ = flared_steps()
    assert second == (
        "Neck band: join yarn at the centre back. 50 ribbing rows of 4 stitches, worked sideways onto 50 "
        "edge stitches, those of the panel's top included: 1 row to each edge stitch. Join the last row to "
        "the first: a ring."
    )


def test_arm_bands_are_counted_inclusively_from_the_right_front_edge() -> None:
    """Stitches 27 to 42 of 132, and their mirror images 133 - 42 to 133 - 27."""
    *_, third = flared_steps()
    assert third == (
        "Arm bands: hem stitches 27 to 42 on the wearer's right, 91 to 106 on the left, counted inclusively "
        "along the hem from the right front edge. Join yarn at 42 and at 106. 16 ribbing rows of 6 stitches "
        "each, worked sideways: 1 row to each edge stitch. Join the last row to the first: a ring."
    )


def folded_steps(*, side_seam: bool) -> tuple[str, ...]:
    body = FoldedBody(
        width=60,
        front_rows=30,
        back_rows=32,
        neck=20,
        neck_front_rows=6,
        neck_back_rows=2,
        slot=10,
        side_seam=side_seam,
    )
    return assembly_steps(garment(body, FoldedArms(rows=20), parts(fabric()), panel_rows=24))


def test_folded_sides_are_joined_below_the_arm_bands() -> None:
    """20 rows are left of the front and 22 of the back, 10 of each being in the opening."""
    *_, last = folded_steps(side_seam=True)
    assert last.startswith(
        "Seams C and D: join the front side to the back side from the hem up to the arm band. "
    )
    assert "22 back side rows to 20 front side rows" in last


def test_folded_sides_left_open_are_no_step() -> None:
    assert len(folded_steps(side_seam=False)) == 3


def test_folded_bands_say_what_is_picked_up() -> None:
    """At one stitch and one row to the centimetre: 16 cm along the neck's sides, 20 cm round an opening."""
    _, neck, arms, _ = folded_steps(side_seam=True)
    assert "onto 56 edge stitches, 16 of them picked up along the row ends, those of the panel's" in neck
    assert arms.startswith(
        "Arm bands: rows 21 to 40 of each side edge, counted inclusively from the front hem, where 20 "
        "stitches are picked up. Join yarn at 40 on the wearer's right, at 21 on the left. 20 ribbing rows "
        "of 6 stitches each"
    )


@examples(40)
@given(made=st.one_of(flared(), mitred(), folded()))
def test_every_count_of_the_bands_is_said(made: Garment) -> None:
    said = {int(number) for step in assembly_steps(made) for number in re.findall(r"\d+", step)}
    arm = made.arm
    assert {arm.first, arm.last, arm.ring.band_rows, made.neck.band_rows, made.neck.edge_count} <= said
    assert set(arm.left) <= said


@examples(20)
@given(made=st.one_of(flared(), folded()), width=st.floats(45, 190))
def test_the_block_keeps_to_its_width_and_numbers_every_step(made: Garment, width: float) -> None:
    steps = assembly_steps(made)
    block = steps_block(instructions(made, Limits()), width)
    words = [mark.words for group in block.groups for mark in group.marks if hasattr(mark, "words")]
    assert block_size(block)[0] <= width + 1e-6
    assert [word for word in words if word.isdigit() and len(word) == 1][: len(steps)] == [
        str(number) for number in range(1, len(steps) + 1)
    ]
