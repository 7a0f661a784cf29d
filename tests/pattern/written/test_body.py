"""The body row by row: texts written by hand from counts, of each construction, in one size and three."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.crochet.terms import Terms
from schematics.document.document import Row, Section, plain
from schematics.pattern.book import Book
from schematics.pattern.written import body_piece
from tests.specs_for_tests import SPEC, read

HEAD = SPEC[: SPEC.index("sizes:\n")]
SIZE = """\
  "{name}":
    wearer: child/4
    body: {body}
    arms: {arms}
    panel: {{stitches: 12, rows: {rows}}}
    neck_band: {{stitches: 6}}
    arm_bands: {{stitches: 8}}
"""
HEM_ARMS = "{from_front: 8, stitches: 4}"


def spec(construction: str, *bodies: str, arms: str = HEM_ARMS, head: str = HEAD) -> str:
    """Sizes A, B and C with these bodies."""
    sizes = (
        SIZE.format(name=name, body=each, arms=arms, rows=12)
        for name, each in zip("ABC", bodies, strict=False)
    )
    return f"{head.replace('construction: flared', f'construction: {construction}')}sizes:\n{''.join(sizes)}"


def book(folder: Path, text: str) -> Book:
    design = read(folder, text)
    return Book(design=design, results=evaluate(design), terms=Terms.US)


def lines(section: Section) -> list[str]:
    """Every paragraph and row, and the headings within."""
    found: list[str] = []
    for part in section.with_parts():
        found.append(plain(part.heading))
        found += [
            each.text if isinstance(each, Row) else each
            for each in part.blocks
            if isinstance(each, Row | str)
        ]
    return found[1:]


def told(folder: Path, text: str) -> list[str]:
    return lines(body_piece.section(book(folder, text)))


FLAT = (
    "Work flat in rows, back and forth, from the neck down, with a 6 mm (US J-10) hook. In Row 1 the RS "
    "faces you. Ch 2 at the beginning of a row does not count as a st. Inc (increase): 2 hdc in one st."
)
NOUGHT = "Where the figure for your size is 0, work nothing there and go on with what follows."
EVEN = "Ch 2, hdc in each st to end, turn."


def end(last: str) -> str:
    return f"Fasten off at the end of Row {last} instead of turning."


REGULAR = "{{neck: {0}, hem: {1}, rows: {2}, increase_every: {3}, increase_until: {4}}}"


def test_regular_increases_in_one_size(tmp_path: Path) -> None:
    """30 is six fives, then 36 six sixes, of which half a bracket, 2 and 3, is at the ends."""
    assert told(tmp_path, spec("flared", REGULAR.format(30, 54, 12, 2, 8))) == [
        FLAT,
        "Foundation: Ch 32.",
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch to end, turn. [30 sts]",
        "Row 2 (WS): Ch 2, [4 hdc, inc] 6 times, turn. [36 sts]",
        f"Row 3 (RS): {EVEN}",
        "Row 4 (WS): Ch 2, 2 hdc, inc, [5 hdc, inc] 5 times, 3 hdc, turn. [42 sts]",
        "Rows 5 to 8: Increase in every 2nd row as told below, 6 sts each time; all other rows are as Row "
        "3. [54 sts]",
        "Row 6: As Row 2, with 2 more hdc in each bracket each time.",
        "Row 8: As Row 4, with 2 more hdc in each bracket and 1 more at each end each time.",
        f"Rows 9 to 12: {EVEN} [54 sts]",
        end("12"),
    ]


def test_regular_increases_in_three_sizes(tmp_path: Path) -> None:
    """32 is six fives and 2 over, one at each end; 35 is seven fives. The third size has no rows left."""
    bodies = [
        REGULAR.format(*counts) for counts in ((30, 54, 12, 2, 8), (32, 62, 13, 2, 10), (35, 77, 12, 2, 12))
    ]
    assert told(tmp_path, spec("flared", *bodies)) == [
        FLAT,
        NOUGHT,
        "Foundation: Ch 32 (34, 37).",
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch to end, turn. [30 (32, 35) sts]",
        "Row 2 (WS): Ch 2, 0 (1, 0) hdc, [4 hdc, inc] 6 (6, 7) times, 0 (1, 0) hdc, turn. [36 (38, 42) sts]",
        f"Row 3 (RS): {EVEN}",
        "Row 4 (WS): Ch 2, 2 (3, 2) hdc, inc, [5 hdc, inc] 5 (5, 6) times, 3 (4, 3) hdc, turn. [42 (44, "
        "49) sts]",
        "Rows 5 to 8 (10, 12): Increase in every 2nd row as told below, 6 (6, 7) sts each time; all other "
        "rows are as Row 3. [54 (62, 77) sts]",
        "Rows 6 and 10: As Row 2, with 2 more hdc in each bracket each time.",
        "Rows 8 and 12: As Row 4, with 2 more hdc in each bracket and 1 more at each end each time.",
        f"Sizes A and B only, Rows 9 (11) to 12 (13): {EVEN} [54 (62) sts]",
        end("12 (13, 12)"),
    ]


def test_regular_increases_on_every_row_and_on_every_third(tmp_path: Path) -> None:
    """On every row the second is begun at the other edge: 3 before and 2 after. There is no row between."""
    assert told(tmp_path, spec("flared", REGULAR.format(30, 48, 6, 1, 4)))[3:] == [
        "Row 2 (WS): Ch 2, [4 hdc, inc] 6 times, turn. [36 sts]",
        "Row 3 (RS): Ch 2, 3 hdc, inc, [5 hdc, inc] 5 times, 2 hdc, turn. [42 sts]",
        "Row 4: As Row 2, with 2 more hdc in each bracket each time. [48 sts]",
        f"Rows 5 and 6: {EVEN} [48 sts]",
        end("6"),
    ]
    assert told(tmp_path, spec("flared", REGULAR.format(30, 42, 6, 3, 5)))[3:] == [
        "Row 2 (WS): Ch 2, [4 hdc, inc] 6 times, turn. [36 sts]",
        f"Rows 3 and 4: {EVEN}",
        "Row 5 (RS): Ch 2, 3 hdc, inc, [5 hdc, inc] 5 times, 2 hdc, turn. [42 sts]",
        f"Row 6 (WS): {EVEN} [42 sts]",
        end("6"),
    ]


def test_exact_increases_in_one_size(tmp_path: Path) -> None:
    """10 increases on 3 rows are 3, 4 and 3. 20 is three sixes and 2 over, 23 four fives and 3, 27 nines."""
    assert told(tmp_path, spec("flared", "{neck: 20, hem: 30, rows: 4}")) == [
        FLAT,
        "Foundation: Ch 22.",
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch to end, turn. [20 sts]",
        "Row 2 (WS): Ch 2, 1 hdc, [5 hdc, inc] 3 times, 1 hdc, turn. [23 sts]",
        "Row 3 (RS): Ch 2, [4 hdc, inc] 4 times, 3 hdc, turn. [27 sts]",
        "Row 4 (WS): Ch 2, [8 hdc, inc] 3 times, turn. [30 sts]",
        end("4"),
    ]


def test_increases_in_lines_in_one_size(tmp_path: Path) -> None:
    """24 stitches, 4 lines: sections of 3, 6, 6, 6 and 3; 8 stitches more in rows 2, 4 and 6."""
    one = "{neck: 24, lines: 4, increase_rows: 3, rows: 9, increase_every: 2, increase_until: 6}"
    assert told(tmp_path, spec("mitred", one)) == [
        FLAT,
        "Foundation: Ch 26.",
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch to end, turn. [24 sts]",
        "Markers: Count along Row 1 and hang a marker between two sts wherever one is named: 3 sts, "
        "marker, 6 sts, "
        "marker, 6 sts, marker, 6 sts, marker, 3 sts. In every row move each marker straight up; in an "
        "increase row it comes between the two inc that are made at it. After the last increase row take the "
        "markers out.",
        "Row 2 (WS): Ch 2, [hdc in each st to 1 st before marker, inc in each of next 2 sts] 4 times, "
        "hdc in each "
        "st to end, turn. [32 sts]",
        f"Row 3 (RS): {EVEN}",
        "Rows 4 to 6: Rep Rows 2 and 3, ending with an increase row. [48 sts]",
        f"Rows 7 to 9: {EVEN} [48 sts]",
        end("9"),
    ]


def test_two_increase_rows_of_every_three_in_three_sizes(tmp_path: Path) -> None:
    """Rows 2, 3, 5, 6, 8, 9: 4, 5 and 6 of them end with rows 6, 8 and 9; one line parts the neck in "
    "halves."""
    bodies = [
        f"{{neck: {neck}, lines: 1, increase_rows: {number}, rows: 9, increase_every: 1.5, "
        f"increase_until: {until}}}"
        for neck, number, until in ((20, 4, 6), (22, 5, 8), (24, 6, 9))
    ]
    assert told(tmp_path, spec("mitred", *bodies, arms="{from_front: 2, stitches: 4}"))[2:] == [
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch to end, turn. [20 (22, 24) sts]",
        "Markers: Count along Row 1 and hang a marker between two sts wherever one is named: 10 (11, 12) "
        "sts, "
        "marker, 10 (11, 12) sts. In every row move each marker straight up; in an increase row it comes "
        "between the two inc that are made at it. After the last increase row take the markers out.",
        "Row 2 (WS): Ch 2, hdc in each st to 1 st before marker, inc in each of next 2 sts, hdc in each "
        "st to end, "
        "turn. [22 (24, 26) sts]",
        "Row 3 (RS): As Row 2. [24 (26, 28) sts]",
        f"Row 4 (WS): {EVEN}",
        "Rows 5 to 6 (8, 9): Rep Rows 2 to 4, ending with an increase row. [28 (32, 36) sts]",
        f"Size B only, Row 9 (RS): {EVEN} [32 sts]",
        f"Size A only, Rows 7 to 9: {EVEN} [28 sts]",
        end("9"),
    ]


