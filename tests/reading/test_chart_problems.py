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
    ("unknown abbreviation", "dc, (2 FPdcc, 2 BPdc) across, dc",
     "column 8 of the row: there is no stitch 'FPdcc' in US terms; did you mean 'FPdc', 'FPhdc' or 'BPdc'?"),
    ("UK abbreviation", "dc, (2 htr, 2 BPdc) across, dc",
     "column 8 of the row: there is no stitch 'htr' in US terms; did you mean 'hdc'?"),
    ("words in full", "dc, (2 front post double crochet, 2 dc) across, dc",
     "column 8 of the row: there is no stitch 'front post double crochet' in US terms; did you mean 'FPdc'?"),
    ("unlike any", "dc, (4 whirl) across, dc",
     "column 8 of the row: there is no stitch 'whirl'; those known are ch, sk, sl st, sc, hdc, dc, tr, dtr, "
     "FPhdc, BPhdc, FPdc, BPdc, FPtr, BPtr, sc2tog, hdc2tog, dc2tog, cl, puff, pc"),
    ("bracket not closed", "dc, (2 FPdc, 2 BPdc, dc",
     "column 5 of the row: the bracket opened here is not closed; put ')' after what repeats"),
    ("bracket not opened", "dc, 2 FPdc, 2 BPdc) across, dc",
     "column 19 of the row: this bracket closes none; delete it, or put '(' before what repeats"),
    ("bracket of nothing", "dc, () across, dc",
     "column 6 of the row: a stitch is missing before ')'; write one such as '2 dc', or delete the comma"),
    ("bracket without times", "dc, (2 FPdc, 2 BPdc), dc",
     "column 21 of the row: expected 'x' and a number, or 'across', after the bracket"),
    ("times without a number", "dc, (2 FPdc, 2 BPdc) x across, dc",
     "column 22 of the row: expected 'x' and a number, or 'across', after the bracket"),
    ("times before the bracket", "dc, 2 (FPdc, BPdc), dc across",
     "column 5 of the row: the number goes after the bracket, as in '(2 dc, ch) x 2'"),
    ("no times", "dc, (FPdc, BPdc) x 0, dc across",
     "column 20 of the row: expected 1 to 999 times, got 0"),
    ("too deep", "(((((dc) x 1) x 1) x 1) x 1) across",
     "column 5 of the row: brackets are nested more than 4 deep; write some of it out"),
    ("count after its stitch", "dc, (FPdc 2, BPdc 2) across, dc",
     "column 11 of the row: expected a comma; a count goes before its stitch, as in '2 dc'"),
    ("count out of range", "1000 dc, dc across",
     "column 1 of the row: expected 1 to 999 stitches, got 1000"),
    ("times on a stitch", "dc x 2, (2 FPdc, 2 BPdc) across",
     "column 4 of the row: 'x' goes after a bracket, as in '(2 dc, ch) x 3'; a count before its stitch"),
    ("comma missing", "dc (2 FPdc, 2 BPdc) across, dc",
     "column 4 of the row: expected a comma between two stitches"),
    ("comma too many", "dc,, (2 FPdc, 2 BPdc) across, dc",
     "column 4 of the row: a stitch is missing before ','; write one such as '2 dc', or delete the comma"),
    ("comma at the end", "dc, (2 FPdc, 2 BPdc) across, dc,",
     "column 33 of the row: a stitch is missing at the end; write one such as '2 dc', or delete the comma"),
    ("odd sign", "dc, *2 FPdc, 2 BPdc*, dc",
     "column 5 of the row: '*' has no meaning in a row; expected one such as "
     "'hdc, (2 FPdc, 2 hdc) across, hdc'"),
    ("loop of a post stitch", "dc, (4 FPdc blo) across, dc",
     "column 13 of the row: 'blo' does not go with FPdc, only with sl st, sc, hdc, dc, tr, dtr"),
    ("loop before its stitch", "blo dc, (4 dc) across, dc",
     "column 1 of the row: 'blo' goes after its stitch, as in 'dc blo'"),
    ("nothing across", "2 dc, (FPdc, BPdc) x 3, 2 dc",
     "column 1 of the row: nothing is worked across; mark what repeats over the whole row, as in "
     "'hdc, (2 FPdc, 2 hdc) across, hdc'"),
    ("across twice", "dc, (4 FPdc) across, dc, dc across",
     "column 26 of the row: a second part is worked across; one part of a row is, any other takes a number, "
     "as in 'x 3'"),
    ("across in a bracket", "dc, ((4 FPdc) across) x 2, dc",
     "column 15 of the row: 'across' inside a bracket; only a part that stands in none is worked across"),
    ("across after a stitch in a bracket", "dc, (2 FPdc, dc across) x 2, dc across",
     "column 17 of the row: 'across' inside a bracket; only a part that stands in none is worked across"),
    ("across first", "across dc",
     "column 1 of the row: 'across' goes after what repeats, as in 'hdc, (2 FPdc, 2 hdc) across, hdc'"),
    ("several stitches across", "dc, 4 FPdc across, dc",
     "column 5 of the row: put what repeats in brackets: '(4 FPdc) across'; without them it is one stitch"),
    ("a number", "12", "expected a row such as 'hdc, (2 FPdc, 2 hdc) across, hdc', got 12"),
    ("nothing", "", "expected a row such as 'hdc, (2 FPdc, 2 hdc) across, hdc', got nothing"),
    ("empty text", "''", "expected one line of 1 to 200 printable characters, got ''"),
    ("one too few across", "dc, (2 FPdc, BPdc) across, dc",
     "the fabric's multiple is 4 plus 2, so expected 4 stitches (or a number that goes into it) to be worked "
     "across, got 3"),
    ("one too few besides", "dc, (2 FPdc, 2 BPdc) across",
     "the fabric's multiple is 4 plus 2, so expected 2 stitches besides the 4 worked across, got 1"),
    ("more besides than the smallest panel", "9 dc, (dc) x 1, dc across",
     "the fabric's multiple is 4 plus 2, so expected 2 stitches besides the 1 worked across, got 10"),
    ("increase across", "dc, (2 FPdc, ch, 2 BPdc) across, dc",
     "what is worked across uses 4 stitches of the row below and makes 5; expected as many made as used"),
    ("decrease at the edge", "dc2tog, (2 FPdc, 2 BPdc) across, dc",
     "what is worked once uses 3 stitches of the row below and makes 2; expected as many made as used"),
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
        f"{line('closing')}: fabrics.cable.chart.closing[1]: column 1 of the row: there is no stitch 'tr2' "
        "in US terms; did you mean 'tr' or 'dtr'?",
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
        f"{first + 2}: fabrics.cable.chart.setup[0]: the fabric's multiple is 4 plus 2, so expected "
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
        f"{BEFORE + 3}: fabrics.cable.chart.setup[0]: FPdc has no post to go round, since the first row is "
        "worked into the foundation chain; expected a plain row first"
    ]


def test_a_post_stitch_over_a_chain(tmp_path: Path) -> None:
    text = with_chart(("(dc2tog, ch) across", "dc, (FPdc, 3 dc) across, dc"))
    assert read(tmp_path, text).parts.centre_panel.chart
    text = with_chart(("(dc2tog, ch) across", "dc, (2 dc, FPdc, BPdc) across, dc"))
    assert told(tmp_path, text) == [
        f"{line('dc2tog')}: fabrics.cable.chart.repeat[5]: BPdc has no post to go round, since it falls on a "
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
