"""Rows of every kind against sentences written by hand."""

import pytest

from schematics.crochet.charts.chart import Side
from schematics.crochet.terms import Terms
from schematics.document.chart_words.chart_piece import ChartPiece
from schematics.document.chart_words.piece_words import PieceWords
from tests.document.chart_words.charts import chart_of, words_of

ONE, THREE = ((14, 3),), ((10, 3), (14, 3), (18, 3))

ROWS = [
    # one stitch all over
    ("sc across", ONE, "sc in each st to end"),
    ("hdc blo across", THREE, "hdc blo in each st to end"),
    ("hdc in 3rd loop across", ONE, "hdc in 3rd loop in each st to end"),
    ("dc, FPdc across, 2 dc", ((14, 1),), "dc, FPdc round each post to last 2 sts, 2 dc"),
    # a repeat between edges
    ("hdc, (2 FPdc, 2 hdc) across, hdc", THREE, "hdc, [2 FPdc, 2 hdc] to last st, hdc"),
    ("(sk, ch) across", ONE, "[skip next st, ch 1] to end"),
    ("(dc2tog, ch 1) across", ONE, "[dc2tog, ch 1] to end"),
    ("(sk 2, 5-dc sh, sk 2, sc) across, 2 sc", ((14, 1),),
     "[skip 2 sts, 5-dc sh, skip 2 sts, sc] to last 2 sts, 2 sc"),
    # nothing repeats
    ("2 sc, 3 5-dc pc, (2 dc, ch) x 3, sc2tog, (sc, hdc) x 1, 3-loop puff across", ((16, 1),),
     "2 sc, 5-dc pc in each of next 3 sts, [2 dc, ch 1] 3 times, sc2tog, [sc, hdc] once, 3-loop puff"),
    # several parts across
    ("sc across, 6 hdc, sc across", ((10, 1), (12, 1), (12, 1)), "2 (3, 3) sc, 6 hdc, 2 (3, 3) sc"),
    ("(sc, dc) across, 2 hdc, FPtr 2 rows below across", ((5, 1), (8, 1), (11, 1)),
     "[sc, dc] 1 (2, 3) times, 2 hdc, [FPtr round next post 2 rows below] 1 (2, 3) times"),
    ("(sc, dc) across, 2 hdc, sk across", ((8, 1),), "[sc, dc] twice, 2 hdc, skip 2 sts"),
    # worked once everywhere
    ("sc, (hdc, 3 dc) across, sc", ((6, 1), (6, 1)), "sc, hdc, 3 dc, sc"),
    ("sc, (hdc, 3 dc) across, sc", ((2, 1), (6, 1), (10, 1)), "sc, [hdc, 3 dc] 0 (1, 2) times, sc"),
    # deep stitches, posts, surface
    ("sc across, sc 2 rows below, sc across", ((5, 1),), "2 sc, sc in next st 2 rows below, 2 sc"),
    ("(3 FPtr 2 rows below, sc) across", ((8, 1),),
     "[FPtr round each of next 3 posts 2 rows below, sc] to end"),
    ("(2 sl st blo, surface FPtr 2 rows below, 2 sl st blo) across", ((4, 1), (8, 1), (8, 1)),
     "[2 sl st blo, FPtr round next post 2 rows below, "
     "2 sl st blo] to end"),
    ("(2 sc, surface tr flo 3 rows below) across", ((8, 1),),
     "[2 sc, tr in free front loop of next st 3 rows below] "
     "to end"),
    # crossings
    ("4 sc, (2 FPtr 2 rows below round posts 3 and 4, 2 FPtr 2 rows below round posts 1 and 2 in front), "
     "4 sc",
     ((12, 1),),
     "4 sc, skip 2 posts, FPtr round each of the next 2 posts 2 rows below, working in front of these FPtr "
     "round the 2 skipped, leaving the 4 sts of the row below unworked, 4 sc"),
    ("(dc in st 2, dc in st 1 behind) across", THREE,
     "[skip next st, dc in next st, working behind this dc in the skipped st] to end"),
    ("(FPdc round post 3, 2 FPdc round posts 1 and 2 behind) across", ((3, 1), (6, 1)),
     "[skip 2 posts, FPdc round next post, working behind this FPdc round the 2 skipped, leaving the 3 sts "
     "of the row below unworked] to end"),
    ("4 sc, (2 FPtr 2 rows below round posts 4 and 5, sc, 2 FPtr 2 rows below round posts 1 and 2 in "
     "front), 4 sc",
     ((13, 1),),
     "4 sc, over next 5 sts (FPtr round the posts of 4th and 5th sts 2 rows below, sc in 3rd st, working in "
     "front of these FPtr round the posts of 1st and 2nd sts 2 rows below, leaving the other 4 sts "
     "of the row "
     "below unworked), 4 sc"),
    ("(sk, dc in st 3, ch, dc in st 1 in front) across", ((3, 1), (6, 1)),
     "[over next 3 sts (skip 2nd st, dc in 3rd st, ch 1, working in front of these dc in 1st st)] "
     "to end"),
    ("(sk, surface FPtr 2 rows below round post 3, sc, ch, surface FPtr 2 rows below round post 1 "
     "in front, sc) across", ((3, 1),),
     "over next 3 sts (skip 1st st, FPtr round the post of 3rd st 2 rows below, sc "
     "in 2nd st, "
     "ch 1, working in front of these FPtr round the post of 1st st 2 rows below, "
     "sc in 3rd st)"),
    # several in one, spaces
    ("(sc, (2 dc, ch, 2 dc) in next st, sk 2) across", ((8, 1),),
     "[sc, (2 dc, ch 1, 2 dc) in next st, skip 2 sts] to end"),
    ("sc, 3 dc in next st, dc in same st, sc across", ((9, 1),),
     "sc, 3 dc in next st, dc in same st, sc in each st to end"),
    ("sc, 3 dc in ch-2 sp, sc", ((4, 1),), "sc, 3 dc in next ch-2 sp, sc"),
]  # fmt: skip