def test_crowded_increases_are_mixed_along_the_row(tmp_path: Path) -> None:
    """19 increases in 30 stitches: 11 over, more than two brackets of 1.

    A gap of 1 runs round the ends, ten lie in the middle, and half of the eight others on either side.
    """
    found = told(tmp_path, spec("flared", "{neck: 30, hem: 49, rows: 2}"))
    assert found[3:] == [
        "Row 2 (WS): Ch 2, 1 hdc, inc, inc in each of next 4 sts, [1 hdc, inc] 10 times, inc in each of next "
        "4 sts, turn. [49 sts]",
        end("2"),
    ]


def test_a_row_that_cannot_be_worked_is_marked_and_not_told_as_an_even_one(tmp_path: Path) -> None:
    """Ten stitches take ten increases at most, not eleven."""
    found = told(
        tmp_path, spec("flared", "{neck: 10, hem: 21, rows: 2}", arms="{from_front: 2, stitches: 4}")
    )
    assert "[to be added: Row 2 of size A, 10 sts of which are too few for 11 increases]" in found


def test_irregular_lines_are_listed(tmp_path: Path) -> None:
    """Thirds of five rows end at 1.67, 3.33 and 5, fourths of six at 1.5, 3, 4.5 and 6: those rows, "
    "rounded."""
    bodies = [
        f"{{neck: 24, lines: 2, increase_rows: {number}, rows: {rows}}}" for number, rows in ((3, 6), (4, 7))
    ]
    section = body_piece.section(book(tmp_path, spec("mitred", *bodies)))
    assert lines(section)[4:-1] == [
        "Increase row: Ch 2, [hdc in each st to 1 st before marker, inc in each of next 2 sts] twice, "
        "hdc in each "
        "st to end, turn.",
        f"Even row: {EVEN}",
        "The rows in the table are increase rows; all others are even rows:",
    ]
    (table,) = section.tables
    assert table.header == ("size", "increase rows", "last row", "sts in it")
    assert table.rows == (("A", "2, 4 and 6", "6", "36"), ("B", "2, 4, 5 and 7", "7", "40"))


