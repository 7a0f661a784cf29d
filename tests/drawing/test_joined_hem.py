"""Where panel and front edges end in the joined views: level at the hem, or one of them lower."""

from __future__ import annotations

from dataclasses import replace

import pytest

from schematics.design.limits import Limits
from schematics.drawing.assembly.joined import JoinedView, joined_views
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.garment import Garment
from tests.drawing.joined_views import front_view
from tests.garment.constructions.samples import fabric, garment, parts
from tests.garment.constructions.test_taper import PARTS
from tests.shipped import shipped_results


def of_rows(body: int, panel: int) -> Garment:
    """Rows of 1 cm each."""
    counts = FlaredBody(neck=40, hem=120, rows=body)
    return garment(counts, HemArms(from_front=26, stitches=16), parts(fabric(10, 10)), panel_rows=panel)


def joined_cm(view: JoinedView) -> float:
    """How much of the right front edge is seamed."""
    (length,) = (seam.path.length for half in view.halves if not half.left for seam in half.seams)
    return length


def foot_cm(view: JoinedView) -> float:
    """How far below the neck edge the panel ends."""
    assert view.panel is not None
    return -view.panel.shape.bounds[1]


@pytest.mark.parametrize(
    ("body", "panel"),
    [(60, 61), (60, 59), (29, 28), (29, 30), (100, 97), (100, 103)],
    ids=["a row of many longer", "shorter", "a row of few shorter", "longer", "3 % shorter", "longer"],
)
def test_a_panel_that_can_be_eased_in_ends_level_with_the_hem(body: int, panel: int) -> None:
    """As the steps say, all its rows are joined to all of the body's: nothing is left over at the hem."""
    view = front_view(of_rows(body, panel))
    assert foot_cm(view) == pytest.approx(body)
    assert joined_cm(view) == pytest.approx(body)


@pytest.mark.parametrize(("body", "panel"), [(29, 27), (29, 31), (100, 96), (100, 104)])
def test_a_panel_that_cannot_is_as_long_as_it_is(body: int, panel: int) -> None:
    """Two rows are 2 cm and 7 %, four are 4 %: past every limit."""
    view = front_view(of_rows(body, panel))
    assert foot_cm(view) == pytest.approx(panel)
    assert joined_cm(view) == pytest.approx(min(body, panel))


def test_how_much_eases_in_is_the_design_s_own_limit() -> None:
    strict = replace(Limits(), seam_stop_cm=0.0, seam_stop_row_fraction=0.0, seam_stop_fraction=0.0)
    views = joined_views(of_rows(60, 59), strict)
    assert views is not None
    assert foot_cm(views[0]) == pytest.approx(59)


@pytest.mark.parametrize("rows", [29, 30])
def test_a_panel_that_tapers_is_eased_to_the_length_of_its_bent_sides(rows: int) -> None:
    """Its sides are sqrt(5) + 25 + sqrt(13) = 30.84 cm: within 1 cm of 30 rows, not of 29."""
    body, arms = FlaredBody(neck=60, hem=150, rows=rows), HemArms(from_front=20, stitches=16)
    made = garment(body, arms, PARTS, panel_stitches=40, panel_rows=25)
    view = front_view(made)
    assert view.panel is not None
    assert len(view.panel.side.coords) == 4
    assert view.panel.side.length == pytest.approx(30 if rows == 30 else 30.842, abs=1e-3)


@pytest.mark.parametrize("stem", ["sandpiper", "kelp"])
def test_no_size_that_is_published_has_a_step_at_the_hem(stem: str) -> None:
    for result in shipped_results(stem):
        view = front_view(result.garment)
        assert foot_cm(view) == pytest.approx(result.garment.piece("body").edge("front").length_cm)
