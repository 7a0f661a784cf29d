"""The assembly sheet read back from its SVG: figures against the drawing and the spec, nothing touching."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from shapely import LineString
from shapely.ops import polygonize, unary_union

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.design.limits import Limits
from schematics.drawing.assembly.assembly import draw_assembly
from schematics.drawing.assembly.steps import instructions
from schematics.drawing.compose import Setting, finish
from schematics.drawing.ink.sheet import A4, LETTER, Paper
from schematics.drawing.ink.svg import to_svg
from tests.drawing.audit_lengths import labelled
from tests.drawing.designs import SIZES, as_text, random_design, random_spec, read_spec
from tests.drawing.joined_views import joined_views, width
from tests.drawing.readback import Page
from tests.drawing.sheets import Drawn, shipped_one
from tests.examples import seeds, thorough
from tests.shipped import shipped_design, shipped_results

pytestmark = pytest.mark.seeds
_RANDOM = seeds([(word, seed) for seed in range(400, 405) for word in sorted(SIZES)])


def assemblies(design: Design, paper: Paper = A4, scale: int = 10) -> list[Drawn]:
    """The assembly sheet of every size, at that scale if there is room."""
    results = evaluate(design)
    setting = Setting(design=design, results=results, paper=paper, scale=scale)
    return [
        Drawn(design, result, "assembly", sheet, to_svg(sheet))
        for number, result in enumerate(results, start=1)
        for sheet in [finish(setting, draw_assembly(setting, result), result, number, len(results))]
    ]


def demo(slug: str) -> list[Drawn]:
    """Of all sizes by `make fuzz`, else of the smallest and the largest."""
    places = range(len(shipped_design(slug).sizes)) if thorough() else (0, -1)
    return [shipped_one(slug, "assembly", place) for place in places]


def faults(drawn: list[Drawn]) -> list[str]:
    """What is wrong on the sheets, but for their title blocks, which all sheets have alike."""
    return [fault for each in drawn for fault in each.faults() if "title" not in fault]


def lengths(page: Page, group: str) -> list[tuple[float, float, float]]:
    """Each dimension of that name: cm said, inches said in cm, cm between the arrows."""
    found = []
    for dimension in page.dimensions():
        if re.fullmatch(rf"dimension-{group}(-\d+)?", dimension.group):
            cm, inches_cm, _ = labelled(dimension.label)
            found.append((cm, inches_cm, math.dist(*dimension.tips) * page.scale / 10))
    return found


@pytest.mark.slow
@pytest.mark.parametrize(("word", "seed"), _RANDOM)
def test_random_designs_have_no_fault_and_say_what_is_drawn(word: str, seed: int) -> None:
    """Labels to 0.5 cm and a quarter inch: the widths, and the drop unless the neck is too tight for it.

    Where front and back differ by less than a centimetre, which nobody sees, that of the back alone.
    """
    (drawn,) = assemblies(random_design(word, seed, most_sizes=1))
    assert faults([drawn]) == []
    assert drawn.sheet.unplaced == ()
    page = drawn.page
    widths, drops = lengths(page, "width"), lengths(page, "drop")
    assert drawn.result
    front, back = map(width, joined_views(drawn.result.garment))
    assert len(widths) == (1 if 1e-6 < abs(front - back) < 1 else 2)
    for cm, inches_cm, drawn_cm in (*widths, *drops):
        assert cm == pytest.approx(drawn_cm, abs=0.25 + 0.01)
        assert inches_cm == pytest.approx(drawn_cm, abs=2.54 / 8 + 0.01)


@pytest.mark.slow
def test_nobody_asks_why_a_front_is_a_little_narrower_than_the_back() -> None:
    """In size S of driftwood the panel of 20 cable stitches, 13.33 cm, closes a slot of 18, 13.85 cm."""
    page = shipped_one("driftwood", "assembly", -2).page
    assert len(lengths(page, "width")) == 1
    assert [words.text for words in page.words if "its opening" in words.text] == []


@pytest.mark.slow
def test_width_and_drop_of_a_flared_size_by_closed_form() -> None:
    """Front and back are equally wide, as in `test_joined.py`; drop: rows and band."""
    spec = random_spec("flared", 7, most_sizes=1)
    spec["fabrics"] = {"plain": {"stitch": "single crochet", "swatch": _ten_by_ten(), "turning_chains": 1}}
    spec["parts"] = dict.fromkeys(("body", "centre_panel", "neck_band", "arm_bands"), "plain")
    (size,) = spec["sizes"].values()
    size["body"] = {"neck": 40, "hem": 130, "rows": 30}
    size["arms"] = {"from_front": 26, "stitches": 16}
    size["panel"], size["neck_band"] = {"stitches": 10, "rows": 30}, {"stitches": 5}
    (drawn,) = assemblies(read_spec(as_text(spec), "closed"))
    opening = (130 - 40) / 30
    outer = 130 / opening
    turn = opening / 4 + math.asin(10 / (4 * outer * math.cos(opening / 4)))
    widths = [cm for _, _, cm in lengths(drawn.page, "width")]
    assert widths == pytest.approx([2 * outer * math.sin(turn)] * 2, rel=1e-3)
    ((_, _, drop),) = lengths(drawn.page, "drop")
    assert drop == pytest.approx(35, abs=0.01)


def _ten_by_ten() -> dict[str, int]:
    return {"stitches": 10, "rows": 10, "width": 10, "height": 10}


@pytest.mark.slow
def test_every_marker_has_its_number_once() -> None:
    for drawn in demo("tidepool"):
        assert drawn.result is not None
        arm = drawn.result.garment.arm
        led_to = [leader.label for leader in drawn.page.leaders() if leader.label.isdigit()]
        numbers = sorted(map(int, (*drawn.page.texts("marker-number"), *led_to)))
        assert numbers == sorted((arm.first, arm.last, *arm.left))


@pytest.mark.slow
def test_yarn_is_joined_at_the_neck_and_at_the_last_marker_of_each_run() -> None:
    """Three triangles, one of them at the back, where the right run starts.

    The sheet says once what a triangle means, and at none of them.
    """
    (first, *_) = demo("tidepool")
    assert first.result is not None
    arm = first.result.garment.arm
    assert first.page.groups("join") == [
        f"join-arm-{arm.left[1]}",
        f"join-arm-{arm.last}",
        "join-neck",
    ]
    assert "A triangle points to where yarn is joined." in " ".join(first.page.texts("steps"))
    for drawn in demo("tidepool"):
        assert not [words for words in drawn.page.words if words.text.lower() == "join yarn"]


@pytest.mark.slow
@pytest.mark.parametrize("slug", ["tidepool", "sandpiper"])
def test_no_arrow_to_a_number_runs_over_a_triangle(slug: str) -> None:
    for place in range(7) if thorough() else (1,):
        page = shipped_one(slug, "assembly", place).page
        arrows = [stroke.shape for stroke in page.of_kind("leader")]
        assert all(
            arrow.distance(triangle.shape) > 0.1 for triangle in page.of_kind("join") for arrow in arrows
        )


@pytest.mark.parametrize(
    ("slug", "size", "words"),
    [
        ("driftwood", "2", ""),
        ("tidepool", "M", ""),
        ("tidepool", "S", "Last increase row dotted."),
        ("saltmarsh", "8", "Increase lines dotted."),
        ("saltmarsh", "2", "Increase lines and last increase row dotted."),
    ],
)
def test_lines_that_are_dotted_are_named(slug: str, size: str, words: str) -> None:
    """Tidepool's S increases to row 32 of 36, M to its last; saltmarsh's 2 to row 21 of 22, 8 to its last."""
    (garment,) = (each.garment for each in shipped_results(slug) if each.size.name == size)
    said = instructions(garment, Limits()).legend
    assert words in said
    assert ("dotted" in said) is bool(words)
    assert "Seams dashed." in said


@pytest.mark.slow
def test_what_is_said_of_the_lines_is_on_the_sheet() -> None:
    for drawn in demo("saltmarsh"):
        assert drawn.result is not None
        assert instructions(drawn.result.garment, drawn.design.limits).legend in " ".join(
            drawn.page.texts("steps")
        )


@pytest.mark.slow
def test_seams_carry_their_letters() -> None:
    for drawn in demo("tidepool"):
        assert sorted(drawn.page.texts("seam-letter")) == ["A", "B"]


@pytest.mark.slow
def test_seam_a_is_on_the_viewers_left_of_seam_b() -> None:
    page = demo("tidepool")[0].page
    places = {words.text: words.box.centroid.x for words in page.words if words.kind == "seam-letter"}
    assert places["A"] < places["B"]


def test_the_arm_band_is_labelled_with_its_rows() -> None:
    for drawn in demo("tidepool"):
        assert drawn.result is not None
        (label,) = (leader.label for leader in drawn.page.leaders() if "arm band" in leader.label)
        cm, _, rows = labelled(label)
        ring = drawn.result.garment.arm.ring
        assert rows == ring.band_rows
        assert cm == pytest.approx(ring.band_cm, abs=0.25)


@pytest.mark.parametrize("size", [0, 1])
def test_lines_on_paper_enclose_the_area_of_the_pieces(size: int) -> None:
    """Fabric, folds and seams closed up to polygons; ends meet to a hundredth of a millimetre."""
    drawn = demo("tidepool")[size]
    page = drawn.page
    lines = [
        LineString([(round(x, 2), round(y, 2)) for x, y in stroke.points])
        for kind in ("fabric", "fold", "seam")
        for stroke in page.of_kind(kind)
    ]
    area_cm2 = sum(shape.area for shape in polygonize(unary_union(lines))) * page.scale**2 / 100
    assert drawn.result is not None
    cm = {each.key: each.length_cm for each in drawn.result.garment.finished}
    ring_sector = (cm["body.neck"] + cm["body.hem"]) / 2 * cm["body.depth"]
    panel = cm["panel.width"] * cm["panel.length"]
    assert area_cm2 == pytest.approx(ring_sector + panel, rel=2e-3)


@pytest.mark.slow
def test_all_sizes_share_a_scale_that_may_be_smaller_than_the_pieces() -> None:
    design = random_design("flared", 402)
    drawn = assemblies(design, scale=5)
    assert len({each.page.scale for each in drawn}) == 1
    assert drawn[0].page.scale >= 5


@pytest.mark.slow
def test_letter_paper_works_too() -> None:
    design = shipped_design("tidepool")
    assert faults(assemblies(replace(design, sizes=design.sizes[:2]), LETTER)) == []


def absurd(word: str, body: dict[str, int], arms: dict[str, int]) -> Design:
    spec = random_spec(word, 3, most_sizes=1)
    (size,) = spec["sizes"].values()
    size["body"], size["arms"] = body, arms
    return read_spec(as_text(spec), "absurd")


_VIEWS = ("the views, where fabric overlaps itself",)
_HARDLY_A_FOLD = ("fold", "fold", "fold")
"""Halves half a millimetre wide on paper: beside the arrows to the numbers, which would say nothing without,
one arrow to a fold ends clear of other lines."""


@pytest.mark.slow
@pytest.mark.parametrize(
    ("body", "arms", "named"),
    [
        ({"neck": 2, "hem": 2, "rows": 1}, {"from_front": 0, "stitches": 2}, _HARDLY_A_FOLD),
        ({"neck": 40, "hem": 400, "rows": 12}, {"from_front": 20, "stitches": 10}, _VIEWS),
        ({"neck": 40, "hem": 130, "rows": 30}, {"from_front": 60, "stitches": 40}, ()),
        ({"neck": 40, "hem": 130, "rows": 30}, {"from_front": 120, "stitches": 40}, ()),
        ({"neck": 40, "hem": 40, "rows": 900}, {"from_front": 0, "stitches": 20}, ()),
    ],
    ids=["tiny", "many circles", "overlapping runs", "runs off the edge", "a long tube"],
)
def test_absurd_sizes_are_drawn_or_named(
    body: dict[str, int], arms: dict[str, int], named: tuple[str, ...]
) -> None:
    """They cannot be made, and the checks say so; the sheet must still come out, in one piece."""
    (drawn,) = assemblies(absurd("flared", body, arms))
    assert faults([drawn]) == []
    assert "How it goes together" in drawn.page.texts("steps")
    assert drawn.sheet.unplaced == named
