"""Rows of a chart: reading and printing them, counting them, and what a fabric's counts ask of them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from random import Random

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from schematics.crochet.charts.bracket_rules import stitches_worked
from schematics.crochet.charts.chart import Chart, ChartRow, ChartSection, Side, StitchRun, Worked
from schematics.crochet.charts.chart_fault import ChartFault, ChartFaultError
from schematics.crochet.charts.chart_rules import MOST_STITCHES, chart_faults, deep_enough, trial_width
from schematics.crochet.charts.chart_text import MOST_IN_ROW, parse_row
from schematics.crochet.charts.text_cursor import RowTextError
from schematics.crochet.charts.worked_rows import row_counts, stitches_in, work_rows
from schematics.crochet.fabric import CountRule, RowRule
from schematics.crochet.stitches import Loop, Stitch, StitchBook
from tests.crochet.charts_for_tests import BOOK, COLOURED_ROWS, COLOURS, PHRASES, REACHING, ROWS, row_texts
from tests.crochet.panels.by_hand import tokens, work
from tests.crochet.panels.compared import assert_worked_as_by_hand
from tests.examples import ANY, examples

UK_BOOK = StitchBook(BOOK.stitches, uk=True)


def chart(
    *repeat: str,
    setup: Sequence[str] = (),
    closing: Sequence[str] = (),
    adds: tuple[int, int, int] = (0, 0, 0),
) -> Chart:
    before, again, after = (tuple(map(parse_row, texts)) for texts in (setup, repeat, closing))
    return Chart(setup=before, repeat=again, closing=after, adds=adds)


def faults(
    stitches: tuple[int, int] | int, drawn: Chart, rows: tuple[int, int, int] | None = None
) -> list[ChartFault]:
    setup, repeat, closing = rows or (len(drawn.setup), len(drawn.repeat), len(drawn.closing))
    return list(chart_faults(drawn, rule(stitches), RowRule(setup=setup, repeat=repeat, closing=closing)))


def rule(stitches: tuple[int, int] | int) -> CountRule:
    if isinstance(stitches, int):
        return CountRule.exactly(stitches)
    return CountRule(multiple=stitches[0], plus=stitches[1])


def read_or_refused(
    text: str, book: StitchBook = BOOK, colours: frozenset[str] = COLOURS
) -> ChartRow | RowTextError:
    try:
        return parse_row(text, book, colours)
    except RowTextError as error:
        return error


def in_uk_terms(text: str) -> str:
    """The row with each stitch's UK abbreviation, the longest first."""
    names = sorted((each.abbreviation for each in BOOK.stitches), key=len, reverse=True)
    any_name = re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, names))})(?![\w-])")
    return any_name.sub(lambda found: UK_BOOK.name(_stitch(found[0])), text)


def _stitch(name: str) -> Stitch:
    found = BOOK.find(name)
    assert found
    return found


@pytest.mark.slow
@given(ROWS)
@examples(100)
def test_what_is_printed_is_read_again(row: ChartRow) -> None:
    assume(sum(stitches_worked(part.items) for part in row.parts) <= MOST_IN_ROW)
    assert parse_row(str(row), BOOK) == row
    assert parse_row(in_uk_terms(str(row)), UK_BOOK) == row


@pytest.mark.slow
@given(COLOURED_ROWS)
@examples(100)
def test_what_is_printed_in_colours_is_read_again(row: ChartRow) -> None:
    assume(sum(stitches_worked(part.items) for part in row.parts) <= MOST_IN_ROW)
    assert parse_row(str(row), BOOK, COLOURS) == row


@pytest.mark.slow
@given(COLOURED_ROWS, st.randoms(use_true_random=False))
@examples(100)
def test_capitals_and_spaces_make_no_difference(row: ChartRow, dice: Random) -> None:
    """A space that parts two words stays one; about brackets and commas there may be none or some."""
    assume(sum(stitches_worked(part.items) for part in row.parts) <= MOST_IN_ROW)
    pieces = re.findall(r"[^\s(),]+|[(),]|\s+", str(row))
    spaced = "".join(_strewn(piece, dice) for piece in pieces)
    assert (
        parse_row(re.sub(r"(?<=[(),])\s+", lambda _: " " * dice.randrange(2), spaced), BOOK, COLOURS) == row
    )


def _strewn(piece: str, dice: Random) -> str:
    if piece.isspace():
        return " " * dice.randrange(1, 3)
    if piece in "(),":
        return " " * dice.randrange(2) + piece + " " * dice.randrange(2)
    return dice.choice((str.upper, str.lower, str))(piece)


