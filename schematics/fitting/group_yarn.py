"""Yarn for a class or club: balls for each size and in all, one by one or from one bag."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from schematics.design.design import Design
from schematics.document.document import Cell, Quantity, Section, Table
from schematics.document.json_text import number
from schematics.fitting.group import SizeCount
from schematics.units import HAIR


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupYarn:
    """Yarn of one colour for all who take some size, with what is reckoned to spare.

    ``each`` are the balls of one poncho by size, in the order of the sizes; ``own`` is their sum over all
    wearers, ``pooled`` how many do where what is over of one poncho goes into the next, ``least`` and
    ``most`` the sum where each takes the size of the fewest and of the most balls that could be hers. The
    balls are None where a ball's mass is not known, all of it where a swatch was not weighed.
    """

    colour: str
    buy_g: float | None
    each: tuple[int | None, ...]
    own: int | None
    pooled: int | None
    least: int | None
    most: int | None


def group_yarn(
    design: Design, counts: Sequence[SizeCount], could_be: NDArray[np.bool_]
) -> tuple[GroupYarn, ...]:
    """The yarn of every colour.

    Args:
        design: the design.
        counts: how many take each size.
        could_be: by size and by each who takes one, whether it could be hers.
    """
    return tuple(
        _colour(design, counts, could_be, place, colour.colour)
        for place, colour in enumerate(counts[0].need.colours if counts else ())
    )


def _colour(
    design: Design, counts: Sequence[SizeCount], could_be: NDArray[np.bool_], place: int, colour: str
) -> GroupYarn:
    needs = [each.need.colours[place] for each in counts]
    balls = [each.balls for each in needs]
    masses = [each.buy_g for each in needs]
    buy_g = own = least = most = None
    if None not in masses:
        buy_g = sum(each.wearers * (mass or 0.0) for each, mass in zip(counts, masses, strict=True))
    if None not in balls:
        own = sum(each.wearers * (many or 0) for each, many in zip(counts, balls, strict=True))
        of_each = np.array([many or 0 for many in balls])[:, None]
        least = int(np.where(could_be, of_each, of_each.max()).min(axis=0).sum())
        most = int(np.where(could_be, of_each, 0).max(axis=0).sum())
    ball_g = design.yarn.ball_mass_g
    pooled = None if buy_g is None or ball_g is None else math.ceil(buy_g / ball_g - HAIR)
    return GroupYarn(
        colour=colour, buy_g=buy_g, each=tuple(balls), own=own, pooled=pooled, least=least, most=most
    )


def yarn_sections(
    design: Design, counts: Sequence[SizeCount], could_be: NDArray[np.bool_]
) -> Iterator[Section]:
    """Balls for each size that somebody takes, and in all; nothing where they are not known."""
    yarns = [each for each in group_yarn(design, counts, could_be) if each.own is not None]
    taken = [place for place, each in enumerate(counts) if each.wearers]
    if not yarns or not taken:
        return
    of = [f" of {each.colour}" if each.colour else "" for each in yarns]
    header = ("size", *(f"{words}{colour}" for colour in of for words in ("balls each", "balls")))
    rows: list[tuple[Cell, ...]] = [
        (counts[place].name, *(cell for yarn in yarns for cell in _cells(yarn, place, counts[place].wearers)))
        for place in taken
    ]
    rows.append(("all", *(cell for yarn in yarns for cell in ("", counted_cell(yarn.own or 0)))))
    ranges = [
        f"By the sizes that are left open it may be {yarn.least} to {yarn.most} balls{colour}."
        for yarn, colour in zip(yarns, of, strict=True)
        if yarn.least != yarn.most
    ]
    sentences = [
        f"If all share one bag, {yarn.pooled} balls{colour} do instead of {yarn.own}."
        for yarn, colour in zip(yarns, of, strict=True)
        if yarn.pooled != yarn.own
    ]
    yield Section(
        "Balls, whole ones for each poncho", (Table(header=header, rows=tuple(rows)), *ranges, *sentences)
    )


def _cells(yarn: GroupYarn, place: int, wearers: int) -> tuple[Quantity, Quantity]:
    each = yarn.each[place] or 0
    return counted_cell(each), counted_cell(each * wearers)


def counted_cell(count: int) -> Quantity:
    """A count as a cell of a table."""
    return Quantity(count, str(count))


def yarn_json(design: Design, counts: Sequence[SizeCount], could_be: NDArray[np.bool_]) -> dict[str, Any]:
    """The yarn for all of them by colour; null where it is not known."""
    return {
        "colours": [
            {
                "colour": each.colour or None,
                "buy_g": number(each.buy_g),
                "sizes": [
                    {"size": size.name, "balls_each": balls}
                    for size, balls in zip(counts, each.each, strict=True)
                ],
                "balls": each.own,
                "balls_pooled": each.pooled,
                "balls_least": each.least,
                "balls_most": each.most,
            }
            for each in group_yarn(design, counts, could_be)
        ],
        "unweighed": list(dict.fromkeys(name for each in counts for name in each.need.unweighed)),
    }
