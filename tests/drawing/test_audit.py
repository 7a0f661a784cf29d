"""The audits themselves: a good sheet, spoilt in one way at a time, has that fault."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

import pytest
from shapely import LinearRing, LineString

from schematics.checks.evaluation import evaluate
from schematics.checks.finding import Severity
from schematics.design.cautions import CAUTIONS
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.ink.track import Arc
from tests.drawing.audit_layout import layout_faults, leaders_over_extensions, misleading_leaders
from tests.drawing.audit_lengths import labelled, length_faults, measured_mm, overall_faults
from tests.drawing.audit_scale import scale_faults
from tests.drawing.audit_svg import svg_faults
from tests.drawing.audit_words import caution_faults, finding_faults, senseless_words, word_faults
from tests.drawing.drawing_sheets import pieces_sheet
from tests.drawing.readback import Dimension, read_page
from tests.drawing.sheets import Drawn, pieces_sheets, shipped, shipped_one
from tests.examples import thorough
from tests.shipped import shipped_design, shipped_results


@cache
def good() -> Drawn:
    """A sheet with nothing wrong with it: the second size of a demo design."""
    design, result = shipped_design("tidepool"), shipped_results("tidepool")[1]
    sheet = pieces_sheet(design, result, 10)
    return Drawn(design, result, "pieces", sheet, to_svg(sheet))


def spoilt(pattern: str, replacement: str) -> str:
    svg, count = re.subn(pattern, replacement, good().svg, count=1)
    assert count == 1, f"the sheet has no {pattern}"
    return svg


def faults(svg: str) -> Iterator[str]:
    """What takes longest comes last, so that one fault is found soon."""
    drawn = good()
    assert drawn.result is not None
    yield from svg_faults(svg)
    page = read_page(svg)
    yield from scale_faults(page)
    yield from word_faults(page, drawn.design)
    yield from length_faults(page, drawn.result.garment)
    yield from layout_faults(page)


@pytest.mark.slow
def test_a_good_sheet_has_no_fault() -> None:
    assert list(faults(good().svg)) == []


_TEXT = r'x="[\d. ]+" y="[\d.]+">'
_NECK_PATH = r'(id="outline-body"><path class="outline" d="M[\d.]+,)([\d.]+)'


@pytest.mark.slow
@pytest.mark.parametrize(
    ("pattern", "replacement", "fault"),
    [
        (rf"{_TEXT}(body neck edge|body neck)<", r'x="40" y="282.3">\1<', "is on"),
        (rf"{_TEXT}(body neck edge|body neck)<", r'x="190" y="5">\1<', "leaves the frame"),
        (rf"{_TEXT}Size 4<", r'x="12" y="284.6">Size 4<', "is on"),
        (r'(<text[^>]*x="[\d.]+ )[\d.]+', r"\g<1>33", "mm out of place"),
        (r">Size 4<", "> Size 4<", "has"),
        (r"rotate\(-90 ", "rotate(90 ", "is upside down"),
        (rf"({_TEXT}body<)", r'transform="rotate(180 20 20)" \1', "is upside down"),
        (r"Scale 1:10", "Scale 1:20", "and is"),
        (r"Scale 1:10", "Scale 1:11", "no scale of ISO 5455"),
        (r">18 cm<", ">21 cm<", "a scale bar of 21.0 cm is drawn 18.000 cm long"),
        (r">9 in<", ">9 ft<", "there are scale bars in ['cm'], not in cm and in"),
        (_NECK_PATH, r"\g<1>120", "cm2 and is"),
        (r'<g class="outline" id="outline-arm-band">.*?</g>', "", "3 outlines drawn of 4 pieces"),
        (r'<g class="dimension" id="dimension-panel.width">.*?</g>', "", "panel.width is not on the sheet"),
        (r"dimension-panel.width", "dimension-panel.girth", "is no measurement of the garment"),
        (
            r'(id="dimension-panel.width"><path class="extension" d="M)[\d.]+,([\d.]+)',
            r"\g<1>33,\2",
            "outline",
        ),
        (r">Tidepool poncho<", ">Tidepool<", "does not say 'Tidepool poncho'"),
        (r'id="fold-body"', 'id="outline-body"', "is there 2 times"),
        (r'class="paper"', 'style="fill:white" class="paper"', "has the attribute style"),
        (r'stroke-width="0.5"', 'stroke-width="0.50001"', "has stroke-width '0.50001'"),
        (r'class="paper"', 'd="M0,0" class="paper"', "is not SVG 1.1"),
        (r'r="2.4"', 'r="2.4 mm"', "is not SVG 1.1"),
        (r'<g class="frame"(.*?)</g>', r'<text><g class="frame"\1</g></text>', "is not SVG 1.1"),
        (r"<title>.*?</title>", "<title> </title>", "there is no title"),
        (r'viewBox="0 0 210 297"', 'viewBox="0 0 420 594"', "has the view box"),
    ],
)
def test_a_spoilt_sheet_has_its_fault(pattern: str, replacement: str, fault: str) -> None:
    assert any(fault in each for each in faults(spoilt(pattern, replacement)))


@pytest.mark.slow
@pytest.mark.seeds
def test_every_wrong_figure_is_found() -> None:
    """Each label on a piece, its centimetres 1 too many or its count 1 too many; every third of them."""
    labels = re.findall(r">(\d+(?:\.\d+)? cm \(\d+ (?:sts|rows)\))<", good().svg)
    assert len(labels) >= 10
    for label in labels if thorough() else labels[::3]:
        for pattern, fault in ((r"^\d+", "is drawn"), (r"(?<=\()\d+", "are meant")):
            wrong = re.sub(pattern, lambda number: str(int(number[0]) + 1), label)
            if wrong != label:
                found = faults(good().svg.replace(f">{label}<", f">{wrong}<", 1))
                assert any(fault in each for each in found)


@pytest.mark.parametrize(("sweep", "length"), [(0.5, 20.0), (0.01, 0.4)])
def test_an_arc_whose_line_its_label_hides_is_measured_along_the_outline(sweep: float, length: float) -> None:
    """Of a sector of radius 40: the arc is radius x angle, the chord of 0.5 is 19.79."""
    track = Arc((0.0, 0.0), 40.0, -0.2, sweep)
    line = Arc((0.0, 0.0), 50.0, -0.2, sweep)
    ends = line.at(0.0), line.at(line.length)
    tails = LineString((line.at(-6.5), ends[0])), LineString((ends[1], line.at(line.length + 6.5)))
    feet = track.at(0.0), track.at(track.length)
    outline = LinearRing([(0.0, 0.0), *track.points()])
    hidden = Dimension(group="arc", feet=feet, ends=ends, tips=ends, lines=tails, label="F")
    assert measured_mm(outline, hidden) == pytest.approx(length, rel=1e-3)


@pytest.mark.slow
def test_leaders_that_mislead_are_found() -> None:
    """One turned to where another's arrow is, one from above the page through whatever is under it."""
    drawn = good().svg
    assert list(misleading_leaders(read_page(drawn))) == []
    tips = [leader.tip for leader in read_page(drawn).leaders()]
    (x, y), dimension = tips[0], next(read_page(drawn).dimensions())
    across, ends = dimension.lines[0].centroid, zip(dimension.feet[0], dimension.ends[0], strict=True)
    beside = ",".join(f"{(foot + end) / 2}" for foot, end in ends)
    line = r'(<path class="leader" d="M)[^"]*"'
    for path, fault in (
        (f"{x},{y} L{tips[1][0]},{tips[1][1]}", r"the leader of .* meets a line of .* \(solid\)"),
        (f"{x},{y} L{across.x},{across.y}", r"the leader of .* meets a line of .* \(dimension\)"),
        (f"{x},{y} L{beside}", r"the leader of .* meets a line of .* \(extension\)"),
    ):
        page = read_page(re.sub(line, rf'\g<1>{path}"', drawn, count=1))
        found = [*misleading_leaders(page), *leaders_over_extensions(page)]
        assert any(re.fullmatch(fault, each) for each in found), found
    head = r'(id="leader-[^"]*">.*?<path class="solid" d="M)[\d.]+,[\d.]+'
    (foot, _), *_ = (each.feet for each in read_page(drawn).dimensions())
    moved = re.sub(head, rf"\g<1>{foot[0]},{foot[1]}", drawn, count=1)
    assert any("ends at a line of" in each for each in misleading_leaders(read_page(moved)))
    led_across = r'\g<1><path class="leader" d="M0,0 L400,400" stroke-width="0.25"/>'
    led = re.sub(r'(<g class="dimension" id="dimension-body.depth">)', led_across, drawn, count=1)
    assert any("depth crosses an outline" in each for each in misleading_leaders(read_page(led)))


