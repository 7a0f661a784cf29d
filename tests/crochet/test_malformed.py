"""Rows and charts that cannot be worked: the exact place and sentence, and no advice to change a height."""

from __future__ import annotations

import re

import pytest

from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_rules import chart_faults
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.charts.text_cursor import RowTextError
from schematics.crochet.fabric import CountRule, RowRule
from schematics.crochet.stitch_list import STITCHES, TRADE
from schematics.crochet.stitches import StitchBook
from tests.crochet.malformed_rows import IN_COLOURS, IN_UK_TERMS, ROWS

UK = StitchBook(STITCHES, uk=True)
CASES = (
    *((row, column, sentence, TRADE, "") for row, column, sentence in ROWS),
    *((row, column, sentence, TRADE, "AB") for row, column, sentence in IN_COLOURS),
    *((row, column, sentence, UK, "") for row, column, sentence in IN_UK_TERMS),
)


@pytest.mark.parametrize(
    ("row", "column", "sentence", "stitches", "colours"), CASES, ids=[case[0] for case in CASES]
)
def test_a_malformed_row_is_refused_in_place(
    row: str, column: int, sentence: str, stitches: StitchBook, colours: str
) -> None:
    with pytest.raises(RowTextError) as error:
        parse_row(row, stitches, frozenset(colours))
    assert error.value.column == column
    assert str(error.value) == f"column {column} of the row: {sentence}"


def test_sixty_and_more_of_them() -> None:
    assert len({case[0] for case in CASES}) == len(CASES) >= 60
    assert len({re.sub(r"\d+|'[^']*'", "", case[2]) for case in CASES}) >= 50


Faulty = tuple[tuple[int, int] | int, tuple[tuple[str, ...], ...], str, int, int | None, str]
"""Multiple, rows of set-up, repeat and closing; section and index at fault, column, sentence."""

