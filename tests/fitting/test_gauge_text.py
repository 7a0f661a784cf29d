"""A maker's gauge as she says it."""

from __future__ import annotations

import pytest

from schematics.crochet.fabric import Counted
from schematics.errors import UsageError
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.sizing import size_fit
from schematics.wearer.resolve import resolve
from tests.fitting.children import SPECS, demo
from tests.program import call


@pytest.mark.parametrize(
    "text",
    [
        "20 sts 15 rows over 20 cm",
        "20 stitches, 15 rows over 20cm",
        "20 st x 15 rows = 20",
        "10 sts and 7.5 rows to 10 cm",
        "main: 20 sts 15 rows over 20 cm",
        "10 sts 15 rows over 10 x 20 cm",
        "20 STS 30 ROWS over 20 cm by 40 cm",
        "20 sts 15 rows over 200 mm",
        "1 st 0.75 rows / cm",
        "20 sts x 15 rows / 20 cm",
        "9½ sts and 7 1/8 rows over 9,5 cm",
        "25 sts 18,75 rounds per 0.25 m",
    ],
)
def test_ways_to_say_it(text: str) -> None:
    """Tidepool's body is 9.5 stitches and 7 rows to 10 cm."""
    own = read_gauge([text], demo("tidepool"))
    ((fabric, gauge),) = own.given
    assert fabric.name == "main"
    assert (gauge.stitches_per_cm, gauge.rows_per_cm) == pytest.approx((1.0, 0.75))
    assert own.alike == ("ripple", "rib")
    assert own.parts.neck_band.rows_per_cm == pytest.approx(1.1 * 7.5 / 7)


def test_four_inches() -> None:
    own = read_gauge(["10 sts 8 rows over 4 in"], demo("tidepool"))
    assert own.given[0][1].stitches_per_cm == pytest.approx(10 / 10.16)


def test_rows_that_were_not_counted_are_the_patterns() -> None:
    own = read_gauge(["19 sts / 8 in", "rib: 22 rows over 20 cm"], demo("tidepool"))
    (_, body), (rib, bands) = own.given
    assert (body.stitches_per_cm, body.rows_per_cm) == pytest.approx((19 / 20.32, 0.7))
    assert (bands.stitches_per_cm, bands.rows_per_cm) == pytest.approx((rib.stitches_per_cm, 1.1))
    assert own.uncounted == (("main", Counted.ROWS), ("rib", Counted.STITCHES))


def test_a_swatch_of_each_fabric() -> None:
    own = read_gauge(["20 sts 15 rows over 20 cm", "rib: 21 sts 24 rows over 20 cm"], demo("tidepool"))
    assert own.alike == ("ripple",)
    assert own.parts.neck_band.rows_per_cm == pytest.approx(1.2)
    only = read_gauge(["rib: 21 sts 24 rows over 20 cm"], demo("tidepool"))
    assert only.alike == ()
    assert only.parts.body == demo("tidepool").parts.body


@pytest.mark.parametrize(
    ("texts", "sentence"),
    [
        (["20 over 20 cm"], "expected a gauge such as '20 sts 15 rows over 20 cm', got '20 over 20 cm'"),
        (["20 sts 15 rows over 20 ells"], "expected the unit cm, mm, m, in or ft, got 'ells'"),
        (["20 sts 15 rows over nothing"], "expected a length such as"),
        (["0 sts 15 rows over 20 cm"], "counts and lengths are more than 0"),
        (["20 sts 15 rows over 0 cm"], "counts and lengths are more than 0"),
        (["20 sts 15 rows over 20 in"], "is 3.94 stitches to 10 cm, the pattern has 9.5; check the counts"),
        (
            ["1 sts 1 rows over 1000000 cm"],
            "expected 0.5 to 200 stitches to 10 cm, got 1e-05, in '1 sts 1 rows",
        ),
        (["19 sts 2000 rows over 20 x 0.1 cm"], "expected 0.5 to 200 rows to 10 cm, got 200000, in '19 sts"),
        (["20 sts 60 rows over 20 cm"], "is 30 rows to 10 cm, the pattern has 7; check the counts"),
        (["rip: 20 sts 15 rows over 20 cm"], "there is no fabric 'rip'; did you mean 'ripple' or 'rib'?"),
        (["20 sts 15 rows over 20 cm", "main: 20 sts 15 rows over 20 cm"], "gives 'main' a second time"),
    ],
)
def test_what_cannot_be_meant(texts: list[str], sentence: str) -> None:
    with pytest.raises(UsageError) as caught:
        read_gauge(texts, demo("tidepool"))
    assert str(caught.value).startswith("--gauge: ")
    assert sentence in str(caught.value)


