"""How far apart two edges may be, in cm; for plain numbers or NumPy arrays alike."""

from __future__ import annotations

from schematics.design.limits import Limits
from schematics.wearer.evaluator import Numbers, larger


def allowed_cm(
    first_cm: Numbers, second_cm: Numbers, first_row_cm: Numbers, second_row_cm: Numbers, limits: Limits
) -> Numbers:
    """How far apart two edges may be and still agree: half a row of the coarser, as rows come whole.

    Of long edges, where that is less, a hundredth of the longer.

    Args:
        first_cm: length of one edge.
        second_cm: length of the other.
        first_row_cm: height of a row of the first edge, or width of a stitch if it is made of stitches.
        second_row_cm: likewise of the second.
        limits: the limits.
    """
    return larger(
        limits.seam_mind_row_fraction * larger(first_row_cm, second_row_cm),
        limits.seam_mind_fraction * larger(first_cm, second_cm),
    )


def past_agreement_cm(
    first_cm: Numbers, second_cm: Numbers, first_row_cm: Numbers, second_row_cm: Numbers, limits: Limits
) -> Numbers:
    """How far past `allowed_cm` two edges are apart; nought or less where they agree."""
    return abs(first_cm - second_cm) - allowed_cm(first_cm, second_cm, first_row_cm, second_row_cm, limits)


def past_stop_cm(
    first_cm: Numbers, second_cm: Numbers, first_row_cm: Numbers, second_row_cm: Numbers, limits: Limits
) -> Numbers:
    """How far past what eases in two edges are apart; nought or less where they can be seamed.

    They cannot where they differ by too large a share of the longer, by too much, and by too many rows, all
    three; arguments as of `allowed_cm`.
    """
    return abs(first_cm - second_cm) - eases_in_cm(first_cm, second_cm, first_row_cm, second_row_cm, limits)


def eases_in_cm(
    first_cm: Numbers, second_cm: Numbers, first_row_cm: Numbers, second_row_cm: Numbers, limits: Limits
) -> Numbers:
    """How far apart two edges may be and still be seamed; arguments as of `allowed_cm`."""
    return larger(
        limits.seam_stop_row_fraction * larger(first_row_cm, second_row_cm),
        larger(limits.seam_stop_fraction * larger(first_cm, second_cm), limits.seam_stop_cm),
    )


def seamable_cm(
    first_cm: Numbers, second_cm: Numbers, first_row_cm: Numbers, second_row_cm: Numbers, limits: Limits
) -> tuple[Numbers, Numbers]:
    """By how much the first edge is not too long to be seamed to the second, and not too short.

    Both are over nought where they can be seamed; arguments as of `allowed_cm`.
    """
    eases_in = eases_in_cm(first_cm, second_cm, first_row_cm, second_row_cm, limits)
    return eases_in - (first_cm - second_cm), eases_in - (second_cm - first_cm)


def past_equal_widths_cm(front_cm: Numbers, back_cm: Numbers, limits: Limits) -> Numbers:
    """How far past what passes for equally wide front and back are apart; nought or less where they are."""
    return abs(front_cm - back_cm) - limits.seam_mind_fraction * larger(front_cm, back_cm)
