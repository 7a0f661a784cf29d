"""Charts in a spec: what is read of a good one, and the exact sentence each malformed one gets."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError
from tests.reading.files import GOOD, edited, read, told, write

ANCHOR = "    turning_chains: 3\n"
CHART = """\
    chart:
      setup:
        - dc across
        - hdc, (4 hdc) across, hdc
      repeat:
        - dc, (2 FPdc, 2 BPdc) across, dc
        - dc, (FPdc, BPdc) across, dc
        - 4 dc, (pc, 3 dc) across, 2 dc
        - dc across
        - dc, (ch, sk, 3 dc) across, dc
        - (dc2tog, ch) across
        - dc, ((ch, sk) x 2) across, dc
        - dc across
      closing: [dc across]
"""
BEFORE = GOOD[: GOOD.index(ANCHOR)].count("\n") + 1


def line(text: str) -> int:
    """The line in the file of the chart's line that holds ``text``."""
    (found,) = [number for number, each in enumerate(CHART.splitlines(), start=1) if text in each]
    return BEFORE + found


def with_chart(*edits: tuple[str, str]) -> str:
    return edited((ANCHOR, ANCHOR + CHART), *edits)


def test_the_chart_of_a_good_spec(tmp_path: Path) -> None:
    cable = read(tmp_path, with_chart()).parts.centre_panel
    assert cable.chart is not None
    written = [each.strip().removeprefix("- ") for each in CHART.splitlines() if each.startswith(" " * 8)]
    assert [str(row) for row in (*cable.chart.setup, *cable.chart.repeat)] == written
    assert [str(row) for row in cable.chart.closing] == ["dc across"]


def test_a_fabric_without_a_chart_has_none(tmp_path: Path) -> None:
    design = read(tmp_path, edited())
    assert [part.chart for part in (design.parts.body, design.parts.centre_panel)] == [None, None]


RIB = "dc, (2 FPdc, 2 BPdc) across, dc"
ROWS = [
    ("unlike any", "dc, (4 whirl) across, dc",
     "column 8 of the row: there is no stitch 'whirl'; those of the trade are listed in the guide to "
     "specs, and one of "
     "your own is defined under the fabric's 'stitches'"),
    ("UK abbreviation", "dc, (2 htr, 2 BPdc) across, dc",
     "column 8 of the row: there is no stitch 'htr' in US terms; did you mean 'hdc'?"),
    ("bracket not closed", "dc, (2 FPdc, 2 BPdc, dc",
     "column 5 of the row: the bracket opened here is not closed; put ')' after what repeats"),
    ("a number", "12", "expected a row such as 'hdc, (2 FPdc, 2 hdc) across, hdc', got 12"),
    ("nothing", "", "expected a row such as 'hdc, (2 FPdc, 2 hdc) across, hdc', got nothing"),
    ("empty text", "''", "expected one line of 1 to 400 printable characters, got ''"),
    ("nothing across", "2 dc, (FPdc, BPdc) x 3, 2 dc",
     "the row below has a multiple of 4 plus 2 stitches, and the row uses 10 stitches and works nothing "
     "across; "
     "expected a part marked 'across', or multiple: {exactly: 10}"),
    ("across twice", "dc, (4 FPdc) across, dc, dc across",
     "column 5 of the row: the row below has a multiple of 4 plus 2 stitches, so expected 4 stitches (or a "
     "number that "
     "goes into it) to be worked across, got 5 in 2 parts"),
    ("one too few across", "dc, (2 FPdc, BPdc) across, dc",
     "column 5 of the row: the row below has a multiple of 4 plus 2 stitches, so expected 4 stitches (or a "
     "number that "
     "goes into it) to be worked across, got 3"),
    ("one too few besides", "dc, (2 FPdc, 2 BPdc) across",
     "column 5 of the row: the row below has a multiple of 4 plus 2 stitches, so expected 2 stitches "
     "besides the 4 "
     "worked across, got 1"),
    ("decrease at the edge", "dc2tog, (2 FPdc, 2 BPdc) across, dc",
     "column 9 of the row: the row below has a multiple of 4 plus 2 stitches, so expected 2 stitches "
     "besides the 4 "
     "worked across, got 3"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "sentence"), [case[1:] for case in ROWS], ids=[case[0].replace(" ", "-") for case in ROWS]
)
def test_each_malformed_row_gets_its_own_sentence(text: str, sentence: str, tmp_path: Path) -> None:
    problems = told(tmp_path, with_chart((f"- {RIB}", f"- {text}")))
    assert problems == [f"{line(RIB)}: fabrics.cable.chart.repeat[0]: {sentence}"]