def test_the_ways_to_write_the_same_row() -> None:
    dc, sl = BOOK.find("dc"), BOOK.find("sl st")
    assert dc
    assert sl
    first = StitchRun(worked=Worked(stitch=dc), count=2)
    last = StitchRun(worked=Worked(stitch=sl, loop=Loop.BACK))
    for text in (
        "2 dc, ((FPdc, BPdc) x 3) across, sl st blo",
        "2dc,((fpdc,bpdc)x3)across,SL  ST  BLO",
        " 2 DC , ( ( 1 fpdc , bpdc ) × 3 ) ACROSS , sl st blo ",
    ):
        row = parse_row(text)
        assert str(row) == "2 dc, ((FPdc, BPdc) x 3) across, sl st blo"
        assert (row.parts[0].items, row.parts[2].items) == ((first,), (last,))
    for text in ("ch 3", "3 ch"):
        assert str(parse_row(text)) == "ch 3"
    assert parse_row("hdc in the third loop across") == parse_row("hdc in 3rd loop across")
    assert parse_row("2 dc in the next stitch") == parse_row("2 dc in next st")
    assert parse_row("dc in the next ch-1 space") == parse_row("dc in ch sp")
    assert parse_row("(FPdc around post 2, FPdc around post 1 behind)") == parse_row(
        "(FPdc round post 2, FPdc round post 1 behind)"
    )


_WORDS = re.compile(r"\S+").findall(
    "dc 2dc 3 FPtr sk sk2 ch x × , ( ) ) ( across with A B with in next same st sts ch-2 ch sp rows below "
    "round posts post 1 and to 4 in front behind blo flo 3rd loop surface 5-dc pc 3-loop puff dc3tog sl st "
    "Lp fan-4 0 9999999999999999999999 ſ ² ; * - htr"
)


@pytest.mark.slow
@given(
    st.lists(st.sampled_from(_WORDS), max_size=25).map(" ".join)
    | st.text(st.sampled_from("dc 2(),xFPkslt3*×;ſ²9aros"), max_size=30)
    | st.text(ANY, max_size=30),
    st.sampled_from([COLOURS, frozenset[str]()]),
    st.sampled_from([BOOK, UK_BOOK]),
)
@examples(400, part=10)
def test_any_other_text_is_refused_in_place(text: str, colours: frozenset[str], book: StitchBook) -> None:
    result = read_or_refused(text, book, colours)
    if isinstance(result, ChartRow):
        assert parse_row(str(result), BOOK, colours) == result
    else:
        assert 1 <= result.column <= len(text) + 1
        assert str(result).startswith(f"column {result.column} of the row: ")


def test_a_row_without_end_is_refused_before_it_is_worked() -> None:
    for text, total in (
        ("(((999 dc) x 999) x 999) x 999", 999**4),
        ("sc, (((999 picot) x 999) x 999) x 999 across", 0),
        ("(999 sc) x 2, 3 sc", 2001),
        ("2 sc, ((999 dc) x 3) across", 2999),
    ):
        refused = read_or_refused(text, BOOK, frozenset())
        assert isinstance(refused, RowTextError)
        if total:
            assert f"expected at most 2000 stitches in a row, got {total}" in str(refused)


def test_a_chart_that_grows_without_end_is_refused_before_it_is_worked() -> None:
    """Each row makes 900 stitches of each; the last takes them together again."""
    more = ["900 dc in next st across"] * 3
    fewer = ["(899 sk, dc) across"] * 3
    (fault,) = faults((1, 0), chart(*more, *fewer))
    total = 2 * sum(900**power for power in (1, 2, 3, 3, 2, 1))
    assert (
        fault.sentence == f"its rows are {total} stitches on a width of 2; expected at most {MOST_STITCHES}"
    )
    (fault,) = faults(1, chart(*(["(picot) x 999, 900 picot, sc across"] * 200)))
    assert fault.sentence == f"its rows are 380000 stitches on a width of 1; expected at most {MOST_STITCHES}"


@pytest.mark.slow
def test_a_large_motif_is_not_too_large() -> None:
    """As wide as a back and as high as a panel: 160 by 120 is under the limit, however often it is worked."""
    assert faults(160, chart(*["80 sc, 80 dc"] * 120)) == []
    (fault,) = faults(160, chart(*["80 sc, 80 dc"] * 126))
    assert (
        fault.sentence == f"its rows are 20160 stitches on a width of 160; expected at most {MOST_STITCHES}"
    )


