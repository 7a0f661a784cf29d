import math

import pytest

from schematics.checks.finding import Severity
from tests.checks.cases import finding, make_case


@pytest.mark.parametrize(
    ("angle", "severity"),
    [
        (None, Severity.GOOD),
        (0.0, Severity.GOOD),
        (math.tau, Severity.GOOD),
        (math.tau + 1e-6, Severity.MIND),
        (2 * math.tau, Severity.MIND),
        (2 * math.tau + 1e-6, Severity.STOP),
    ],
)
def test_a_full_circle_lies_flat_and_half_of_two_can_be_drawn(
    angle: float | None, severity: Severity
) -> None:
    assert finding(make_case(garment={"opening_angle": angle}), "FLAT-CIRCLE").severity is severity


def test_sentences() -> None:
    # (160 - 36) cm over 30 cm is 4.1333 rad, 236.8 degrees; over 15 cm twice that.
    assert finding(make_case(), "FLAT-CIRCLE").sentence == (
        "The body opens to 236.8° of 360° and lies flat in one layer."
    )
    assert finding(make_case(rows=15), "FLAT-CIRCLE").sentence == (
        "The body opens to 473.6°, 113.6° over a full circle: it hangs in folds, does not lie flat in one "
        "layer, and is drawn as its right half on the fold."
    )
    assert finding(make_case(garment={"opening_angle": 13.0}), "FLAT-CIRCLE").sentence == (
        "The body opens to 744.8°, more than two full circles: even its half overlaps itself, so it can "
        "neither be drawn nor measured flat."
    )
    assert finding(make_case(garment={"opening_angle": None}), "FLAT-CIRCLE").sentence == (
        "The body has no opening angle and lies flat."
    )