def test_senseless_words_are_found() -> None:
    assert list(senseless_words(read_page(good().svg))) == []
    page = read_page(spoilt(r">(\d+(?:\.\d+)? cm) \(\d+ sts\)<", r">\1 (None sts)<"))
    assert any("makes no sense" in each for each in senseless_words(page))


@pytest.mark.slow
@pytest.mark.parametrize("stem", ["assembly", "worn"])
def test_every_wrong_overall_length_is_found(stem: str) -> None:
    """Each dimension of a joined or worn garment, its centimetres 1 too many."""
    drawn = shipped_one("tidepool", stem)
    page = read_page(drawn.svg)
    assert list(overall_faults(page)) == []
    labels = [each.label.split("\n") for each in page.dimensions()]
    assert len(labels) >= 2
    for length in [line for lines in labels for line in lines if line.endswith(" cm")]:
        wrong = re.sub(r"\d+(?=(\.\d+)? cm$)", lambda number: str(int(number[0]) + 1), length, count=1)
        changed = read_page(drawn.svg.replace(f">{length}<", f">{wrong}<"))
        assert any("is drawn" in each for each in overall_faults(changed))


@pytest.mark.slow
def test_the_cautions_are_missed_on_the_cover_and_found_elsewhere() -> None:
    cover, other = shipped_one("tidepool", "cover"), shipped_one("tidepool", "pieces")
    page, wrong = (read_page(svg) for svg in (cover.svg, cover.svg.replace("Not for", "For")))
    assert list(caution_faults(page, cover=True)) == list(caution_faults(other.page, cover=False)) == []
    assert list(caution_faults(wrong, cover=True)) == ["the caution 'Not for sleeping.' is not on the cover"]
    assert len(list(caution_faults(page, cover=False))) == len(CAUTIONS)


