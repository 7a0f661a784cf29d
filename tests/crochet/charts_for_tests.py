"""Random rows and charts, made by rules of their own rather than those that judge them."""

from __future__ import annotations

from hypothesis import strategies as st

from schematics.crochet.charts.chart import Chart, ChartRow, Item, StitchGroup, StitchRun, Worked
from schematics.crochet.stitches import STITCHES, Loop

EVERY = [Worked(stitch=stitch) for stitch in STITCHES] + [
    Worked(stitch=stitch, loop=loop) for stitch in STITCHES if stitch.loops for loop in Loop
]
RUNS = st.builds(StitchRun, worked=st.sampled_from(EVERY), count=st.integers(1, 12))


def _groups(items: st.SearchStrategy[Item]) -> st.SearchStrategy[Item]:
    inside = st.lists(items, min_size=1, max_size=3).map(tuple)
    return st.builds(StitchGroup, items=inside, times=st.integers(1, 9))


ITEMS: st.SearchStrategy[Item] = RUNS | _groups(RUNS | _groups(RUNS))
_FEW = st.lists(ITEMS, max_size=3).map(tuple)
ROWS = st.builds(ChartRow, before=_FEW, across=st.lists(ITEMS, min_size=1, max_size=3).map(tuple), after=_FEW)
"""Any row that can be written, whether or not its counts make sense."""

_ONE = [(worked,) for worked in EVERY if worked.stitch.uses == worked.stitch.makes == 1]
_INTO_THE_TOP = [piece for piece in _ONE if not piece[0].stitch.round_post]
_BY_NAME = {worked.abbreviation: worked for worked in EVERY}
_TWO = [
    tuple(_BY_NAME[name] for name in names)
    for names in (("sk", "ch"), ("ch", "sk"), ("dc2tog", "ch"), ("ch", "sc2tog"))
]


@st.composite
def level(draw: st.DrawFn, count: int, *, plain: bool) -> tuple[Item, ...]:
    """Stitches that use and make ``count``; ``plain`` ones are worked into the top of one stitch each."""
    stitches: list[Worked] = []
    left = count
    while left:
        pieces = _INTO_THE_TOP if plain else _ONE if left == 1 else _ONE + _TWO * 3
        piece = draw(st.sampled_from(pieces))
        stitches += piece
        left -= sum(worked.stitch.uses for worked in piece)
    return tuple(StitchRun(worked=worked) for worked in stitches)


@st.composite
def fitting_rows(draw: st.DrawFn, multiple: int, plus: int, *, plain: bool = False) -> ChartRow:
    """A row whose counts fit ``multiple * k + plus`` stitches, by construction."""
    unit = draw(st.sampled_from([each for each in range(1, multiple + 1) if multiple % each == 0]))
    once = draw(st.sampled_from(range(plus % unit, plus + multiple + 1, unit)))
    before = draw(st.integers(0, once))
    return ChartRow(
        before=draw(level(before, plain=plain)),
        across=draw(level(unit, plain=plain)),
        after=draw(level(once - before, plain=plain)),
    )


@st.composite
def fitting_charts(draw: st.DrawFn) -> tuple[Chart, int, int]:
    """A chart with the multiple its counts fit; it may ask for a post where there is none."""
    multiple, plus = draw(st.integers(1, 8)), draw(st.integers(0, 5))
    rows = fitting_rows(multiple, plus)
    setup, closing = (tuple(draw(st.lists(rows, max_size=4))) for _ in range(2))
    repeat = tuple(draw(st.lists(rows, min_size=1, max_size=5)))
    return Chart(setup=setup, repeat=repeat, closing=closing), multiple, plus
