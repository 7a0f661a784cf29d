"""Templates joined by their crosses are the garment's outlines, from the PDF and in many random designs."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache

import pytest

from schematics.checks.evaluation import evaluate
from schematics.drawing.ink.sheet import A4, LETTER, PAPERS
from schematics.drawing.templates.templates import templates_pdf, tiled_templates
from tests.drawing.designs import random_design
from tests.drawing.templates.joined import AGREE, by_piece, cut_ends, of_pdf, of_sheet, off_by
from tests.drawing.templates.pdf_strokes import PdfPage, read_pdf
from tests.examples import combinations, seeds
from tests.shipped import demo_names, shipped_design, shipped_results

MOST = 0.2
"""In mm."""

MM_ON_PAPER = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""ISO 216; ANSI/ASME Y14.1."""


@cache
def printed(name: str, place: int, paper: str) -> list[PdfPage]:
    return read_pdf(templates_pdf(shipped_design(name), [shipped_results(name)[place]], PAPERS[paper]))


CASES = [
    pytest.param("tidepool", 2, "a4"),
    *(
        pytest.param(name, place, paper, marks=pytest.mark.thorough)
        for name, (place, paper) in combinations(
            demo_names("saltmarsh", "driftwood"), ((0, "a4"), (-1, "letter"))
        )
    ),
]

RANDOM = seeds([(word, seed) for seed in range(100, 109) for word in ("flared", "mitred", "folded")], 27)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "place", "paper"), CASES)
def test_pages_of_the_pdf_joined_by_their_crosses_are_the_outlines(name: str, place: int, paper: str) -> None:
    garment = shipped_results(name)[place].garment
    _, *pages = printed(name, place, paper)
    tiles = {page.text.split()[0]: of_pdf(page) for page in pages}
    assert len(tiles) == len(pages)
    pieces = by_piece(tiles, {page.text.split()[0]: page.bookmark for page in pages})
    assert list(pieces) == [piece.name for piece in garment.pieces]
    for piece in garment.pieces:
        assert off_by(pieces[piece.name], piece, garment) < MOST, piece.name
    for page in pages:
        assert page.paper == pytest.approx(MM_ON_PAPER[paper], abs=0.01)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "place", "paper"), CASES)
def test_a_line_ends_at_the_edge_of_its_page_or_where_the_piece_does(
    name: str, place: int, paper: str
) -> None:
    """A marker's tick ends where it likes; an outline has two ends of its own, on the fold, on any page."""
    _, *pages = printed(name, place, paper)
    for tile in map(of_pdf, pages):
        long = [line for line in tile.heavy if line.length > 3]
        ends = [line for line in long if not line.is_closed]
        free = [end for end in cut_ends(type(tile)(tile.name, tuple(ends), tile.frame, ())) if end > AGREE]
        assert len(free) <= 2, tile.name


@pytest.mark.slow
@pytest.mark.parametrize(("name", "place", "paper"), CASES)
def test_the_square_to_check_the_print_is_100_mm(name: str, place: int, paper: str) -> None:
    plan = printed(name, place, paper)[0]
    squares = [
        each.line
        for each in plan.strokes
        if len(each.points) == 5 and each.points[0] == each.points[-1] and abs(each.width - 0.25) < 0.01
    ]
    (square,) = squares
    x0, y0, x1, y1 = square.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((100.0, 100.0), abs=0.01)
    assert square.length == pytest.approx(400.0, abs=0.02)
    assert "Print at 100 %, no fitting to the page; both sides must measure 100 mm (3 15/16 in)." in plan.text
    assert abs(3 + 15 / 16 - 100 / 25.4) < 1 / 1000


@pytest.mark.parametrize(("name", "place", "paper"), CASES)
def test_the_plan_names_every_page_once(name: str, place: int, paper: str) -> None:
    plan, *pages = printed(name, place, paper)
    names = [page.text.split()[0] for page in pages]
    assert len(set(names)) == len(names)
    named = Counter(re.findall(r"\b[A-Z]{1,2}\d+\b", plan.text.partition("row to row.")[2]))
    assert named == Counter(names)
    total = len(pages) + 1
    for number, page in enumerate(pages, start=2):
        assert f"page {number} of {total}" in page.text


@pytest.mark.parametrize(("name", "place", "paper"), CASES)
def test_markers_edges_seams_and_the_piece_are_named(name: str, place: int, paper: str) -> None:
    result = shipped_results(name)[place]
    garment, arm = result.garment, result.garment.arm
    plan, *pages = printed(name, place, paper)
    for piece in garment.pieces:
        said = " ".join(page.text for page in pages if page.bookmark.endswith(f", {piece.name}"))
        assert f"{piece.name}{' (make 2)' if piece.quantity == 2 else ''}" in said
        assert f"size {result.size.name}" in said
        assert "no pattern for cutting" in said
        assert "direction of work" in said
        for edge in piece.edges:
            assert edge.name in said
        for seam in garment.seams:
            if piece.name in (seam.first_piece, seam.second_piece):
                assert re.search(rf"seam {seam.letter}\b", said), seam.letter
        if arm.edge in piece.edges:
            for number in (arm.first, arm.last):
                assert re.search(rf"marker: (stitch|row) {number}\b", said)
    assert "finished measurements; it is no pattern for cutting." in plan.text


@pytest.mark.slow
@pytest.mark.parametrize(("word", "seed"), RANDOM)
def test_pages_of_a_random_design_joined_are_the_outlines(word: str, seed: int) -> None:
    design = random_design(word, seed, most_sizes=1)
    (result,) = evaluate(design)
    paper = LETTER if seed % 2 else A4
    pages = [page for page in tiled_templates(design, result, paper) if "plan" not in page.bookmark]
    assert not any(page.sheet.unplaced for page in pages)
    names = {page.bookmark.split(", ")[1]: page for page in pages}
    tiles = {name: of_sheet(name, page.sheet) for name, page in names.items()}
    pieces = by_piece(tiles, {name: page.bookmark for name, page in names.items()})
    for piece in result.garment.pieces:
        assert off_by(pieces[piece.name], piece, result.garment) < MOST, piece.name