@pytest.mark.parametrize("words", ["all good", "Every check good", "see measurements.json", "kelp.yaml"])
def test_praise_and_names_of_files_are_found(words: str) -> None:
    page = read_page(spoilt(">pieces, laid flat<", f">{words}<"))
    assert [f"'{words}' has no place on a sheet"] == list(word_faults(page, good().design))


@pytest.mark.slow
def test_a_stopped_size_has_to_say_why() -> None:
    """The first draft's sheets with their checks wiped off."""
    design = shipped_design("first-draft")
    drawn = next(pieces_sheets(design))
    wiped = re.sub(r'<g class="checks".*?</g>', "", drawn.svg)
    assert wiped != drawn.svg
    findings = evaluate(design)[0].findings
    assert list(finding_faults(read_page(drawn.svg), findings)) == []
    assert any("is not on its sheet" in each for each in finding_faults(read_page(wiped), findings))


@pytest.mark.slow
@pytest.mark.parametrize("stem", ["pieces", "assembly", "worn"])
def test_every_sheet_of_a_stopped_size_says_why_and_so_does_its_description(stem: str) -> None:
    """The first draft's panel is shorter than the edges it is sewn to, in size 4."""
    drawn = next(
        each for each in shipped("first-draft", stem) if each.result and each.result.size.name == "4"
    )
    assert drawn.result
    stops = [each.sentence for each in drawn.result.findings if each.severity is Severity.STOP]
    assert any("shorter than the body" in each for each in stops)
    said = " ".join(drawn.page.texts("checks"))
    for sentence in stops:
        assert sentence in said
        assert sentence in drawn.sheet.description
    assert drawn.sheet.description.startswith("Size 4 cannot be made")


@pytest.mark.parametrize(
    ("label", "figures"),
    [
        ("42 cm (40 sts)\n16 1/2 in", (42.0, 41.91, 40)),
        ("half of\n8.5 cm\n3/4 in\n7 rows", (8.5, 1.905, 7)),
        ("back neck depth\n1 cm (1 row)\n1/4 in", (1.0, 0.635, 1)),
        ("body hem edge\n130.5 cm\n51 in", (130.5, 129.54, None)),
    ],
)
def test_labels_are_read_by_their_figures(label: str, figures: tuple[float, float, int | None]) -> None:
    *lengths, count = labelled(label)
    assert (*lengths, count) == (*map(pytest.approx, figures[:2]), figures[2])
