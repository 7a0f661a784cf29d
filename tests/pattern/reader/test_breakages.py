"""A text broken on purpose, in one place at a time: the reader finds each."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from schematics.crochet.terms import Terms
from tests.examples import seeds
from tests.pattern.reader.complaint import CannotWorkError
from tests.pattern.reader.expected import faults
from tests.pattern.reader.maker import make
from tests.pattern.reader.measures import wrong_measures
from tests.pattern.reader.patterns import demo
from tests.pattern.reader.yarn_bought import wrong_materials

Break = Callable[[str], str]


def off(form: str, by: int = 1) -> Break:
    """The number in the first match of the form, which is its group, off by so many."""

    def broken(text: str) -> str:
        match = re.search(form, text, re.DOTALL)
        assert match is not None, form
        return f"{text[: match.start(1)]}{int(match[1]) + by}{text[match.end(1) :]}"

    return broken


def other(form: str, words: str) -> Break:
    """The first match of the form with other words."""

    def broken(text: str) -> str:
        assert re.search(form, text, re.DOTALL), form
        return re.sub(form, words, text, count=1, flags=re.DOTALL)

    return broken


def all_of(*breaks: Break) -> Break:
    def broken(text: str) -> str:
        for each in breaks:
            text = each(text)
        return text

    return broken


def within(heading: str, change: Break) -> Break:
    """The change made in the part of that heading."""

    def broken(text: str) -> str:
        before, mark, rest = text.partition(f"\n## {heading}\n")
        own, after, others = rest.partition("\n## ")
        return f"{before}{mark}{change(own)}{after}{others}"

    return broken


TIDEPOOL: dict[str, Break] = {
    # the body
    "a chain too short": within("Body", off(r"Ch (\d+)", -1)),
    "a count off": within("Body", off(r"\[(\d+) \(")),
    "a stitch too many in the brackets": within("Body", off(r"\[(\d+) \(2[^]]+inc\]")),
    "a wrong repeat": within("Body", off(r"inc\] (\d+) times")),
    "the last increase row off by one": within("Body", off(r"Rows 5 to (\d+)")),
    "an increase row too many": within("Body", off(r"Rows 5 to (\d+)", 2)),
    "increases further apart": other("in every 2nd row", "in every 3rd row"),
    "increases of other stitches": off(r"as told below, (\d+) sts"),
    "brackets that grow too slowly": off(r"with (2) more hdc in each bracket", -1),
    "ends that grow too fast": off(r"and (1) more at each end"),
    "rows of a rule that are a row late": other(r"Rows 6, 10, 14 and", "Rows 7, 11, 15 and"),
    "a row more at the hem": within("Body", other(r"Row 21 \(27\)", "Rows 21 (27) and 22 (28)")),
    "a body that ends a row early": within("Body", off(r"end of Row (\d+)", -1)),
    "an unturned row": other(r"(Row 3 \(RS\):\*\* Ch 2, hdc in each st to end), turn", r"\1"),
    "a side that does not face": other(r"Row 4 \(WS\)", "Row 4 (RS)"),
    "a row left out": within("Body", other(r"\*\*Row 3 [^\n]+\n", "")),
    "a row told twice": other(r"(\*\*Row 3 [^\n]+\n\n)", r"\1\1"),
    "no turning chain": other(r"Row 3 \(RS\):\*\* Ch 2, hdc", "Row 3 (RS):** Hdc"),
    "a size left out of a size string": within("Body", other(r"Ch 36 \(38, ", "Ch 36 (")),
    # the panel
    "a panel repeat too many": off(r"Rep Rows 3 to 6,? (\d+)"),
    "a panel row more": within("Centre panel", off(r"Rows 7 to (\d+)")),
    "a repeat that does not come out": other(r"2 hdc\] to last st, hdc", "2 hdc] to last 2 sts, hdc"),
    "a stitch too many in a repeat": other(r"\[2 FPdc, 2 hdc\]", "[2 FPdc, 3 hdc]"),
    "a stitch that is not explained": other(r"\n\| hdc \| half[^\n]+", ""),
    "a post stitch in a chain": other(
        r"(## Centre panel\n.+?Row 1 \(RS\):\*\*) Hdc in 3rd ch from hook and in each ch to end",
        r"\1 Take each ch for a st, beginning in 3rd ch from hook: FPdc round each post across",
    ),
    # the seams
    "a schedule that misses rows": off(r"\[1, 2, 1\] × (7)", -1),
    "a schedule that is a row short": other(r"\[1, 2, 1\] × 7 [^|]+\|", "[1, 2, 1] × 6, 1, 1, 1 |"),
    "a seam of other rows": off(r"\n\| all \| (\d+) \([^|]+\| 28"),
    "a ratio that is not that of the rows": other(r"\| 3 to 4 \|", "| 4 to 5 |"),
    "a quarter that does not meet": off(r"\| half way \| (\d+)"),
    # the markers
    "a marker outside the edge": off(r"wearer's left, front \| (\d+)", 100),
    "markers in the wrong order": off(r"wearer's right, front \| (\d+)", 14),
    "a marker a stitch off": off(r"wearer's left, back \| (\d+)", -1),
    "a check that does not add up": off(r"Check, from seam A to seam B: (\d+)"),
    "another hem": off(r"beside seam B is (\d+)"),
    # the bands
    "a neck edge of other stitches": off(r"from seam B to seam A \| (\d+)"),
    "a centre back a stitch off": off(r"Join yarn in st (\d+)"),
    "a band too short": all_of(
        within("Neck band", off(r"Rows 4 to (\d+)", -2)),
        within("Neck band", off(r"Rep Rows 2 and 3, (\d+)", -1)),
        within("Neck band", off(r"\*\*Row (44)", -2)),
        within("Neck band", off(r"in front of Row (44)", -2)),
    ),
    "a band repeat too many": within("Neck band", off(r"Rep Rows 2 and 3, (\d+)")),
    "three edge stitches a row": other(r"next 2 edge sts", "next 3 edge sts"),
    "joins not passed over": other(r"Skip the 2 sl sts, sc blo in", "Sc blo in"),
    "a band row that is not turned": other(r"next 2 edge sts, turn", "next 2 edge sts"),
    "a band chain too long": within("Neck band", off(r"Ch (\d+)")),
    "a ring closed a stitch short": within("Neck band", off(r"of that row, (\d+)", -1)),
    "a ring folded with the other side facing": within(
        "Neck band", other("With the RS facing", "With the WS facing")
    ),
    "a ring that is not closed": within("Neck band", other(r"\*\*Close the ring[^\n]+\n", "")),
    "an arm band begun at the wrong marker": off(r"back one, in hem st (\d+)", -13),
    "an arm run of other stitches": off(r"Its (\d+)"),
    "too few markers to buy": off(r"(\d+) removable stitch markers", -1),
    # how the pieces are held, hooks and measurements
    "an increase of three": other(r"Inc \(increase\): 2 hdc", "Inc (increase): 3 hdc"),
    "a panel from the neck down": within("Centre panel", other("from the hem up", "from the neck down")),
    "a panel upside down": other(
        "at the hem, its last row at the neck", "at the neck, its last row at the hem"
    ),
    "seams at the wrong sides": other(
        "seam A is at its left, seam B at its right", "seam A is at its right, seam B at its left"
    ),
    "seams from the neck down": other("from the hem up to the neck", "from the neck down to the hem"),
    "yarn joined nowhere": other("Join yarn at the hem and fasten", "Fasten"),
    "a neck band on another edge": within("Neck band", other("neck edge at the top", "hem edge at the top")),
    "an arm band on another edge": within("Arm bands", other("hem edge at the top", "neck edge at the top")),
    "ribbing at another rate": other("two ribbing rows to every two", "two ribbing rows to every three"),
    "one arm band": other("Make two", "Make one"),
    "hem sts numbered the other way": other("round the wearer's right, the", "round the wearer's left, the"),
    "parts of the neck edge in another order": other(
        r"(\n\| neck edge of the body, from the centre back[^\n]+)(\n\| top of[^\n]+)", r"\2\1"
    ),
    "another hook than is listed": within("Neck band", other("8 mm", "9 mm")),
    "a hook that is not listed": other(r"\n- 8 mm[^\n]+", ""),
    "another gauge": other(r"9\.5 sts and 7 rows", "9 sts and 7 rows"),
    "another gauge of rows": other("11 rows to 10 cm", "12 rows to 10 cm"),
    "another hem in cm": off(r"body hem edge \| (\d+)"),
    "another depth of a band": off(r"neck band depth \| (\d+)"),
    # yarn to buy, and inches
    "a ball too few": off(r"\| balls \| (\d+)", -1),
    "a ball too many": off(r"\| balls \| (\d+)"),
    "grams of another size": other(r"\| g \| 442 \(544", "| g | 544 (442"),
    "other metres": off(r"\| m \| (\d+)", 5),
    "other yards": off(r"\| yd \| (\d+)", 3),
    "a ball of another weight": other(r"in balls of 100 g", "in balls of 50 g"),
    "a ball of another length": other(r"95 m \(104 yd\)", "105 m (104 yd)"),
    "another hem in inches": off(r"In inches.+?body hem edge \| (\d+)"),
    "another depth of a band in inches": other(r"(In inches.+?neck band depth \| 1) 5/8", r"\1 7/8"),
    "another head in inches": off(r"round the head \|[^|]+\| (\d+)"),
    # the sizes
    "sizes in another order": other(r"in the order 2 \(4, 6", "in the order 2 (6, 4"),
}

OTHERS: list[tuple[str, str, Break]] = [
    ("tidepool", "two sizes that change places", other(r"\[134 \(146, 166", "[146 (134, 166")),
    ("kelp", "another piece towards the maker", other(
        "the body is towards you along seam A, the panel",
        "the panel is towards you along seam A, the body")),
    ("kelp", "a seam with the other sides together", other("wrong sides together", "right sides together")),
    ("kelp", "another gauge to four inches", other("14 sts and 11 rows", "15 sts and 11 rows")),
    ("driftwood", "a side seam with another piece towards the maker", other(
        "the front is towards you along seam C, the back",
        "the back is towards you along seam C, the front")),
    ("kelp", "a st worked twice in a crossing", other(r"sl st blo in 2nd st", "sl st blo in 1st st")),
    ("kelp", "a post that is not there", other(r"\[FPdc round next raised strand", "[FPdc round next post")),
    ("kelp", "a strand where none lies", other(
        r"sl st blo, \[FPdc round next raised strand", "2 sl st blo, [FPdc round next raised strand")),
    ("kelp", "a strand that no row has made", other(r"the 4th of the 4", "the 5th of the 4")),
    ("kelp", "strands of another number", other(r"the 4th of the 4", "the 4th of the 5")),
    ("kelp", "two sts round one strand", other(r"the 4th of the 4", "the 3rd of the 4")),
    ("kelp", "sts on the surface that are not explained", other(r"Work every [^\n]+", "")),
    ("kelp", "a st on the surface that is not among them", other("Work every FPdc, FPtr", "Work every FPtr")),
    ("driftwood", "rows below that are not counted", other(r"The row below is the one [^\n]+", "")),
    ("driftwood", "post stitches that are not explained", other(r"Each post stitch [^\n]+", "")),
    ("driftwood", "a crossing that leaves another number", off(r"leaving the (\d+) sts")),
    ("driftwood", "a crossing that leaves only some", other(r"leaving the 4 sts", "leaving the other 4 sts")),
    ("kelp", "a row that is not below", all_of(
        off(r"(3) rows below", 6), within("Centre panel", off(r"(3) rows below", 6)))),
    ("kelp", "a long stitch that is not explained", other(r"\n\| tr 3 rows below[^\n]+", "")),
    ("kelp", "markers that do not add up", off(r"sts, marker, (\d+) sts")),
    ("kelp", "an increase row too many", within("Body", off(r"Rows 3 to (\d+)"))),
    ("kelp", "a marker too few to go to", other(r"\] 4 times, hdc", "] 5 times, hdc")),
    ("saltmarsh", "a repeat that ends with an even row", within("Body", off(r"Rows 5 to (\d+)"))),
    ("saltmarsh", "a repeat of other rows", other(r"Rep Rows 4 to 6", "Rep Rows 4 and 5")),
    ("driftwood", "a second shoulder that begins too late", off(r"skip the next (\d+)")),
    ("driftwood", "a first shoulder too wide", off(r"in each of first (\d+)")),
    ("driftwood", "a neck chain of other stitches", off(r"\*\*Sizes 2 and 10[^\n]+\(RS\):\*\* Ch (\d+)")),
    ("driftwood", "a chain away from the neck edge", other(
        r"(Sizes )4, 6, 8, S and L( only, Row )37 \(39, 43, 53, 55\)( \(RS\):\*\* )Ch 7 \(8, 6, 7, 8\)",
        r"\g<1>2 and 10\g<2>31 (47)\3Ch 7 (6)")),
    ("driftwood", "more than the skipped stitches", other(r"round the 2 skipped", "round the 3 skipped")),
    ("driftwood", "a pick-up that misses a row end", other(r"\[1, 2, 1\] × 2", "1, 2, 1, 2, 2")),
    ("driftwood", "a marked row end of another row", off(r"front end of the opening \| [^|]+\| (\d+)")),
    ("driftwood", "a side seam too long", other(
        r"\| all \| 19 \(23,([^|]+)\| 19 \(", r"| all | 20 (23,\1| 20 (")),
]  # fmt: skip


def found(name: str, size: str, change: Break) -> str:
    """What the reader says of the changed text."""
    written = demo(name, Terms.US)
    text = change(written.markdown)
    assert text != written.markdown
    try:
        finished = make(text, size)
        return "; ".join(
            (
                *faults(finished, written.sizes[size]),
                *wrong_measures(text, size, finished),
                *wrong_materials(text, size, finished, written.spec),
            )
        )
    except CannotWorkError as problem:
        return str(problem)


@pytest.mark.slow
@pytest.mark.parametrize("what", seeds([*TIDEPOOL], step=3))
def test_a_break_in_tidepool_is_found(what: str) -> None:
    assert found("tidepool", "2", TIDEPOOL[what])


@pytest.mark.slow
@pytest.mark.parametrize(("name", "what", "change"), seeds(OTHERS, step=3))
def test_a_break_is_found(name: str, what: str, change: Break) -> None:
    assert found(name, "2", change)


@pytest.mark.parametrize(
    ("change", "complaint"),
    [
        (TIDEPOOL["a wrong repeat"], "Body, Row 2: after 34 sts the row below has none left to work into"),
        (TIDEPOOL["an unturned row"], "Body, Row 4: the work was not turned, the yarn is at the other end"),
        (TIDEPOOL["a row left out"], "Body, Row 4: Row 2 is the last that is done"),
        (
            TIDEPOOL["a schedule that misses rows"],
            "Seams A and B: body row ends that the schedule has: the text says 18, in hand are 21",
        ),
        (
            TIDEPOOL["a band too short"],
            "Neck band, Row 42: edge sts that have their sl st: the text says 44, in hand are 42",
        ),
        (
            TIDEPOOL["a marker outside the edge"],
            "Markers: [27, 40, 95, 208] are not in order inside the 134 sts of the hem",
        ),
    ],
)
def test_a_complaint_says_where_and_what(change: Break, complaint: str) -> None:
    assert found("tidepool", "2", change) == complaint
