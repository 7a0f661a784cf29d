"""The printed words, worked stitch by stitch in every size, come to the counts that are printed."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet.charts.chart import Chart
from schematics.crochet.terms import Terms
from tests.document.chart_words.charts import chart_of, words_of
from tests.document.chart_words.reader import Maker, RowInHand, of_size, on_surface
from tests.document.chart_words.test_sentences import ROWS
from tests.examples import examples, thorough

UNITS = (
    ("sc", 1), ("hdc blo", 1), ("FPdc", 1), ("BPtr", 1), ("sl st", 1), ("sk, ch", 1), ("5-dc pc", 1),
    ("3-loop puff", 1), ("sc 2 rows below", 1), ("FPtr 3 rows below", 1),
    ("surface FPtr 2 rows below, sc", 1), ("edc", 1), ("2 hdc", 2), ("dc2tog, ch", 2),
    ("sk, 2 dc in next st", 2), ("2 FPdc 2 rows below", 2), ("(dc in st 2, dc in st 1 behind)", 2),
    ("(FPdc round post 2, FPdc round post 1 in front)", 2), ("dc3tog, ch 2", 3), ("sk, V-st, sk", 3),
    ("(sc, ch, sc) in next st, sk 2", 3), ("(sc) x 3", 3), ("(dc in st 3, sc, dc in st 1 in front)", 3),
    ("3 5-dc pc", 3), ("sk, 3-hdc sh, sk", 3),
    ("(2 FPtr 2 rows below round posts 3 and 4, 2 FPtr 2 rows below round posts 1 and 2 in front)", 4),
    ("(sc, ch) x 2, sk 2", 4), ("3 dc in next st, sc2tog, sk", 4), ("sk 2, 5-dc sh, sk 2", 5),
    ("(2 FPtr round posts 4 and 5, sc, 2 FPtr round posts 1 and 2 behind)", 5),
)  # fmt: skip
"""Texts that use as many stitches as they make."""


@st.composite
def stretch(draw: st.DrawFn, stitches: int) -> list[str]:
    """Units over so many stitches."""
    texts: list[str] = []
    while stitches:
        text, uses = draw(st.sampled_from([each for each in UNITS if each[1] <= stitches]))
        texts.append(text)
        stitches -= uses
    return texts


@st.composite
def rows(draw: st.DrawFn, multiple: int, base: int) -> str:
    """A row that comes out even on ``base`` and every ``multiple`` more."""
    unit = draw(st.sampled_from([each for each in range(1, multiple + 1) if multiple % each == 0]))
    once = base - unit * draw(st.integers(0, base // unit))
    before = draw(st.integers(0, once))
    texts = draw(stretch(before))
    first = draw(st.integers(1, unit))
    for across in (first, unit - first):
        if across:
            texts.append(f"({', '.join(draw(stretch(across)))}) across")
            between = draw(st.integers(0, once - before))
            texts += draw(stretch(between))
            before += between
    return ", ".join([*texts, *draw(stretch(once - before))])


@st.composite
def pieces(draw: st.DrawFn) -> tuple[Chart, list[tuple[int, int]]]:
    """A chart, and sizes of one to four widths and numbers of repeats."""
    multiple, base = draw(st.sampled_from([1, 2, 3, 4, 6])), draw(st.integers(0, 9))
    each = rows(multiple, base)
    chart = chart_of(
        draw(st.lists(each, min_size=1, max_size=4)),
        setup=draw(st.lists(each, max_size=2)),
        closing=draw(st.lists(each, max_size=2)),
    )
    least = 0 if chart.setup or chart.closing else 1
    size = st.tuples(st.integers(1, 6).map(lambda times: base + multiple * times), st.integers(least, 4))
    return chart, draw(st.lists(size, min_size=1, max_size=4))


def follow(chart: Chart, sizes: list[tuple[int, int]], terms: Terms) -> None:
    words = words_of(chart, sizes, terms)
    lines, surface = [line.text for line in words.lines], on_surface(words.notes)
    names = [f"S{number}" for number in range(1, len(sizes) + 1)]
    for name, (stitches, repeats) in zip(names, sizes, strict=True):
        maker = Maker(name, names, stitches, surface)
        maker.follow(lines)
        assert maker.rows == len(chart.setup) + len(chart.repeat) * repeats + len(chart.closing)
        assert maker.stitches == chart.top(stitches, repeats)


@pytest.mark.slow
@pytest.mark.parametrize("terms", Terms if thorough() else [Terms.UK])
@examples(250, part=10)
@given(piece=pieces())
def test_random_charts(terms: Terms, piece: tuple[Chart, list[tuple[int, int]]]) -> None:
    follow(*piece, terms)


@pytest.mark.slow
@pytest.mark.parametrize("terms", Terms if thorough() else [Terms.US])
@examples(150, part=10)
@given(data=st.data())
def test_random_panels_that_taper(terms: Terms, data: st.DataObject) -> None:
    """Each repeat loses or gains so many at its edges, over rows that come out even on any number."""
    adds = data.draw(st.sampled_from([-4, -2, -1, 1, 2, 3]))
    shaping = {
        -4: "sc3tog, hdc across, sc3tog", -2: "sc2tog, hdc across, sc2tog", -1: "sc2tog, sc across",
        1: "2 sc in next st, sc across", 2: "2 dc in next st, (dc) across, 2 dc in next st",
        3: "sc, 2 hdc in same st, sc across, 2 sc in next st",
    }[adds]  # fmt: skip
    level = data.draw(st.lists(rows(1, 4), max_size=2))
    foot = 10 + data.draw(st.integers(0, 20)) + max(0, -adds) * 6
    chart = chart_of([shaping, *level], setup=["sc across"], adds=(0, adds, 0))
    sizes = [(foot + 2 * more, data.draw(st.integers(1, 6))) for more in range(data.draw(st.integers(1, 3)))]
    follow(chart, sizes, terms)


@pytest.mark.parametrize(("row", "sizes", "words"), ROWS, ids=[row for row, _, _ in ROWS])
def test_the_sentences_written_by_hand(row: str, sizes: tuple[tuple[int, int], ...], words: str) -> None:
    """Those of the other tests come out even by the reader, too."""
    for index, (stitches, _) in enumerate(sizes):
        in_hand = RowInHand(left=stitches, surface=frozenset(re.findall(r"surface (\w+)", row)))
        in_hand.row(of_size(words, index))


@pytest.mark.parametrize(
    "words",
    [
        "3 sc",  # leaves one
        "5 sc",  # takes one too many
        "[2 sc, dc] to last st",  # 3 and 1, the last not worked
        "[3 sc] to end",  # ends in the middle
        "over next 4 sts (FPdc round the posts of 3rd and 4th sts, working in front of these FPdc "
        "round the post of 2nd "
        "st, leaving the 4 sts of the row below unworked)",
        "[sc, hdc] 3 times",
    ],
)
def test_the_reader_minds_rows_that_do_not_come_out_even(words: str) -> None:
    in_hand = RowInHand(left=4)
    with pytest.raises(AssertionError):
        in_hand.row(words)


def test_the_sizes_of_a_string() -> None:
    words = "3 (4, 5) sc, [dc, ch 1] 2 (3, 3) times"
    assert [of_size(words, index) for index in range(3)] == [
        "3 sc, [dc, ch 1] 2 times",
        "4 sc, [dc, ch 1] 3 times",
        "5 sc, [dc, ch 1] 3 times",
    ]
