"""Rows of a chart: reading and printing them, counting them, and what a fabric's counts ask of them."""

from __future__ import annotations

import re
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schematics.crochet.charts.chart import Chart, ChartRow, ChartSection, StitchGroup, StitchRun, Worked
from schematics.crochet.charts.chart_rules import ChartFault, chart_faults, extent
from schematics.crochet.charts.chart_text import RowTextError, parse_row
from schematics.crochet.fabric import CountRule, RowRule
from schematics.crochet.stitches import STITCHES, Loop, find_stitch, nearest_abbreviations
from tests.crochet.charts_for_tests import ROWS, fitting_charts, fitting_rows


def made(text: str, width: int) -> list[str]:
    return [worked.abbreviation for worked in parse_row(text).stitches(width)]


def chart(*repeat: str, setup: tuple[str, ...] = (), closing: tuple[str, ...] = ()) -> Chart:
    rows = ([*map(parse_row, texts)] for texts in (setup, repeat, closing))
    return Chart(**{section.value: tuple(each) for section, each in zip(ChartSection, rows, strict=True)})


def faults(stitches: tuple[int, int], rows: tuple[int, int, int], drawn: Chart) -> list[ChartFault]:
    setup, repeat, closing = rows
    return list(
        chart_faults(
            drawn,
            CountRule(multiple=stitches[0], plus=stitches[1]),
            RowRule(setup=setup, repeat=repeat, closing=closing),
        )
    )


def test_the_table_of_stitches() -> None:
    """Trade abbreviations in US terms (common practice; the list from memory, written out here anew)."""
    tall = ("hdc", "dc", "tr")
    post = [f"{side}{name}" for side in ("FP", "BP") for name in tall]
    one_into_one = ["sl st", "sc", *tall, "dtr", *post, "cl", "puff", "pc"]
    expected = dict.fromkeys(one_into_one, (1, 1)) | {"ch": (0, 1), "sk": (1, 0)}
    expected |= dict.fromkeys(("sc2tog", "hdc2tog", "dc2tog"), (2, 1))
    assert {each.abbreviation: (each.uses, each.makes) for each in STITCHES} == expected
    assert len({each.words for each in STITCHES}) == len(STITCHES)
    assert all(each.round_post == each.abbreviation.startswith(("FP", "BP")) for each in STITCHES)


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("htr", ["hdc"]),
        ("ss", ["sl st"]),
        ("miss", ["sk"]),
        ("Double Crochet", ["dc"]),
        ("back post treble crochet", ["BPtr"]),
        ("fpd", ["FPdc", "FPhdc"]),
        ("zzz", []),
    ],
)
def test_what_an_unknown_word_may_stand_for(word: str, meant: list[str]) -> None:
    assert nearest_abbreviations(word) == meant
    assert find_stitch(word) is None


def test_a_row_is_worked_as_it_reads() -> None:
    """Written out by hand."""
    text = "2 dc, (FPdc, BPdc) x 3, (ch, sk, tr) across, sl st"
    ends = ["dc", "dc"] + ["FPdc", "BPdc"] * 3
    assert made(text, 9) == [*ends, "sl st"]
    assert made(text, 13) == [*ends, *["ch", "sk", "tr"] * 2, "sl st"]
    assert made("(2 sc, (hdc, 2 dc) x 2) x 2, tr across", 17) == (
        ["sc", "sc", "hdc", "dc", "dc", "hdc", "dc", "dc"] * 2 + ["tr"]
    )


def test_a_row_that_does_not_come_out_even_is_refused() -> None:
    row = parse_row("dc, (FPdc, BPdc) across, dc")
    with pytest.raises(ValueError, match=r"'dc, \(FPdc, BPdc\) across, dc' does not fit 7 stitches"):
        row.stitches(7)
    with pytest.raises(ValueError, match="does not fit 1 stitches"):
        row.stitches(1)
    with pytest.raises(ValueError, match="does not fit 4 stitches"):
        parse_row("ch across").stitches(4)


@given(ROWS)
def test_what_is_printed_is_read_again(row: ChartRow) -> None:
    assert parse_row(str(row)) == row


@given(ROWS, st.randoms(use_true_random=False))
def test_capitals_and_spaces_make_no_difference(row: ChartRow, dice: Random) -> None:
    """Only the space between two words is needed: ``sl st``, ``dc blo``, ``dc across``."""
    parts = re.findall(r"[a-z]\w*(?: (?:st|blo|flo|across))*|\d+|[(),]", str(row), re.IGNORECASE)
    spaced = "".join(
        " " * dice.randrange(3) + dice.choice((str.upper, str.lower, str))(part) for part in parts
    )
    assert parse_row(spaced) == row


def test_the_ways_to_write_the_same_row() -> None:
    expected = ChartRow(
        before=(StitchRun(worked=Worked(stitch=STITCHES[5]), count=2),),
        across=(
            StitchGroup(
                items=(
                    StitchRun(worked=Worked(stitch=STITCHES[10])),
                    StitchRun(worked=Worked(stitch=STITCHES[11])),
                ),
                times=3,
            ),
        ),
        after=(StitchRun(worked=Worked(stitch=STITCHES[2], loop=Loop.BACK)),),
    )
    for text in (
        "2 dc, ((FPdc, BPdc) x 3) across, sl st blo",
        "2dc,((fpdc,bpdc)x3)across,SL  ST  BLO",
        " 2 DC , ( ( 1 fpdc , bpdc ) × 3 ) ACROSS , sl st blo ",
    ):
        assert parse_row(text) == expected


