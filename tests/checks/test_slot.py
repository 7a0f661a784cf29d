from dataclasses import replace

import pytest

from schematics.checks.finding import Severity
from schematics.design.limits import Limits
from tests.checks.cases import PARTS, charted, finding, make_case
from tests.checks.folded_cases import folded_case


@pytest.mark.parametrize(
    ("slot", "panel", "severity"),
    [
        (20, 20, Severity.GOOD),
        # A front of 90 - 20 + 21 = 91 against 90 is 1/91 = 1.1 % wider; 89.1 would be 1 % narrower.
        (20, 21, Severity.MIND),
        (20, 19, Severity.MIND),
        (24, 20, Severity.MIND),
        (16, 20, Severity.MIND),
    ],
)
def test_front_and_back_may_differ_by_a_hundredth(slot: int, panel: int, severity: Severity) -> None:
    found = finding(folded_case(slot=slot, panel_stitches=panel), "FRONT-WIDTH")
    assert found.severity is severity
    assert (found.figures["front_cm"], found.figures["back_cm"]) == (90 - slot + panel, 90)
    assert found.figures["apart_fraction"] == pytest.approx(abs(panel - slot) / max(90, 90 - slot + panel))


def test_sentences() -> None:
    assert finding(folded_case(), "FRONT-WIDTH").sentence == (
        "The panel (20 cm) fills a slot of 20 cm, so front and back are equally wide."
    )
    assert finding(folded_case(panel_stitches=26), "FRONT-WIDTH").sentence == (
        "The panel is 6 cm wider than the slot of 20 cm that it fills, so the front comes out as much "
        "(6 %) wider than the back, which is 90 cm."
    )
    assert finding(folded_case(panel_stitches=18), "FRONT-WIDTH").sentence == (
        "The panel is 2 cm narrower than the slot of 20 cm that it fills, so the front comes out as much "
        "(2 %) narrower than the back, which is 90 cm."
    )
    assert finding(make_case(), "FRONT-WIDTH").sentence == (
        "No slot is left out of the body for the panel to fill."
    )


def test_the_limit_is_that_of_the_seams() -> None:
    case = replace(folded_case(panel_stitches=21), limits=Limits(seam_mind_fraction=0.02))
    assert finding(case, "FRONT-WIDTH").severity is Severity.GOOD


def test_a_panel_that_tapers_tells_both_its_widths() -> None:
    """34 rows are 17 repeats of 2; each takes a stitch off 24 at the foot: 7 are left."""
    parts = replace(PARTS, centre_panel=charted("sc2tog, sc across", "sc across", adds=(0, -1, 0)))
    found = finding(folded_case(slot=24, panel_stitches=24, parts=parts), "FRONT-WIDTH")
    assert found.sentence == (
        "The panel (24 cm at the foot, 7 cm at the top) fills a slot of 24 cm, so front and back are "
        "equally wide."
    )
    assert finding(folded_case(slot=20, panel_stitches=24, parts=parts), "FRONT-WIDTH").sentence == (
        "The panel, 7 cm at the top, is at its foot 4 cm wider than the slot of 20 cm that it fills, "
        "so the front comes out as much (4 %) wider than the back, which is 90 cm."
    )
