"""The nest: every size is named at its own outline, no line to a name crosses another, the page is filled."""

from __future__ import annotations

import itertools
from pathlib import Path
from typing import Any

import pytest
import yaml
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.drawing.compose import Drawing, finish
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import STROKES, Area, Group, Line, Text
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.pieces.nest import draw_nest, size_pen, size_tints
from schematics.drawing.pieces.nest_names import Nested, name_sizes
from schematics.drawing.sheets import setting_of
from schematics.reading.design_file import read_design
from tests.drawing.audit_layout import layout_faults
from tests.drawing.audit_scale import scale_faults
from tests.drawing.audit_svg import svg_faults
from tests.drawing.readback import read_page
from tests.shipped import shipped_design, shipped_results

NAMES = ("driftwood", "saltmarsh", "tidepool")

BETWEEN = {"12": ("child/12", 42, 198, 34, 32), "14": ("child/14", 44, 202, 35, 34)}
"""Sizes between 10 and S of the demo design: wearer, neck, hem, rows, last increase row."""


@pytest.fixture(scope="module")
def nine(tmp_path_factory: pytest.TempPathFactory) -> Design:
    """The demo design in nine sizes."""
    spec: dict[str, Any] = yaml.safe_load((Path("specs") / "tidepool.yaml").read_text(encoding="utf-8"))
    sizes = spec["sizes"]
    for name, (wearer, neck, hem, rows, until) in BETWEEN.items():
        body = {"neck": neck, "hem": hem, "rows": rows, "increase_every": 2, "increase_until": until}
        sizes[name] = {**sizes["10"], "wearer": wearer, "body": body}
    order = ("2", "4", "6", "8", "10", "12", "14", "S", "M")
    spec["sizes"] = {name: sizes[name] for name in order}
    path = tmp_path_factory.mktemp("nine") / "nine.yaml"
    path.write_text(yaml.safe_dump(spec, sort_keys=False, allow_unicode=True), encoding="utf-8")
    return read_design(path)


@pytest.fixture(scope="module")
def nine_nest(nine: Design) -> Drawing:
    """Its nest."""
    return nest_of(nine)


def nest_of(design: Design) -> Drawing:
    (nest,) = draw_nest(setting_of(design, evaluate(design)))
    return nest


def outlines(nest: Drawing, piece: str) -> dict[str, LineString]:
    """The outline of each size."""
    return {
        group.name.removeprefix(f"{piece} "): LineString(mark.points)
        for group in nest.groups
        if group.kind == "outline" and group.name.startswith(piece)
        for mark in group.marks
        if isinstance(mark, Line)
    }


def assert_named_at_its_own(nest: Drawing, sizes: list[str]) -> None:
    """Each line to a name begins at an outline of that name, and no other outline is as near.

    Only outlines that are one, nowhere farther apart than 0.3 mm, are named at one place.
    """
    drawn = {piece: outlines(nest, piece) for piece in ("body", "centre panel")}
    named: dict[str, list[str]] = {piece: [] for piece in drawn}
    for group in (each for each in nest.groups if each.kind in ("size", "leader")):
        start = ShapelyPoint(next(mark.points[0] for mark in group.marks if isinstance(mark, Line)))
        words = next(mark.words for mark in group.marks if isinstance(mark, Text)).split(", ")
        piece = min(drawn, key=lambda name: min(line.distance(start) for line in drawn[name].values()))
        nearest = min(drawn[piece].values(), key=lambda line: line.distance(start))
        own = [drawn[piece][size] for size in words]
        assert all(line.distance(start) < 0.95 for line in own)
        assert all(line.hausdorff_distance(nearest) < 0.3 for line in own)
        named[piece] += words
    assert all(sorted(names) == sorted(sizes) for names in named.values())


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_names_stand_upright_on_lines_that_do_not_cross(name: str) -> None:
    design = shipped_design(name)
    nest = nest_of(design)
    named = [group for group in nest.groups if group.kind == "size"]
    words = [mark.words for group in named for mark in group.marks if isinstance(mark, Text)]
    assert sorted(", ".join(words).split(", ")) == sorted(2 * [size.name for size in design.sizes])
    assert all(mark.angle == 0 for group in named for mark in group.marks if isinstance(mark, Text))
    lines = [LineString(mark.points) for group in named for mark in group.marks if isinstance(mark, Line)]
    assert not any(one.crosses(other) for one, other in itertools.combinations(lines, 2))
    assert_named_at_its_own(nest, [size.name for size in design.sizes])


@pytest.mark.slow
def test_nine_sizes_are_named_each_at_its_own_outline(nine: Design, nine_nest: Drawing) -> None:
    assert nine_nest.unplaced == ()
    assert_named_at_its_own(nine_nest, [size.name for size in nine.sizes])


@pytest.mark.slow
def test_every_size_is_filled_as_far_as_its_outline_and_smaller_ones_lie_over_larger(
    nine: Design, nine_nest: Drawing
) -> None:
    for piece in ("body", "centre panel"):
        drawn = {name: Polygon(line.coords) for name, line in outlines(nine_nest, piece).items()}
        tints = {
            group.name.removeprefix(f"{piece} "): mark
            for group in nine_nest.groups
            if group.kind == "tint" and group.name.startswith(piece)
            for mark in group.marks
            if isinstance(mark, Area)
        }
        assert {name: Polygon(tint.points).area for name, tint in tints.items()} == pytest.approx(
            {name: face.area for name, face in drawn.items()}
        )
        areas = [Polygon(tint.points).area for tint in tints.values()]
        assert areas == sorted(areas, reverse=True)
        assert [tints[size.name].shade for size in nine.sizes] == size_tints(9)
    assert [group.kind for group in nine_nest.groups[:9]] == ["tint"] * 9