def test_exact_increases_in_three_sizes(tmp_path: Path) -> None:
    """20 is three sixes and 2 over, 24 three eights, 21 three sevens; then 23 is sevens and 2 over.

    In row 3 the increases lie half a bracket off those of row 2; size B has none there.
    """
    bodies = (
        "{neck: 20, hem: 26, rows: 3}",
        "{neck: 24, hem: 27, rows: 3, increase_every: 2}",
        "{neck: 21, hem: 30, rows: 4}",
    )
    assert told(tmp_path, spec("flared", *bodies))[1:] == [
        NOUGHT,
        "Foundation: Ch 22 (26, 23).",
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch to end, turn. [20 (24, 21) sts]",
        "Row 2 (WS): Ch 2, 1 (0, 0) hdc, [5 (7, 6) hdc, inc] 3 times, 1 (0, 0) hdc, turn. [23 (27, 24) sts]",
        "Sizes A and C only, Row 3 (RS): Ch 2, 4 hdc, inc, [6 (7) hdc, inc] twice, 4 (3) hdc, turn. [26 "
        "(27) sts]",
        f"Size B only, Row 3 (RS): {EVEN}",
        "Size C only, Row 4 (WS): Ch 2, [8 hdc, inc] 3 times, turn. [30 sts]",
        end("3 (3, 4)"),
    ]


FOLDED = (
    "{{width: 20, front_rows: {0}, back_rows: 10, neck: {1}, neck_front_rows: 2, neck_back_rows: {2}, "
    "slot: 4}}"
)
FOLDED_ARMS = "{rows: 4}"
MARKER = (
    "Marker: Hang one in the row end of Row 10 at the side edge, away from the neck. It is the last row of "
    "the back before the fold."
)
FLAT_FOLDED = (
    "Work flat in rows, back and forth, from the back hem up, over the shoulders and down the fronts, with a "
    "6 mm (US J-10) hook. "
    "In Row 1 the RS faces you. Ch 2 at the beginning of a row does not count as a st."
)


