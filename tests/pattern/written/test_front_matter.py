"""What stands before and after the rows, against text worked out by hand; what is missing, against the "
"marks."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from schematics.crochet.terms import Terms
from schematics.design.missing import missing
from schematics.document.writers import file_content
from schematics.pattern.written import (
    abbreviations,
    about,
    finished,
    finishing,
    gauges,
    general_notes,
    materials,
    sizes,
    written_pattern,
)
from tests.pattern.written.lake import FOLDED, ONE, THREE, book_of, text_of
from tests.specs_for_tests import SPEC, read

ABOUT = """\
Children's sizes 4 (6 years, 8)
Designed by Ida Example
© 2024 Ida Example
Level: easy. US terms.
A crocheted poncho with a centre panel and ribbed bands at the neck and arms. The body is worked from the \
neck down, with increases spread evenly; it is open down the centre front."""

MEASURED = ONE.replace("wearer: child/4", "wearer: {head_girth: 53, chest_girth: 60, height: 118}")
SIZES = """\
## Sizes
One size: 4.
### To fit a body that measures
|  | cm | inches |
| --- | --- | --- |
| round the head | 53 | 20 7/8 |
| round the chest | 60 | 23 5/8 |
| height | 118 | 46 1/2 |"""
"""53 cm are 20.87 in, 60 cm 23.62 in and 118 cm 46.46 in, to the eighth: one child was measured."""

WEIGHED = THREE.replace("width: 10, height: 10}", "width: 10, height: 10, mass: 5}")
MATERIALS = """\
## Materials
Yarn: plain wool, 100 % wool, weight 4 Medium, in balls of 50 g (1.8 oz), 100 m (109 yd)."""
LISTS = """\
### Hooks, or the size that gives the gauge
- 6 mm (US J-10), for the body, centre panel, neck band and arm bands
### Notions
- 4 markers
- yarn needle"""

GAUGE = """\
## Gauge
Measured on a swatch that has been washed and dried as the poncho will be.
- Body: 14 sts and 10 rows to 10 cm, half double crochet
- Centre panel: 16 sts and 10 rows to 10 cm, cables on half double crochet
- Neck band and arm bands: 14 sts and 14 rows to 10 cm, half double crochet in the back loop"""

NOTES = """\
## Notes
- The body is worked from the neck down, with increases spread evenly; it is open down the centre front. \
The centre panel is worked from the hem up and joined between the body's front \
edges. The neck band and arm bands are ribbing, worked sideways onto the edges and closed to rings.
- Figures are given for size 4, those for the larger sizes in brackets, in the order 4 (6 years, 8); a \
single figure holds for all sizes.
- A number in square brackets at the end of a row is the number of sts it has.
- Chains at the beginning of a row, and those skipped at the beginning of Row 1, do not count as sts: the \
first st of a row goes into the first st of the row below. Sl sts that join a band to its edge are not \
counted either.
- A row end is where a row meets the edge of its piece; every row has one at either edge.
- Stitch names are in US terms throughout, in the drawings too.
- Wearer's right and left are those of the person who wears the poncho: with the right side of the body \
facing you and its neck at the top, the wearer's right is at your right. The pattern is written for \
right-handed makers, who work from right to left; left-handed makers work its mirror image and read right \
for left and left for right.
- The cables lean to the left."""


def test_what_stands_at_the_top(tmp_path: Path) -> None:
    assert text_of(about.section(book_of(tmp_path, THREE))) == ABOUT


def test_whom_a_size_fits(tmp_path: Path) -> None:
    assert text_of(sizes.section(book_of(tmp_path, MEASURED))) == SIZES


@pytest.mark.parametrize(
    ("wearers", "words"),
    [
        (("child/8", "woman/S"), "Children's sizes 4 (6 years), women's size 8"),
        (("child/4", "baby/18 mo"), "Babies' size 4, children's sizes 6 years (8)"),
        (("child/8", "{height: 120, head_girth: 53}"), ""),
    ],
)
def test_whose_sizes_they_are_is_said_where_tables_know_it(
    tmp_path: Path, wearers: tuple[str, str], words: str
) -> None:
    """Of a child of one's own nobody knows whose size it is."""
    book = book_of(tmp_path, THREE.replace(f"wearer: {wearers[0]}", f"wearer: {wearers[1]}"))
    said = text_of(about.section(book))
    assert not words or words not in text_of(sizes.section(book)), "said once"
    assert words in said.splitlines() if words else "children's" not in said.lower()


