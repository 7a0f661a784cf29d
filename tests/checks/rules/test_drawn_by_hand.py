"""Chances of a child in one size against draws in which nothing is the program's: its arithmetic is by hand.

Reach, spread and girth are ways on the fabric; `draws.py` has those by the garment's formulas.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from schematics.checks.evaluation import evaluate
from schematics.wearer.body import Body, WearerSpec
from tests.fitting.children import IN_SIZE_6
from tests.shipped import shipped_design

DRAWS = 100_000
Column = NDArray[np.float64]

CHILD = dict(IN_SIZE_6.own) | {
    Body.HEAD_GIRTH: 57.0,
    Body.NECK_GIRTH: 42.5,
    Body.SHOULDER_BREADTH: 25.6,
    Body.HAND_GIRTH: 19.0,
    Body.WRIST_GIRTH: 11.1,
    Body.NAPE_HEIGHT: 73.0,
    Body.KNEE_HEIGHT: 31.5,
    Body.BACK_WAIST_LENGTH: 39.7,
}
"""Somebody near the limits of tidepool's size 6, in all that is drawn here."""


class Makers:
    """What each has of a fabric: cm to a stitch and to a row, and the factors that it gives by."""

    def __init__(
        self, rng: np.random.Generator, per_cm: tuple[float, float], counts: tuple[int, int],
        stretch: tuple[float, float], pulls: int,
    ) -> None:  # fmt: skip
        hand = rng.normal(1, 0.02, DRAWS)
        self.stitch, self.row = (
            hand * rng.normal(1, 0.5 / count, DRAWS) / each
            for each, count in zip(per_cm, counts, strict=True)
        )
        self.across, self.along = (1 + rng.normal(each, each / 3 / pulls**0.5, DRAWS) for each in stretch)


@pytest.mark.slow
def test_what_can_be_worked_out_by_hand() -> None:
    """Counts, swatches and stretch as specs/tidepool.yaml has them for size 6; a tape is off by 0.5 cm."""
    rng = np.random.default_rng(6)
    main = Makers(rng, (19 / 20, 14 / 20), (19, 14), (0.20, 0.08), 4)
    panel = Makers(rng, (22 / 20, 14 / 15), (22, 14), (0.12, 0.05), 1)
    rib = Makers(rng, (20 / 20, 66 / 60), (20, 66), (0.10, 0.35), 4)
    body = {each: rng.normal(cm, 0.5, DRAWS) for each, cm in CHILD.items()}
    edge = 36 * main.stitch + 14 * panel.stitch
    edge_full = 36 * main.stitch * main.across + 14 * panel.stitch * panel.across
    rest = np.minimum(edge, 50 * rib.row)
    run, ribbing = 16 * main.stitch, 16 * rib.row
    band = np.minimum(run, ribbing)
    hem = 1.05 * 27 * main.row
    front, side = 27 * main.row, 36 * panel.row
    apart = np.maximum.reduce([0.03 * np.maximum(front, side), np.ones(DRAWS), main.row])
    holds: dict[str, NDArray[np.bool_]] = {
        "NECK-PASS": np.minimum(edge_full, 50 * rib.row * rib.along) >= body[Body.HEAD_GIRTH],
        "NECK-TIGHT": rest >= body[Body.NECK_GIRTH] + 2,
        "NECK-SLIP": rest / 2 <= 0.9 * body[Body.SHOULDER_BREADTH],
        "ARM-PASS": np.minimum(run * main.across, ribbing * rib.along) >= body[Body.HAND_GIRTH],
        "ARM-REST": np.abs(band / body[Body.WRIST_GIRTH] - 1.125) <= 0.225,
        "HANG-KNEE": body[Body.NAPE_HEIGHT] - body[Body.KNEE_HEIGHT] >= hem,
        "HANG-WHERE": hem >= body[Body.BACK_WAIST_LENGTH],
        "SEAM-LENGTH": np.abs(front - side) <= apart,
    }
    design = shipped_design("tidepool")
    child = replace(design.sizes[2], wearer=WearerSpec(own=CHILD))
    (found,) = evaluate(replace(design, sizes=(child,)))
    certainties = {each.code: each.certainty for each in found.findings}
    for code, true in holds.items():
        sure = certainties[code]
        assert sure is not None, code
        assert sure.holds_fraction == pytest.approx(true.mean(), abs=0.02), code
        assert 0.1 < true.mean() < 0.95, f"{code} tries nothing"
