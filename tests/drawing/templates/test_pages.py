"""Each page to itself: words in nobody's way, paper left at the edges, few pages, and what is too large."""

from __future__ import annotations

import math
import re
from collections import Counter
from dataclasses import replace
from functools import cache

import pytest
from shapely import Point, Polygon, box, union_all

from schematics.checks.evaluation import Result, evaluate
from schematics.checks.finding import Severity
from schematics.design.design import Design
from schematics.drawing.ink.marks import Group, Line, Text, bounds
from schematics.drawing.ink.page import Box
from schematics.drawing.ink.sheet import A4, LETTER, Paper, Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.templates import tiles
from schematics.drawing.templates.template import templates_of
from schematics.drawing.templates.templates import large_template, templates_pdf, tiled_templates
from schematics.drawing.templates.tiles import lay
from schematics.errors import UsageError
from schematics.garment.garment import Garment
from schematics.garment.printed_lengths import finished_figure
from tests.drawing.audit_layout import letters_astray, upside_down, words_on_lines, words_on_words
from tests.drawing.audit_svg import svg_faults
from tests.drawing.designs import as_text, random_design, random_spec, read_spec
from tests.drawing.readback import read_page
from tests.drawing.templates.pdf_strokes import read_pdf
from tests.drawing.templates.test_joined import printed
from tests.examples import combinations, covering, seeds, thorough
from tests.shipped import demo_names, shipped_design, shipped_results

UNPRINTED = 8.0
"""In mm: printers at home leave 3 to 5 mm unprinted (common practice, no source)."""


def faults(sheet: Sheet) -> list[str]:
    svg = to_svg(sheet)
    page = read_page(svg)
    found = [*svg_faults(svg), *letters_astray(page), *words_on_words(page), *words_on_lines(page)]
    return [*found, *upside_down(page), *sheet.unplaced]


def sheets(design: Design, result: Result, paper: Paper) -> list[Sheet]:
    tiled = [page.sheet for page in tiled_templates(design, result, paper)]
    return [*tiled, large_template(design, result).sheet]


@cache
def shipped_sheets(name: str, place: int, paper: Paper) -> list[Sheet]:
    """Those of a size of a design that comes with the program, the large one last."""
    return sheets(shipped_design(name), shipped_results(name)[place], paper)


@cache
def whole() -> bytes:
    """The large page of size 6 of tidepool."""
    return templates_pdf(shipped_design("tidepool"), shipped_results("tidepool")[2:3], A4, whole=True)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "place"), covering(demo_names(), (0, -1)))
def test_words_are_read_and_nothing_is_printed_near_the_edge(name: str, place: int) -> None:
    for sheet in shipped_sheets(name, place, A4 if place == 0 else LETTER):
        assert faults(sheet) == [], sheet.title
        x0, y0, x1, y1 = bounds(sheet.groups)
        at_edges = x0, y0, sheet.paper.width - x1, sheet.paper.height - y1
        assert min(at_edges) >= UNPRINTED, sheet.title


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("word", "seed"),
    seeds([(word, seed) for seed in range(200, 205) for word in ("flared", "mitred", "folded")], 15),
)
def test_and_on_those_of_random_designs(word: str, seed: int) -> None:
    design = random_design(word, seed, most_sizes=1)
    for sheet in sheets(design, evaluate(design)[0], LETTER if seed % 2 else A4):
        assert faults(sheet) == [], sheet.title


@pytest.mark.slow
def test_a_plan_that_takes_two_pages_names_every_page_once() -> None:
    design = random_design("mitred", 337, most_sizes=1)
    pages = tiled_templates(design, evaluate(design)[0], LETTER)
    plans = [page.sheet for page in pages if "plan" in page.bookmark]
    assert len(plans) == 2
    words = [text.text for sheet in plans for text in read_page(to_svg(sheet)).words]
    named = sorted(each for each in words if re.fullmatch(r"[A-Z]{1,2}\d+", each))
    assert named == sorted(page.bookmark.split(", ")[1] for page in pages if "plan" not in page.bookmark)


def said_on_the_plan(name: str, place: int) -> str:
    design, result = shipped_design(name), shipped_results(name)[place]
    plan = read_page(to_svg(tiled_templates(design, result, A4)[0].sheet))
    return " ".join(words.text for words in plan.words)


