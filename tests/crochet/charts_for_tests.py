"""Random rows and charts, made by rules of their own rather than those that judge them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from hypothesis import strategies as st

from schematics.crochet.charts.chart import (
    ChartRow,
    Crossing,
    Into,
    Item,
    Passing,
    RowPart,
    SeveralInOne,
    StitchGroup,
    StitchRun,
    Worked,
)
from schematics.crochet.stitch_list import STITCHES, TRADE
from schematics.crochet.stitches import Height, Loop, Post, Stitch
from schematics.crochet.symbols import read_symbol

OWN = (
    Stitch(abbreviation="Lp", words="loop stitch", symbol=read_symbol("cross, eye"), height=Height.NONE),
    Stitch(
        abbreviation="FPdec", words="front post decrease", symbol=read_symbol("2 legs, hook right"),
        height=Height.NONE, uses=2, post=Post.FRONT,
    ),
    Stitch(
        abbreviation="fan-4", words="fan", symbol=read_symbol("4 fan"), height=Height.NONE, uses=3, makes=4,
        loops=True, uk=("fan-tr", "fan of trebles"),
    ),
)  # fmt: skip
BOOK = TRADE.with_own(OWN)
COLOURS = frozenset("AB")
INTO_ONE = [each for each in STITCHES if each.uses == each.makes == 1 and not each.post]
POSTS = [each for each in STITCHES if each.post and each.uses == 1]


@dataclass(frozen=True)
class RowMaker:
    """Draws rows of the whole language; ``colours``: every run has one of two."""

    draw: st.DrawFn
    colours: bool

    def row(self) -> ChartRow:
        parts = [self._part() for _ in range(self.draw(st.integers(1, 4)))]
        return ChartRow(parts=tuple(parts))

    def _part(self) -> RowPart:
        if self.draw(st.booleans()):
            return RowPart(items=(self._item(2),))
        return RowPart(items=tuple(self._item(2) for _ in range(self.draw(st.integers(1, 3)))), across=True)

    def _item(self, deep: int) -> Item:
        kinds: list[Callable[[], Item]] = [self._run, self._run, self._several, self._crossing]
        if deep:
            kinds += [lambda: self._group(deep - 1)] * 2
        return self.draw(st.sampled_from(kinds))()

    def _group(self, deep: int) -> StitchGroup:
        items = tuple(self._item(deep) for _ in range(self.draw(st.integers(1, 3))))
        return StitchGroup(items=items, times=self.draw(st.integers(1, 4)))

    def _worked(self, stitch: Stitch) -> Worked:
        single = stitch.uses == 1 and stitch.abbreviation != "sk"
        loop = self.draw(st.sampled_from([None, None, *Loop])) if stitch.loops else None
        depth = self.draw(st.integers(1, 30)) if single and loop is not Loop.THIRD else 1
        surface = stitch.uses == stitch.makes == 1 and self.draw(st.booleans())
        colour = self.draw(st.sampled_from("AB")) if self.colours else ""
        return Worked(stitch=stitch, loop=loop, rows_below=depth, surface=surface, colour=colour)

    def _run(self) -> StitchRun:
        stitch = self.draw(st.sampled_from(BOOK.stitches))
        return StitchRun(worked=self._worked(stitch), count=self.draw(st.integers(1, 12)))

    def _plain(self) -> StitchRun:
        stitch = self.draw(st.sampled_from(INTO_ONE))
        worked = self._worked(stitch)
        worked = Worked(stitch=stitch, loop=worked.loop, rows_below=worked.rows_below, colour=worked.colour)
        return StitchRun(worked=worked, count=self.draw(st.integers(1, 9)))

    def _several(self) -> SeveralInOne:
        items = tuple(self._plain() for _ in range(self.draw(st.integers(1, 3))))
        into = self.draw(st.sampled_from(Into))
        chains = self.draw(st.integers(1, 9)) if into is Into.SPACE else 0
        return SeveralInOne(items=items, into=into, chains=chains)

    def _crossing(self) -> Crossing:
        """Two legs of so many, with a few plain stitches between them, the second back past the first."""
        legs, between = self.draw(st.integers(1, 4)), self.draw(st.integers(0, 2))
        pool = INTO_ONE if between == 0 and self.draw(st.booleans()) else POSTS
        first, second = (self._leg(pool, legs) for _ in range(2))
        over = tuple(range(legs + between + 1, 2 * legs + between + 1))
        back = tuple(range(1, legs + 1))
        if legs > 2 and self.draw(st.booleans()):
            over = over[::-1]
        middle = (self._leg(INTO_ONE, between),) if between else ()
        passing = self.draw(st.sampled_from(Passing))
        return Crossing(
            items=(
                StitchRun(
                    worked=first, count=legs, places=over, passing=passing if over[0] > over[-1] else None
                ),
                *(StitchRun(worked=each, count=between) for each in middle),
                StitchRun(worked=second, count=legs, places=back, passing=passing),
            )
        )

    def _leg(self, pool: list[Stitch], legs: int) -> Worked:
        worked = self._worked(self.draw(st.sampled_from(pool)))
        return Worked(
            stitch=worked.stitch, loop=worked.loop, rows_below=worked.rows_below, colour=worked.colour
        )


@st.composite
def _rows(draw: st.DrawFn, *, colours: bool) -> ChartRow:
    return RowMaker(draw, colours).row()


ROWS = _rows(colours=False)
"""Any row that can be written, whether or not its counts make sense."""
COLOURED_ROWS = _rows(colours=True)
"""The same with a colour for every stitch."""


PHRASES = {
    "hdc": 1, "sc": 1, "dc": 1, "tr": 1, "sk, ch": 1, "ch, sk": 1, "dc2tog, ch": 2, "2 dc in next st, sk": 2,
    "(dc, sc) x 2": 4, "3-loop puff": 1, "sl st blo": 1, "dc3tog, ch 2": 3,
    "(hdc in st 2, dc in st 1 behind)": 2,
}  # fmt: skip
"""How many stitches each uses, which is as many as it makes."""
REACHING = {
    "FPdc": 1, "BPdc": 1, "FPtr 2 rows below": 1, "BPtr 3 rows below": 1, "sc 2 rows below": 1,
    "dc 3 rows below": 1, "(FPdc round post 2, FPdc round post 1 in front)": 2, "surface FPdc, sc": 1,
    "dc, dc in same st, sk": 2, "dc, ch, sk": 2, "dc in ch sp, FPdc": 2, "hdc in 3rd loop": 1,
}  # fmt: skip
"""The same for phrases that ask for something of the rows below."""
CHANGING = ("sc2tog", "2 hdc in next st", "ch", "sk")
"""Phrases that change the count."""


@st.composite
def row_texts(
    draw: st.DrawFn, multiple: int, plus: int, *, changing: bool = False, phrases: Mapping[str, int] = PHRASES
) -> str:
    """A row to fit ``multiple * k + plus`` stitches; ``changing``: perhaps with a phrase too many."""
    unit = draw(st.sampled_from([each for each in range(1, multiple + 1) if multiple % each == 0]))
    once = draw(st.sampled_from(range(plus % unit, plus + 1, unit)))
    before = draw(st.integers(0, once))
    across = ", ".join(draw(_phrases(unit, phrases)))
    parts = [*draw(_phrases(before, phrases)), f"({across}) across", *draw(_phrases(once - before, phrases))]
    if changing and draw(st.integers(0, 2)) == 0:
        parts.insert(draw(st.integers(0, len(parts))), draw(st.sampled_from(CHANGING)))
    return ", ".join(parts)


@st.composite
def _phrases(draw: st.DrawFn, count: int, phrases: Mapping[str, int]) -> list[str]:
    """Phrases that use and make ``count`` stitches."""
    written: list[str] = []
    while count:
        written.append(draw(st.sampled_from([each for each, size in phrases.items() if size <= count])))
        count -= phrases[written[-1]]
    return written
