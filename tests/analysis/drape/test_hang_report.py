"""What is worked out of a size by both models, with a hang on cloth that is made up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from schematics.analysis.drape.hang_report import (
    NO_HEIGHT,
    SizeHang,
    corners_of,
    hang_lengths,
    size_hangs,
    stiffness_guessed,
)
from schematics.analysis.drape.plane_hang import plane_lengths
from schematics.checks.cloth_findings import ClothLength
from schematics.checks.finding import Severity
from schematics.crochet.fabric import Fabric
from schematics.design.design import Design
from schematics.garment.cloth.cloth_error import ClothError
from schematics.wearer.body import Body
from schematics.wearer.proportions import proportioned
from tests.analysis.drape.made_up_hang import made_up_ranges
from tests.shipped import shipped_design, shipped_results


@pytest.fixture(scope="module")
def design() -> Design:
    return shipped_design("tidepool")


def hung(design: Design, hang: Callable[..., Any] = lambda *_: made_up_ranges(*_[:2])) -> SizeHang:
    (six,) = (each for each in shipped_results("tidepool") if each.size.name == "6")
    (one,) = size_hangs(design, [six], hang=hang)
    return one


def with_swatches(design: Design, changed: Callable[[Fabric], Fabric]) -> Design:
    return replace(design, parts=design.parts.with_fabrics(changed))


def test_the_plane_model_hangs_as_deep_as_the_rows_with_their_sag(design: Design) -> None:
    """27 rows at 14 to 20 cm are 38.571 cm deep, and 5 % more when worn; all of a flared hem is as far."""
    (six,) = (each for each in shipped_results("tidepool") if each.size.name == "6")
    body = proportioned(six.wearer)
    assert body is not None
    plane = plane_lengths(design, six, body.size)
    assert plane is not None
    worn = 27 * 20 / 14 * 1.05
    assert [plane[name] for name in ("back", "front", "lowest")] == pytest.approx([worn] * 3)
    assert plane["side"] <= plane["back"]
    assert plane["level_back"] == plane["level_front"] <= plane["back"] + 1e-9
    assert plane["neck_back"] == 0.0


def test_heights_above_the_floor_become_lengths_below_the_nape(design: Design) -> None:
    """The hem 62 cm above the floor, 61 to 64, is 38 cm below a nape at 100, 36 to 39; the neck is told as "
    "is."""
    (six,) = (each for each in shipped_results("tidepool") if each.size.name == "6")
    body = proportioned(six.wearer)
    assert body is not None
    size = replace(body.size, nape_height_cm=100.0, shoulder_breadth_cm=26.0)
    plane = plane_lengths(design, six, body.size)
    assert plane is not None
    lengths = hang_lengths(six, size, plane, made_up_ranges(six.garment, size))
    assert lengths.back.cloth == ClothLength(36.0, 38.0, 39.0)
    assert lengths.lowest.cloth == ClothLength(40.0, 42.0, 43.0)
    assert lengths.level_back.cloth == ClothLength(16.0, 18.0, 19.0)
    assert lengths.neck_back.cloth == ClothLength(2.0, 3.0, 5.0)
    assert lengths.neck_beside.cloth == ClothLength(8.0, 9.0, 11.0)
    assert lengths.shoulder_cm == 13.0
    knee, where = (
        next(each for each in six.findings if each.code == code) for code in ("HANG-KNEE", "HANG-WHERE")
    )
    assert lengths.waist_cm == where.figures["waist_cm"]
    assert lengths.knee_cm - knee.figures["worn_cm"] == pytest.approx(knee.figures["clearance_cm"])


def test_what_is_found_stands_worst_first(design: Design) -> None:
    one = hung(design)
    assert [each.finding.severity for each in one.findings] == [Severity.MIND, Severity.GOOD, Severity.GOOD]
    assert one.verdict is Severity.MIND
    assert not one.without


def refuse(*_: object) -> Any:
    raise ClothError("seam A has a corner")


def test_without_cloth_the_plane_model_is_told_alone_and_why(design: Design) -> None:
    unweighed = with_swatches(design, lambda each: replace(each, swatch=replace(each.swatch, mass_g=None)))
    rigid = with_swatches(design, lambda each: replace(each, stretch_across=0.0, stretch_along=0.0))
    told = (
        (
            unweighed,
            "The swatches of 'main', 'ripple' and 'rib' were not weighed (give their mass), so the plane "
            "model alone is told.",
        ),
        (
            rigid,
            "How far 'main', 'ripple' and 'rib' give is not told (measure its stretch), so the plane model "
            "alone is told.",
        ),
        (design, "It cannot be hung on cloth, so the plane model alone is told: seam A has a corner."),
    )
    for known, sentence in told:
        one = hung(known, refuse)
        assert one.without == sentence
        assert one.lengths is not None
        assert one.lengths.back.cloth is None
        assert {each.decides for each in one.findings} == {"plane model"}
        assert all("cloth" not in each.finding.sentence for each in one.findings)


def test_without_a_height_there_is_no_body_to_hang_it_on(design: Design) -> None:
    (six,) = (each for each in shipped_results("tidepool") if each.size.name == "6")
    values = dict(six.wearer.values)
    del values[Body.HEIGHT]
    nobody = replace(six, wearer=replace(six.wearer, values=values))
    (one,) = size_hangs(design, [nobody], hang=refuse)
    assert (one.without, one.findings, one.lengths) == (NO_HEIGHT, (), None)


def test_a_bending_length_that_was_measured_is_not_varied(design: Design) -> None:
    assert stiffness_guessed(design.parts) == ("main", "ripple", "rib")
    assert len({each.bending_length_cm for each in corners_of(design.parts)}) == 2
    stiff = with_swatches(
        design, lambda each: replace(each, swatch=replace(each.swatch, bending_length_cm=3.1))
    )
    assert stiffness_guessed(stiff.parts) == ()
    assert len({each.bending_length_cm for each in corners_of(stiff.parts)}) == 1
    assert len({each.friction for each in corners_of(stiff.parts)}) == 2


def test_progress_is_told_size_by_size(design: Design) -> None:
    shares: list[float] = []
    results = shipped_results("tidepool")[:4]
    size_hangs(design, results, shares.append, lambda result, size, _: made_up_ranges(result.garment, size))
    assert shares == [0.25, 0.5, 0.75, 1.0]