def test_all_problems_of_a_chart_are_told_at_once(tmp_path: Path) -> None:
    text = with_chart(
        (RIB, "dc, (2 FPdc, 2 dc across"),
        ("- hdc, (4 hdc) across, hdc", "- (3 hdc) across"),
        ("closing: [dc across]", "closing: [dc across, tr2]"),
        ("(dc2tog, ch) across", "(dc2tog, chain) across"),
    )
    assert told(tmp_path, text) == [
        f"{line(RIB)}: fabrics.cable.chart.repeat[0]: column 14 of the row: put what repeats in brackets: "
        "'(2 dc) across'; without them it is one stitch",
        f"{line('dc2tog')}: fabrics.cable.chart.repeat[5]: column 10 of the row: there is no stitch 'chain' "
        "in US terms; did you mean 'ch'?",
        f"{line('closing')}: fabrics.cable.chart.closing[1]: column 1 of the row: a count goes before "
        "its stitch, as in '2 tr'",
    ]


def test_a_row_parted_at_its_commas(tmp_path: Path) -> None:
    """In a list in brackets a comma ends a row without quotes: told once, where its bracket is cut."""
    first = line("closing")
    text = with_chart(("closing: [dc across]", "closing: [dc across, hdc, (2 FPdc, 2 hdc) across, tr2]"))
    assert told(tmp_path, text) == [
        f"{first}: fabrics.cable.chart.closing[2]: column 1 of the row: the bracket opened here is closed in "
        "a later row; where rows are written in '[ ]', one with commas wants quotes round it: "
        "'(2 FPdc, 2 hdc) across'",
        f"{first}: fabrics.cable.chart.closing[4]: column 1 of the row: a count goes before its stitch, as "
        "in '2 tr'",
    ]
    text = with_chart(("closing: [dc across]", "closing: [dc across, 'dc, (2 FPdc, dc', dc across]"))
    assert told(tmp_path, text) == [
        f"{first}: fabrics.cable.chart.closing[1]: column 5 of the row: the bracket opened here is not "
        "closed; put ')' after what repeats"
    ]


def test_rows_are_held_against_the_fabric_once_they_can_be_read(tmp_path: Path) -> None:
    text = with_chart(
        ("        - dc across\n        - hdc, (4 hdc) across, hdc\n", "        - (3 hdc) across\n"),
        ("        - dc, ((ch, sk) x 2) across, dc\n", ""),
        ("closing: [dc across]", "closing: [dc across, tr across]"),
    )
    first = BEFORE + 1
    assert told(tmp_path, text) == [
        f"{first + 1}: fabrics.cable.chart.setup: expected 2 set-up rows, as row_repeat.setup says, got 1",
        f"{first + 2}: fabrics.cable.chart.setup[0]: column 1 of the row: the fabric's multiple is 4 plus "
        f"2, so expected "
        "4 stitches (or a number that goes into it) to be worked across, got 3",
        f"{first + 3}: fabrics.cable.chart.repeat: expected 8 repeat rows, as row_repeat.rows says, got 7",
        f"{first + 11}: fabrics.cable.chart.closing: expected 1 closing row, as row_repeat.closing says, "
        "got 2",
    ]


def test_a_section_left_out_is_told_at_the_chart(tmp_path: Path) -> None:
    text = with_chart(("      closing: [dc across]\n", ""))
    assert told(tmp_path, text) == [
        f"{BEFORE + 1}: fabrics.cable.chart: expected 1 closing row, as row_repeat.closing says, got 0"
    ]


def test_a_first_row_of_post_stitches(tmp_path: Path) -> None:
    assert told(tmp_path, with_chart(("- dc across\n        - hdc", f"- {RIB}\n        - hdc"))) == [
        f"{BEFORE + 3}: fabrics.cable.chart.setup[0]: column 6 of the row: FPdc has no post to go round, "
        f"since the first row is "
        "worked into the foundation chain; expected a plain row first"
    ]