@pytest.mark.slow
def test_the_plan_gives_every_length_that_is_drawn_to_check_it_by() -> None:
    """One measured on a printout is found there, in both units, as the pieces sheet prints it."""
    design, result = shipped_design("driftwood"), shipped_results("driftwood")[2]
    said = said_on_the_plan("driftwood", 2)
    drawn = {span.key for piece in result.garment.pieces for span in piece.spans}
    for item in result.garment.finished:
        if item.key in drawn:
            first, second = (f"{finished_figure(item, unit)} {unit}" for unit in design.units)
            assert f" {first} ({second})" in said, item.name


@pytest.mark.slow
def test_the_plan_of_a_stopped_size_says_why() -> None:
    said = said_on_the_plan("first-draft", 0)
    stops = [each for each in shipped_results("first-draft")[0].findings if each.severity is Severity.STOP]
    assert stops
    assert all(each.sentence in said for each in stops)


@pytest.mark.slow
def test_nothing_is_left_to_guess_where_pages_meet_and_a_hand_goes_through() -> None:
    """Every strip under another page says so; the part of a side that stays open is named."""
    for name, place in (("driftwood", 2), ("sandpiper", 2), ("kelp", 0)):
        *pages, _ = shipped_sheets(name, place, A4)
        strips = Counter(group.kind for sheet in pages for group in sheet.groups)
        assert strips["overlap-name"] == strips["overlap"] > 0, (name, place)
    said = [text.words for sheet in shipped_sheets("driftwood", 2, A4) for text in texts_of(sheet)]
    assert "side, arm opening" in said


@pytest.mark.parametrize(("name", "place"), [("saltmarsh", 2), ("tidepool", 3)])
def test_no_page_is_printed_for_a_tip_that_its_neighbours_show(name: str, place: int) -> None:
    """Each has fabric that no other shows but within 1.6 mm of its frame."""
    garment, units = shipped_results(name)[place].garment, shipped_design(name).units
    for template in templates_of(garment, units, halved=True):
        tiling = lay(template, A4, 0)
        assert tiling
        for tile in tiling.tiles.values():
            others = [as_box(each.box).buffer(-1.6) for each in tiling.tiles.values() if each is not tile]
            own = tiling.template.fabric.intersection(as_box(tile.cell))
            assert not union_all(others).contains(own), (template.name, tile.name)


def as_box(shown: Box) -> Polygon:
    return box(shown.x0, shown.y0, shown.x1, shown.y1)


@pytest.mark.slow
def test_a_leader_of_a_marker_ends_at_its_words() -> None:
    """Within 1.5 mm of the box round them, as it cannot be told otherwise what it belongs to."""
    leaders = 0
    for name in ("saltmarsh", "sandpiper", "tidepool"):
        for sheet in shipped_sheets(name, 2, A4):
            for group in sheet.groups:
                lines = [mark for mark in group.marks if isinstance(mark, Line)]
                if group.kind == "marker-number" and lines:
                    x0, y0, x1, y1 = bounds([Group("words", "words", tuple(texts_in(group)))])
                    ends = (Point(at) for line in lines for at in line.points)
                    assert min(box(x0, y0, x1, y1).distance(end) for end in ends) < 1.5, (name, group.name)
                    leaders += 1
    assert leaders > 3


def texts_in(group: Group) -> list[Text]:
    return [mark for mark in group.marks if isinstance(mark, Text)]


def texts_of(sheet: Sheet) -> list[Text]:
    return [text for group in sheet.groups for text in texts_in(group)]


def fewest(garment: Garment, width: float, height: float) -> int:
    """As many pages as the area of the pieces needs, were they cut to fill them."""
    step = (width - 20 - 10) * (height - 20 - 12 - 10)
    return sum(math.ceil(piece.outline.area * 100 / step) for piece in garment.pieces)


@pytest.mark.slow
@pytest.mark.seeds
def test_there_are_few_pages() -> None:
    """Half as many again as the pieces' area fills, and one; with the plan."""
    for name, place in combinations(demo_names(), (0, -1)):
        for paper in (A4, LETTER) if thorough() else (A4 if place == 0 else LETTER,):
            *pages, _ = shipped_sheets(name, place, paper)
            least = fewest(shipped_results(name)[place].garment, paper.width, paper.height)
            assert least < len(pages) <= 1.5 * least + 4, (name, paper.name, least, len(pages))


@pytest.mark.slow
def test_the_same_templates_are_the_same_bytes() -> None:
    again = templates_pdf(shipped_design("tidepool"), shipped_results("tidepool")[2:3], A4, whole=True)
    assert whole() == again
    assert not re.search(rb"/(?:Creation|Mod)Date", again)