@given(st.text(st.sampled_from("dc 2(),xFPkslt3*×;ſ²9aros"), max_size=30) | st.text(max_size=30))
def test_any_other_text_is_refused_in_place(text: str) -> None:
    result = read_or_refused(text)
    if isinstance(result, ChartRow):
        assert parse_row(str(result)) == result
    else:
        assert 1 <= result.column <= len(text) + 1
        assert str(result).startswith(f"column {result.column} of the row: ")


def read_or_refused(text: str) -> ChartRow | RowTextError:
    try:
        return parse_row(text)
    except RowTextError as error:
        return error


def comes_out_even(row: ChartRow, multiple: int, plus: int) -> bool:
    """Whether the row, worked on one to four repeats, uses and makes just that many stitches."""
    for width in (multiple * repeats + plus for repeats in range(1, 5)):
        try:
            stitches = row.stitches(width)
        except ValueError:
            return False
        used, left = sum(each.stitch.uses for each in stitches), sum(each.stitch.makes for each in stitches)
        if not used == left == width:
            return False
    return True


@given(ROWS, st.integers(1, 8), st.integers(0, 6))
def test_a_row_is_refused_if_and_only_if_it_does_not_come_out_even(
    row: ChartRow, multiple: int, plus: int
) -> None:
    about_counts = [
        fault
        for fault in faults((multiple, plus), (0, 1, 0), Chart(repeat=(row,)))
        if "post" not in fault.sentence
    ]
    assert (about_counts == []) == comes_out_even(row, multiple, plus)


@given(st.data(), st.integers(1, 8), st.integers(0, 6))
def test_a_row_made_to_fit_fits(data: st.DataObject, multiple: int, plus: int) -> None:
    row = data.draw(fitting_rows(multiple, plus))
    assert comes_out_even(row, multiple, plus)
    found = faults((multiple, plus), (0, 1, 0), Chart(repeat=(row,)))
    assert [fault for fault in found if "post" not in fault.sentence] == []
    plain = data.draw(fitting_rows(multiple, plus, plain=True))
    assert faults((multiple, plus), (0, 1, 0), Chart(repeat=(plain,))) == []


@given(fitting_charts(), st.integers(1, 3))
@settings(deadline=None)
def test_the_bracketed_stitches_are_what_a_wider_panel_adds(
    drawn: tuple[Chart, int, int], repeats: int
) -> None:
    """What the bracket says: one more repeat is the bracketed columns once more, in every row."""
    pattern, multiple, plus = drawn
    shown = extent(pattern, CountRule(multiple=multiple, plus=plus), repeats)
    assert shown.stitches >= multiple * repeats + plus
    assert (shown.stitches - plus) % multiple == 0
    assert 0 <= shown.first <= shown.stitches - multiple
    for number, row in enumerate(pattern.rows, start=1):
        narrow, wide = (
            [each for each in row.stitches(width) if each.stitch.makes]
            for width in (shown.stitches, shown.stitches + multiple)
        )
        if number % 2:
            narrow, wide = narrow[::-1], wide[::-1]
        after = shown.first + shown.repeat
        assert wide == narrow[:after] + narrow[shown.first : after] + narrow[after:]


def test_the_width_is_no_more_than_is_asked_for() -> None:
    aligned = chart("dc, (2 FPdc, 2 dc) across, dc", setup=("dc across",))
    for repeats, stitches in ((1, 6), (2, 10), (5, 22)):
        shown = extent(aligned, CountRule(multiple=4, plus=2), repeats)
        assert (shown.stitches, shown.first, shown.repeat) == (stitches, stitches - 5, 4)


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
    assert faults((1, 0), (1, 2, 1), drawn) == []
    assert faults((1, 0), rows, drawn) == [ChartFault(section=section, index=None, sentence=sentence)]


def test_a_post_stitch_needs_a_post() -> None:
    """Row by row on a mesh; a row is worked back over the one below, so its first stitch meets the last."""
    into_chain = (
        "FPdc has no post to go round, since the first row is worked into the foundation chain; "
        "expected a plain row first"
    )
    on_chain = "BPdc has no post to go round, since it falls on a chain of the row below"
    first = chart("dc, (FPdc, dc) across, dc", "dc across")
    assert [(each.index, each.sentence) for each in faults((2, 2), (0, 2, 0), first)] == [(0, into_chain)]
    mesh = "dc, (ch, sk, dc) across, dc"
    for above, at in (("dc, (BPdc, dc) across, dc", []), ("dc, (dc, BPdc) across, dc", [on_chain])):
        drawn = chart(mesh, above, setup=("dc across",))
        assert [each.sentence for each in faults((2, 2), (1, 2, 0), drawn)] == at
    wrapped = chart("dc, (dc, BPdc) across, dc", mesh, setup=("dc across",))
    assert [(each.index, each.sentence) for each in faults((2, 2), (1, 2, 0), wrapped)] == [(0, on_chain)]


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
