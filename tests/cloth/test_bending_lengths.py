"""A bending length of a swatch, from the spec to the cloth."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from schematics.cloth.material import material
from schematics.crochet.fabric import Fabric, Swatch
from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError
from tests.specs_for_tests import SPEC

KEY = "swatch: {stitches: 14, rows: 10, width: 10, height: 10"


def test_fabric_resists_bending_as_it_was_measured_and_else_as_is_usual() -> None:
    """B = w c³ (Peirce 1930, from memory): 50 g on 10 by 10 cm weigh 0.0049 N/cm², at 3 and 4 cm."""
    swatch = Swatch(stitches=14, rows=10, width_cm=10, height_cm=10, mass_g=50)
    plain = Fabric(name="plain", stitch="sc", swatch=swatch, stretch_across=0.1, stretch_along=0.1)
    stiff = replace(plain, swatch=replace(swatch, bending_length_cm=4.0))
    made = material([plain, stiff], np.array([0, 1]), 3.0)
    weight = 0.050 * 9.81 / 100
    assert made.bending == pytest.approx([weight * 27, weight * 64])


@pytest.mark.parametrize(("written", "read"), [("3.1", 3.1), ("1 1/4 in", 3.175)])
def test_a_spec_may_say_it_in_any_unit(tmp_path: Path, written: str, read: float) -> None:
    path = tmp_path / "lake.yaml"
    path.write_text(SPEC.replace(KEY, f"{KEY}, bending_length: {written}"), "utf-8")
    body, panel = read_design(path).parts.body, read_design(path).parts.centre_panel
    assert body.swatch.bending_length_cm == pytest.approx(read)
    assert panel.swatch.bending_length_cm is None


@pytest.mark.parametrize("written", ["50 cm", "0", "stiff", "-3"])
def test_what_no_fabric_has_is_refused_with_its_line(tmp_path: Path, written: str) -> None:
    path = tmp_path / "lake.yaml"
    path.write_text(SPEC.replace(KEY, f"{KEY}, bending_length: {written}"), "utf-8")
    line = next(at for at, words in enumerate(SPEC.splitlines(), start=1) if KEY in words)
    with pytest.raises(SpecError, match=rf"lake.yaml:{line}: .*bending_length: expected"):
        read_design(path)


def test_the_slope_that_is_told_is_that_of_the_test() -> None:
    """7 down for 8 across is within half a degree of the cantilever test's 41.5."""
    assert math.degrees(math.atan(7 / 8)) == pytest.approx(41.5, abs=0.5)
