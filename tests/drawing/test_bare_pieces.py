"""Pieces in bare drawings: how they are measured, and how large they are."""

from __future__ import annotations

from itertools import pairwise

import pytest
import shapely

from schematics.checks.evaluation import evaluate
from schematics.drawing.ink.svg import to_svg
from tests.drawing.audit_lengths import group_id
from tests.drawing.bare_reading import bare_faults, drawings_in, one_drawing, read_bare
from tests.drawing.designs import read_spec
from tests.drawing.test_patterned import FLARED
from tests.examples import covering, thorough
from tests.shipped import demo_names, shipped_design, shipped_results


@pytest.mark.slow
@pytest.mark.parametrize(("size", "stem"), [("S", "body-page"), ("10", "body-page"), ("6", "body-column")])
def test_the_neck_and_the_slot_of_a_folded_body_are_measured_from_edge_to_edge(size: str, stem: str) -> None:
    """By lines with arrows at both ends, as a hole's edges do not show how far an arrow to one means.

    The arrow of work goes where they leave room.
    """
    drawn = read_bare(
        to_svg(one_drawing(shipped_design("driftwood"), shipped_results("driftwood"), size, stem))
    )
    keys = ("body.neck_width", "body.neck_front", "body.neck_back", "body.slot")
    assert {each.group for each in drawn.dimensions()} >= {group_id("dimension", key) for key in keys}
    assert list(drawn.leaders()) == []
    assert len(drawn.groups("work")) == 1


TWO_SIZES = """\
title: Shingle
unit: in
construction: folded
yarn: {name: made up}
fabrics:
  ripple:
    stitch: raised ripple stitch
    turning_chains: 1
    swatch: {stitches: 15, rows: 14, width: 20 cm, height: 20 cm}
  plain: {stitch: single crochet, swatch: {stitches: 45, rows: 27, width: 20 cm, height: 20 cm}}
parts: {body: ripple, centre_panel: ripple, neck_band: ripple, arm_bands: plain}
sizes:
  small:
    wearer: baby/18 mo
    body: {width: 54, front_rows: 10, back_rows: 9, neck: 12, neck_front_rows: 2, neck_back_rows: 1, slot: 8}
    arms: {rows: 14}
    panel: {stitches: 6, rows: 8}
    neck_band: {stitches: 5}
    arm_bands: {stitches: 12}
  large:
    wearer: woman/3X
    body: {width: 58, front_rows: 39, back_rows: 34, neck: 16, neck_front_rows: 6, neck_back_rows: 3, slot: 8}
    arms: {rows: 14}
    panel: {stitches: 12, rows: 33}
    neck_band: {stitches: 11}
    arm_bands: {stitches: 22}
"""
"""The small body is 15 cm deep in front and the large one 56, at nearly the same width."""


@pytest.mark.slow
@pytest.mark.parametrize("stem", ["body-page", "body-column", "all-pieces-page"])
def test_all_sizes_have_figures_or_all_have_letters(stem: str) -> None:
    """The figures of a dimension are digits, of which a letter has none; a drawing has one kind."""
    design = read_spec(TWO_SIZES, "shingle")
    results = evaluate(design)
    kinds = set()
    for result in results:
        page = read_bare(to_svg(one_drawing(design, results, result.size.name, stem)))
        labels = [words.text for words in page.words if words.kind == "dimension"]
        assert labels
        kinds.add(frozenset(any(map(str.isdigit, label)) for label in labels if label != "sts"))
    assert kinds in ({frozenset({True})}, {frozenset({False})})


