from __future__ import annotations

import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from schematics.errors import SchematicsError
from schematics.wearer.body import Body, Stage
from schematics.wearer.rows import (
    UnknownWearerError,
    find_row,
    printed_inches,
    references,
    row_cells,
    row_values,
)
from tests.examples import ANY


def test_references_come_smallest_first_in_groups() -> None:
    assert references() == (
        *(f"baby/{months} mo" for months in (3, 6, 12, 18, 24)),
        *(f"child/{size}" for size in range(2, 17, 2)),
        *(f"woman/{size}" for size in ("XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X")),
        *(f"age/{age}" for age in range(2, 19)),
    )


@pytest.mark.parametrize(
    ("reference", "age_years", "stage", "sex"),
    [
        ("baby/18 mo", 1.5, Stage.BABY, "both"),
        ("child/10", 10.0, Stage.CHILD, "both"),
        ("woman/M", None, Stage.ADULT, "F"),
        ("age/7", 7.0, None, "both"),
        ("age/6.5", 6.5, None, "both"),
    ],
)
def test_a_row_knows_the_age_it_borrows_for(
    reference: str, age_years: float | None, stage: Stage | None, sex: str
) -> None:
    row = find_row(reference, "S")
    assert (row.reference, row.age_years, row.stage, row.sex) == (reference, age_years, stage, sex)


@pytest.mark.parametrize(
    ("wrong", "nearest"),
    [
        ("child/5", "child/4, child/6, child/2"),
        ("child / 4", "child/4"),
        ("Woman/m", "woman/M"),
        ("toddler/3", "age/3, child/2, child/4"),
        ("baby/9 mo", "baby/6 mo, baby/12 mo, baby/3 mo"),
        ("6", "child/6, age/6, age/5"),
        ("xl", "woman/XL"),
        ("age/1", "age/2, age/3, age/4"),
        ("age/30", "age/18, age/17, age/16"),
        ("", "baby/12 mo, child/4, woman/M"),
    ],
)
def test_an_unknown_row_gets_the_nearest_named(wrong: str, nearest: str) -> None:
    with pytest.raises(UnknownWearerError) as caught:
        find_row(wrong, "small")
    assert str(caught.value) == (
        f"size 'small': no row {wrong!r}; nearest: {nearest}; 'schematics wearers' lists them all"
    )


@given(group=st.sampled_from(("", "baby/", "child/", "woman/", "age/")), size=st.text(ANY, max_size=8))
def test_any_other_text_is_one_clear_error(group: str, size: str) -> None:
    wrong = group + size
    assume(wrong not in references() and not re.fullmatch(r"age/[0-9.]+", wrong))
    with pytest.raises(SchematicsError, match=r"; nearest: [a-z]+/"):
        find_row(wrong, "S")


def test_a_chart_row_gives_what_the_chart_prints() -> None:
    """Craft Yarn Council standards, woman M: bust 36 to 38 in, 91.5 to 96.5 cm (from memory)."""
    values = row_values(find_row("woman/M", "M"))
    bust = values[Body.CHEST_GIRTH]
    assert (bust.low_cm, bust.cm, bust.high_cm) == (91.5, 94.0, 96.5)
    assert bust.source == "Craft Yarn Council standards, woman/M, bust, printed 36 in to 38 in"
    assert set(values) == {
        Body.CHEST_GIRTH,
        Body.CENTRE_BACK_NECK_TO_WRIST,
        Body.ARMHOLE_DEPTH,
        Body.BACK_WAIST_LENGTH,
        Body.SHOULDER_BREADTH,
        Body.UPPER_ARM_GIRTH,
    }


def test_a_misprint_of_the_chart_is_said_in_the_source() -> None:
    arm = row_values(find_row("woman/5X", "5X"))[Body.UPPER_ARM_GIRTH]
    assert arm.cm == 49.5
    assert "printed in does not match printed cm; cm implies 19.5 in" in arm.source


def test_an_age_row_has_no_cells_of_its_own() -> None:
    assert row_values(find_row("age/6", "6")) == {}


def test_printed_inches_are_those_of_the_chart() -> None:
    cells = {cell.measure: printed_inches(cell) for cell in row_cells("child/4")}
    assert cells["cross_back"] == "9 3/4 in"
    assert cells["chest"] == "23 in"
