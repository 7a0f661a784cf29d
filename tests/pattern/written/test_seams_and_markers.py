"""Seams and markers against text worked out by hand; schedules and marked rows add up."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet.spacing import join
from schematics.pattern.written import arm_markers, seaming
from schematics.pattern.written.schedules import in_turn, quarter_points, row_ends
from tests.pattern.written.lake import FOLDED, ONE, THREE, book_of, text_of

SEAMS_OF_THREE = """\
## Seams
Seam A joins the front edge of the body on the wearer's right to one side of the centre panel, seam B that \
on the wearer's left to the other. With the right side of the panel facing you and its Row 1 at the bottom, \
seam A is at its left, seam B at its right. Row 1 of the panel lies at the hem, its last row at the neck; \
panel and body are level at both.
Work each seam from the hem up to the neck in slip stitch, with the hook used for the body, right sides \
together. Join yarn at the hem, with the hem at your right, and fasten off at the neck. Held so, the panel \
is towards you along seam A, the body along seam B.
Every seam stitch goes through one row end of each edge. Work by the ratio and let the marked row ends meet; \
the exact order is told from the hem. Where one row end takes several of the other edge, it \
gets as many seam stitches, one with each of them.
### Seams A and B
| size | body row ends | panel row ends | ratio | exact order |
| --- | --- | --- | --- | --- |
| 4, 6 years | 30 (34) | 30 (34) | 1 to 1 | one to one |
| 8 | 38 | 40 | 1 to 1 | panel row ends to each body row end: \
[1 × 9, 2, 1 × 9] × 2 |
Before you begin, mark with scraps of yarn the row ends that meet at each quarter of the way:
| marker | body, row | panel, row |
| --- | --- | --- |
| a quarter from the hem | 23 (26, 29) | 8 (9, 11) |
| half way | 16 (18, 20) | 15 (17, 20) |
| a quarter from the top | 8 (9, 10) | 23 (26, 31) |"""
"""Quarters of 30 rows are 8, 15 and 23 row ends from the hem, of 34 rows 9, 17 and 26, of 38 rows 10, 19
and 29; the body's row there is 30 - 8 + 1 and so on. Of 40 panel rows the 10th body row takes two, and the
29th."""

MARKERS_OF_ONE = """\
## Markers for the arm bands
Each arm band is worked onto a run of hem sts, from one marker to another. Number the hem sts, those of the \
body's last row, with the right side facing you, from seam A round the wearer's right, the back and the \
wearer's left to seam B: the st beside seam A is 1, the st beside seam B is 176. Place four markers:
| marker | in hem st |
| --- | --- |
| wearer's right, front | 41 |
| wearer's right, back | 60 |
| wearer's left, back | 117 |
| wearer's left, front | 136 |
Check, from seam A to seam B: 40 sts, a run of 20 sts with both marked ones, 56 sts across the back, a run \
of 20 sts, 40 sts: 176 sts in all."""

MARKERS_OF_FOLDED = """\
| marker, on either side | in row end | which is that of body row |
| --- | --- | --- |
| front end of the opening | 24 | 39 |
| back end of the opening | 37 | 26 |
Check: 14 row ends in each opening with both marked ones, 7 of them before the shoulder fold and as many \
behind it; 23 row ends below it on the front, 25 on the back."""
"""30 rows at the front and 32 at the back; the body's row 33 is the first before the fold, 33 + 6 = 39."""

SIDE_SEAMS = """\
## Side seams
Fold the body at the shoulder fold. Seam C joins the front to the back on the wearer's right, seam D on the \
left.
Work each seam from the hem up to the arm band in slip stitch, with the hook used for the body, right sides \
together. Join yarn at the hem, with the hem at your right, and fasten off at the arm band. Held so, the \
front is towards you along seam C, the back along seam D.
"""


def test_front_seams_in_three_sizes(tmp_path: Path) -> None:
    assert text_of(seaming.front_seams(book_of(tmp_path, THREE))) == SEAMS_OF_THREE


def test_markers_in_one_size_add_up(tmp_path: Path) -> None:
    text = text_of(arm_markers.section(book_of(tmp_path, ONE)))
    assert text == MARKERS_OF_ONE
    *parts, edge = map(int, re.findall(r"(\d+) sts\b", text.partition("Check")[2]))
    assert sum(parts) == edge
    assert parts == parts[::-1], "both sides alike"


