"""How each increase row of a plan is worked, the one form that patterns print and drawings show."""

from __future__ import annotations

from schematics.crochet.increase_spacing import (
    EvenSpread,
    in_brackets,
    increase_evenly,
    line_increases,
    staggered,
)
from schematics.garment.increases import IncreasePlan


def row_of_rule(plan: IncreasePlan, turn: int) -> EvenSpread | None:
    """How the increase row of that turn, counted from 0, is worked; None unless the plan has a rule.

    It has one if all increase rows have as many increases and one distance, and stitches for them: along
    the row two or more, or a stitch on each side of every line.
    """
    if plan.each is None or plan.interval is None:
        return None
    if plan.lines:
        return beside_lines(plan, turn)
    if not 2 <= plan.each <= plan.start:
        return None
    turned = (plan.used[turn][0] - plan.used[0][0]) % 2 == 1
    return in_brackets(turn, plan.each, plan.start + turn * plan.each, turned=turned)


def increase_row(plan: IncreasePlan, turn: int, row: int, added: int, before: int) -> EvenSpread | None:
    """How any increase row of a plan is worked; None where there are too few stitches for the increases.

    Args:
        plan: the plan.
        turn: counts its increase rows from 0.
        row: the row's number.
        added: increases in it.
        before: stitches of the row below.
    """
    if plan.lines:
        return beside_lines(plan, turn)
    if added > before:
        return None
    if spread := row_of_rule(plan, turn):
        return spread
    bracket, over = divmod(before, added)
    if over > _BRACKETS_OVER * bracket:
        return increase_evenly(added, before, staggered(turn, row, added, before))
    return in_brackets(turn, added, before, turned=(row - plan.used[0][0]) % 2 == 1)


_BRACKETS_OVER = 2
"""Stitches over, in brackets, that still go to the ends of a row: one bracket at each does not show."""


def beside_lines(plan: IncreasePlan, turn: int) -> EvenSpread | None:
    """The increase row of that turn of a plan in lines; None where a section is too narrow for it."""
    grown = [each + turn * ((at > 0) + (at < plan.lines)) for at, each in enumerate(plan.sections)]
    try:
        return line_increases(grown)
    except ValueError:
        return None
