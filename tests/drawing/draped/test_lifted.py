"""Lines of a flat part lifted to where it hangs, against a sheet rolled to a tube."""

from __future__ import annotations

import numpy as np
import pytest

from schematics.drawing.draped.hidden_lines import STEP
from schematics.drawing.draped.lifted import lifted
from schematics.drawing.draped.surfaces import Surface, smoothed

RADIUS = 10.0


def rolled() -> Surface:
    """A sheet 20 by 12 cm, fine, rolled about an upright axis; its flat corners as they were."""
    across, up = (each.reshape(-1) for each in np.meshgrid(np.linspace(0, 20, 41), np.linspace(0, 12, 13)))
    numbers = np.arange(len(across)).reshape(13, 41)
    a, b, c, d = (
        each.reshape(-1) for each in (numbers[:-1, :-1], numbers[:-1, 1:], numbers[1:, 1:], numbers[1:, :-1])
    )
    triangles = np.concatenate([np.stack([a, b, c], axis=1), np.stack([a, c, d], axis=1)])
    turn = across / RADIUS
    return Surface(
        vertices=np.stack([RADIUS * np.sin(turn), up, RADIUS * np.cos(turn)], axis=1),
        triangles=triangles,
        lines={},
        part=np.zeros(len(triangles), dtype=np.int64),
        flat=np.stack([across, up], axis=1)[triangles],
    )


@pytest.mark.parametrize("times", [0, 1])
def test_a_slanting_line_becomes_a_helix(times: int) -> None:
    (lifting,) = lifted(smoothed(rolled(), times), 0, [np.array([(1.0, 1.0), (19.0, 11.0)])])
    shares = np.linspace(0, 1, len(lifting))
    turn, up = (1 + 18 * shares) / RADIUS, 1 + 10 * shares
    helix = np.stack([RADIUS * np.sin(turn), up, RADIUS * np.cos(turn)], axis=1)
    assert lifting == pytest.approx(helix, abs=0.03)


def test_what_is_beside_the_part_is_left_out() -> None:
    (lifting,) = lifted(rolled(), 0, [np.array([(10.0, -6.0), (10.0, 18.0)])])
    assert np.ptp(lifting[:, 1]) == pytest.approx(12, abs=2 * STEP)
    assert lifted(rolled(), 0, [np.array([(30.0, 1.0), (40.0, 1.0)])]) == []
    assert lifted(rolled(), 1, [np.array([(1.0, 1.0), (4.0, 1.0)])]) == []


def test_only_sewn_surfaces_have_flat_parts() -> None:
    bare = Surface(vertices=np.eye(3), triangles=np.array([(0, 1, 2)]), lines={})
    with pytest.raises(ValueError, match="no flat parts"):
        lifted(bare, 0, [])