@pytest.mark.slow
def test_nothing_touches_among_nine_sizes(nine: Design, nine_nest: Drawing) -> None:
    """Read back from the sheet: no name on a line or another name, at a scale of ISO 5455."""
    svg = to_svg(finish(setting_of(nine, evaluate(nine)), nine_nest, None, 3, 40))
    page = read_page(svg)
    assert [*layout_faults(page), *scale_faults(page), *svg_faults(svg)] == []


@pytest.mark.slow
def test_the_page_is_filled(nine_nest: Drawing) -> None:
    """At the next larger scale of ISO 5455, twice as large, the body alone would be too wide or high."""
    lines = [LineString(mark.points) for group in nine_nest.groups for mark in _lines(group)]
    x0, y0, x1, y1 = (
        min(line.bounds[0] for line in lines),
        min(line.bounds[1] for line in lines),
        max(line.bounds[2] for line in lines),
        max(line.bounds[3] for line in lines),
    )
    assert nine_nest.scale == 5
    assert 2 * (x1 - x0) > 186
    assert 2 * (y1 - y0) > 220


def _lines(group: Group) -> list[Line]:
    return [mark for mark in group.marks if isinstance(mark, Line)]


@pytest.mark.parametrize("sizes", range(2, 10))
def test_sizes_differ_in_black_alone_and_grow_bolder(sizes: int) -> None:
    strokes = [STROKES[size_pen(number, sizes)] for number in range(sizes)]
    assert len(set(strokes)) == sizes
    assert [stroke.width for stroke in strokes] == sorted(stroke.width for stroke in strokes)
    assert all(one.dashes != other.dashes for one, other in itertools.pairwise(strokes))


def _said(nest: Drawing) -> list[str]:
    return [mark.words for group in nest.groups for mark in group.marks if isinstance(mark, Text)]


@pytest.mark.parametrize("name", ["driftwood", "kelp", "saltmarsh"])
def test_all_that_is_measured_is_in_the_table(name: str) -> None:
    """Of the body and the centre panel, ten of driftwood's, in cm alone, and eight of the others in both."""
    said = _said(nest_of(shipped_design(name)))
    garment = shipped_results(name)[0].garment
    keys = {span.key for piece in ("body", "centre panel") for span in garment.piece(piece).spans}
    names = [item.name for item in garment.finished if item.key in keys]
    assert len(names) == (10 if name == "driftwood" else 8)
    assert {each: said.count(each) for each in names} == dict.fromkeys(names, 1)
    units = {"cm": len(names), "in": 0 if name == "driftwood" else len(names)}
    assert {each: said.count(each) for each in units} == units
    words = " ".join(said)
    assert ("Inches: on the sheet of finished measurements." in words) == (units["in"] == 0)


@pytest.mark.slow
def test_a_table_too_high_for_the_nest_has_sheets_of_its_own_with_counts() -> None:
    """Fourteen sizes are two tables under one another, of 40 lines each and one for each count."""
    setting = setting_of(shipped_design("driftwood"), 2 * shipped_results("driftwood"))
    nest, *tables = draw_nest(setting)
    assert "cm" not in _said(nest)
    said = [words for table in tables for words in _said(table)]
    assert [said.count(each) for each in ("cm", "in", "back neck depth")] == [20, 20, 2]
    assert {"sts", "rows"} <= {*said}
    for table in tables:
        assert layout_faults(read_page(to_svg(finish(setting, table, None, 4, 40)))) == []


def test_a_body_over_the_shoulders_says_which_end_is_the_front() -> None:
    """Upwards from the fold: it is worked from the back hem, which is drawn below."""
    nest = nest_of(shipped_design("driftwood"))
    at = {mark.words: mark.at[1] for group in nest.groups for mark in group.marks if isinstance(mark, Text)}
    (fold,) = (line for group in nest.groups if group.kind == "crease" for line in _lines(group))
    assert at["front"] < fold.points[0][1] < at["shoulder fold"] < at["back"]
    assert not {"front", "back"} & {*_said(nest_of(shipped_design("saltmarsh")))}


def test_a_size_that_ends_at_the_middle_with_another_is_named_at_the_corner_that_is_its_own() -> None:
    """Two outlines from one end of the middle line, one with its corner higher, one farther out."""
    high = Nested("high", ((0.0, 40.0), (40.0, 0.0), (0.0, 0.0)), named_at_end=False)
    wide = Nested("wide", ((0.0, 40.0), (48.0, 12.0), (0.0, 12.0)), named_at_end=False)
    block = Block()
    name_sizes(block, (high, wide))
    for each in (high, wide):
        group = next(group for group in block.groups if group.name == each.name)
        (line,) = (mark for mark in group.marks if isinstance(mark, Line))
        (text,) = (mark for mark in group.marks if isinstance(mark, Text))
        assert line.points[0] == pytest.approx(each.points[1], abs=1e-6)
        other = wide if each is high else high
        assert not LineString((line.points[0], text.at)).intersects(other.line)