@pytest.mark.slow
def test_a_post_stitch_over_a_chain(tmp_path: Path) -> None:
    text = with_chart(("(dc2tog, ch) across", "dc, (FPdc, 3 dc) across, dc"))
    assert read(tmp_path, text).parts.centre_panel.chart
    text = with_chart(("(dc2tog, ch) across", "dc, (2 dc, FPdc, BPdc) across, dc"))
    assert told(tmp_path, text) == [
        f"{line('dc2tog')}: fabrics.cable.chart.repeat[5]: column 18 of the row: BPdc has no post to go "
        f"round, since it falls on a "
        "chain of the row below"
    ]


def test_a_chart_needs_the_counts_it_is_held_against(tmp_path: Path) -> None:
    text = with_chart(
        ("    multiple: {of: 4, plus: 2}\n", ""), ("    row_repeat: {rows: 8, setup: 2, closing: 1}\n", "")
    )
    assert told(tmp_path, text) == [
        f"{BEFORE - 1}: fabrics.cable.chart: a chart needs the fabric's stitch multiple; add it, such as "
        "multiple: {of: 4, plus: 2}",
        f"{BEFORE - 1}: fabrics.cable.chart: a chart needs the fabric's row repeat; add it, such as "
        "row_repeat: {rows: 8, setup: 2, closing: 1}",
    ]


def test_a_wrong_multiple_is_one_problem(tmp_path: Path) -> None:
    text = with_chart(("of: 4, plus: 2", "of: four, plus: 2"))
    assert told(tmp_path, text) == [
        "21: fabrics.cable.multiple.of: expected a whole number, got 'four'",
    ]


@pytest.mark.parametrize(
    ("new", "problem"),
    [
        ("    chart: dc across\n",
         ": expected a mapping with the key 'repeat', got 'dc across'"),
        ("    chart: {repeat: dc across}\n", ".repeat: expected a list, got 'dc across'"),
        ("    chart: {repeat: []}\n", ".repeat: expected at least one entry, got an empty list"),
        ("    chart: {rows: [dc across]}\n", ": the key 'repeat' is missing: rows of one repeat"),
        (f"    chart: {{repeat: [{', '.join(['dc across'] * 201)}]}}\n",
         ".repeat: expected at most 200 entries, got a list"),
    ],
)  # fmt: skip
def test_a_chart_is_lists_of_rows(new: str, problem: str, tmp_path: Path) -> None:
    problems = told(tmp_path, edited((ANCHOR, ANCHOR + new)))
    assert f"{BEFORE + 1}: fabrics.cable.chart{problem}" in problems


def test_the_path_of_a_row_leads_to_its_line(tmp_path: Path) -> None:
    path = write(tmp_path, with_chart((f"- {RIB}", "- fdc across")))
    with pytest.raises(SpecError) as error:
        read_design(path)
    (problem,) = error.value.entries
    assert (problem.line, problem.path) == (line(RIB), "fabrics.cable.chart.repeat[0]")
    assert "fdc across" in path.read_text(encoding="utf-8").splitlines()[line(RIB) - 1]


def test_an_increase_is_told_where_it_is_made(tmp_path: Path) -> None:
    """And only there: the row that it does not fit is not wrong."""
    assert told(tmp_path, with_chart((RIB, "dc, (2 FPdc, ch, 2 BPdc) across, dc"))) == [
        f"{line(RIB)}: fabrics.cable.chart.repeat[0]: column 14 of the row: the row leaves a multiple of 5 "
        "plus 2 stitches, but row 4 fits a multiple of 4 plus 2 stitches; expected as many stitches as it "
        "found"
    ]


def test_the_multiple_that_is_offered_fits(tmp_path: Path) -> None:
    """The stitch multiple a chart lacks is that on which all its rows come out even."""
    for rows, multiple in (
        (("dc across", "dc, (ch, sk, 2 dc) across, dc", "(dc, sc) across, 2 dc"), "of: 6, plus: 2"),
        (("4 sc, 3 dc", "sc across"), "exactly: 7"),
    ):
        row_repeat = f"    row_repeat: {{rows: {len(rows)}}}"
        chart = f"      repeat: {list(rows)}"
        assert told(tmp_path, fabric(row_repeat, chart)) == [
            "22: fabrics.cable.chart: a chart needs the fabric's stitch multiple; add it, such as "
            f"multiple: {{{multiple}}}"
        ]
        assert read(tmp_path, fabric(f"    multiple: {{{multiple}}}\n{row_repeat}", chart))


