"""What every construction's pieces promise, held on hundreds of random designs of all three."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from schematics.crochet.fabric import Counted
from schematics.drawing.pieces.view import View
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Edge, Garment, Piece
from tests.examples import examples
from tests.garment.constructions.samples import flared, folded, mitred

ANY = st.one_of(flared(), mitred(), folded())
UP_TO_A_CIRCLE = st.one_of(flared(most_circles=0.999), mitred(most_circles=0.9), folded())
"""Sections are whole stitches, so a mitred body is only nearly round and may meet itself a little sooner."""
HAIR_CM = 1e-6


def off_the_outline_cm(piece: Piece, path: LineString) -> float:
    """How far the vertices and mid-points of a path lie from the piece's outline at most."""
    points = [
        *path.coords,
        *(path.interpolate(share, normalized=True).coords[0] for share in (0.2, 0.5, 0.9)),
    ]
    return max(piece.outline.exterior.distance(Point(each)) for each in points)


def is_vertex(domain: Polygon, point: Point) -> bool:
    return bool(shapely.distance(shapely.points(domain.exterior.coords), point).min() < HAIR_CM)


def edge_cm(edge: Edge) -> float:
    """Length of the whole edge as drawn."""
    return 2 * edge.path.length if edge.crosses_fold else edge.path.length


@pytest.mark.slow
@given(ANY)
@examples(100)
def test_polygons_are_simple_valid_and_counter_clockwise(made: Garment) -> None:
    for piece in made.pieces:
        assert piece.outline.is_valid, shapely.is_valid_reason(piece.outline)
        assert piece.outline.exterior.is_simple
        assert piece.outline.exterior.is_ccw
        assert not piece.outline.interiors
        assert piece.outline.area > 0


@pytest.mark.slow
@given(ANY)
@examples(100)
def test_edges_are_as_long_as_their_counts_and_lie_on_the_outline(made: Garment) -> None:
    for piece in made.pieces:
        names = [edge.name for edge in piece.edges]
        assert len(names) == len(set(names))
        for edge in piece.edges:
            swatch = edge.fabric.swatch
            length = (
                edge.count * swatch.width_cm / swatch.stitches
                if edge.counted is Counted.STITCHES
                else edge.count * swatch.height_cm / swatch.rows
            )
            assert edge.length_cm == pytest.approx(length)
            assert edge_cm(edge) == pytest.approx(length, rel=0.001)
            assert off_the_outline_cm(piece, edge.path) < HAIR_CM


@pytest.mark.slow
@given(st.one_of(flared(most_circles=3.9), mitred(most_circles=3.9), folded()))
@examples(100)
def test_a_half_goes_from_the_lower_end_of_the_fold_round_to_its_upper_end(made: Garment) -> None:
    """The fold is as long as the centre back, which `Garment.drop_cm` gives from its closed form."""
    body = made.piece("body")
    (x0, y0), *_, (x1, y1) = body.corners
    assert (x0, x1) == (0.0, 0.0)
    assert y1 - y0 == pytest.approx(made.drop_cm)
    assert len(body.edge("front").path.coords) == 2


@pytest.mark.slow
@given(ANY)
@examples(100)
def test_edges_go_once_round_the_piece(made: Garment) -> None:
    """All but the parts of the side below a folded body's openings, and the fold itself."""
    for piece in made.pieces:
        edges = [edge for edge in piece.edges if edge.name not in ("front side", "back side")]
        fold = made.drop_cm if piece.on_fold else 0.0
        total = sum(edge.path.length for edge in edges) + fold
        assert total == pytest.approx(piece.outline.exterior.length)
        for edge in edges:
            ahead = [piece.outline.exterior.project(Point(xy)) for xy in edge.path.coords[:2]]
            assert ahead[0] < ahead[1] or ahead[1] == 0, "runs with the fabric on its left"


@pytest.mark.slow
@given(ANY)
@examples(100)
def test_the_left_half_is_the_right_one_seen_in_a_mirror(made: Garment) -> None:
    body = made.piece("body")
    assert body.mirrored.exterior.is_ccw
    right = sorted({(-x, y) for x, y in body.outline.exterior.coords})
    assert np.allclose(sorted(set(body.mirrored.exterior.coords)), right)


