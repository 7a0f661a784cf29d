"""The mitred body against closed forms: trapezoids by hand, the turn at each line, the flared limit."""

from __future__ import annotations

import itertools
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.mitred.mitred import MITRED
from schematics.garment.constructions.mitred.mitred_counts import MitredBody, even_sections
from schematics.garment.garment import Garment
from schematics.garment.walks import WalkName
from tests.examples import examples
from tests.garment.constructions.samples import (
    GUIDE,
    bends,
    fabric,
    finished_cm,
    garment,
    mitred,
    parts,
    walked_cm,
)

PLAIN = parts(fabric())
ARMS = HemArms(from_front=5, stitches=10)


def corners(made: Garment) -> list[tuple[float, float]]:
    """The corners of the right half, rounded, from the hem at the fold counter-clockwise."""
    path = LineString(made.piece("body").outline.exterior).simplify(1e-9)
    return [(round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in path.coords[:-1]]


TWO_LINES = garment(
    MitredBody(neck=40, lines=2, rows=10, increase_rows=9, sections=(10, 20, 10)),
    ARMS,
    parts(fabric(9, 10)),
    panel_rows=10,
)
"""Nine increases in 10 cm of depth, and 9 stitches to 10 cm: every growing side leans by 45 degrees."""


def test_two_lines_by_hand() -> None:
    # In cm: sections 11.1, 22.2, 11.1 at the neck. The middle one grows by 10 on both sides and lies
    # square; the next is turned by twice 45 degrees, so that its front edge runs level.
    n = 10 / 0.9
    assert corners(TWO_LINES) == [
        (round(x, 6), round(y, 6)) for x, y in [(0, -10), (n + 10, -10), (n + 10, n), (n, n), (n, 0), (0, 0)]
    ]
    assert TWO_LINES.opening_angle == pytest.approx(math.pi)
    assert TWO_LINES.drop_cm == pytest.approx(10)
    assert finished_cm(TWO_LINES)["body.line"] == pytest.approx(10 * math.sqrt(2))
    (crease,) = TWO_LINES.piece("body").creases
    assert crease.name == "increase line"
    assert list(crease.path.coords) == [pytest.approx((n, 0)), pytest.approx((n + 10, -10))]


def test_stitches_lie_evenly_along_each_sections_hem() -> None:
    # The front section's hem is 10 + 9 stitches long, 21.1 cm, straight up from (21.1, -10). Five
    # stitches from its upper end, 5.6 cm, to fifteen; its middle ten stitches from the end.
    side, top = 10 / 0.9 + 10, 10 / 0.9
    arm = TWO_LINES.arm
    assert arm.path is not None
    assert arm.path.coords[0] == pytest.approx((side, top - 15 / 0.9))
    assert arm.path.coords[-1] == pytest.approx((side, top - 5 / 0.9))
    assert arm.middle == pytest.approx((side, top - 10 / 0.9))
    assert (arm.first, arm.last, arm.left) == (6, 15, (62, 71))


def test_ways_on_two_lines_by_hand() -> None:
    # The run's middle is level with the neck, 11.1 + 10 cm from the fold: along the neck edge, straight.
    # Across the front it goes 10 / 0.9 up along the hem to the front edge, and half a panel of 10.
    side = 10 / 0.9 + 10
    assert walked_cm(TWO_LINES, WalkName.REACH) == pytest.approx(side)
    assert walked_cm(TWO_LINES, WalkName.ACROSS_BACK) == pytest.approx(side)
    assert walked_cm(TWO_LINES, WalkName.ACROSS_FRONT) == pytest.approx(10 / 0.9 + 5 / 0.9)


def test_one_line_lies_on_the_fold() -> None:
    # 10 cm at the neck on either side of it, lean 45 degrees: the line is 10 x sqrt 2 long.
    made = garment(MitredBody(neck=20, lines=1, rows=11, increase_rows=10), ARMS, parts(fabric(10, 11)))
    h = 10 / math.sqrt(2)
    assert corners(made) == [(round(x, 6), round(y, 6)) for x, y in [(0, -2 * h), (2 * h, 0), (h, h), (0, 0)]]
    assert made.drop_cm == pytest.approx(2 * h)
    (crease,) = made.piece("body").creases
    assert list(crease.path.coords) == [(0, 0), pytest.approx((0, -2 * h))]


@pytest.mark.parametrize(("lines", "on_half"), [(1, 1), (2, 1), (3, 2), (4, 2), (5, 3)])
def test_lines_on_the_right_half(lines: int, on_half: int) -> None:
    made = garment(MitredBody(neck=60, lines=lines, rows=20, increase_rows=5), ARMS, PLAIN)
    body = made.piece("body")
    assert len(body.creases) == on_half
    fold_lines = [each for each in body.creases if each.path.coords[0] == (0, 0)]
    assert len(fold_lines) == lines % 2
    for crease in body.creases:
        assert crease.path.length == pytest.approx(math.hypot(5, 20))


@pytest.mark.parametrize(
    ("neck", "lines", "sections"),
    [
        (40, 4, (5, 10, 10, 10, 5)),  # 40/4 and half of it
        (42, 4, (5, 11, 10, 11, 5)),  # lines at 5.25, 15.75 and their mirror images
        (40, 1, (20, 20)),
        (41, 2, (10, 21, 10)),  # the odd stitch to the centre back
        (40, 3, (7, 13, 13, 7)),
        (5, 4, (1, 1, 1, 1, 1)),
    ],
)
def test_sections_that_are_left_out(neck: int, lines: int, sections: tuple[int, ...]) -> None:
    assert even_sections(neck, lines) == sections


@given(lines=st.integers(1, 30), more=st.integers(0, 200))
def test_sections_are_symmetric_nearly_equal_and_add_up(lines: int, more: int) -> None:
    neck = lines + 1 + more
    if lines % 2 and neck % 2:
        neck += 1
    sections = even_sections(neck, lines)
    assert len(sections) == lines + 1
    assert sum(sections) == neck
    assert sections == sections[::-1]
    assert min(sections) >= 1
    assert all(abs(each - neck / lines) <= 1 for each in sections[1:-1])
    assert abs(sections[0] - neck / (2 * lines)) <= 0.5


@given(lines=st.integers(1, 8), rows=st.integers(2, 60), every=st.integers(1, 4), share=st.floats(0, 1))
def test_increases_come_two_to_a_line_on_rows_evenly_spread(
    lines: int, rows: int, every: int, share: float
) -> None:
    there_are = len(range(2, rows + 1, every))
    wanted = max(1, round(share * there_are))
    counts = MitredBody(
        neck=4 * lines + 4, lines=lines, rows=rows, increase_every=every, increase_rows=wanted
    )
    plan = MITRED.increases(counts)
    assert len(plan.rows) == wanted
    assert {added for _, added in plan.rows} == {2 * lines}
    assert all(2 <= row <= rows and (row - 2) % every == 0 for row, _ in plan.rows)
    gaps = [b - a for (a, _), (b, _) in itertools.pairwise(plan.rows)]
    assert max(gaps, default=0) - min(gaps, default=0) <= every
    assert plan.start + sum(added for _, added in plan.rows) == counts.hem


@pytest.mark.slow
@given(mitred())
@examples(80)
def test_closed_forms(made: Garment) -> None:
    """Depth times the mean of neck and hem; the lean's arc tangent at either side of every line."""
    lengths, plan, body = finished_cm(made), made.increases, made.piece("body")
    assert plan is not None
    lines = len(plan.sections) - 1
    neck, hem, depth = (lengths[f"body.{name}"] for name in ("neck", "hem", "depth"))
    grown = (hem - neck) / (2 * lines)
    assert body.area_cm2 == pytest.approx(depth * (neck + hem) / 2, rel=1e-9)
    assert made.opening_angle == pytest.approx(2 * lines * math.atan(grown / depth))
    assert made.drop_cm == pytest.approx(math.hypot(grown, depth) if lines % 2 else depth)
    assert body.edge("front").path.length == pytest.approx(depth)
    assert bends(body.edge("hem").path) == len(
        [each for each in body.creases if each.path.coords[0] != (0, 0)]
    )


@pytest.mark.parametrize(("neck", "lines", "increases", "rows"), [(40, 4, 11, 20), (33, 2, 7, 9)])
def test_area_is_the_integral_of_the_rows(neck: int, lines: int, increases: int, rows: int) -> None:
    """On every row the stitches of the mean width, half-way down: each line widens the body evenly."""
    mean = neck + lines * increases
    area = rows * mean / Fraction(19, 20) / Fraction(7, 10)
    made = garment(MitredBody(neck=neck, lines=lines, rows=rows, increase_rows=increases), ARMS, parts(GUIDE))
    assert made.piece("body").area_cm2 == pytest.approx(float(area), rel=1e-9)


def _tending(lines: int) -> Garment:
    """256 stitches at the neck and 512 at the hem, whatever the number of lines."""
    return garment(MitredBody(neck=256, lines=lines, rows=40, increase_rows=128 // lines), ARMS, parts(GUIDE))


def test_tends_to_the_flared_body_as_lines_grow() -> None:
    """With the increase held, angle and outline come nearer with the square of the number of lines.

    2k atan(t / 2k) = t - t^3 / 12 k^2 + ..., and a bent line of k chords strays from its arc likewise.
    """
    limit = garment(FlaredBody(neck=256, hem=512, rows=40), ARMS, parts(GUIDE))
    goal, outline = limit.opening_angle, limit.piece("body").outline
    assert goal is not None
    made = {lines: _tending(lines) for lines in (4, 8, 16, 32, 64)}
    angles = {lines: goal - (each.opening_angle or 0) for lines, each in made.items()}
    for lines, off in angles.items():
        assert off == pytest.approx(goal**3 / (12 * lines**2), rel=0.2)
    strays = [each.piece("body").outline.hausdorff_distance(outline) for each in made.values()]
    for before, after in itertools.pairwise(strays):
        assert 3 < before / after < 5
    assert made[64].drop_cm == limit.drop_cm
    for name in WalkName:
        assert walked_cm(made[64], name) == pytest.approx(walked_cm(limit, name), abs=0.05)


def test_hem_spans_bend_with_the_hem() -> None:
    made = garment(
        MitredBody(neck=40, lines=4, rows=20, increase_rows=11), HemArms(from_front=24, stitches=12), PLAIN
    )
    spans = {span.key: span for span in made.piece("body").spans}
    assert all(span.centre is None for span in spans.values())
    # Sections of 5, 10, 10 at the neck and 16, 32, 32 at the hem: the front one ends 16 stitches from
    # the front, the run from 24 to 36 lies in the next, and 48 from the front the back one begins.
    assert [bends(spans[key].path) for key in ("arm.from_front", "arm.run", "arm.back")] == [1, 0, 1]
    assert spans["arm.run"].path.length == pytest.approx(12)
    assert spans["arm.from_front"].path.length == pytest.approx(24)
    assert 2 * spans["arm.back"].path.length == pytest.approx(finished_cm(made)["arm.back"])
