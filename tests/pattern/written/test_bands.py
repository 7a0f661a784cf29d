"""Neck band and arm bands against text worked out by hand; edges and rows add up by arithmetic done here."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.crochet.fabric import Fabric, RowRule, Swatch
from schematics.crochet.terms import Terms
from schematics.document.document import Row, cell_words, plain
from schematics.pattern.book import Book
from schematics.pattern.written import arm_bands, neck_band
from schematics.pattern.written.ribbing import Ribbing
from tests.examples import covering, seeds
from tests.pattern.designs import design_of, dressed_spec
from tests.pattern.written.lake import FOLDED, ONE, THREE, book_of, text_of

NECK_OF_ONE = """\
## Neck band
Work the neck band sideways onto the 72 sts of the neck edge, with a 6 mm (US J-10) hook, two ribbing rows \
to every two edge sts. Hold the poncho with the right side facing you and the neck edge at the top. These \
are the edge sts, in the order they are worked:
| part of the neck edge | sts |
| --- | --- |
| neck edge of the body, from the centre back to seam B | 30 |
| top of the centre panel, from seam B to seam A | 12 |
| neck edge of the body, from seam A to the centre back | 30 |
| in all | 72 |
Join yarn in st 31 of the body's neck edge, counted from seam A, where the first is 1: this is the centre \
back, and the first edge st. Along the body work into the foundation chain, one edge st under each st of Row \
1; along the top of the panel work into the sts of its last row.
**Foundation:** Ch 7. Its far end is the outer edge of the band.
**Row 1 (RS):** Hdc in 2nd ch from hook and in each ch to end, sl st in each of first 2 edge sts, turn. [6 \
sts]
**Row 2 (WS):** Skip the 2 sl sts, hdc blo in each st to end, turn.
**Row 3 (RS):** Ch 1, hdc blo in each st to end, sl st in each of next 2 edge sts, turn.
**Rows 4 to 71:** Rep Rows 2 and 3, 34 times.
**Row 72 (WS):** As Row 2. Every edge st has its sl st. [6 sts]
**Close the ring:** With the RS facing you, lay the foundation chain in front of Row \
72, right sides together. From the outer edge to the poncho, sl st through the free loop of the next \
foundation ch and both loops of the next st of that row, 6 times in all. Fasten off."""
"""60 stitches at the neck, half of them 30; the panel's top has 12, so 72 in all: 1, then 2 x 35, then 1."""

ARMS_OF_THREE = """\
## Arm bands
Make two, with a 6 mm (US J-10) hook, one on the wearer's right and one on the wearer's left, alike but for \
where yarn is joined. Work each sideways, two ribbing rows to every two edge sts. Hold the poncho with the \
right side facing you and the hem edge at the top.
Join yarn at a marker: for the band on the wearer's right at the back one, in hem st 60 (66, 72), for that \
on the wearer's left at the front one, in hem st 136 (148, 160). Work towards the other marker of the run. \
Its 20 (22, 24) hem sts are the edge sts, the one where yarn is joined is the first. When the ring is \
closed, both markers meet.
**Foundation:** Ch 9 (9, 10). Its far end is the outer edge of the band.
**Row 1 (RS):** Hdc in 2nd ch from hook and in each ch to end, sl st in each of first 2 edge sts, turn. \
[8 (8, 9) sts]
**Row 2 (WS):** Skip the 2 sl sts, hdc blo in each st to end, turn.
**Row 3 (RS):** Ch 1, hdc blo in each st to end, sl st in each of next 2 edge sts, turn.
**Rows 4 to 19 (21, 23):** Rep Rows 2 and 3, 8 (9, 10) times.
**Row 20 (22, 24) (WS):** As Row 2. Every edge st has its sl st. [8 (8, 9) sts]
**Close the ring:** With the RS facing you, lay the foundation chain in front of Row \
20 (22, 24), right sides together. From the outer edge to the poncho, sl st through the free loop of \
the next foundation ch and both loops of the next st of that row, 8 (8, 9) times in all. Fasten off."""
"""From the front edges 40 (44, 48) sts, then runs of 20 (22, 24), of 176 (192, 208) at the hem."""

