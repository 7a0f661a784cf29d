"""Edges that are sewn, in bare drawings: dashed, and named under them."""

from __future__ import annotations

import pytest

from schematics.drawing.ink.svg import to_svg
from tests.drawing.bare_reading import read_bare
from tests.drawing.test_bare import shipped_drawing
from tests.shipped import shipped_results


@pytest.mark.slow
@pytest.mark.parametrize(("name", "edges"), [("tidepool", "AB"), ("driftwood", "ABCD")])
def test_sewn_edges_are_dashed_just_inside_along_their_whole_length(name: str, edges: str) -> None:
    """As long as the seams at the drawing's scale, but for a millimetre at each corner."""
    sheet = shipped_drawing(name, None, "all-sizes-outline-page")
    page = read_bare(to_svg(sheet))
    garment = shipped_results(name)[len(shipped_results(name)) // 2].garment
    assert {seam.letter for seam in garment.seams} == set(edges)
    assert sheet.scale
    for piece in ("body", "centre-panel"):
        rim = page.outlines[f"outline-{piece}"].exterior
        for seam in garment.seams:
            drawn = [each for each in page.strokes if each.group.startswith(f"joined-{piece}-{seam.letter}")]
            sides = [seam.first_piece, seam.second_piece].count(piece.replace("-", " "))
            assert len(drawn) == sides
            for each in drawn:
                assert each.shape.length == pytest.approx(
                    seam.first.length_cm * 10 / sheet.scale - 2, abs=0.05
                )
                assert each.shape.hausdorff_distance(rim.intersection(each.shape.buffer(1.05))) < 1.5
                assert each.shape.distance(rim) == pytest.approx(1, abs=0.02)
    (legend,) = [" ".join(each.text for each in page.words if each.group == "label-legend")]
    assert f"seams {edges[0]}" in legend.replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.slow
def test_a_narrow_panel_is_dashed_as_the_body_is() -> None:
    """Of driftwood, size 6, in a column: 14 stitches of 20/30 cm are some 5 mm wide there."""
    page = read_bare(to_svg(shipped_drawing("driftwood", "6", "all-pieces-column")))
    sewn = {each.group.removeprefix("joined-")[:-2] for each in page.strokes if each.kind == "joined"}
    assert {"body", "centre-panel"} <= {name.removesuffix("-C").removesuffix("-D") for name in sewn}
    x0, _, x1, _ = page.outlines["outline-centre-panel"].bounds
    assert 4 < x1 - x0 < 7