@pytest.mark.parametrize(("level", "taught"), [("basic", True), ("easy", True), ("intermediate", False)])
def test_basic_stitches_are_taught_where_the_level_is_a_beginners(
    tmp_path: Path, level: str, taught: bool
) -> None:
    book = book_of(tmp_path, ONE.replace("level: easy", f"level: {level}"))
    text = text_of(abbreviations.section(book, ["Ch 2, hdc in each st; sl st blo."]))
    assert ("Basic stitches" in text) is taught
    told = re.findall(r"^\| ([^|]+) \| [^|]*(?:hook|loop on)[^|]*\.", text, re.M)
    assert [name for name in told if name in ("ch", "hdc", "sl st", "sc")] == ["ch", "sl st", "hdc"] * taught


def test_the_spec_unit_comes_first_and_rows_of_tables_are_not_named(tmp_path: Path) -> None:
    text = text_of(sizes.section(book_of(tmp_path, THREE.replace("unit: cm", "unit: in"))))
    assert "|  | inches | cm |" in text
    assert "child/" not in text


def test_materials_in_three_sizes(tmp_path: Path) -> None:
    text = text_of(materials.section(book_of(tmp_path, WEIGHED)))
    assert text.startswith(MATERIALS)
    assert text.endswith(LISTS)


def test_amounts_agree_with_each_other(tmp_path: Path) -> None:
    """A ball of 50 g has 100 m; an ounce is 28.35 g, a yard 0.9144 m (1959 agreement)."""
    text = text_of(materials.section(book_of(tmp_path, WEIGHED)))
    told = {
        unit: [float(number) for number in re.findall(r"[\d.]+", figures)]
        for unit, figures in re.findall(r"^\| (balls|g|m|oz|yd) \| ([^|]+) \|$", text, re.M)
    }
    assert list(told) == ["balls", "g", "m", "oz", "yd"]
    for balls, grams, metres, ounces, yards in zip(*told.values(), strict=True):
        assert 0 <= balls * 50 - grams < 50
        assert metres == pytest.approx(2 * grams, abs=1.5)
        assert ounces == pytest.approx(grams / 28.35, abs=0.07)
        assert yards == pytest.approx(metres / 0.9144, abs=1.1)


def test_hooks_of_their_own_are_told_by_part(tmp_path: Path) -> None:
    own = ONE.replace("    turning_chains: 1\n", "    turning_chains: 1\n    hook: 5.5 mm\n")
    text = text_of(materials.section(book_of(tmp_path, own)))
    assert "6 mm (US J-10), for the body and centre panel" in text
    assert "5.5 mm (US I-9), for the neck band and arm bands" in text.replace("\\", "")


def test_gauge_to_10_cm(tmp_path: Path) -> None:
    assert text_of(gauges.section(book_of(tmp_path, THREE))) == GAUGE


def test_gauge_to_4_inches_in_an_inch_spec(tmp_path: Path) -> None:
    """14 stitches over 10 inches are 5.6 to 4."""
    text = text_of(gauges.section(book_of(tmp_path, THREE.replace("unit: cm", "unit: in"))))
    assert "5.6 sts and 4 rows to 4 in, half double crochet" in text.replace("\\", "")


def test_a_guessed_gauge_is_marked_there_and_where_it_is_used(tmp_path: Path) -> None:
    counted = "{stitches: 16, rows: 10, width: 10, height: 10"
    book = book_of(tmp_path, ONE.replace(counted, f"{counted}, guessed: true"))
    assert "Centre panel: 16 sts and 10 rows to 10 cm (guessed, not measured)" in text_of(
        gauges.section(book)
    )
    assert "Those of the centre panel follow from a gauge that is guessed" in text_of(finished.section(book))