@pytest.mark.thorough
def test_sizes_come_one_after_the_other() -> None:
    design, results = shipped_design("tidepool"), shipped_results("tidepool")
    pages = read_pdf(templates_pdf(design, results[:2], LETTER))
    plans = [place for place, page in enumerate(pages) if page.bookmark.endswith(", plan")]
    assert [pages[place].bookmark for place in plans] == ["size 2, plan", "size 4, plan"]
    assert all(page.bookmark.startswith("size 4, ") for page in pages[plans[1] :])


@pytest.mark.slow
def test_the_large_page_has_whole_pieces_at_full_size() -> None:
    """The body's whole width in the PDF is twice its half; its heavy line is as long as its outline."""
    result = shipped_results("tidepool")[2]
    (page,) = read_pdf(whole())
    heavy = [each.line for each in page.strokes if abs(each.width - 0.5) < 0.01 and each.line.length > 3]
    outlines = sorted(line.length for line in heavy)
    lengths = []
    for piece in result.garment.pieces:
        half = sum(math.dist(a, b) for a, b in zip(piece.corners, piece.corners[1:], strict=False))
        lengths.append(20 * half if piece.on_fold else 10 * piece.outline.length)
    assert outlines == pytest.approx(sorted(lengths), abs=0.2)
    assert all(line.is_ring for line in heavy)
    squares = [each.line for each in page.strokes if abs(each.line.length - 400) < 0.05]
    assert len(squares) == 1


def of_depth(depth: int) -> tuple[Design, Result]:
    """A folded body of so many rows, about a centimetre and a half each."""
    spec = random_spec("folded", 1, 1)
    (size,) = spec["sizes"].values()
    size["body"] |= {"front_rows": depth, "back_rows": depth, "neck_front_rows": 2, "neck_back_rows": 1}
    size["panel"]["rows"] = depth
    for fabric in spec["fabrics"].values():
        fabric["swatch"] |= {"rows": 10, "height": "15 cm"}
    design = read_spec(as_text(spec), "long")
    return design, evaluate(design)[0]


@pytest.mark.slow
def test_a_page_of_a_pdf_ends_at_14_400_units_and_what_is_larger_is_refused() -> None:
    """ISO 32000-1, annex C; 5.08 m."""
    design, result = of_depth(150)
    page = large_template(design, result).sheet.paper
    assert 4500 < max(page.width, page.height) <= 5080
    design, result = of_depth(170)
    with pytest.raises(UsageError) as refused:
        large_template(design, result)
    assert re.fullmatch(
        r"\S+long\.yaml: size .+ is too large for templates: the page would be \d+\.\d\d m long, "
        r"and one of a PDF ends at 5\.08 m",
        str(refused.value),
    )


def test_more_pages_than_anybody_would_join_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tiles, "MOST", 3)
    with pytest.raises(
        UsageError, match="is too large for templates on pages to be joined; have them as one"
    ):
        tiled_templates(shipped_design("tidepool"), shipped_results("tidepool")[0], A4)


@pytest.mark.slow
def test_a_body_that_lies_over_itself_is_drawn_by_half_on_the_large_page_too() -> None:
    design = random_design("flared", 41, most_sizes=1)
    (result,) = evaluate(design)
    assert (result.garment.opening_angle or 0) > math.tau
    sheet = large_template(design, result).sheet
    words = [mark.words for group in sheet.groups for mark in group.marks if hasattr(mark, "words")]
    assert "centre back, on the fold" in words
    assert replace(sheet, groups=()).scale == 1


def test_edges_say_how_long_they_are_as_all_outputs_round_it() -> None:
    """Tidepool, size 6: counts by the swatches; to 0.5 cm, widths and bands to 0.25, inches to 1/4 and 1/8.

    166 stitches of 20/19 cm are 174.7 cm, 36 panel rows of 15/14 cm 38.6, 14 panel stitches of 20/22 cm 12.7,
    50 band rows of 60/66 cm 45.5, 16 of them 14.5, 7 band stitches of 20/20 cm 7.
    """
    said = " ".join(page.text for page in printed("tidepool", 2, "a4")).replace("\n", " ")
    for words in (
        "hem, 174.5 cm (68 3/4 in) with the left half",
        "front edge, seam A (left half: seam B), 38.5 cm (15 1/4 in)",
        "right side, seam B, 38.5 cm (15 1/4 in)",
        "top edge, 12.75 cm (5 in)",
        "joined edge, 45.5 cm (18 in)",
        "joined edge, 14.5 cm (5 3/4 in)",
        "last row, 7 cm (2 3/4 in)",
    ):
        assert words in said, words