@pytest.mark.parametrize(("row", "sizes", "words"), ROWS, ids=[row for row, _, _ in ROWS])
def test_a_row(row: str, sizes: tuple[tuple[int, int], ...], words: str) -> None:
    chart = chart_of([row])
    first = words_of(chart, [(stitches, 1) for stitches, _ in sizes]).lines[0]
    assert first.work == f"{words}; turn"


def test_a_row_of_many_kinds_in_uk_terms() -> None:
    chart = chart_of(
        ["edc, (sk 2, 5-dc sh, sk, V-st, sl st flo, dc3tog, 2 FPtr) across, sk, FPhdc 2 rows below"]
    )
    (line, *_) = words_of(chart, [(14, 1), (25, 1)], Terms.UK).lines
    assert line.work == (
        "extr, [miss 2 sts, 5-tr sh, miss next st, V-st, ss flo, tr3tog, 2 FPdtr] to last 2 sts, "
        "miss next st, FPhtr round next post 2 rows below; turn"
    )


CABLE = chart_of(
    ["hdc, (2 FPdc, 2 hdc) across, hdc", "hdc across"], setup=["hdc across"] * 2, closing=["sc across"]
)


def test_a_piece_of_one_size() -> None:
    assert [line.text for line in words_of(CABLE, [(10, 4)]).lines] == [
        "Row 1 (RS): hdc in each st to end; turn. [10 sts]",
        "Row 2 (WS): hdc in each st to end; turn. [10 sts]",
        "Row 3 (RS): hdc, [2 FPdc, 2 hdc] to last st, hdc; turn. [10 sts]",
        "Row 4 (WS): hdc in each st to end; turn. [10 sts]",
        "Rep Rows 3-4 3 times more. [10 sts]",
        "Row 11 (RS), chart row 5: sc in each st to end. [10 sts]",
    ]