def test_finished_measurements_carry_the_schematics_letters(tmp_path: Path) -> None:
    """60 stitches at 14 to 10 cm are 42.86 cm and 16.87 in; 12 at 16 to 10 cm 7.5 cm and 2.95 in.

    A and B are the seams of the panel, I and O no letters.
    """
    lines = text_of(finished.section(book_of(tmp_path, ONE))).splitlines()
    assert "| C | body neck edge | 43 | 16 3/4 |" in lines
    assert "| J | panel width | 7.5 | 3 |" in lines
    letters = [line.split(" | ")[0].removeprefix("| ") for line in lines[4:]]
    assert letters == list("CDEFGHJKLMNP")


@pytest.mark.parametrize(("spec", "seams"), [(ONE, "A and B"), (FOLDED, "A, B, C and D")])
def test_finished_measurements_say_which_letters_are_seams(tmp_path: Path, spec: str, seams: str) -> None:
    """Two of the panel, and of a body over the shoulders one down each side."""
    told = text_of(finished.section(book_of(tmp_path, spec)))
    assert f"The letters are those of the schematic; {seams} are the seams." in told


def test_notes_in_three_sizes(tmp_path: Path) -> None:
    assert text_of(general_notes.section(book_of(tmp_path, THREE))) == NOTES


def test_notes_of_one_size_explain_no_size_strings(tmp_path: Path) -> None:
    assert "in brackets, in the order" not in text_of(general_notes.section(book_of(tmp_path, ONE)))


def test_care_is_the_designers(tmp_path: Path) -> None:
    assert text_of(finishing.care_section(book_of(tmp_path, ONE))) == "## Care\n- Wash by hand."


def test_finishing_ends_with_blocking(tmp_path: Path) -> None:
    *_, last = text_of(finishing.section(book_of(tmp_path, ONE))).splitlines()
    assert last.startswith("**Block:** Wash like the swatch. Lay flat")


def pattern_of(tmp_path: Path, text: str, terms: Terms = Terms.US) -> str:
    book = book_of(tmp_path, text)
    return file_content(written_pattern(book.design, book.results, terms), "md").decode()


BARE = SPEC.replace("hook: 6\n", "").replace("single crochet in the back loop", "brioche ribs")


@pytest.mark.parametrize("text", [BARE, ONE, FOLDED], ids=["bare", "one", "folded"])
def test_what_is_missing_is_listed_last_and_marked_in_its_place(tmp_path: Path, text: str) -> None:
    written = pattern_of(tmp_path, text)
    lacking = missing(read(tmp_path, text))
    assert lacking
    *_, last = written.split("\n## ")
    assert last.startswith("Still to be added")
    for each in lacking:
        assert each.mark in written.replace("\\", ""), each
        assert f"{each.place}: {each.what}".casefold() in last.casefold()


def test_nothing_is_listed_where_nothing_is_missing(tmp_path: Path) -> None:
    whole = WEIGHED.replace("cables on half double crochet", "half double crochet")
    assert missing(read(tmp_path, whole)) == ()
    assert "to be added" not in pattern_of(tmp_path, whole).casefold()


def test_every_abbreviation_used_is_told(tmp_path: Path) -> None:
    """Words that look like abbreviations and are none of them are few."""
    written = pattern_of(tmp_path, FOLDED)
    table = written[written.index("## Abbreviations") : written.index("## Notes")]
    for short in ("sts", "ch", "sl st", "hdc", "blo", "RS", "WS", "rnd", "rep"):
        assert re.search(rf"\b{short}\b", table), short


def test_uk_terms_hold_in_every_part(tmp_path: Path) -> None:
    """Half double crochet is half treble there, and a slip stitch ss."""
    uk = pattern_of(tmp_path, FOLDED, Terms.UK)
    assert not re.search(r"\b(?:hdc|sl sts?|gauge)\b", uk, re.I)
    assert "Row 1 (RS):** Htr in 2nd ch from hook and in each ch to end, ss in each of first 2" in uk