def test_a_folded_body_in_one_size(tmp_path: Path) -> None:
    """8 rows, 4 past the neck hole (even: the second shoulder ends at the neck), 8 down each front."""
    assert told(tmp_path, spec("folded", FOLDED.format(10, 8, 2), arms=FOLDED_ARMS)) == [
        FLAT_FOLDED,
        "Foundation: Ch 22.",
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch to end, turn. [20 sts]",
        f"Rows 2 to 8: {EVEN} [20 sts]",
        "First shoulder and front",
        "Row 9 (RS): Ch 2, hdc in each of first 6 sts, turn. Leave the other sts unworked. [6 sts]",
        f"Rows 10 to 12: {EVEN} [6 sts]",
        MARKER,
        "Row 13 (RS): Join a separate length of yarn with sl st in the st at the neck edge of Row 12, ch "
        "2, fasten "
        "off. With the working yarn: Ch 2, hdc in each st to the neck edge, hdc in each of 2 ch, turn. "
        "[8 sts]",
        f"Rows 14 to 20: {EVEN} [8 sts]",
        end("20"),
        "Second shoulder and front",
        "Row 9 (RS): With this side facing, skip the next 8 sts of Row 8 after the first shoulder, join "
        "yarn in "
        "next st. Ch 2, hdc in same st and in each st to end, turn. [6 sts]",
        f"Rows 10 to 12: {EVEN} [6 sts]",
        MARKER,
        "Row 13 (RS): Ch 4, hdc in 3rd ch from hook and in each ch to the neck edge, hdc in each st to "
        "end, turn. "
        "[8 sts]",
        f"Rows 14 to 20: {EVEN} [8 sts]",
        end("20"),
    ]


def test_a_folded_body_in_three_sizes(tmp_path: Path) -> None:
    """The second size has 3 rows past the hole, so the row that takes in the chain begins at the other "
    "end."""
    bodies = [FOLDED.format(*counts) for counts in ((10, 8, 2), (11, 10, 1), (12, 4, 2))]
    found = told(tmp_path, spec("folded", *bodies, arms=FOLDED_ARMS))
    assert found[3:11] == [
        f"Rows 2 to 8 (9, 8): {EVEN} [20 sts]",
        "First shoulder and front",
        "Row 9 (10, 9), RS (WS, RS): Ch 2, hdc in each of first 6 (5, 8) sts, turn. Leave the other sts "
        "unworked. [6 (5, 8) sts]",
        f"Rows 10 (11, 10) to 12: {EVEN} [6 (5, 8) sts]",
        MARKER,
        "Size B only, Row 13 (RS): Ch 5, hdc in 3rd ch from hook and in each ch to the neck edge, hdc in "
        "each st to "
        "end, turn. [8 sts]",
        "Size A only, Row 13 (RS): Join a separate length of yarn with sl st in the st at the neck edge "
        "of Row 12, "
        "ch 2, fasten off. With the working yarn: Ch 2, hdc in each st to the neck edge, hdc in each of "
        "2 ch, turn. "
        "[8 sts]",
        f"Size C only, Row 13 (RS): {EVEN} [8 sts]",
    ]
    assert found[11] == f"Rows 14 to 20 (21, 22): {EVEN} [8 sts]"


EDGING = """\
borders:
  edging:
    at: hem
    stitch: shells
    rows: 4
    multiple: {of: 1}
    row_repeat: {rows: 2, setup: 1, closing: 1}
    chart: {setup: [sc across], repeat: [dc across, sc across], closing: [sc across]}
"""


@pytest.mark.parametrize("rows", [12, 13])
def test_an_edging_has_the_bodys_row_numbers_and_the_body_is_begun_so_that_it_faces_right(
    rows: int, tmp_path: Path
) -> None:
    text = spec("flared", REGULAR.format(30, 54, rows, 2, 8), head=HEAD + EDGING)
    first = rows - 3
    begun, other = ("WS", "RS") if first % 2 == 0 else ("RS", "WS")
    found = told(tmp_path, text)
    assert f"In Row 1 the {begun} faces you." in found[0]
    assert found[3].startswith(f"Row 2 ({other}): ")
    assert found[-5:] == [
        f"Rows {first} to {rows} are the edging, in shells:",
        f"Row {first} (RS): Ch 2, sc in each st to end, turn. [54 sts]",
        f"Row {first + 1} (WS): Ch 2, dc in each st to end, turn.",
        f"Rows {first + 2} and {first + 3}: Ch 2, sc in each st to end, turn. [54 sts]",
        end(str(rows)),
    ]
