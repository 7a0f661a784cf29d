"""The centre panel row by row, by its chart or as far as it is known: texts written by hand from counts."""

from __future__ import annotations

from pathlib import Path

from schematics.pattern.written import centre_panel
from tests.pattern.written.test_body import book, end, lines
from tests.specs_for_tests import SPEC


def test_a_panel_without_a_chart_is_told_as_far_as_it_is_known(tmp_path: Path) -> None:
    found = lines(centre_panel.section(book(tmp_path, SPEC)))
    assert found == [
        "Work flat in rows, back and forth, from the hem up, with a 6 mm (US J-10) hook. Ch 2 at the "
        "beginning of a row does not count as a st.",
        "Foundation: Ch 14.",
        "Rows 1 to 30 (34): Cables on half double crochet over 12 sts: [to be added: rows of the centre "
        "panel]",
        end("30 (34)"),
    ]


CHART = """\
    multiple: {of: 4, plus: 2}
    row_repeat: {rows: 2, setup: 1, closing: 1}
    chart:
      setup: [hdc across]
      repeat: ["hdc, (2 FPdc, 2 hdc) across, hdc", hdc across]
      closing: [hdc across]
"""
CABLE = "    stitch: cables on half double crochet\n"
POSTS = (
    "Each post stitch stands in place of one stitch of the row below: leave the stitch behind it unworked."
)


def test_a_charted_panel_in_two_sizes(tmp_path: Path) -> None:
    """30 and 34 rows are one, 14 and 16 pairs, and one; 14 and 18 stitches."""
    text = SPEC.replace(CABLE, CABLE + CHART)
    text = text.replace("{stitches: 12, rows: 30}", "{stitches: 14, rows: 30}")
    text = text.replace("{stitches: 12, rows: 34}", "{stitches: 18, rows: 34}")
    assert lines(centre_panel.section(book(tmp_path, text)))[1:] == [
        POSTS,
        "Foundation: Ch 16 (20).",
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch to end, turn. [14 (18) sts]",
        "Row 2 (WS): Ch 2, hdc, [2 FPdc, 2 hdc] to last st, hdc, turn.",
        "Row 3 (RS): Ch 2, hdc in each st to end, turn.",
        "Rows 4 to 29 (33): Rep Rows 2 and 3, 13 (15) times.",
        "Row 30 (34) (WS): Ch 2, hdc in each st to end, turn. [14 (18) sts]",
        end("30 (34)"),
    ]


def test_stitches_into_earlier_rows_say_what_they_leave_unworked(tmp_path: Path) -> None:
    text = SPEC.replace(CABLE, CABLE + CHART.replace("2 FPdc, 2 hdc", "2 FPdc 2 rows below, 2 hdc"))
    text = text.replace("setup: 1, closing: 1", "setup: 2, closing: 0").replace(
        "[hdc across]\n      repeat", "[hdc across, hdc across]\n      repeat"
    )
    text = text.replace("      closing: [hdc across]\n", "").replace(
        "{stitches: 12, rows:", "{stitches: 14, rows:"
    )
    found = lines(centre_panel.section(book(tmp_path, text)))
    assert found[1:3] == [
        POSTS,
        "The row below is the one worked last, 2 rows below is the one before it, and so on; there, take the "
        "stitch, post or strand in line with the next stitch.",
    ]
    assert found[6] == (
        "Row 3 (RS): Ch 2, hdc, [FPdc round each of next 2 posts 2 rows below, 2 hdc] to last st, hdc, turn."
    )
