"""Garments on bodies: at rest outside the body, both halves alike, twice the same, as the trials had it."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.draped import PART_NAMES, Draped
from schematics.garment.cloth.draping import Hung, settled
from schematics.garment.cloth.material import Feel
from schematics.garment.cloth.worn_heights import answers
from schematics.wearer.proportions import proportioned
from tests.examples import marked, thorough
from tests.fuzz.fuzz_cloth import faults, weighed
from tests.shipped import EACH_CONSTRUCTION, shipped_results

POINTS = 110
"""A coarse mesh: what is tested here does not hang on how fine it is."""
DRAPED = marked(EACH_CONSTRUCTION if thorough() else ["tidepool"])


@cache
def hung(design: str, points: int = POINTS) -> Hung:
    result = next(each for each in shipped_results(design) if each.size.name == "6")
    figure = proportioned(result.wearer)
    assert figure is not None
    return settled(result.garment, figure.size, Feel(), points).hung


def poses(design: str) -> tuple[Draped, Draped]:
    return hung(design).down, hung(design).level


@pytest.mark.slow
@pytest.mark.parametrize("design", DRAPED)
def test_it_comes_to_rest_outside_the_body(design: str) -> None:
    down, level = poses(design)
    assert [*faults(down, "down"), *faults(level, "level")] == []


@pytest.mark.thorough
def test_twice_it_hangs_the_same() -> None:
    first, second = hung("saltmarsh"), hung.__wrapped__("saltmarsh")
    assert first is not second
    assert first.level.vertices.tobytes() == second.level.vertices.tobytes()


@pytest.mark.slow
@pytest.mark.parametrize("design", DRAPED)
def test_the_head_and_the_hands_are_through_their_bands(design: str) -> None:
    """A band goes once round the axis of what is in it: its points turn by a whole turn about that."""
    for worn in poses(design):
        arm, size = worn.body.arm, worn.body.size
        band = worn.vertices[worn.lines["arm band end left"]] - arm.joint
        square = np.cross(arm.direction, [0.0, 0.0, 1.0])
        turn = np.unwrap(np.arctan2(band[:, 2], band @ (square / np.linalg.norm(square))))
        assert abs(turn[-1] - turn[0]) == pytest.approx(2 * np.pi)
        along = band @ arm.direction
        assert 0 < along.min() < along.max() < arm.length_cm + arm.hand_cm
        neck = worn.vertices[worn.lines["neck edge"]]
        round_neck = np.unwrap(np.arctan2(neck[:, 0], neck[:, 2] - neck[:, 2].mean()))
        assert abs(round_neck[-1] - round_neck[0]) == pytest.approx(2 * np.pi)
        assert np.abs(neck[:, 1] - size.nape_height_cm).max() < size.height_cm / 8


@pytest.mark.slow
def test_both_halves_are_alike() -> None:
    worn = hung("tidepool").down
    points = worn.vertices
    mirrored = points * [-1, 1, 1]
    order, other = (np.lexsort(each.round(6).T) for each in (points, mirrored))
    assert points[order] == pytest.approx(mirrored[other], abs=1e-6)
    right = points[worn.triangles[worn.part == PART_NAMES.index("arm band right")]]
    assert right[..., 0].max() < 0


@pytest.mark.slow
def test_outside_is_out() -> None:
    """The volume between the triangles and a place inside is positive where they face out."""
    worn = hung("tidepool").down
    corners = worn.vertices[worn.triangles] - [0.0, worn.vertices[:, 1].mean(), 0.0]
    assert np.einsum("ti,ti->", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) > 0


@pytest.mark.slow
def test_arms_level_the_hem_rises_as_in_the_trials() -> None:
    """By 10 to 20 cm at the back: trials with other code had 41 to 44 cm below the nape, then 22 to 27."""
    down, level = (answers(each) for each in poses("tidepool"))
    assert 10 < level.hem_back_cm - down.hem_back_cm < 20
    tip = poses("tidepool")[0].body.size.shoulder_breadth_cm / 2
    assert down.neck_beside_cm < tip


def test_a_swatch_that_was_not_weighed_is_refused() -> None:
    result = shipped_results("tidepool")[0]
    figure = proportioned(result.wearer)
    assert figure is not None
    with pytest.raises(ClothError, match="the swatch of main was not weighed"):
        settled(weighed(result.garment, None), figure.size, Feel())
