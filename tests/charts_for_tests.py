"""Random rows and charts, made by rules of their own rather than those that judge them."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from schematics.chart import Chart, Group, Item, Row, Run, Worked
from schematics.stitches import STITCHES, Loop

ROUND_A_POST = [stitch for stitch in STITCHES if stitch.round_post]
WORKED = st.sampled_from(
    [Worked(stitch=stitch) for stitch in STITCHES]
    + [Worked(stitch=stitch, loop=loop) for stitch in STITCHES if stitch.loops for loop in Loop]
)
RUNS = st.builds(Run, worked=WORKED, count=st.integers(1, 12))


def _groups(items: st.SearchStrategy[Item]) -> st.SearchStrategy[Item]:
    inside = st.lists(items, min_size=1, max_size=3).map(tuple)
    return st.builds(Group, items=inside, times=st.integers(1, 9))


ITEMS: st.SearchStrategy[Item] = RUNS | _groups(RUNS | _groups(RUNS))
_FEW = st.lists(ITEMS, max_size=3).map(tuple)
ROWS = st.builds(Row, before=_FEW, across=st.lists(ITEMS, min_size=1, max_size=3).map(tuple), after=_FEW)
"""Any row that can be written, whether or not its counts make sense."""

_ONE = [[stitch.abbreviation] for stitch in STITCHES if stitch.uses == stitch.makes == 1]
_TWO = [["sk", "ch"], ["ch", "sk"], ["dc2tog", "ch"], ["ch", "sc2tog"]]
_BY_NAME = {stitch.abbreviation: stitch for stitch in STITCHES}


@st.composite
def level(draw: Any, count: int, *, plain: bool = False) -> list[str]:
    """Abbreviations that use and make ``count`` stitches; ``plain`` ones are worked into the top."""
    names: list[str] = []
    left = count
    ones = [each for each in _ONE if not (plain and _BY_NAME[each[0]].round_post)]
    while left:
        piece = draw(st.sampled_from(ones if left == 1 or plain else ones * 2 + _TWO))
        names += piece
        left -= 1 if len(piece) == 1 else 2
    return names


def items(names: list[str]) -> tuple[Item, ...]:
    return tuple(Run(worked=Worked(stitch=_BY_NAME[name])) for name in names)


@st.composite
def fitting_rows(draw: Any, multiple: int, plus: int, *, plain: bool = False) -> Row:
    """A row that fits ``multiple * k + plus`` stitches, by construction."""
    unit = draw(st.sampled_from([each for each in range(1, multiple + 1) if multiple % each == 0]))
    once = draw(st.sampled_from(range(plus % unit, plus + multiple + 1, unit)))
    before = draw(st.integers(0, once))
    return Row(
        before=items(draw(level(before, plain=plain))),
        across=items(draw(level(unit, plain=plain))),
        after=items(draw(level(once - before, plain=plain))),
    )


@st.composite
def fitting_charts(draw: Any) -> tuple[Chart, int, int]:
    """A chart that can be worked, with the multiple it fits; post stitches only where no chain is below."""
    multiple, plus = draw(st.integers(1, 8)), draw(st.integers(0, 5))
    plain = st.lists(fitting_rows(multiple, plus, plain=True), max_size=4)
    sections = [tuple(draw(plain)) for _ in range(2)]
    repeat = tuple(draw(st.lists(fitting_rows(multiple, plus, plain=True), min_size=1, max_size=5)))
    return Chart(setup=sections[0], repeat=repeat, closing=sections[1]), multiple, plus