def test_markers_in_three_sizes_add_up(tmp_path: Path) -> None:
    text = text_of(arm_markers.section(book_of(tmp_path, THREE)))
    *parts, edge = (
        [int(number) for number in re.findall(r"\d+", each)]
        for each in re.findall(r"(\d+ \([\d, ]+\)) sts\b", text.partition("Check")[2])
    )
    assert list(map(sum, zip(*parts, strict=True))) == edge == [176, 192, 208]
    assert parts == parts[::-1], "both sides alike"


def test_openings_of_a_folded_body(tmp_path: Path) -> None:
    assert text_of(arm_markers.section(book_of(tmp_path, FOLDED))).endswith(MARKERS_OF_FOLDED)


def test_side_seams_of_a_folded_body(tmp_path: Path) -> None:
    """23 row ends are left of the front, 25 of the back: the 6th and the 18th from the hem take two."""
    text = text_of(seaming.side_seams(book_of(tmp_path, FOLDED)))
    assert text.startswith(SIDE_SEAMS)
    assert "| 4 | 23 | 25 | 8 to 9 | back row ends to each front row end: " in text
    assert "1 × 5, 2, 1 × 11, 2, 1 × 5 |" in text
    assert "| a quarter from the hem | 57 | 7 |" in text, "62 - 6 + 1 and 5 + 2"


def test_a_body_open_at_the_sides_or_sewn_only_in_front_has_no_side_seams(tmp_path: Path) -> None:
    assert seaming.side_seams(book_of(tmp_path, THREE)) is None
    assert (
        seaming.side_seams(book_of(tmp_path, FOLDED.replace("slot: 13", "slot: 13, side_seam: false")))
        is None
    )


@pytest.mark.parametrize(
    ("seam", "words"),
    [
        (
            "{stitch: mattress stitch}",
            "in mattress stitch, with the yarn needle, edge to edge, right sides up. Join yarn at the hem "
            "and fasten",
        ),
        (
            "{stitch: whip stitch}",
            "in whip stitch, with the yarn needle, [to be added: how the pieces lie for the seams].",
        ),
        (None, "up to the neck in [to be added: stitch of the seams]."),
    ],
)
def test_the_stitch_is_the_designers_or_marked(tmp_path: Path, seam: str | None, words: str) -> None:
    said = f"  seam: {seam}\n" if seam else ""
    text = ONE.replace("  seam: {stitch: slip stitch, sides: right sides together}\n", said)
    assert words in text_of(seaming.front_seams(book_of(tmp_path, text)))


@pytest.mark.parametrize("stitch", ["mattress stitch", "whip stitch", "slip stitch"])
def test_a_seam_that_is_sewn_with_a_needle_is_taught_once(tmp_path: Path, stitch: str) -> None:
    text = ONE.replace("{stitch: slip stitch, sides: right sides together}", f"{{stitch: {stitch}}}")
    lines = text_of(seaming.front_seams(book_of(tmp_path, text))).splitlines()
    told = [line for line in lines if "take the needle" in line]
    assert len(told) == (stitch != "slip stitch")
    assert all(line.startswith(stitch.capitalize()) for line in told)


counts = st.integers(1, 120)


def expanded(words: str) -> list[int]:
    """The numbers a schedule stands for: ``[2, 1] × 2, 3 × 2`` is 2, 1, 2, 1, 3, 3."""
    numbers: list[int] = []
    for bracket, times, one, again in re.findall(r"\[([^\]]+)\] × (\d+)|(\d+)(?: × (\d+))?", words):
        numbers += expanded(bracket) * int(times) if bracket else [int(one)] * int(again or 1)
    return numbers


@given(counts, counts)
def test_what_the_words_stand_for_adds_up_to_both_edges(first: int, second: int) -> None:
    words = in_turn(join(first, second), row_ends("body"), row_ends("panel"))
    few, many = min(first, second), max(first, second)
    if match := re.fullmatch(r"(\d+) \w+ row ends? to each \w+ row end", words):
        assert int(match[1]) * few == many
    elif words == "one to one":
        assert first == second
    else:
        many_of, few_of = ("body", "panel") if first > second else ("panel", "body")
        head, _, numbers = words.partition(": ")
        assert head == f"{many_of} row ends to each {few_of} row end"
        assert (sum(expanded(numbers)), len(expanded(numbers))) == (many, few)


@given(counts, counts)
def test_marked_row_ends_meet_in_the_schedule(first: int, second: int) -> None:
    """A marked one of the edge with more is the last of those that the marked one of the other takes."""
    how = join(first, second)
    points = [point for point in quarter_points(how) if point]
    assert len(points) == (3 if min(first, second) >= 4 else 0)
    for quarter, point in enumerate(points, start=1):
        few, many = sorted(point)
        assert sum(how.shares[:few]) == many
        assert abs(few - quarter * min(first, second) / 4) <= 0.5
