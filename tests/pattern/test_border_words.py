"""Borders and charted bands in a pattern's figures: where they are worked, their rows and their repeats."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.crochet.terms import Terms
from schematics.document.document import Section
from schematics.pattern.book import Book
from schematics.pattern.sections import repeats, terms_used
from tests.drawing.test_patterned import FLARED, FOLDED, RIB, STRANDS
from tests.specs_for_tests import SPEC, read

TWO_SIZES = FLARED.replace(
    "neck: 64, hem: 192, rows: 34}", "neck: 60, hem: 192, rows: 34, increase_every: 7, increase_until: 23}"
)


def book(folder: Path, text: str) -> Book:
    design = read(folder, text)
    return Book(design=design, results=evaluate(design), terms=Terms.US)


def with_charted_bands(text: str) -> str:
    text = text.replace(RIB, RIB + STRANDS)
    return text.replace("arm_bands: {stitches: 8}", "arm_bands: {stitches: 6}")


def section(folder: Path, text: str) -> Section:
    return repeats.section(book(folder, text))


def values(section: Section) -> dict[str, list[str]]:
    """The texts of each figure in all sizes, by its key."""
    return {figure.key: [figure.text(index) for index in range(2)] for figure in section.figures}


@pytest.mark.slow
def test_a_border_is_told_with_its_rows_in_every_size(tmp_path: Path) -> None:
    """Six rows of 30 and of 34; row 25 and row 29 face right, as row 1 of the chart does."""
    told = section(tmp_path, TWO_SIZES)
    text = " ".join(str(each) for each in told.sentences)
    assert (
        "Hem edging: rows 25 to 30 (29 to 34) of the body, in place of plain rows; for that, row 1 of the "
        "body is "
        "worked with the RS facing."
    ) in text
    assert [table.caption for table in told.tables][1:] == [
        "Hem edging, rows 25 to 30 (29 to 34) of the body",
        "Yoke, rows 3 to 8 of the body",
    ]


def test_the_repeats_and_rows_of_a_border_are_figures(tmp_path: Path) -> None:
    """176 is 22 eights and 192 is 24; 6 rows are one, two repeats of two, and one."""
    figures = values(section(tmp_path, TWO_SIZES))
    assert figures["hem_edging.repeats.across"] == ["22", "24"]
    assert figures["hem_edging.repeats.up"] == ["2", "2"]
    assert figures["hem_edging.row.1.count"] == ["176", "192"]
    assert figures["hem_edging.row.2"][0].startswith("[skip 2 sts, 5 dc in next st, skip 2 sts, 3 sc")


def test_a_size_whose_body_has_no_rows_there_is_left_out(tmp_path: Path) -> None:
    """From row 29 on there are two rows in the first size and six in the second."""
    late = TWO_SIZES.replace("    at: hem\n", "    at: 29\n")
    told = section(tmp_path, late)
    assert "Hem edging, rows \N{EN DASH} (29 to 34) of the body" in [table.caption for table in told.tables]
    assert values(told)["hem_edging.repeats.across"] == ["0 sts do not fit", "24"]


def test_a_folded_body_is_told_back_and_fronts(tmp_path: Path) -> None:
    """66 rows: the hem is rows 1 to 6 at the back, and 61 to 66 on both fronts, both odd."""
    told = section(tmp_path, FOLDED)
    assert [table.caption for table in told.tables][1:] == [
        "Hem edging, back, rows 1 to 6 of the body",
        "Hem edging, each front, rows 61 to 66 of the body",
    ]


def test_a_band_with_a_chart_has_its_rows(tmp_path: Path) -> None:
    """A ring of 72 rows is 36 repeats of two; the notes of turning chains are told for each."""
    told = section(
        tmp_path,
        SPEC.replace(RIB, RIB + STRANDS).replace("arm_bands: {stitches: 8}", "arm_bands: {stitches: 6}"),
    )
    assert [table.caption for table in told.tables][1:] == ["neck band, row by row", "arm band, row by row"]
    assert values(told)["neck_band.repeats.up"] == ["36", "38"]
    assert values(told)["neck_band.row.2.count"] == ["6", "6"]


@pytest.mark.slow
def test_notes_that_hold_for_some_say_for_which(tmp_path: Path) -> None:
    """Ribbing turns with one chain, the body's fabric with two."""
    both = TWO_SIZES.replace(RIB, RIB + STRANDS).replace(
        "arm_bands: {stitches: 8}", "arm_bands: {stitches: 6}"
    )
    text = " ".join(str(each) for each in section(tmp_path, both).sentences)
    assert "Neck band and arm band: turn with ch 1 at the end of each row" in text
    assert "Hem edging and yoke: turn with ch 2 at the end of each row" in text


def test_the_stitches_of_borders_are_among_the_abbreviations(tmp_path: Path) -> None:
    """No piece of these has a back post; the yoke has."""
    names = [row[0] for row in terms_used.section(book(tmp_path, TWO_SIZES)).tables[0].rows]
    assert {"FPdc", "BPdc", "sk"} <= set(names)
    names = [row[0] for row in terms_used.section(book(tmp_path, SPEC)).tables[0].rows]
    assert "BPdc" not in names
