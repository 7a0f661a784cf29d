"""Where bands are worked: the neck edge part by part, the arm runs between markers, what is picked up."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.pattern.reader.complaint import CannotWorkError, agree, number_in
from tests.pattern.reader.joins import grid_under, meeting
from tests.pattern.reader.page import Block, Grid, Line, Words
from tests.pattern.reader.pieces import Body
from tests.pattern.reader.sizes import Chosen

_SIDES = "Row ends along each side of the neck hole"
_OPENING = "Row ends of each arm opening"


def sentence(blocks: list[Block], form: str, chosen: Chosen, where: str) -> re.Match[str]:
    """The one sentence of that form."""
    for block in blocks:
        if isinstance(block, Words) and (match := re.search(form, chosen.pick(block.text))):
            return match
    raise CannotWorkError(where, f"nothing is told such as {form!r}")


def table(blocks: list[Block], beginning: str, where: str) -> Grid:
    """The table whose first header begins so."""
    for block in blocks:
        if isinstance(block, Grid) and block.header[0].startswith(beginning):
            return block
    raise CannotWorkError(where, f"there is no table of {beginning!r}")


def _picked_up(blocks: list[Block], chosen: Chosen, where: str) -> int:
    for block in blocks:
        if isinstance(block, Line) and block.label == "Pick-up rnd (RS)":
            return number_in(chosen.pick(block.count), where)
    raise CannotWorkError(where, "no stitches are picked up")


def neck_edge(blocks: list[Block], chosen: Chosen, body: Body, top: int) -> int:
    """The stitches of the neck edge, each part of them held against what was made."""
    where = "Neck band, edge"
    *lines, (_, total) = [tuple(map(chosen.pick, row)) for row in table(blocks, "part of", where).rows]
    parts = {words: int(count) for words, count in lines}
    agree(where, "sts in all", int(total), sum(parts.values()))
    join = int(sentence(blocks, r"Join yarn in st (\d+) of the", chosen, where)[1])
    told = sentence(blocks, r"Work the neck band sideways onto the (\d+) sts of the neck edge", chosen, where)
    agree(where, "sts of the neck edge", int(told[1]), sum(parts.values()))

    def part(beginning: str) -> int:
        return sum(count for words, count in parts.items() if words.startswith(beginning))

    agree(where, "top of the panel", part("top of the centre panel"), top)
    if not body.shoulders:
        agree(where, "neck edge of the body", part("neck edge of the body"), body.first_row)
        agree(where, "st of the centre back", join, part("neck edge of the body, from seam A") + 1)
        _middle(join, body.first_row, where)
        return sum(parts.values())
    shoulder = body.shoulders[0]
    agree(where, "back neck", part("back neck"), body.left)
    agree(where, "front neck", part("front neck"), 2 * shoulder.chained)
    agree(where, "st of the centre back", join, part("back neck, from its corner on the wearer's right") + 1)
    _middle(join, body.left, where)
    picked = _side_stitches(blocks, chosen, shoulder.front_row - shoulder.begun, where)
    agree(where, "sts along the sides of the neck hole", part("row ends"), picked)
    agree(where, "sts picked up", _picked_up(blocks, chosen, where), sum(parts.values()))
    return sum(parts.values())


def _middle(join: int, count: int, where: str) -> None:
    if abs(2 * join - 1 - count) > 1:
        raise CannotWorkError(where, f"st {join} of {count} is not the middle")


def _side_stitches(blocks: list[Block], chosen: Chosen, rows: int, where: str) -> int:
    """The stitches picked up along both sides, by the tables that tell how."""
    both = grid_under(blocks, _SIDES)
    if both:
        grids = [both, both]
    else:
        names = ("down the wearer's left", "up the wearer's right")
        grids = [
            grid
            for name in names
            if (grid := grid_under(blocks, f"Along the row ends {name} side of the neck hole"))
        ]
    met = [meeting(grid, chosen, where) for grid in grids]
    if len(met) != 2:
        raise CannotWorkError(where, "it is not told how stitches are picked up along both sides")
    for each in met:
        if rows > 0:
            agree(where, "row ends of a side of the neck hole", each.first, rows)
    return sum(each.second for each in met)


@dataclass(frozen=True)
class Arms:
    """Both runs: their marked stitches or row ends on the wearer's right and left, and the edge stitches."""

    right: tuple[int, int]
    left: tuple[int, int]
    edge: int