def test_a_piece_of_three_sizes_in_uk_terms() -> None:
    assert [line.text for line in words_of(CABLE, [(10, 4), (14, 5), (18, 5)], Terms.UK).lines] == [
        "Row 1 (RS): htr in each st to end; turn. [10 (14, 18) sts]",
        "Row 2 (WS): htr in each st to end; turn. [10 (14, 18) sts]",
        "Row 3 (RS): htr, [2 FPtr, 2 htr] to last st, htr; turn. [10 (14, 18) sts]",
        "Row 4 (WS): htr in each st to end; turn. [10 (14, 18) sts]",
        "Rep Rows 3-4 3 (4, 4) times more. [10 (14, 18) sts]",
        "Row 11 (13, 13) (RS), chart row 5: dc in each st to end. [10 (14, 18) sts]",
    ]


def test_a_repeat_of_an_odd_number_of_rows_changes_sides() -> None:
    chart = chart_of(["sc across"] * 3, closing=["hdc across"], first_side=Side.WRONG)
    lines = words_of(chart, [(8, 1), (8, 2), (8, 2)]).lines
    assert [line.text for line in lines[2:]] == [
        "Row 3 (WS): sc in each st to end; turn. [8 sts]",
        "Rep Rows 1-3 0 (1, 1) times more, RS and WS changing places each time. [8 sts]",
        "Row 4 (7, 7) (RS (WS, WS)), chart row 4: hdc in each st to end. [8 sts]",
    ]


def test_a_repeat_of_one_row_and_one_time_more() -> None:
    assert words_of(chart_of(["sc across"]), [(8, 2)]).lines[1].text == (
        "Rep Row 1 1 time more, RS and WS changing places each time. [8 sts]"
    )


def test_sizes_that_have_no_room_for_the_repeat_are_left_out_of_its_rows() -> None:
    chart = chart_of(["(sc, hdc) across", "sc across"], setup=["sc across"], closing=["dc across"])
    lines = words_of(chart, [(4, 0), (6, 1), (8, 1)]).lines
    assert [line.text for line in lines] == [
        "Row 1 (RS): sc in each st to end; turn. [4 (6, 8) sts]",
        "Sizes S2 and S3 only, row 2 (WS): [sc, hdc] to end; turn. [6 (8) sts]",
        "Sizes S2 and S3 only, row 3 (RS): sc in each st to end; turn. [6 (8) sts]",
        "Row 2 (4, 4) (WS), chart row 4: dc in each st to end. [4 (6, 8) sts]",
    ]


def test_colours_are_named_where_they_change() -> None:
    colours = {"A": "cream", "B": "rust"}
    chart = chart_of(
        [
            "with A, 2 sc, (with B, sc, with A, sc) across",
            "with B, (sc, hdc) across",
            "with A, sc across, with B, sc",
        ],
        colours=colours,
        carried=False,
    )
    words = words_of(chart, [(8, 1)])
    assert words.notes[0] == "Colours: A is cream and B is rust; cut the yarn at each change."
    assert [line.work for line in words.lines] == [
        "with A, 2 sc, [with B, sc, with A, sc] to end; turn",
        "with B, [sc, hdc] to end; turn",
        "with A, sc in each st to last st, with B, sc; turn",
    ]


def test_a_panel_that_loses_stitches_says_so_at_its_repeat() -> None:
    chart = chart_of(["sc2tog, sc across, sc2tog", "sc across"], adds=(0, -2, 0))
    assert [line.text for line in words_of(chart, [(14, 3), (18, 4)]).lines] == [
        "Row 1 (RS): sc2tog, sc in each st to last 2 sts, sc2tog; turn. [12 (16) sts]",
        "Row 2 (WS): sc in each st to end; turn. [12 (16) sts]",
        "Rep Rows 1-2 2 (3) times more, with 2 sts fewer each time. [8 (10) sts]",
    ]


def test_where_the_loss_changes_numbers_every_repeat_is_written_out() -> None:
    chart = chart_of(["sc2tog, sc across, sc2tog", "sc across, 2 hdc, sc across"], adds=(0, -2, 0))
    assert [line.text for line in words_of(chart, [(14, 1), (18, 2)]).lines] == [
        "Row 1 (RS): sc2tog, sc in each st to last 2 sts, sc2tog; turn. [12 (16) sts]",
        "Row 2 (WS): 5 (7) sc, 2 hdc, 5 (7) sc; turn. [12 (16) sts]",
        "Size S2 only, row 3 (RS): sc2tog, sc in each st to last 2 sts, sc2tog; turn. [14 sts]",
        "Size S2 only, row 4 (WS): 6 sc, 2 hdc, 6 sc; turn. [14 sts]",
    ]


