"""A finished piece as it was measured: gauges by closed forms, and what is refused."""

from __future__ import annotations

import pytest

from schematics.crochet.fabric import Counted
from schematics.errors import UsageError
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.rescue.measured_piece import MeasuredPiece, off_words, read_measured
from tests.fitting.children import demo

TIDEPOOL = demo("tidepool")
SIX = TIDEPOOL.sizes[2]
HEM_CM, NECK_CM = 166 * 20 / 19, 36 * 20 / 19
"""Of size 6, 166 and 36 stitches at 19 to 20 cm."""


def measured(*texts: str) -> MeasuredPiece:
    return read_measured(texts, TIDEPOOL, SIX)


def ratios(*texts: str) -> dict[str, float]:
    """How much longer each finished measurement comes out than in the pattern."""
    made = size_at_gauge(TIDEPOOL, SIX, measured(*texts).parts).garment.finished
    pattern = size_at_gauge(TIDEPOOL, SIX).garment.finished
    return {mine.key: mine.length_cm / usual.length_cm for mine, usual in zip(made, pattern, strict=True)}


def test_a_hem_that_is_a_twentieth_longer_is_so_much_looser() -> None:
    """166 stitches in 1.05 of their length; panel and bands are of the same hand, rows as in the pattern."""
    own = ratios(f"body hem edge {1.05 * HEM_CM:.6f}")
    across = {"body.neck", "body.hem", "arm.from_front", "arm.run", "arm.back", "panel.width"}
    across |= {"neck_band.depth", "arm_band.depth"}
    along = {"body.depth", "panel.length", "neck_band.length", "arm_band.length"}
    assert {key: own[key] for key in across} == pytest.approx(dict.fromkeys(across, 1.05))
    assert {key: own[key] for key in along} == pytest.approx(dict.fromkeys(along, 1.0))


def test_measurements_of_one_direction_are_put_together() -> None:
    """The counts over the lengths: the long hem weighs more than the short neck edge."""
    parts = measured(f"hem {1.03 * HEM_CM:.6f}", f"body neck {0.99 * NECK_CM:.6f}").parts
    assert parts.body.stitches_per_cm == pytest.approx((166 + 36) / (1.03 * HEM_CM + 0.99 * NECK_CM))
    assert parts.body.swatch.width_cm == pytest.approx(1.03 * HEM_CM + 0.99 * NECK_CM)


@pytest.mark.parametrize(("neck", "told"), [(0.995, False), (0.98, True), (1.10, True)])
def test_measurements_that_differ_by_more_than_a_twentyfifth_are_doubted(neck: float, told: bool) -> None:
    piece = measured(f"hem {1.03 * HEM_CM:.6f}", f"body neck edge {neck * NECK_CM:.6f}")
    (said,) = [*piece.disagreements()] or [""]
    assert bool(said) is told
    if told:
        assert all(words in said for words in ("body hem edge", "body neck edge", "measure both again"))


def test_bands_of_one_ribbing_may_each_come_out_otherwise() -> None:
    """50 and 16 rows at 11 to 10 cm; what is not measured goes as the other band does."""
    neck, arm = 50 / 1.1, 16 / 1.1
    own = ratios(f"neck band length {0.85 * neck:.6f}", f"arm band length {1.02 * arm:.6f}")
    assert (own["neck_band.length"], own["arm_band.length"]) == pytest.approx((0.85, 1.02))
    assert own["body.hem"] == pytest.approx(1.0)
    alone = ratios(f"neck band length {0.85 * neck:.6f}")
    assert (alone["neck_band.length"], alone["arm_band.length"]) == pytest.approx((0.85, 0.85))
    piece = measured(f"neck band length {0.85 * neck:.6f}")
    assert next(piece.taken(TIDEPOOL.parts)).endswith(
        "in the same stitch and yarn: the rows of the arm bands."
    )


@pytest.mark.parametrize(
    "text", ["body hem edge 70 in", "hem: 70in", "body.hem = 177,8", "Body-hem edge 1.778 m", "hem 5 ft 10"]
)
def test_names_and_lengths_are_read_as_people_write_them(text: str) -> None:
    (each,) = measured(text).lengths
    assert (each.pattern.key, each.part, each.counted) == ("body.hem", "body", Counted.STITCHES)
    assert each.length_cm == pytest.approx(177.8)


@pytest.mark.parametrize(
    ("texts", "problems"),
    [
        ([], ["say what the finished piece measures"]),
        (["hemm 170"], ["no measurement 'hemm'; "]),
        (["body heme edge 170"], ["did you mean 'body hem edge'"]),
        (["hem 70"], ["by the pattern the body hem edge is 174.5 cm, so 'hem 70' is taken for a slip"]),
        (["hem 174 in"], ["is taken for a slip"]),
        (["hem 0"], ["is taken for a slip"]),
        (["hem"], ["expected a name and a length"]),
        (["170"], ["expected a name and a length"]),
        (["hem 17 ells"], ["body hem edge: expected the unit cm"]),
        (["hem 170", "body hem edge 171"], ["the body hem edge is given twice"]),
        (["neck edge with panel top 50"], ["tells no gauge", "such as the body neck edge and body hem edge"]),
        (["hem 9" * 100], ["expected a name and a length"]),
        (["hem x", "nothing 3"], ["expected a name and a length", "no measurement 'nothing'"]),
    ],
)
def test_what_cannot_be_used_is_told(texts: list[str], problems: list[str]) -> None:
    with pytest.raises(UsageError) as caught:
        measured(*texts)
    for words in problems:
        assert words in str(caught.value)
    assert all(each.startswith("--measured: ") for each in caught.value.problems)


def test_stitches_picked_up_along_rows_tell_no_gauge() -> None:
    driftwood = demo("driftwood")
    with pytest.raises(UsageError, match="picked up at the neck sides tells no gauge"):
        read_measured(["picked up at the neck sides 14"], driftwood, driftwood.sizes[3])


def test_how_far_off_is_told() -> None:
    assert [off_words(each) for each in (1.08, 0.85, 1.004)] == [
        "8 % longer",
        "15 % shorter",
        "as in the pattern",
    ]
