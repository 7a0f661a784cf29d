"""What is written of a tree comes to what the tree comes to."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given

from schematics.analysis.workings.ruler import Ruler
from schematics.analysis.workings.written import Writer
from schematics.garment.amounts import Formula, Laid, value_of
from schematics.units import CM_PER_INCH, Unit
from schematics.wearer.expr import Expr, Fact
from tests.analysis.workings.calculator import PLAIN
from tests.examples import examples
from tests.garment.constructions.samples import fabric
from tests.garment.trees import COUNTS, NECK, trees


@pytest.mark.slow
@examples(100)
@given(tree=trees(), counts=COUNTS)
def test_the_arithmetic_of_a_tree_is_worth_the_tree(tree: Expr, counts: Mapping[str, int]) -> None:
    written = Writer(counts=counts, ruler=Ruler(Unit.CM), spec_keys={}).sum(tree)
    expected = float(value_of(tree, counts))
    assert written.value == pytest.approx(expected, abs=1e-6)
    assert PLAIN(written.text) == pytest.approx(expected, abs=1e-6)


def test_of_a_formula_in_it_the_result_is_written_in_the_unit_of_the_sheet() -> None:
    """20 stitches at 10 to 10 cm, by half: 10 cm, which are 3.937 in."""
    length = Formula(Laid(NECK, NECK.counted, fabric(10, 10)))
    for unit, text in ((Unit.CM, "20 cm / 2"), (Unit.IN, "7.874 in / 2")):
        written = Writer(counts={"body.neck": 20}, ruler=Ruler(unit), spec_keys={}).sum(length / 2)
        assert written.text == text
        assert written.value == pytest.approx(10 / (CM_PER_INCH if unit is Unit.IN else 1))


def test_what_is_no_arithmetic_is_refused() -> None:
    with pytest.raises(TypeError, match="is no arithmetic"):
        Writer(counts={}, ruler=Ruler(Unit.CM), spec_keys={}).sum(Fact("drop_cm"))