def test_a_size_whose_stitches_do_not_fit_has_dashes_and_a_sentence() -> None:
    words = words_of(chart_of(["hdc, (2 FPdc, 2 hdc) across, hdc"], setup=["hdc across"]), [(10, 2), (11, 2)])
    assert words.notes[-1] == "The stitches of size S2 do not fit the chart: a dash stands for the number."
    assert words.lines[1].text == (
        "Row 2 (WS): hdc, [2 FPdc, 2 hdc] to last st, hdc; turn. [10 (\N{EN DASH}) sts]"
    )
    assert words.lines[2].text.startswith("Rep Row 2 1 time more")


def test_a_size_whose_rows_do_not_fit_has_dashes_for_what_depends_on_them() -> None:
    """44 rows are 2, 10 times 4, and 2 over."""
    chart = chart_of(["sc across"] * 4, setup=["hdc across"] * 2, closing=["dc across"])
    fits, misfits = ChartPiece(size="S1", stitches=6, rows=43), ChartPiece(size="S2", stitches=6, rows=44)
    one = words_of(chart, [(6, 10)])
    both = PieceWords(one.fabric, (fits, misfits), Terms.US)
    assert both.notes[-1] == "The rows of size S2 do not fit the chart: a dash stands for the number."
    assert [line.text for line in both.lines][-2:] == [
        "Rep Rows 3-6 9 (\N{EN DASH}) times more. [6 (\N{EN DASH}) sts]",
        "Row 43 (\N{EN DASH}) (RS (\N{EN DASH})), chart row 7: dc in each st to end. [6 (\N{EN DASH}) sts]",
    ]
    neither = PieceWords(one.fabric, (misfits,), Terms.US)
    assert [line.text for line in neither.lines][-2:] == [
        "Rep Rows 3-6 \N{EN DASH} times more. [\N{EN DASH} sts]",
        "Row \N{EN DASH} (\N{EN DASH}), chart row 7: dc in each st to end. [\N{EN DASH} sts]",
    ]


def test_a_size_that_has_no_such_piece_is_left_out() -> None:
    chart = chart_of(["sc across"], setup=["hdc across"])
    one = words_of(chart, [(6, 3)])
    both = PieceWords(one.fabric, (*one.pieces, ChartPiece(size="S2", stitches=0, rows=0)), Terms.US)
    assert [line.label for line in both.lines] == [
        "Size S1 only, row 1 (RS)",
        "Size S1 only, row 2 (WS)",
        "Rep Row 2",
    ]
    assert both.notes == one.notes


UNWORKED = "stands in place of one stitch of the row below: leave the stitch"
SURFACE = (
    "Work {} on the surface of the fabric, between the stitches beside it: it uses no stitch of the row "
    "below, so leave none unworked for it, and the next row passes over it. It stands up as a raised "
    "strand; strands are counted in the direction of work."
)
DEEP = (
    "The row below is the one worked last, 2 rows below is the one before it, and so on; there, take the "
    "stitch, post or strand in line with the next stitch."
)