@pytest.mark.parametrize(
    ("rows", "section", "sentence"),
    [
        ((0, 2, 1), ChartSection.SETUP, "expected 0 set-up rows, as row_repeat.setup says, got 1"),
        ((1, 3, 1), ChartSection.REPEAT, "expected 3 repeat rows, as row_repeat.rows says, got 2"),
        ((1, 2, 0), ChartSection.CLOSING, "expected 0 closing rows, as row_repeat.closing says, got 1"),
        ((1, 1, 1), ChartSection.REPEAT, "expected 1 repeat row, as row_repeat.rows says, got 2"),
    ],
)
def test_as_many_rows_as_the_fabric_says(
    rows: tuple[int, int, int], section: ChartSection, sentence: str
) -> None:
    drawn = chart("FPdc across", "dc across", setup=("hdc across",), closing=("sc across",))
    assert faults((1, 0), drawn) == []
    assert faults((1, 0), drawn, rows) == [ChartFault(section=section, index=None, sentence=sentence)]


def test_sections_number_their_rows_from_the_bottom() -> None:
    drawn = chart("sc across", "dc across", "tr across", setup=("hdc across",), closing=("sl st across",) * 2)
    assert list(drawn.sections()) == [
        (ChartSection.SETUP, range(1, 2)),
        (ChartSection.REPEAT, range(2, 5)),
        (ChartSection.CLOSING, range(5, 7)),
    ]
    assert [str(row) for row in drawn.rows] == [
        "hdc across", "sc across", "dc across", "tr across", "sl st across", "sl st across",
    ]  # fmt: skip
    assert [worked.abbreviation for worked in drawn.used()] == ["hdc", "sc", "dc", "tr", "sl st"]
    assert [drawn.side(number) for number in (1, 2, 3)] == [Side.RIGHT, Side.WRONG, Side.RIGHT]


def by_hand(
    setup: Sequence[str], repeat: Sequence[str], closing: Sequence[str], width: int, repeats: int
) -> list[int]:
    """The count after each section of a piece; ``ValueError`` where a row does not come out even."""
    after = [width]
    for section in (setup, *[repeat] * repeats, closing):
        offered = after[-1]
        for row in section:
            offered = sum(token.makes for token in tokens(row, offered, {}))
        after.append(offered)
    return after


@st.composite
def written_charts(
    draw: st.DrawFn, *, changing: bool
) -> tuple[tuple[int, int], list[str], list[str], list[str]]:
    of, plus = draw(st.integers(1, 6)), draw(st.integers(0, 5))
    rows = row_texts(of, plus, changing=changing)
    setup, closing = (draw(st.lists(rows, max_size=2)) for _ in range(2))
    return (of, plus), setup, draw(st.lists(rows, min_size=1, max_size=3)), closing


@pytest.mark.slow
@given(written_charts(changing=True), st.tuples(*[st.integers(-2, 2)] * 3) | st.just((0, 0, 0)))
@examples(200)
def test_a_chart_is_right_if_and_only_if_it_comes_out_even_on_all_wide_pieces(
    written: tuple[tuple[int, int], list[str], list[str], list[str]], adds: tuple[int, int, int]
) -> None:
    """Against rows worked token by token on four widths, each with one to three repeats."""
    (of, plus), setup, repeat, closing = written
    even = True
    for width in (of * k + plus for k in range(12, 16)):
        for repeats in (1, 2, 3):
            try:
                after = by_hand(setup, repeat, closing, width, repeats)
            except ValueError:
                even = False
                continue
            change = [second - first for first, second in pairwise(after)]
            even &= change == [adds[0] if setup else 0, *[adds[1]] * repeats, adds[2] if closing else 0]
    shown = adds[0] if setup else 0, adds[1], adds[2] if closing else 0
    drawn = chart(*repeat, setup=setup, closing=closing, adds=shown)
    found = faults((of, plus), drawn)
    assert (found == []) == even, found


@pytest.mark.slow
@given(written_charts(changing=False))
@examples(50)
def test_the_trial_width_is_the_least_that_has_room_for_two_repeats(
    written: tuple[tuple[int, int], list[str], list[str], list[str]],
) -> None:
    stitches, setup, repeat, closing = written
    drawn = chart(*repeat, setup=setup, closing=closing)
    assert faults(stitches, drawn) == []
    width = trial_width(drawn, rule(stitches))
    assert rule(stitches).allows(width)
    assert _twice(drawn, width)
    smaller = width - stitches[0]
    assert not rule(stitches).allows(smaller) or not _twice(drawn, smaller)


