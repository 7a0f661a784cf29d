"""Give or take how much a mass told by a swatch is: closed forms, and swatches read at random."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.analysis.yarn.accuracy import accuracy_words, larger_swatch, relative_error
from schematics.analysis.yarn.yarn_report import yarn_notes
from schematics.crochet.fabric import Fabric, Swatch
from tests.analysis.test_yarn_needed import WEIGHED, demo, swatches
from tests.specs_for_tests import read


def test_the_error_is_the_root_of_the_squares() -> None:
    """0.5 of 19 stitches, 0.5 of 14 rows and 1 of 46 g: 2.63, 3.57 and 2.17 %, with 2 % together 5.33 %."""
    swatch = Swatch(stitches=19, rows=14, width_cm=20, height_cm=20, mass_g=46)
    assert relative_error(swatch) == pytest.approx(0.0533, abs=5e-5)
    words = accuracy_words(Fabric(name="main", stitch="s", swatch=swatch))
    assert words == "main: ±5.3 % = root of (0.5/19)² + (0.5/14)² + (1/46)² + (2 %)²"


def test_the_error_is_what_swatches_read_so_are_off_by() -> None:
    """Swatches read with those standard deviations, and worked from so much looser: the mass is as much off.

    Errors from apart add as the root of their squares: JCGM 100:2008, 5.1.2. To first order, so that a hand
    of 9 g and 12 stitches, off by 13 %, is within a thirtieth of it.
    """
    dice = np.random.default_rng(7)
    for stitches, rows, grams in ((19, 14, 46), (26, 20, 30), (12, 12, 9)):
        swatch = Swatch(stitches=stitches, rows=rows, width_cm=20, height_cm=20, mass_g=grams)
        read_stitches, read_rows, read_g, hand = (
            true + sd * dice.standard_normal(200_000)
            for true, sd in ((stitches, 0.5), (rows, 0.5), (grams, 1.0), (1.0, 0.02))
        )
        told, takes = read_g / (read_stitches * read_rows), hand * grams / (stitches * rows)
        assert relative_error(swatch) == pytest.approx(np.std(told / takes), rel=0.033)


@given(swatches, st.floats(0.005, 0.2))
def test_a_swatch_as_much_larger_has_the_error_wanted(swatch: Swatch, wanted: float) -> None:
    fabric = Fabric(name="f", stitch="s", swatch=swatch)
    times, error = larger_swatch(fabric, wanted), relative_error(swatch)
    if wanted <= 0.02:
        assert times is None  # a maker's hand alone is off by that
        return
    assert times is not None
    assert error is not None
    assert swatch.mass_g is not None
    if error <= wanted:
        assert times == 1.0
        return
    larger = replace(
        swatch, stitches=swatch.stitches * times, rows=swatch.rows * times, mass_g=swatch.mass_g * times**2
    )
    assert relative_error(larger) == pytest.approx(wanted)


def test_a_swatch_too_small_for_the_margin_is_told(tmp_path: Path) -> None:
    """5 g read to 1 g is 20 % off; 20 stitches and rows read to half of one 3.5 %: more than 10 % in all.

    At 1.45 times the size: 1 g of 10.5 g is 9.5 %, half of 29 stitches and rows 2.4 %, the hand 2 %, together
    10.0 %.
    """
    notes = " ".join(yarn_notes(read(tmp_path, WEIGHED), []))
    assert "plain: ±20.4 %" in notes
    assert "The swatch of 'plain' is too small for a margin of 10 %: one 1.5 times as wide and high" in notes
    assert "too small" not in " ".join(yarn_notes(demo("tidepool"), []))