@pytest.mark.parametrize(
    ("row", "notes"),
    [
        ("sc across", ()),
        ("(FPdc, sc) across", (f"Each post stitch {UNWORKED} behind it unworked.",)),
        ("(BPdc, sc) across", (f"Each post stitch {UNWORKED} in front of it unworked.",)),
        ("(FPdc, BPdc) across",
         (f"Each post stitch {UNWORKED} behind it unworked (for a back post stitch, that in front of it).",)),
        ("(sc, sc 2 rows below) across",
         (f"Each long stitch (worked into a row further down) {UNWORKED} behind it unworked.", DEEP)),
        ("(FPdc, sc 2 rows below) across",
         ("Each post stitch and each long stitch (worked into a row further down) "
          f"{UNWORKED} behind it unworked.", DEEP)),
        ("(FPdc2tog, 2 sc in next st) across",
         ("Each post stitch stands in place of as many stitches of the row below as it goes round or into: "
          "leave the stitches behind it unworked.",)),
        ("(sc, surface FPtr 2 rows below, sc) across", (SURFACE.format("every FPtr"), DEEP)),
        ("(sc, surface FPtr 2 rows below, surface dc 3 rows below, FPtr) across",
         (f"Each post stitch {UNWORKED} behind it unworked.",
          SURFACE.format("every dc and each st marked (on the surface)"), DEEP)),
        ("(sc, surface FPtr 2 rows below, FPdc) across",
         (f"Each post stitch {UNWORKED} behind it unworked.", SURFACE.format("every FPtr"), DEEP)),
    ],
)  # fmt: skip
def test_what_becomes_of_the_stitch_behind_is_told_once(row: str, notes: tuple[str, ...]) -> None:
    turn = "Turn with ch 2 at the end of each row; it does not count as a stitch."
    chart = chart_of([row, "sc across"], setup=["sc across"] * 2)
    assert words_of(chart, [(12, 2)], turning_chains=2).notes == (turn, *notes)


STRAND = "sl st blo, (sl st blo, (surface tr flo 3 rows below, sl st blo) x 2, sl st blo) x 2, sl st blo"
STRAIGHT = STRAND.replace("tr flo 3", "FPdc 2")
CROSSED = (
    "sl st blo, (sl st blo, surface FPtr 2 rows below round post 6, sl st blo, surface FPtr 2 rows "
    "below round "
    "post 7, 3 sl st blo, surface FPtr 2 rows below round post 2 in front, sl st blo, surface FPtr 2 "
    "rows below "
    "round post 3 in front, 2 sl st blo), sl st blo"
)


def test_strands_are_counted_among_those_that_can_be_gone_round() -> None:
    """Four strands lie over the 2nd, 3rd, 6th and 7th of 8 slip stitches, which have no posts."""
    plain = ["sl st blo across"] * 4
    chart = chart_of([STRAIGHT, "sl st blo across", CROSSED, "sl st blo across"],
                     setup=[*plain, STRAND, "sl st blo across"])  # fmt: skip
    straight, _, crossed, *_ = words_of(chart, [(10, 2)]).lines[6:]
    assert straight.work == (
        "sl st blo, [sl st blo, [FPdc round next raised strand 2 rows below, sl st "
        "blo] twice, "
        "sl st blo] twice, sl st blo; turn"
    )
    assert crossed.work == (
        "sl st blo, over next 8 sts (sl st blo in 1st st, "
        "FPtr round the 3rd of the 4 raised strands 2 rows below, sl st blo in 2nd st, "
        "FPtr round the 4th of the 4 raised strands 2 rows below, sl st blo in 3rd "
        "to 5th sts, "
        "working in front of these FPtr round the 1st of the 4 raised strands 2 rows below, "
        "sl st blo in 6th st, "
        "working in front of these FPtr round the 2nd of the 4 raised strands 2 rows below, "
        "sl st blo in 7th and 8th sts), sl st blo; turn"
    )


def test_a_strand_that_is_a_post_the_first_time() -> None:
    """Row 3 goes round half doubles; again, it goes round its own strand."""
    chart = chart_of(["4 hdc, surface FPtr 2 rows below, 5 hdc", "9 hdc"], setup=["9 hdc", "9 hdc"])
    assert words_of(chart, [(9, 2)]).lines[2].work == (
        "4 hdc, FPtr round next post or raised strand 2 rows below, 5 hdc; turn"
    )


def test_what_is_worked_into_each_stitch_counts_chains_where_there_are_some() -> None:
    chart = chart_of(["(sk, V-st, sk) across"], setup=["sc across"], closing=["sc across", "sc across"])
    assert [line.work for line in words_of(chart, [(9, 1)]).lines] == [
        "sc in each st to end; turn",
        "[skip next st, V-st, skip next st] to end; turn",
        "sc in each st and ch to end; turn",
        "sc in each st to end",
    ]