@pytest.mark.slow
def test_a_gauge_of_a_band_alone_is_told() -> None:
    result = call(
        "fit", "specs/tidepool.yaml", "--age", "6", "--size", "6", "--gauge", "rib: 21 sts over 20 cm"
    )
    assert result.exit_code == 0
    assert "10.5 and 11" in result.stdout
    assert "You are taken to work" not in result.stdout


@pytest.mark.parametrize(
    ("text", "fabric", "across", "along", "pulls"),
    [
        ("19 sts 14 rows over 20 cm, 25 % across, 10 % along, 4 pulls", "main", 0.25, 0.10, 4),
        ("rib: 20 sts 22 rows over 20 cm 33% along and 12,5% across 1 pull", "rib", 0.125, 0.33, 1),
        ("rib: 12 1/2 % across 40 % along", "rib", 0.125, 0.4, 1),
        ("Neck  band: 12 1/2 % across 40 % along", "rib", 0.125, 0.4, 1),
        ("arm band: 12 1/2 % across 40 % along", "rib", 0.125, 0.4, 1),
        ("0 % across, 200 % along, 100 pulls", "main", 0.0, 2.0, 100),
    ],
)
def test_what_a_swatch_gives_is_read_behind_its_gauge(
    text: str, fabric: str, across: float, along: float, pulls: int
) -> None:
    design = demo("tidepool")
    own = read_gauge([text], design)
    worked, usual = own.parts.fabrics[fabric], design.parts.fabrics[fabric]
    assert (worked.stretch_across, worked.stretch_along, worked.stretch_pulls) == (across, along, pulls)
    assert worked.stitches_per_cm == pytest.approx(usual.stitches_per_cm, rel=0.1)
    others = {name: each for name, each in own.parts.fabrics.items() if name != fabric}
    assert all(
        each.stretch_across == design.parts.fabrics[name].stretch_across for name, each in others.items()
    )


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("rib: 20 % across", "expected a stretch such as"),
        ("rib: 20 % across, 30 % across", "expected a stretch such as"),
        ("rib: 20 % across, 30 % along, 0 pulls", "in 1 to 100 pulls"),
        ("rib: 20 % across, 201 % along", "0 to 200 %"),
        ("rib: 1/0 % across, 20 % along", "fraction"),
        ("19 sts over 20 cm, 20 % of it", "expected a stretch such as"),
        ("wool: 20 % across, 30 % along", "there is no fabric 'wool'"),
    ],
)
def test_a_stretch_that_no_swatch_has_is_refused(text: str, told: str) -> None:
    with pytest.raises(UsageError, match=r"--gauge: ") as refused:
        read_gauge([text], demo("tidepool"))
    assert told in str(refused.value)


def test_a_stretch_pulled_oftener_is_surer() -> None:
    """Errors of pulls are independent: of n the variance is a + b/n, so 1, 4 and 16 differ as 4 to 1."""
    design = demo("tidepool")
    (six,) = (size for size in design.sizes if size.name == "6")
    wearer = resolve(six.wearer, "6")
    variances = []
    for pulls in (1, 4, 16):
        own = read_gauge([f"rib: 10 % across, 35 % along, {pulls} pulls"], design)
        fit = size_fit(design, size_at_gauge(design, six, own.parts), wearer)
        variances.append(fit.case.chances.sureness("ARM-PASS").sd_cm ** 2)
    once, four, sixteen = variances
    assert once - four == pytest.approx(4 * (four - sixteen), rel=1e-6)
    assert once > 1.2 * four


@pytest.mark.slow
def test_what_a_swatch_gives_is_told_beside_the_patterns() -> None:
    told = call(
        "fit", SPECS / "tidepool.yaml", "--age", "6", "--gauge", "rib: 12 % across, 40 % along, 3 pulls"
    )
    text = " ".join(told.stdout.split())
    assert (
        "Your swatch for the neck band and arm bands gives 12 % across and 40 % along, the mean of 3 pulls; "
        "the pattern's gives" in text
    )
    assert "Your gauge, stitches" not in text
