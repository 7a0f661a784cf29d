"""The pictures of the steps of random designs and of some that cannot be made."""

from __future__ import annotations

import pytest

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.design.publication import SeamSides, SeamStitch, SeamStyle
from schematics.drawing.assembly.step_pictures import step_pictures
from tests.drawing.designs import SIZES, as_text, random_design, random_spec, read_spec
from tests.drawing.step_pictures_read import NECK, faults, pages_of, read
from tests.examples import thorough


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("word", sorted(SIZES) if thorough() else ["mitred"])
def test_random_designs_have_every_label_and_nothing_touches(word: str) -> None:
    for seed in range(700, 734 if thorough() else 701):
        results = evaluate(random_design(word, seed))
        seam = SeamStyle(stitch=SeamStitch.SLIP, sides=(SeamSides.RIGHT, SeamSides.WRONG)[seed % 2])
        pictures = step_pictures(results, seam)
        assert pictures
        for picture in pictures:
            where = f"{word} {seed}, {picture.sheet.title}"
            assert (where, picture.sheet.unplaced) == (where, ())
            assert (where, faults(read(picture))) == (where, [])


def absurd(body: dict[str, int], arms: dict[str, int]) -> Design:
    spec = random_spec("flared", 3, most_sizes=1)
    (size,) = spec["sizes"].values()
    size["body"], size["arms"] = body, arms
    return read_spec(as_text(spec), "absurd")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("body", "arms", "left_out"),
    [
        ({"neck": 2, "hem": 2, "rows": 1}, {"from_front": 0, "stitches": 2}, ("Mark", "Arm")),
        (
            {"neck": 40, "hem": 400, "rows": 12},
            {"from_front": 20, "stitches": 10},
            ("Lay", "Seam", "Mark", "Arm"),
        ),
        ({"neck": 40, "hem": 130, "rows": 30}, {"from_front": 60, "stitches": 40}, ("Mark", "Arm")),
        ({"neck": 40, "hem": 130, "rows": 30}, {"from_front": 120, "stitches": 40}, ("Mark", "Arm")),
        ({"neck": 40, "hem": 40, "rows": 900}, {"from_front": 0, "stitches": 20}, ()),
    ],
    ids=["tiny", "many circles", "overlapping runs", "runs off the edge", "a long tube"],
)
def test_what_would_lie_over_itself_has_no_picture(
    body: dict[str, int], arms: dict[str, int], left_out: tuple[str, ...]
) -> None:
    """They cannot be made; what can be drawn of them is."""
    drawn = pages_of(evaluate(absurd(body, arms)))
    assert NECK in drawn
    for start in ("Lay", "Seam", "Mark", "Arm"):
        assert any(step.startswith(start) for step in drawn) is (start not in left_out), start
