"""Schedules by which two edges meet: the table's line of a size, followed row end by row end."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise

from tests.pattern.reader.complaint import CannotWorkError, agree
from tests.pattern.reader.page import Block, Grid, Heading
from tests.pattern.reader.sizes import Chosen

_NEAR = 0.055
"""How far from the true ratio the one in words may be."""


@dataclass(frozen=True)
class Meeting:
    """The pairs of row ends, or of row ends and stitches, that meet, both counted from the beginning."""

    first: int
    second: int
    pairs: frozenset[tuple[int, int]]


def grid_under(blocks: list[Block], caption: str) -> Grid | None:
    """The table under a heading."""
    for heading, grid in pairwise(blocks):
        if isinstance(heading, Heading) and heading.text == caption and isinstance(grid, Grid):
            return grid
    return None


def meeting(grid: Grid, chosen: Chosen, where: str) -> Meeting:
    """How the two edges of a table of joins meet in the size."""
    lines = [row for row in grid.rows if row[0] == "all" or chosen.name in row[0].split(", ")]
    if len(lines) != 1:
        raise CannotWorkError(where, f"size {chosen.name} is told {len(lines)} times")
    size, *cells = lines[0]
    own = chosen if size == "all" else chosen.among(tuple(size.split(", ")))
    assert own is not None
    first, second, about, exactly = map(own.pick, cells)
    one, two = int(first), int(second)
    ratio = [int(number) for number in re.findall(r"\d+", about)]
    if not about or abs(ratio[0] * two / (ratio[1] * one) - 1) > _NEAR:
        raise CannotWorkError(where, f"{about} is not {one} to {two}")
    return Meeting(one, two, _followed(exactly, (one, two), grid.header[1:3], where))


def _followed(
    text: str, counts: tuple[int, int], names: tuple[str, ...], where: str
) -> frozenset[tuple[int, int]]:
    """The pairs, after checking that the schedule uses up both edges exactly."""
    if text == "one to one":
        agree(where, "row ends of the two edges", counts[0], counts[1])
        return frozenset((each, each) for each in range(1, counts[0] + 1))
    of, _, shares = text.partition(": ")
    match = re.fullmatch(r"(?:(?P<all>\d+) )?(?P<many>.+) to each (?P<one>.+)", of)
    if match is None:
        raise CannotWorkError(where, f"no maker can tell what {text!r} is")
    few = [index for index, name in enumerate(names) if _same(match["one"], name)]
    many = [index for index, name in enumerate(names) if _same(match["many"], name)]
    if len(few) != 1 or len(many) != 1 or few == many:
        raise CannotWorkError(where, f"{of!r} does not name the two edges")
    takes = [int(match["all"])] * counts[few[0]] if match["all"] else list(spelt_out(shares, where))
    agree(where, f"{names[few[0]]} that the schedule has", len(takes), counts[few[0]])
    agree(where, f"{names[many[0]]} that the schedule has", sum(takes), counts[many[0]])
    pairs, met = set(), 0
    for place, take in enumerate(takes, start=1):
        for _ in range(take):
            met += 1
            pairs.add((met, place) if many[0] == 0 else (place, met))
    return frozenset(pairs)


def _same(words: str, name: str) -> bool:
    return words.removesuffix("s") == name.removesuffix("s")


def spelt_out(text: str, where: str) -> list[int]:
    """``[1, 2] × 2, 1 × 3, 2`` number by number."""
    numbers: list[int] = []
    rest = text
    while rest:
        match = re.match(r"(?:\[(?P<inside>[^]]+)\]|(?P<one>\d+))(?: × (?P<times>\d+))?(?:, |$)", rest)
        if match is None:
            raise CannotWorkError(where, f"no maker can tell what {rest!r} is")
        inside = spelt_out(match["inside"], where) if match["inside"] else [int(match["one"])]
        numbers += inside * int(match["times"] or 1)
        rest = rest[match.end() :]
    return numbers


def quarters(grid: Grid, chosen: Chosen, met: Meeting, last: int, where: str) -> None:
    """Each pair of marked rows has to meet in the schedule, near its quarter.

    The first edge begins with the row end of row ``last`` and counts down, the second with that of row 1.
    """
    for line, share in zip(grid.rows, (0.25, 0.5, 0.75), strict=True):
        body, other = map(chosen.pick, line[1:])
        if "–" in (body, other):
            continue
        pair = last - int(body) + 1, int(other)
        if pair not in met.pairs:
            raise CannotWorkError(where, f"{line[0]}: row ends {pair} do not meet in the schedule")
        if abs(pair[0] - share * met.first) > 1 + 0.5 * met.first / met.second:
            raise CannotWorkError(where, f"{line[0]}: row end {pair[0]} of {met.first} is not there")
