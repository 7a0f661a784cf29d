from __future__ import annotations

import pytest

from schematics.units import CM_PER_INCH
from schematics.wearer.body import Body, Origin, Stage, WearerSpec
from schematics.wearer.listing import measurement_rows, reference_rows, wearer_rows
from schematics.wearer.resolve import resolve
from schematics.wearer.rows import UnknownWearerError, references


def test_the_list_has_every_reference_in_order() -> None:
    rows = reference_rows()
    assert tuple(row.reference for row in rows) == references()
    four = next(row for row in rows if row.reference == "child/4")
    assert (four.stage, four.age_years, four.chest.cm) == (Stage.CHILD, 4.0, 58.5)
    assert four.head == resolve(WearerSpec(chart="child/4"), "4").values[Body.HEAD_GIRTH]


def test_one_row_lists_every_measurement_with_its_source() -> None:
    rows = measurement_rows("child/4")
    assert [row.body for row in rows] == list(Body)
    assert all(row.source for row in rows)
    assert {row.origin for row in rows} == {Origin.CHART, Origin.AGE_TABLE, Origin.ESTIMATE}


def test_printed_inches_stand_only_beside_the_charts_values() -> None:
    """Craft Yarn Council standards, child 4 (from memory): chest 23, back waist 9 1/2, upper arm 7 1/2 in."""
    printed = {row.body: row.printed_inches for row in measurement_rows("child/4")}
    assert printed[Body.CHEST_GIRTH] == "23 in"
    assert printed[Body.BACK_WAIST_LENGTH] == "9 1/2 in"
    assert printed[Body.UPPER_ARM_GIRTH] == "7 1/2 in"
    assert printed[Body.HEAD_GIRTH] is None
    assert all(row.printed_inches is None for row in measurement_rows("age/6"))


def test_an_own_measurement_hides_the_charts_inches() -> None:
    wearer = resolve(WearerSpec(chart="child/4", own={Body.CHEST_GIRTH: 60.96}), "4")
    chest = next(row for row in wearer_rows(wearer, "child/4") if row.body is Body.CHEST_GIRTH)
    assert (chest.printed_inches, chest.borrowed) == (None, False)
    assert chest.cm == pytest.approx(24 * CM_PER_INCH)


def test_an_unknown_row_is_one_clear_error() -> None:
    with pytest.raises(UnknownWearerError, match="nearest: child/4"):
        measurement_rows("child/3.9")