NECK_OF_FOLDED = """\
| part of the neck edge | sts |
| --- | --- |
| back neck, from the centre back to its corner on the wearer's left | 11 |
| row ends down the wearer's left side of the neck hole | 10 |
| front neck on the wearer's left, to seam B | 4 |
| top of the centre panel, from seam B to seam A | 15 |
| front neck on the wearer's right, from seam A | 4 |
| row ends up the wearer's right side of the neck hole | 10 |
| back neck, from its corner on the wearer's right to the centre back | 10 |
| in all | 64 |
Join yarn in st 11 of the back neck, counted from its corner on the wearer's right, where the first is 1: \
this is the centre back. The sts of the back neck are those left unworked between the shoulders, those of \
the front neck the bottoms of the chains made there, those of the panel's top the sts of its last row."""
"""21 sts at the neck, the middle one is the 11th; (21 - 13) / 2 chained at each front. 14 row ends at 10 rows
to 10 cm are 14 cm, at 14 sts to 10 cm 19.6 sts: with the 21 + 8 + 15 = 44 others the nearest even sum has 20.
"""


@pytest.mark.parametrize("number", seeds(range(12)))
def test_the_parts_of_a_neck_edge_add_up_in_random_designs(number: int) -> None:
    """As printed: the lines of the table to its last, in every size."""
    design = design_of(dressed_spec(number), number)
    section = neck_band.section(Book(design=design, results=evaluate(design), terms=Terms.US))
    table, *_ = section.tables
    *parts, total = [
        [int(each) for each in re.findall(r"\d+", plain(cell_words(row[1])))] for row in table.rows
    ]
    sizes = len(design.sizes)
    assert [sum(spread(part, sizes)[index] for part in parts) for index in range(sizes)] == spread(
        total, sizes
    )


def spread(figures: list[int], sizes: int) -> list[int]:
    """A size string's figures in every size."""
    return figures * sizes if len(figures) == 1 else figures


def test_a_neck_band_in_one_size(tmp_path: Path) -> None:
    assert text_of(neck_band.section(book_of(tmp_path, ONE))) == NECK_OF_ONE


def test_arm_bands_in_three_sizes(tmp_path: Path) -> None:
    """The left run is stitches 176 - 60 + 1 to 176 - 41 + 1, and so on."""
    assert text_of(arm_bands.section(book_of(tmp_path, THREE))) == ARMS_OF_THREE


def test_the_neck_of_a_folded_body_is_picked_up_along_row_ends(tmp_path: Path) -> None:
    text = text_of(neck_band.section(book_of(tmp_path, FOLDED)))
    assert NECK_OF_FOLDED in text
    assert "| 4 | 7 | 10 | 2 to 3 | sts to each body row end: [1, 2] × 3, 1 |" in text
    assert "**Pick-up rnd (RS):** Sl st loosely in each st, and in the row ends as told" in text
    assert "[64 sts]" in text


def test_arm_openings_of_a_folded_body(tmp_path: Path) -> None:
    """Openings of 14 row ends, from the front hem 30 - 7 + 1 = 24 to 37; the right side facing, the band on
    the right goes from back to front, that on the left from front to back.
    """
    text = text_of(arm_bands.section(book_of(tmp_path, FOLDED)))
    assert (
        "Join yarn at a marker: for the band on the wearer's right at the back one, in row end 37, for "
        "that on the wearer's left at the front one, in row end 24. Work towards the other marker of the "
        "opening."
    ) in text
    schedule = "sts to each body row end: [1, 2, 1, 2, 1, 2, 1] × 2"
    assert f"| 4 | 14 | 20 | 2 to 3 | {schedule} |" in text
    assert 2 * (1 + 2 + 1 + 2 + 1 + 2 + 1) == 20


def ribbing(stitch: str, rows: list[int], depths: list[int], **fabric: object) -> str:
    swatch = Swatch(stitches=14, rows=14, width_cm=10, height_cm=10)
    made = Fabric(name="rib", stitch=stitch, swatch=swatch, **fabric)  # type: ignore[arg-type]
    band = Ribbing(
        fabric=made,
        mark="[to be added: rows of the neck band]",
        sizes=[str(number) for number in range(len(rows))],
        depths=depths,
        rows=rows,
    )
    return "\n".join(each.text if isinstance(each, Row) else plain(each) for each in band.blocks)


