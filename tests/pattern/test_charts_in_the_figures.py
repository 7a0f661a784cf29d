"""Charts in the figures of a pattern: every row, every special stitch once, in both terms."""

from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.crochet.terms import Terms
from schematics.document.writers import file_content
from schematics.pattern import figures
from schematics.reading.problems import SpecError
from tests.pattern.reading import Page, read_page
from tests.specs_for_tests import SPEC, read

OWN = """\
    multiple: {of: 4, plus: 4}
    row_repeat: {rows: 2, setup: 2}
    stitches:
      knob:
        words: knob
        worked: "work 3 dc in the same stitch, then sc2tog over the first and the last of them"
        symbol: "stem, cap, 2 bars"
        uk: {abbreviation: knb, words: knob}
    chart:
      setup: [hdc across, hdc across]
      repeat:
        - hdc, (sk, 5-dc pc, ch, 2 FPdc) across, 3 hdc
        - hdc, (3 hdc, knob) across, 3 hdc
"""
CHARTED = SPEC.replace("    turning_chains: 2\n  ribbing:", f"    turning_chains: 2\n{OWN}  ribbing:")
TAPERED = SPEC.replace(
    "    turning_chains: 2\n  ribbing:",
    "    turning_chains: 2\n"
    "    row_repeat: {rows: 2}\n    multiple: {of: 1}\n"
    "    chart: {adds: {repeat: -1}, repeat: ['hdc2tog, hdc across', hdc across]}\n"
    "  ribbing:",
)


def page_of(folder: Path, text: str, terms: Terms) -> Page:
    design = read(folder, text)
    return read_page(file_content(figures(design, evaluate(design), terms), "md").decode())


def test_rows_and_special_stitches_in_us_terms(tmp_path: Path) -> None:
    page = page_of(tmp_path, CHARTED, Terms.US)
    rows = page.table("Pattern repeats", "centre panel, row by row")
    assert [(row["row"], row["work"], row["stitches"]) for row in rows] == [
        ("Row 1 (RS)", "hdc in each st to end; turn", "12"),
        ("Row 2 (WS)", "hdc in each st to end; turn", "12"),
        (
            "Row 3 (RS)",
            "hdc, [skip next st, 5-dc pc, ch 1, 2 FPdc] to last 3 sts, 3 hdc; turn",
            "12",
        ),
        ("Row 4 (WS)", "hdc, [3 hdc, knob] to last 3 sts, 3 hdc; turn", "12"),
        ("Rep Rows 3-4", "13 (15) times more", "12"),
    ]
    special = page.table("Abbreviations", "Special stitches")
    assert [row["stitch"] for row in special] == ["FPdc", "5-dc pc", "knob"]
    assert special[-1]["how it is worked"] == (
        "Work 3 dc in the same stitch, then sc2tog over the first and the last of them."
    )


def with_fourth_row(row: str) -> str:
    return CHARTED.replace("(3 hdc, knob) across", f"({row}) across")


def special_stitches(folder: Path, text: str, terms: Terms = Terms.US) -> dict[str, str]:
    table = page_of(folder, text, terms).table("Abbreviations", "Special stitches")
    return {row["stitch"]: row["how it is worked"] for row in table}


@pytest.mark.slow
def test_what_becomes_of_the_stitch_behind_is_part_of_a_definition(tmp_path: Path) -> None:
    special = special_stitches(tmp_path, with_fourth_row("3 hdc, hdc 2 rows below"))
    assert special["FPdc"].endswith("and out again; work dc; leave the stitch behind it unworked.")
    assert special["5-dc pc"].endswith("pull it through.")
    assert special["hdc 2 rows below"] == (
        "Work hdc into the stitch 2 rows below, its first loop pulled up to the height of the row in "
        "hand; leave "
        "the stitch behind it unworked."
    )
    assert "htr 2 rows below" in special_stitches(
        tmp_path, with_fourth_row("3 hdc, hdc 2 rows below"), Terms.UK
    )


def test_on_the_surface_none_is_left_unworked(tmp_path: Path) -> None:
    row = "hdc, surface FPtr 2 rows below, hdc, surface FPdc 2 rows below, 2 hdc"
    special = special_stitches(tmp_path, with_fourth_row(row))
    assert special["FPtr"].endswith(
        "work tr; it lies on the surface, where the post may be a raised strand: leave no stitch unworked."
    )
    assert special["FPdc"].endswith(
        "leave the stitch behind it unworked, but none where it lies on the surface."
    )


def test_the_same_in_uk_terms(tmp_path: Path) -> None:
    page = page_of(tmp_path, CHARTED, Terms.UK)
    rows = page.table("Pattern repeats", "centre panel, row by row")
    assert [row["work"] for row in rows][2:4] == [
        "htr, [miss next st, 5-tr pc, ch 1, 2 FPtr] to last 3 sts, 3 htr; turn",
        "htr, [3 htr, knb] to last 3 sts, 3 htr; turn",
    ]
    special = page.table("Abbreviations", "Special stitches")
    assert [row["stitch"] for row in special] == ["FPtr", "5-tr pc", "knb"]
    assert special[-1]["how it is worked"] == (
        "Work 3 tr in the same stitch, then dc2tog over the first and the last of them."
    )


def test_a_panel_that_tapers_is_told_at_foot_and_top(tmp_path: Path) -> None:
    """30 and 34 rows are 15 and 17 repeats, a stitch fewer each: of 24 at the foot 9 and 7 are left."""
    page = page_of(tmp_path, TAPERED.replace("stitches: 12, rows", "stitches: 24, rows"), Terms.US)
    for name, counts in (("panel width at the foot", ("24", "24")), ("panel width at the top", ("9", "7"))):
        told = page.size_strings("Finished measurements", "Finished measurements, laid flat", name, "count")
        assert tuple(told) == counts, name
    (again,) = [
        row
        for row in page.table("Pattern repeats", "centre panel, row by row")
        if row["row"].startswith("Rep")
    ]
    assert (again["work"], again["stitches"]) == ("14 (16) times more, with 1 st fewer each time", "9 (7)")


def test_a_panel_that_tapers_to_nothing_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SpecError) as caught:
        read(tmp_path, TAPERED)
    # 15 repeats take 15 stitches, of 12: 16 leave one.
    assert (
        "expected at least 16 stitches, since the panel's chart takes off 15 over its 30 rows, got 12"
        in str(caught.value)
    )