@pytest.mark.slow
@given(UP_TO_A_CIRCLE)
@examples(100)
def test_the_whole_body_is_twice_its_half_and_drawn_symmetric(made: Garment) -> None:
    body = made.piece("body")
    assert body.outline.bounds[0] > -HAIR_CM, "the right half stays right of the fold"
    assert body.outline.union(body.mirrored).area == pytest.approx(body.area_cm2)
    drawn = View(scale=1).outline(body)
    assert Polygon(drawn).area == pytest.approx(100 * body.area_cm2)
    assert np.allclose(sorted((-x, y) for x, y in drawn), sorted(drawn), atol=1e-6)


@pytest.mark.slow
@given(ANY)
@examples(100)
def test_spans_measure_what_they_say(made: Garment) -> None:
    finished = {each.key: each for each in made.finished}
    assert len(finished) == len(made.finished)
    for piece in made.pieces:
        for span in piece.spans:
            whole = span.path.length * (2 if span.crosses_fold else 1)
            assert whole == pytest.approx(finished[span.key].length_cm, rel=0.001)
            on_outline = LineString([span.path.coords[0]] * 2) if span.open else span.path
            assert off_the_outline_cm(piece, on_outline) < HAIR_CM
            if span.crosses_fold:
                assert min(abs(span.path.coords[0][0]), abs(span.path.coords[-1][0])) < HAIR_CM
            if span.centre is not None:
                radii = {round(math.dist(span.centre, xy), 6) for xy in span.path.coords}
                assert len(radii) == 1


@pytest.mark.slow
@given(ANY)
@examples(100)
def test_walks_start_and_end_at_vertices_of_simple_domains(made: Garment) -> None:
    for walk in made.walks:
        assert walk.domain.is_valid
        assert not walk.domain.interiors
        assert is_vertex(walk.domain, walk.start)
        ends = [walk.goal] if isinstance(walk.goal, Point) else [Point(xy) for xy in walk.goal.coords]
        assert all(is_vertex(walk.domain, end) for end in ends)


@pytest.mark.slow
@given(UP_TO_A_CIRCLE)
@examples(100)
def test_bodies_up_to_a_full_circle_have_all_three_walks(made: Garment) -> None:
    assert len(made.walks) == 3


@pytest.mark.slow
@given(ANY)
@examples(100)
def test_the_arm_run_lies_on_its_edge_and_is_as_long_as_its_stitches(made: Garment) -> None:
    arm = made.arm
    assert arm.path is not None
    assert arm.middle is not None
    edge = arm.edge
    assert arm.path.length == pytest.approx(edge.fabric.length_cm(arm.count, edge.counted), rel=0.001)
    assert off_the_outline_cm(made.piece("body"), arm.path) < HAIR_CM
    halves = [arm.path.project(Point(arm.middle)), arm.path.length / 2]
    assert halves[0] == pytest.approx(halves[1], rel=0.001)
    behind = edge.path.length * (2 if edge.crosses_fold else 1) - edge.fabric.length_cm(
        (2 if edge.crosses_fold else 1) * arm.last, edge.counted
    )
    assert edge.fabric.length_cm(arm.back_count, edge.counted) == pytest.approx(behind, abs=0.05, rel=0.001)


@pytest.mark.slow
@given(ANY)
@examples(100)
def test_rings_seams_and_foundation_agree_with_the_pieces(made: Garment) -> None:
    for ring, band in ((made.neck, "neck band"), (made.arm.ring, "arm band")):
        assert ring.band_rows == ring.edge_count == made.piece(band).edge("joined edge").count
        assert ring.full_cm >= ring.rest_cm > 0
    for seam in made.seams:
        assert seam.first in made.piece(seam.first_piece).edges
        assert seam.second in made.piece(seam.second_piece).edges
        assert seam.first.count > 0
        assert seam.second.count > 0
    assert [seam.letter for seam in made.seams] == ["A", "B", "C", "D"][: len(made.seams)]
    for piece in made.pieces:
        foundations = {edge.count for edge in piece.edges if edge.counted is Counted.STITCHES}
        assert piece.foundation_stitches in foundations


def test_every_construction_is_registered_by_its_own_word() -> None:
    assert {"flared", "mitred", "folded"} <= set(CONSTRUCTIONS)
    for word, each in CONSTRUCTIONS.items():
        assert each.word == word
        for model in (each.body_counts, each.arm_counts):
            assert all(field.description for field in model.model_fields.values())


@pytest.mark.parametrize("strategy", [flared(), mitred(), folded()], ids=["flared", "mitred", "folded"])
def test_garments_carry_their_word(
    strategy: st.SearchStrategy[Garment], request: pytest.FixtureRequest
) -> None:
    word = request.node.callspec.id

    @given(strategy)
    @examples(5)
    def carries(made: Garment) -> None:
        assert made.construction == word

    carries()