RULES = "    multiple: {of: 4, plus: 2}\n    row_repeat: {rows: 8, setup: 2, closing: 1}\n"


def fabric(keys: str, chart: str) -> str:
    """The good spec with other keys of the fabric, one on a line from line 21 on, and a chart after them."""
    return edited((RULES, f"{keys}\n    chart:\n{chart}\n"))


ONE = "    multiple: {of: 1}\n    row_repeat: {rows: 1}\n"
LP = "words: loop stitch, worked: sc round a finger"
NAME = (
    "expected an abbreviation of up to 12 letters, digits and hyphens that begins with a letter and is no "
    "other word "
    "of a row, got "
)
KEYS: list[tuple[str, str, str, str]] = [
    ("a count of none", "    multiple: {exactly: 0}", "[sc across]",
     "21: fabrics.cable.multiple.exactly: expected 1 or more, got 0"),
    ("an empty count", "    multiple: {of: }", "[sc across]",
     "21: fabrics.cable.multiple.of: expected a whole number, got nothing"),
    ("one count and a repeat", "    multiple: {exactly: 12, of: 4}", "[sc across]",
     "21: fabrics.cable.multiple: 'exactly' allows one count alone; delete it, or 'of' and 'plus'"),
    ("no repeat and no count", "    multiple: {plus: 4}", "[sc across]",
     "21: fabrics.cable.multiple: the key 'of' is missing: stitches in one repeat; or 'exactly' where "
     "nothing repeats"),
    ("a row too long for one count", "    multiple: {exactly: 12}\n    row_repeat: {rows: 1}", "['4 sc, 9 "
     "dc']",
     "24: fabrics.cable.chart.repeat[0]: column 7 of the row: the fabric's multiple is exactly 12, and the "
     "row uses "
     "13 stitches; expected 12 stitches"),
    ("adds that are none", f"{ONE}", "[sc across]\n      adds: {repeat: two}",
     "25: fabrics.cable.chart.adds.repeat: expected a whole number, got 'two'"),
    ("adds of rows", f"{ONE}", "[sc across]\n      adds: {rows: 2}",
     "25: fabrics.cable.chart.adds: unknown key 'rows'; the keys here are 'setup', 'repeat' and 'closing'"),
    ("adds that are not made", f"{ONE}", "[sc across]\n      adds: {repeat: -2}",
     "24: fabrics.cable.chart.repeat[0]: the repeat leaves as many stitches as it found, but 'adds' says "
     "-2; expected "
     "2 stitches fewer than it found, or adds: {repeat: 0}"),
    ("adds that are not told", f"{ONE}", "['sc2tog, sc across']",
     "24: fabrics.cable.chart.repeat[0]: column 1 of the row: the repeat leaves 1 stitch fewer than "
     "it found, but a piece keeps its width "
     "unless the chart says otherwise; expected as many stitches as it found, or adds: {repeat: -1}"),
    ("the second repeat", "    multiple: {of: 2}\n    row_repeat: {rows: 1}",
     "['sc2tog, (sc, dc) across']\n      adds: {repeat: -1}",
     "24: fabrics.cable.chart.repeat[0]: column 9 of the row: the second time the repeat is worked, the "
     "row below has "
     "a multiple of 2 plus 1 stitches, so expected 1 stitch besides the 2 worked across, got 2"),
    ("one colour", f"{ONE}", "[sc across]\n      colours: {A: red}",
     "25: fabrics.cable.chart.colours: expected two colours or more; leave 'colours' out where one yarn "
     "does"),
    ("a small letter", f"{ONE}", "[sc across]\n      colours: {a: red, B: blue}",
     "25: fabrics.cable.chart.colours.a: expected a capital letter such as A, got 'a'"),
    ("rows without colours", f"{ONE}", "[sc across]\n      colours: {A: red, B: blue}",
     "24: fabrics.cable.chart.repeat[0]: column 1 of the row: the row does not say its colour; begin it as "
     "in "
     "'with A, sc across'"),
    ("an unknown colour", f"{ONE}", "['with C, sc across']\n      colours: {A: red, B: blue}",
     "24: fabrics.cable.chart.repeat[0]: column 1 of the row: there is no colour 'C'; those of the chart "
     "are A, B; "
     "name it under the chart's 'colours'"),
    ("a colour of none", f"{ONE}", "['with A, sc across']",
     "24: fabrics.cable.chart.repeat[0]: column 1 of the row: there is no colour 'A'; name it under the "
     "chart's "
     "'colours'"),
    ("the side of row 1", f"{ONE}", "[sc across]\n      first_row: right",
     "25: fabrics.cable.chart.first_row: expected 'RS' or 'WS', got 'right'"),
    ("the terms", f"{ONE}", "[sc across]\n      terms: uk",
     "25: fabrics.cable.chart.terms: expected 'US' or 'UK', got 'uk'"),
    ("a US name in UK terms", f"{ONE}", "[sc across]\n      terms: UK",
     "24: fabrics.cable.chart.repeat[0]: column 1 of the row: there is no stitch 'sc' in UK terms; did you "
     "mean 'dc'?"),
    ("what is wrong in UK terms", "    multiple: {of: 1}\n    row_repeat: {rows: 2}",
     "[ss across, FPtr across]\n      terms: UK",
     "24: fabrics.cable.chart.repeat[1]: column 1 of the row: FPtr has no post to go round, since it falls "
     "on a slip "
     "stitch of the row below, which has none; expected it over a stitch that has one"),
    ("an unknown stroke", f"{ONE}    stitches: {{lp: {{{LP}, symbol: star}}}}", "[lp across]",
     "23: fabrics.cable.stitches.lp.symbol: 'star' is no stroke of a symbol; expected oval, dot, cross, "
     "stem, cap, bars, "
     "hook right, hook left, legs, fan, leaf, loops, crown, eye, roof, letter"),
    ("a counted cap", f"{ONE}    stitches: {{lp: {{{LP}, symbol: 2 cap}}}}", "[lp across]",
     "23: fabrics.cable.stitches.lp.symbol: 'cap' takes no number; expected 'cap' alone"),
    ("no symbol", f"{ONE}    stitches: {{lp: {{{LP}}}}}", "[lp across]",
     "23: fabrics.cable.stitches.lp: the key 'symbol' is missing: the strokes of its chart symbol"),
    ("a name that begins with a digit", f"{ONE}    stitches: {{2lp: {{{LP}, symbol: cross}}}}", "[sc across]",
     f"23: fabrics.cable.stitches.\"2lp\": {NAME}'2lp'"),
    ("a name that means something", f"{ONE}    stitches: {{across: {{{LP}, symbol: cross}}}}", "[sc across]",
     f"23: fabrics.cable.stitches.across: {NAME}'across'"),
    ("a UK name that begins with a digit",
     f"{ONE}    stitches: {{lp: {{{LP}, symbol: cross, uk: {{abbreviation: 3lp, words: loop}}}}}}",
     "[sc across]",
     f"23: fabrics.cable.stitches.lp.uk.abbreviation: {NAME}'3lp'"),
    ("a name twice", f"{ONE}    stitches: {{lp: {{{LP}, symbol: dot}}, LP: {{{LP}, symbol: cross}}}}",
     "[sc across]",
     "23: fabrics.cable.stitches: expected each name once, whatever its capitals; got 'lp' and 'LP'"),
    ("a stitch over too many", f"{ONE}    stitches: {{lp: {{{LP}, symbol: dot, uses: 21}}}}", "[sc across]",
     "23: fabrics.cable.stitches.lp.uses: expected 20 or less, got 21"),
    ("round what", f"{ONE}    stitches: {{lp: {{{LP}, symbol: dot, post: round}}}}", "[sc across]",
     "23: fabrics.cable.stitches.lp.post: expected 'front' or 'back', got 'round'"),
    ("a key misspelt", f"{ONE}    stitches: {{lp: {{{LP}, symbol: dot, make: 2}}}}", "[sc across]",
     "23: fabrics.cable.stitches.lp: unknown key 'make'; did you mean 'makes'?"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("keys", "rows", "problem"), [case[1:] for case in KEYS], ids=[case[0].replace(" ", "-") for case in KEYS]
)
def test_each_malformed_key_gets_its_own_sentence(keys: str, rows: str, problem: str, tmp_path: Path) -> None:
    if "row_repeat" not in keys:
        keys += "\n    row_repeat: {rows: 1}"
    assert told(tmp_path, fabric(keys.rstrip(), f"      repeat: {rows}")) == [problem]