def number(pattern: str, text: str) -> int:
    match = re.search(pattern, text)
    assert match, pattern
    return int(match[1])


@pytest.mark.parametrize(("rows", "chains"), covering(range(6, 40, 2), (1, 2)))
def test_rows_and_edge_stitches_add_up(rows: int, chains: int) -> None:
    text = ribbing("half double crochet in the back loop", [rows], [5], turning_chains=chains)
    (told,) = re.findall(r"Rep Rows 2 and 3, (once|twice|(?:\d+) times)\.", text)
    times = {"once": 1, "twice": 2}.get(told) or int(told.split()[0])
    assert 3 + 2 * times + 1 == rows == number(r"Row (\d+) \(WS\): As Row 2\. Every edge st", text)
    assert number(r"Rows 4 (?:to|and) (\d+):", text) == 3 + 2 * times
    assert 2 + 2 + 2 * times == rows, "two sl sts in Row 1, in Row 3 and in every repeat"
    assert number(r"Ch (\d+)\.", text) - (number(r"Hdc in (\d+)", text) - 1) == 5
    assert f"Row 3 (RS): Ch {chains}, hdc blo" in text


def test_sizes_of_few_rows_leave_out_what_they_do_not_work() -> None:
    """2, 4 and 8 rows: the first works Rows 1 and 2, the second no repeat, the third Rows 2 and 3 twice "
    "more."""
    lines = ribbing("sc blo", [2, 4, 8], [3, 3, 4]).splitlines()
    assert [line.partition(": ")[0] for line in lines] == [
        "Foundation",
        "Row 1 (RS)",
        "Sizes 1 and 2 only, Row 2 (WS)",
        "Sizes 1 and 2 only, Row 3 (RS)",
        "Size 2 only, Rows 4 to 7",
        "Row 2 (4, 8) (WS)",
        "Close the ring",
    ]
    assert lines[4].endswith("Rep Rows 2 and 3, twice.")


def test_a_fabric_without_turning_chain_begins_rows_without_chains() -> None:
    text = ribbing("slip stitch in the back loop", [8], [6], turning_chains=0)
    assert "Foundation: Ch 6." in text
    assert "Row 1 (RS): Sl st in 1st ch from hook" in text
    assert "Row 3 (RS): Sl st blo in each st" in text


def test_a_guessed_turning_chain_is_marked_where_it_is_worked() -> None:
    text = ribbing("sc blo", [8], [6], turning_chains_guessed=True)
    assert "Ch 7 (guessed, not measured)." in text
    assert "Row 3 (RS): Ch 1 (guessed, not measured), sc blo" in text


def test_ribbing_whose_rows_nobody_can_tell_is_marked() -> None:
    text = ribbing("brioche ribs", [8], [6])
    assert "Row 2 (WS): Skip the 2 sl sts, brioche ribs [to be added: rows of the neck band] in" in text


def test_a_band_with_a_chart_is_told_from_it(tmp_path: Path) -> None:
    """20 rows in repeats of two, so 9 times more; 8 stitches."""
    charted = ONE.replace(
        "    stretch: {across: 0.2, along: 0.6}\n",
        "    stretch: {across: 0.2, along: 0.6}\n    multiple: {of: 2}\n    row_repeat: {rows: 2}\n"
        "    chart:\n      repeat:\n        - hdc blo across\n        - (hdc blo, sl st blo) across\n",
    )
    text = text_of(arm_bands.section(book_of(tmp_path, charted)))
    *_, told = text.partition("**Foundation:** Ch 9. ")
    assert told.startswith(
        "Its far end is the outer edge of the band.\n"
        "Work the rows below, joined to the edge like this. At the end of Row 1, before you turn, sl st in "
        "each of first 2 edge sts; at the end of each odd row after it, sl st in each of next 2 edge sts. "
        "At the beginning of each even row skip the 2 sl sts in place of the ch 1. After the last row every "
        "edge st has its sl st.\n"
        "**Row 1 (RS):** Hdc in 2nd ch from hook and in each ch to end, turn. [8 sts]\n"
    )
    assert "**Rows 3 to 20:** Rep Rows 1 and 2" in told
    assert "9 times" in told
    assert RowRule(repeat=2).repeats(20) == 1 + 9