CHARTS: list[Faulty] = [
    ((4, 2), ((), ("dc, (2 dc, sc) across, dc",), ()), "repeat", 0, 5,
     "the fabric's multiple is 4 plus 2, so expected 4 stitches (or a number that goes into it) to be "
     "worked across, "
     "got 3"),
    ((4, 2), ((), ("dc, (2 dc, 2 sc) across",), ()), "repeat", 0, 5,
     "the fabric's multiple is 4 plus 2, so expected 2 stitches besides the 4 worked across, got 1"),
    ((4, 2), ((), ("dc across, (2 sc) across, 2 dc",), ()), "repeat", 0, 1,
     "the fabric's multiple is 4 plus 2, so expected 4 stitches (or a number that goes into it) to be "
     "worked across, "
     "got 3 in 2 parts"),
    ((4, 2), (("sc across",), ("10 sc",), ()), "repeat", 0, 1,
     "the row below has a multiple of 4 plus 2 stitches, and the row uses 10 stitches and works nothing "
     "across; "
     "expected a part marked 'across', or multiple: {exactly: 10}"),
    ((1, 0), ((), ("ch across",), ()), "repeat", 0, 1,
     "what is worked across uses no stitch of the row below; expected at least 1"),
    (13, ((), ("4 sc, 10 dc",), ()), "repeat", 0, 7,
     "the fabric's multiple is exactly 13, and the row uses 14 stitches; expected 13 stitches"),
    (13, (("13 sc",), ("6 sc",), ()), "repeat", 0, 1,
     "the row below has 13 stitches, and the row uses 6 stitches; expected 13 stitches"),
    (13, (("13 sc",), ("2 sc, (2 dc) across",), ()), "repeat", 0, 7,
     "the row below has 13 stitches, so expected 13 stitches, or fewer by a multiple of 2, besides the 2 "
     "worked "
     "across, got 2"),
    ((4, 0), ((), ("(4 dc, ch) across", "(2 dc, 2 sc) across"), ()), "repeat", 0, 8,
     "the row leaves a multiple of 5 stitches, but row 2 fits a multiple of 4 stitches; expected as many "
     "stitches as it found"),
    (6, (("6 sc",), ("sc2tog, 4 sc", "6 sc"), ()), "repeat", 0, 1,
     "the row leaves 5 stitches, but row 3 fits 6 stitches; expected as many stitches as it found"),
    ((4, 0), ((), ("(4 dc, ch) across", "(4 dc) across, sc"), ()), "repeat", 1, 1,
     "row 1 leaves a multiple of 5 stitches, so expected 5 stitches (or a number that goes into it) to be "
     "worked across, got 4"),
    ((4, 0), ((), ("(4 dc, ch) across", "(2 dc, 3 sc) across"), ()), "repeat", 0, 8,
     "the repeat begins on a multiple of 4 stitches and leaves a multiple of 5; expected as many worked "
     "across as it "
     "found"),
    ((1, 0), (("sc across",), ("sc across", "sc, 2 sc in next st, sc across", "sc across"), ()), "repeat",
     1, 5,
     "the repeat leaves 1 stitch more than it found, which row 3 adds, but a piece keeps its width unless "
     "the chart says otherwise; expected as many stitches as it found, or adds: {repeat: 1}"),
    ((1, 0), ((), ("sc2tog, (sc, ch, sk) x 3, sc across", "sc across"), ()), "repeat", 0, 1,
     "the repeat leaves 1 stitch fewer than it found, which row 1 takes away, but a piece keeps its width "
     "unless the chart says otherwise; expected as many stitches as it found, or adds: {repeat: -1}"),
    ((1, 0), ((), ("sc3tog, sc across", "3 sc in next st, sc across", "sc, sc2tog, sc across"), ()), "repeat",
     2, 5,
     "the repeat leaves 1 stitch fewer than it found, which row 3 takes away, but a piece keeps its width "
     "unless the chart says otherwise; expected as many stitches as it found, or adds: {repeat: -1}"),
    ((1, 0), ((), ("sc2tog, sc across, sc2tog", "sc across", "sc2tog, sc across"), ()), "repeat", 2, None,
     "the repeat leaves 3 stitches fewer than it found, but a piece keeps its width unless the chart says "
     "otherwise; expected as many stitches as it found, or adds: {repeat: -3}"),
    ((1, 0), ((), ("dc in same st, sc across", "sc across"), ()), "repeat", 0, 1,
     "'in same st' has no stitch before it to share"),
    ((1, 0), (("sc across",), ("sc, V-st in ch-1 sp, sc across", "sc across"), ()), "repeat", 0, 5,
     "there is no space of 1 chain here in the row below"),
    (6, (("sc, ch 2, sk 2, 3 sc",), ("3 sc, bo in ch-2 sp, sc", "sc across"), ()), "repeat", 0, 7,
     "the repeat leaves 1 stitch fewer than it found, which row 2 takes away, but a piece keeps its width "
     "unless the chart says otherwise; expected as many stitches as it found, or adds: {repeat: -1}"),
    (14, (("sc across",), ("ch 3, 13 dc", "sc across"), ()), "repeat", 0, None,
     "the row below has 14 stitches, and the row uses 13 stitches; expected 14 stitches; chains that turn "
     "the work are not written in a row"),
    ((1, 0), (("sc across",), ("ch 2, dc across", "sc across"), ()), "repeat", 0, 1,
     "the repeat leaves 2 stitches more than it found, which row 2 adds, but a piece keeps its width unless "
     "the chart says otherwise; expected as many stitches as it found, or adds: {repeat: 2}; chains that "
     "turn the work are not written in a row"),
    (6, (("6 sc",), ("ch 2, sk 2, 3 sc", "6 sc"), ()), "repeat", 0, None,
     "the row below has 6 stitches, and the row uses 5 stitches; expected 6 stitches"),
    (6, (("sc, ch 2, sk 2, 3 sc",), ("sc, bo in ch-2 sp, 3 sc", "sc across"), ()), "repeat", 0, 5,
     "there is no space of 2 chains here in the row below; one begins 2 stitches further on"),
    (6, (("2 sc, ch 2, sk 2, 2 sc",), ("3 sc, 2 dc in ch-2 sp, sc", "sc across"), ()), "repeat", 0, 7,
     "there is no space of 2 chains here in the row below; one begins 1 stitch before here"),
    (6, (("sc across",), ("2 sc, ch 2, sk 2, 2 sc", "3 sc, 2 dc in ch-2 sp, sc"), ()), "repeat", 1, 7,
     "there is no space of 2 chains here in the row below; one begins 1 stitch before here"),
    (6, (("2 sc, ch, sk, 3 sc",), ("3 sc, 2 dc in ch-2 sp, sc", "sc across"), ()), "repeat", 0, 7,
     "there is no space of 2 chains here in the row below; its spaces have 1 chain at most"),
    (6, (("6 sc",), ("sc, dc in ch sp, 2 sc", "sc across"), ()), "repeat", 0, 5,
     "there is no space of 1 chain here in the row below"),
    ((1, 0), ((), ("sc2tog, sc across",), ()), "repeat", 0, 1,
     "the repeat leaves 1 stitch fewer than it found, but a piece keeps its width unless the chart says "
     "otherwise; "
     "expected as many stitches as it found, or adds: {repeat: -1}"),
    ((1, 0), (("2 sc in next st, sc across, 2 sc in next st",), ("sc across",), ()), "setup", 0, None,
     "the set-up leaves 2 stitches more than it found, but a piece keeps its width unless the chart says "
     "otherwise; "
     "expected as many stitches as it found, or adds: {setup: 2}"),
    ((1, 0), (("sc across",), ("FPdc 2 rows below across",), ()), "repeat", 0, 1,
     "FPdc 2 rows below has only 1 row below it here; expected it from row 3 of the piece on"),
    ((1, 0), ((), ("FPdc across",), ()), "repeat", 0, 1,
     "FPdc has no post to go round, since the first row is worked into the foundation chain; expected a "
     "plain row "
     "first"),
    ((2, 1), (("dc across",), ("dc, (ch, sk, dc) across", "dc, (BPdc, dc) across"), ()), "repeat", 1, 6,
     "BPdc has no post to go round, since it falls on a chain of the row below"),
    ((2, 0), (("sc across",) * 2, ("(ch, sc2tog) across", "sc across", "(FPtr 3 rows below, sc) across"), ()),
     "repeat", 2, 2, "FPtr 3 rows below has no stitch under it 3 rows below, only chains"),
    ((1, 0), (("sl st across",), ("FPdc across",), ()), "repeat", 0, 1,
     "FPdc has no post to go round, since it falls on a slip stitch of the row below, which has none; "
     "expected it "
     "over a stitch that has one"),
    ((3, 0), (("sc across",), ("(sk, 3 dc in ch-2 sp) across",), ()), "repeat", 0, 6,
     "there is no space of 2 chains here in the row below"),
    ((3, 0), (("(sc, ch 2, sk 2) across",), ("(dc in ch sp, 2 sc) across",), ()), "repeat", 0, 2,
     "the space here in the row below has more than 1 chain; expected all of them to be named"),
    ((1, 0), ((), ("dc in same st, sc2tog, sc across",), ()), "repeat", 0, 1,
     "'in same st' has no stitch before it to share"),
    ((1, 0), (("dc across",), ("hdc in 3rd loop across",), ()), "repeat", 0, 1,
     "hdc in 3rd loop falls on a double crochet of the row below, which has no third loop; expected both "
     "loops here, "
     "or 'blo' or 'flo'"),
    ((1, 0), (("sl st across",) * 4, ("surface tr flo 3 rows below, sl st across",), ()), "repeat", 0, 1,
     "surface tr flo 3 rows below finds no free front loop there: row 3 is not worked in the other loop "
     "alone"),
    ((1, 0), (("sl st blo across",) * 4, ("surface tr flo 2 rows below, sl st blo across",), ()), "repeat",
     0, 1,
     "surface tr flo 2 rows below finds no free front loop there: row 4 is not worked in the other loop "
     "alone; expected 3 rows below"),
    ((1, 0), (("sl st blo across",) * 2, ("surface tr flo 2 rows below, sl st blo across",), ()), "repeat",
     0, 1,
     "surface tr flo 2 rows below finds no free front loop there: row 2 is not worked in the other loop "
     "alone; expected 3 rows below from row 5 of the piece on, or here 1 row below"),
    (8, (("8 sc",), ("2 sl st, 2 sc, 3 sl st, hdc",
                     "(FPdc round post 7, 6 sl st blo, FPdc round post 1 behind)"), ()), "repeat", 1, 2,
     "FPdc has no post to go round, since it falls on a slip stitch of the row below, which has none; "
     "stitches 1, 5 and 6 of the bracket have one"),
    (4, (("4 sc",), ("ch, sk, 2 sl st, sc", "(FPdc round post 4, 2 sc, FPdc round post 1 behind)"), ()),
     "repeat", 1, 2,
     "FPdc has no post to go round, since it falls on a chain of the row below; stitch 1 of the bracket has "
     "one"),
    (2, (("2 sl st",), ("(FPdc round post 2, FPdc round post 1 behind)",), ()), "repeat", 0, 2,
     "FPdc has no post to go round, since it falls on a slip stitch of the row below, which has none; no "
     "stitch of the bracket has one"),
    ((3, 0), (("(sc, hdc, sl st) across",), ("(FPdc2tog, 2 sc in next st) across",), ()), "repeat", 0, 2,
     "FPdc2tog has no post to go round, since it falls on a slip stitch of the row below, which has none; "
     "expected it over a stitch that has one"),
    ((2, 0), (("sc across",), ("(surface dc, surface dc, 2 sc) across",), ()), "repeat", 0, 14,
     "two surface stitches lie over one stitch; work a stitch of the fabric between them"),
    (2, ((), ("2 sk", "2 sc"), ()), "repeat", 0, 1, "the row leaves no stitch for the row above"),
]  # fmt: skip


@pytest.mark.parametrize("case", CHARTS, ids=[" | ".join(case[1][1]) for case in CHARTS])
def test_a_chart_that_cannot_be_worked_is_refused_in_place(case: Faulty) -> None:
    multiple, sections, section, index, column, sentence = case
    setup, repeat, closing = (tuple(map(parse_row, rows)) for rows in sections)
    rule = (
        CountRule.exactly(multiple)
        if isinstance(multiple, int)
        else CountRule(multiple=multiple[0], plus=multiple[1])
    )
    rows = RowRule(setup=len(setup), repeat=len(repeat), closing=len(closing))
    (fault,) = chart_faults(Chart(setup=setup, repeat=repeat, closing=closing), rule, rows)
    assert (fault.section, fault.index, fault.column, fault.sentence) == (section, index, column, sentence)