def arms(markers: list[Block], band: list[Block], chosen: Chosen, body: Body) -> Arms:
    """The markers, inside their edge and in order, and where the bands are begun."""
    where = "Markers"
    grid = table(markers, "marker", where)
    rows = [tuple(map(chosen.pick, row)) for row in grid.rows]
    if len(rows) == 4:
        return _on_hem(rows, markers, band, chosen, body.last_row)
    return _on_sides(rows, markers, band, chosen, body)


def _on_hem(
    rows: list[tuple[str, ...]], markers: list[Block], band: list[Block], chosen: Chosen, hem: int
) -> Arms:
    where = "Markers"
    first, last, left_first, left_last = at = [int(row[1]) for row in rows]
    if not 1 <= first < last < left_first < left_last <= hem:
        raise CannotWorkError(where, f"{at} are not in order inside the {hem} sts of the hem")
    agree(where, "last marker, from the other edge", hem + 1 - left_last, first)
    agree(where, "third marker, from the other edge", hem + 1 - left_first, last)
    edge = sentence(markers, r"the st beside seam A is 1, the st beside seam B is (\d+)\.", chosen, where)
    agree(where, "hem sts", int(edge[1]), hem)
    check = sentence(
        markers,
        r"Check, from seam A to seam B: (\d+) sts?, a run of (\d+) sts? with both marked ones, (\d+) sts? "
        r"across the back, a run of (\d+) sts?, (\d+) sts?: (\d+) sts? in all",
        chosen,
        where,
    )
    true = (
        first - 1, last - first + 1, left_first - last - 1, left_last - left_first + 1, hem - left_last, hem
    )  # fmt: skip
    parts = ("before a run", "in a run", "between", "in the other run", "after it", "all")
    for what, printed, in_hand in zip(parts, check.groups(), true, strict=True):
        agree(where, f"sts {what}", int(printed), in_hand)
    join = sentence(
        band,
        r"for the band on the wearer's right at the back one, in hem st (\d+), for that on the wearer's "
        r"left at the front one, in hem st (\d+)\. Work towards the other marker of the run\. Its (\d+) hem "
        r"sts",
        chosen,
        "Arm bands",
    )
    # The hem at the top and the right side facing, one works towards lower numbers.
    agree("Arm bands", "st to begin on the right", int(join[1]), last)
    agree("Arm bands", "st to begin on the left", int(join[2]), left_last)
    agree("Arm bands", "edge sts", int(join[3]), last - first + 1)
    return Arms((first, last), (left_first, left_last), last - first + 1)


def _on_sides(
    rows: list[tuple[str, ...]], markers: list[Block], band: list[Block], chosen: Chosen, body: Body
) -> Arms:
    where = "Markers"
    (first, first_row), (last, last_row) = [(int(row[1]), int(row[2])) for row in rows]
    high = body.rows
    if not 1 <= first < last <= high:
        raise CannotWorkError(where, f"{first} and {last} are not in order inside the {high} row ends")
    agree(where, "row of the front end", first_row, high - first + 1)
    agree(where, "row of the back end", last_row, high - last + 1)
    check = sentence(
        markers,
        r"Check: (\d+) row ends in each opening with both marked ones, (\d+) of them before the shoulder "
        r"fold and as many behind it; (\d+) row ends? below it on the front, (\d+) on the back",
        chosen,
        where,
    )
    front = high - body.shoulders[0].marked
    true = (last - first + 1, front - first + 1, first - 1, high - last)
    for what, printed, in_hand in zip(
        ("in an opening", "before the fold", "below it on the front", "below it on the back"),
        check.groups(),
        true,
        strict=True,
    ):
        agree(where, f"row ends {what}", int(printed), in_hand)
    agree(where, "row ends behind the fold", int(check[2]), last - front)
    join = sentence(
        band,
        r"for the band on the wearer's right at the back one, in row end (\d+), for that on the wearer's "
        r"left at the front one, in row end (\d+)\. Work towards the other marker of the opening",
        chosen,
        "Arm bands",
    )
    agree("Arm bands", "row end to begin on the right", int(join[1]), last)
    agree("Arm bands", "row end to begin on the left", int(join[2]), first)
    grid = grid_under(band, _OPENING)
    if grid is None:
        raise CannotWorkError("Arm bands", "it is not told how stitches are picked up")
    met = meeting(grid, chosen, "Arm bands, picking up")
    agree("Arm bands", "row ends of the opening", met.first, last - first + 1)
    agree("Arm bands", "sts picked up", _picked_up(band, chosen, "Arm bands"), met.second)
    return Arms((first, last), (first, last), met.second)