def _twice(drawn: Chart, width: int) -> bool:
    try:
        counts = (width, *row_counts(drawn, width, deep_enough(drawn)))
    except ChartFaultError:
        return False
    repeats = drawn.repeat * deep_enough(drawn)
    rows = (*drawn.setup, *repeats, *drawn.closing)
    return all(row.times(offered) >= 2 for row, offered in zip(rows, counts, strict=False))


@pytest.mark.slow
def test_the_trial_width_of_a_chart_that_narrows_fast_is_found_at_once() -> None:
    drawn = chart("(sc2tog) x 500, sc across", adds=(0, -500, 0))
    assert faults((1, 0), drawn) == []
    assert trial_width(drawn, rule((1, 0))) == 2 * 500 + 1000 + 2


@pytest.mark.slow
@given(st.data())
@examples(60)
def test_random_rows_are_worked_or_refused_and_never_break(data: st.DataObject) -> None:
    """Rows of the whole language one over the other, on as many stitches as the first asks for."""
    rows = tuple(data.draw(st.lists(ROWS, min_size=1, max_size=3)))
    assume(all(sum(stitches_worked(part.items) for part in row.parts) <= MOST_IN_ROW for row in rows))
    width = rows[0].once.uses + 2 * rows[0].across.uses
    assume(width)
    drawn = Chart(repeat=rows, setup=(parse_row("dc across"),) * data.draw(st.integers(0, 3)))
    for fault in faults(width, drawn):
        assert fault.sentence
    try:
        assert stitches_in(drawn, width, 1) < 10**7
        worked = work_rows(drawn, width, 1)
    except ChartFaultError:
        return
    assert tuple(row.stitch_count for row in worked) == row_counts(drawn, width, 1)


DOWN = {
    phrase: size for phrase, size in REACHING.items() if "FPdc, sc" not in phrase and "dc in" not in phrase
}


@st.composite
def reaching_rows(draw: st.DrawFn, width: int) -> str:
    """A row over so many stitches, some of them round posts or into rows further down."""
    parts: list[str] = []
    while width:
        sized = {**PHRASES, **DOWN, "sk, dc, FPdc": 3}
        parts.append(draw(st.sampled_from([phrase for phrase, size in sized.items() if size <= width])))
        width -= sized[parts[-1]]
    return ", ".join(parts)


@pytest.mark.slow
@given(st.data(), st.sampled_from(Side))
@examples(150)
def test_stitches_find_what_they_reach_for_as_by_hand(data: st.DataObject, first: Side) -> None:
    """Increases, decreases and chains under them; rows of both sides; the first repeat and later ones."""
    texts = ["sc across", "dc across", "hdc across"]
    offered = width = data.draw(st.integers(2, 9))
    for _ in range(data.draw(st.integers(1, 4))):
        texts.append(data.draw(reaching_rows(offered)))
        offered = sum(token.makes for token in tokens(texts[-1], offered, {}))
    repeats = data.draw(st.integers(1, 3)) if offered == width else 1
    parsed = tuple(map(parse_row, texts))
    drawn = Chart(setup=parsed[:3], repeat=parsed[3:], first_side=first)
    expected = [tokens(texts[0], width, {})]
    for text in (*texts[1:3], *texts[3:] * repeats):
        expected.append(tokens(text, sum(token.makes for token in expected[-1]), {}))
    try:
        rows = work_rows(drawn, width, repeats)
    except ChartFaultError as error:
        refused = str(error)
    else:
        refused = ""
    if refused:
        assert re.search("falls on a chain|only chains|falls on a slip stitch", refused)
        return
    assert_worked_as_by_hand(rows, list(work(expected, width, right=first is Side.RIGHT)))


@pytest.mark.slow
@given(st.data(), st.integers(1, 5), st.integers(0, 20))
@examples(60)
def test_a_chart_that_is_taken_can_be_worked_on_every_wider_piece(
    data: st.DataObject, of: int, plus: int
) -> None:
    """Whatever its stitches reach for: no width at which the repeats of two rows meet otherwise."""
    texts = data.draw(st.lists(row_texts(of, plus, phrases=PHRASES | REACHING), min_size=1, max_size=3))
    drawn = chart(*texts, setup=("sc across", "hdc across", "hdc across"))
    assume(faults((of, plus), drawn) == [])
    least = trial_width(drawn, rule((of, plus)))
    for width in range(least, least + 12 * of, of):
        for repeats in (1, 2, 4):
            assert len(work_rows(drawn, width, repeats)) == 3 + len(texts) * repeats