@pytest.mark.slow
@pytest.mark.parametrize(("name", "width"), covering(demo_names("tidepool"), ["column"]))
def test_a_piece_by_itself_is_never_smaller_than_among_all(name: str, width: str) -> None:
    for result in shipped_results(name) if thorough() else shipped_results(name)[2:3]:
        sheets = dict(drawings_in((width,), shipped_design(name), shipped_results(name), result.size.name))
        among = sheets[f"all-pieces-{width}"].scale
        assert among is not None
        assert {stem for stem, each in sheets.items() if each.scale is None or each.scale > among} == set()


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "stem"),
    covering(demo_names("driftwood", "kelp"), ["body-column", "body-page", "body-phone", "all-pieces-page"]),
)
def test_a_larger_size_is_never_drawn_smaller_than_a_smaller_one(name: str, stem: str) -> None:
    """Driftwood's smallest body is 59 % as wide as its largest, 35 % of a page where that is 60 %."""
    design, results = shipped_design(name), shipped_results(name)
    pages = [read_bare(to_svg(one_drawing(design, results, each.size.name, stem))) for each in results]
    longest = [
        max(x1 - x0, y1 - y0) for page in pages for x0, y0, x1, y1 in [page.outlines["outline-body"].bounds]
    ]
    at_full_size = [each * page.scale for each, page in zip(longest, pages, strict=True)]
    by_size = sorted(zip(at_full_size, longest, strict=True))
    assert all(small <= large + 0.1 for (_, small), (_, large) in pairwise(by_size))
    assert len({bool(page.texts("table")) for page in pages}) == 1


@pytest.mark.slow
@pytest.mark.parametrize("name", ["driftwood", "kelp", "tidepool"])
def test_every_piece_shows_which_way_it_is_worked_beside_it_the_body_on_it(name: str) -> None:
    """Among the strokes of a panel or the ridges of a band an arrow would be taken for one of them."""
    page = read_bare(
        to_svg(one_drawing(shipped_design(name), shipped_results(name), "2", "all-pieces-column"))
    )
    arrows = {stroke.group: stroke.shape for stroke in page.of_kind("work") if stroke.pen == "solid"}
    assert len(arrows) == len(page.outlines) == 4
    beside = {
        name
        for name, head in arrows.items()
        if not any(face.intersects(head) for face in page.outlines.values())
    }
    assert beside == {"work-centre-panel", "work-neck-band", "work-arm-band"}


@pytest.mark.slow
def test_no_words_lie_on_the_edge_of_a_border() -> None:
    design = read_spec(FLARED, "bordered")
    results = evaluate(design)
    sheet = one_drawing(design, results, "4", "body-page")
    assert [group.name for group in sheet.groups if group.kind == "border"] == ["hem edging", "yoke"]
    assert bare_faults(to_svg(sheet), "page", results[0], ("body",)) == []


@pytest.mark.slow
@pytest.mark.parametrize(("name", "size"), [("driftwood", "2"), ("driftwood", "6"), ("kelp", "2")])
def test_the_name_of_the_fold_is_not_under_the_hem(name: str, size: str) -> None:
    """There it would be read as the name of the hem, or as one with figures under it."""
    design, results = shipped_design(name), shipped_results(name)
    page = read_bare(to_svg(one_drawing(design, results, size, "body-phone")))
    assert "centre back" in " ".join(words.text for words in page.words)
    hem = page.outlines["outline-body"].bounds[3]
    names = [words.box.bounds for words in page.words if words.text == "centre back"]
    assert all(y1 < hem for _, _, _, y1 in names)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "size"), [("saltmarsh", "S"), pytest.param("tidepool", "M", marks=pytest.mark.thorough)]
)
def test_no_figures_are_far_from_what_they_measure(name: str, size: str) -> None:
    """On a phone the figures of the hem have no room but 43 mm from it; a letter has within 15."""
    drawn = read_bare(to_svg(one_drawing(shipped_design(name), shipped_results(name), size, "body-phone")))
    assert drawn.texts("table")
    assert max(each.shape.length for each in drawn.strokes if each.pen == "leader") < 15


@pytest.mark.slow
def test_no_leader_bends_by_an_extension_line() -> None:
    """The neck's leader of kelp in size 2 has room inside the neck, beside a line of the depth."""
    page = read_bare(
        to_svg(one_drawing(shipped_design("kelp"), shipped_results("kelp"), "2", "all-pieces-column"))
    )
    bends = [shapely.Point(stroke.points[1]) for stroke in page.strokes if stroke.pen == "leader"]
    extensions = [stroke.shape for stroke in page.strokes if stroke.pen == "extension"]
    assert len(bends) == 2
    assert min(line.distance(bend) for bend in bends for line in extensions) > 1.6
