"""The worn sheet read back: heights and lengths against the measurements, words, room, scale."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import pytest
import yaml

from schematics.checks.evaluation import Result, evaluate
from schematics.checks.finding import Severity
from schematics.design.design import Design
from schematics.drawing.compose import Setting, finish
from schematics.drawing.ink.label_columns import spread_out
from schematics.drawing.ink.sheet import A4, LETTER, Paper, Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import SIZE_SHEETS
from schematics.drawing.worn.worn import draw_worn, worn_scale
from schematics.wearer.body import Body
from tests.drawing.audit_layout import layout_faults
from tests.drawing.audit_lengths import labelled
from tests.drawing.audit_svg import svg_faults
from tests.drawing.audit_words import word_faults
from tests.drawing.designs import SIZES, random_design
from tests.drawing.readback import Page, read_page
from tests.drawing.sheets import sample, shipped_one
from tests.examples import covering, marked, seeds, thorough
from tests.shipped import SPECS, demo_names, demos, shipped_design, shipped_results
from tests.specs_for_tests import SPEC, read

SCALES = (1, 2, 5, 10, 20, 50)
"""ISO 5455: full size and the reductions down to 1:50."""

RANK = {Severity.STOP: 0, Severity.MIND: 1, Severity.GOOD: 2}

CODES = ("HANG-KNEE", "HANG-WHERE", "REACH-BAND", "SPREAD-ARMS")

DEMO_SIZES = marked(
    [(path.stem, str(name)) for path in SPECS for name in yaml.safe_load(path.read_text("utf-8"))["sizes"]]
    if thorough()
    else [("tidepool", "2"), ("saltmarsh", "2"), ("driftwood", "L")]
)


@cache
def setting(stem: str, paper: Paper = A4) -> Setting:
    return Setting(design=shipped_design(stem), results=shipped_results(stem), paper=paper, scale=10)


def setting_of(design: Design, paper: Paper = A4) -> Setting:
    return Setting(design=design, results=evaluate(design), paper=paper, scale=10)


def drawn(given: Setting, name: str) -> tuple[Result, Sheet, Page]:
    (result,) = (each for each in given.results if each.size.name == name)
    sheet = finish(given, draw_worn(given, result), result, 1, 1)
    return result, sheet, read_page(to_svg(sheet))


def demo(stem: str, name: str) -> tuple[Result, Page]:
    (place,) = (place for place, each in enumerate(shipped_design(stem).sizes) if each.name == name)
    found = shipped_one(stem, "worn", place)
    assert found.result
    return found.result, found.page


def edited(folder: Path, wearer: str) -> Setting:
    """The small spec of the tests with another wearer for its first size."""
    return setting_of(read(folder, SPEC.replace("wearer: child/4", f"wearer: {wearer}")))


def floor(page: Page) -> float:
    (line,) = page.of_kind("floor")
    return line.points[0][1]


def height_cm(page: Page, y: float) -> float:
    """Height over the floor of a place on the sheet."""
    return (floor(page) - y) * page.scale / 10


def typical(result: Result, body: Body) -> float:
    value = result.wearer.get(body)
    assert value is not None
    return value.cm


def said(page: Page) -> str:
    return re.sub(r"\s+", " ", " ".join(page.texts("checks")))


def faults(given: Setting, sheet: Sheet, page: Page) -> list[str]:
    return [*svg_faults(to_svg(sheet)), *layout_faults(page), *word_faults(page, given.design)]


def test_it_is_among_the_sheets_of_a_size() -> None:
    assert SIZE_SHEETS["worn"] is draw_worn


@pytest.mark.slow
@pytest.mark.parametrize(("stem", "name"), DEMO_SIZES)
def test_lines_come_at_the_heights_the_measurements_say(stem: str, name: str) -> None:
    """Waist, hip and knee of both figures, read off the sheet with its scale."""
    result, page = demo(stem, name)
    expected = sorted(
        typical(result, body) for body in (Body.WAIST_HEIGHT, Body.HIP_HEIGHT, Body.KNEE_HEIGHT)
    )
    lines = [line.points for line in page.of_kind("level") if line.pen == "seam"]
    assert all(line[0][1] == line[-1][1] for line in lines)
    heights = sorted(height_cm(page, line[0][1]) for line in lines)
    assert heights == pytest.approx(sorted(2 * expected), abs=0.05)


@pytest.mark.slow
@pytest.mark.parametrize(("stem", "name"), DEMO_SIZES)
def test_nape_and_hem_come_where_the_checks_say(stem: str, name: str) -> None:
    result, page = demo(stem, name)
    nape, hem = (height_cm(page, line.points[0][1]) for line in page.of_kind("height"))
    worn = next(each.figures["worn_cm"] for each in result.findings if each.code == "HANG-WHERE")
    assert nape == pytest.approx(typical(result, Body.NAPE_HEIGHT), abs=0.05)
    assert nape - hem == pytest.approx(worn, abs=0.05)
    cloth = [
        point for line in page.of_kind("garment") if line.group.endswith("down") for point in line.points
    ]
    left, right = min(x for x, _ in cloth), max(x for x, _ in cloth)
    middle = [y for x, y in cloth if abs(x - (left + right) / 2) < 0.01]
    assert height_cm(page, max(middle)) == pytest.approx(hem, abs=0.05)


@pytest.mark.slow
@pytest.mark.parametrize(("stem", "name"), DEMO_SIZES)
def test_the_figures_are_as_high_and_as_broad_as_the_wearer(stem: str, name: str) -> None:
    """Crown at the height; arms level, the fingertips centre back neck to wrist and a hand from the middle.

    The hand is 0.108 of the height: Drillis and Contini 1966, from memory.
    """
    result, page = demo(stem, name)
    for group in page.groups("figure"):
        points = [point for line in page.of_kind("figure") if line.group == group for point in line.points]
        tall = typical(result, Body.HEIGHT)
        assert height_cm(page, min(y for _, y in points)) == pytest.approx(tall, abs=0.05)
        assert height_cm(page, max(y for _, y in points)) == pytest.approx(0, abs=0.05)
    arms = typical(result, Body.CENTRE_BACK_NECK_TO_WRIST) + 0.108 * typical(result, Body.HEIGHT)
    hands = [x for line in page.of_kind("figure") if "level" in line.group for x, _ in line.points]
    bands = [x for line in page.of_kind("garment") if "level" in line.group for x, _ in line.points]
    broad = max(2 * arms, (max(bands) - min(bands)) * page.scale / 10)
    span = (max(hands + bands) - min(hands + bands)) * page.scale / 10
    assert span == pytest.approx(broad, abs=0.1)


@pytest.mark.slow
@pytest.mark.parametrize(("stem", "name"), DEMO_SIZES)
def test_dimensions_say_what_is_drawn(stem: str, name: str) -> None:
    result, page = demo(stem, name)
    found = {each.group: each for each in page.dimensions()}
    assert "dimension-nape-to-hem" in found
    assert len(found) == 2
    for each in found.values():
        length_cm = math.dist(*each.ends) * page.scale / 10
        cm, inches_cm, _ = labelled(each.label)
        assert cm == pytest.approx(length_cm, abs=0.26)
        assert inches_cm == pytest.approx(length_cm, abs=2.54 / 8 + 0.01)
        assert [round(tip[1], 2) for tip in each.tips] == [round(end[1], 2) for end in each.ends]
    ends = sorted(height_cm(page, y) for _, y in found["dimension-nape-to-hem"].ends)
    nape = typical(result, Body.NAPE_HEIGHT)
    assert ends == pytest.approx([nape - result.garment.drop_cm * 1.05, nape], abs=0.05)


@pytest.mark.slow
@pytest.mark.parametrize(("stem", "name"), DEMO_SIZES)
def test_reach_and_spread_are_named_with_their_lengths(stem: str, name: str) -> None:
    result, page = demo(stem, name)
    labels = {each.group: each.label for each in page.leaders()}
    figures = {code: each.figures for each in result.findings for code in CODES if each.code == code}
    reach = figures["REACH-BAND"]["reach_cm"]
    back, front = (figures["SPREAD-ARMS"][f"spread_{side}_cm"] for side in ("back", "front"))
    assert labelled(labels["leader-reach"])[0] == pytest.approx(reach, abs=0.26)
    assert labelled(labels["leader-spread"])[0] == pytest.approx(min(back, front), abs=0.26)
    assert ("back" in labels["leader-spread"]) is (back <= front)
    above = typical(result, Body.CENTRE_BACK_NECK_TO_WRIST) - reach
    assert ("at the\nwrist" in labels["leader-band"] or "at the wrist" in labels["leader-band"]) is (
        abs(above) < 0.75
    )
    if abs(above) >= 0.75:
        assert ("over hand" in labels["leader-band"]) is (above < 0)
        assert labelled(labels["leader-band"])[0] == pytest.approx(abs(above), abs=0.26)


@pytest.mark.slow
@pytest.mark.parametrize(("stem", "name"), DEMO_SIZES)
def test_what_the_checks_say_is_written_out(stem: str, name: str) -> None:
    result, page = demo(stem, name)
    words = said(page)
    told = [each for each in result.findings if each.code in CODES]
    assert len(told) == len(CODES)
    for each in told:
        code = f"{each.severity.upper()} {each.code}: "
        assert each.sentence in words
        assert (code in words) is (each.severity is not Severity.GOOD)
    ranks = [RANK[each.severity] for each in sorted(told, key=lambda each: words.index(each.sentence))]
    assert ranks == sorted(ranks)
    assert "A plain model, not a fitting" in words
    assert "Waist, hip and knee are marked with their heights above the floor." in words
    assert "drawn from proportions: head height, hip, hand length, legs and feet." in words


@pytest.mark.slow
def test_borrowed_measurements_are_named_with_their_table() -> None:
    words = said(demo("tidepool", "4")[1])
    assert "Borrowed from the age table: height, head girth, neck girth" in words
    assert "estimated: nape height, waist height, knee height; drawn from" in words
    assert "chest girth" not in words


def too_large(results: Sequence[Result], scale: int, width: float, height: float) -> bool:
    """Whether the figures alone, arms level and 20 degrees off, are broader or higher than that room."""
    tallest = max(typical(result, Body.HEIGHT) for result in results)
    spans = []
    for result in results:
        half = typical(result, Body.CENTRE_BACK_NECK_TO_WRIST) + 0.108 * typical(result, Body.HEIGHT)
        shoulder = typical(result, Body.SHOULDER_BREADTH) / 2
        spans.append(2 * (half + shoulder + (half - shoulder) * math.sin(math.radians(20))))
    return max(spans) * 10 / scale > width or tallest * 10 / scale > height


@pytest.mark.slow
@pytest.mark.parametrize(("stem", "paper"), covering(demo_names("first-draft"), (A4, LETTER)))
def test_all_sizes_share_the_largest_scale_that_fits_if_they_are_to_share_one(
    stem: str, paper: Paper
) -> None:
    """At the next larger scale the figures alone are broader than the sheet, its margins taken off.

    Or higher.
    """
    given = setting(stem, paper)
    scale = worn_scale(given)
    assert scale in SCALES
    drawings = [draw_worn(given, result) for result in given.results]
    assert {(each.scale, each.paper) for each in drawings} == {(scale, paper)}
    larger = SCALES[SCALES.index(scale) - 1]
    assert too_large(given.results, larger, paper.width - 24, paper.height - 24)


@pytest.mark.slow
@pytest.mark.parametrize("stem", demos())
def test_each_size_is_drawn_as_large_as_fits_the_paper_upright_or_turned(stem: str) -> None:
    """At the next larger scale of ISO 5455 the figures and the words of their sheet do not go on either.

    Beside the figures there is 15 mm of lettering on each side at least, under them a caption and a gap.
    """
    for each in sample(stem, "worn"):
        assert each.result
        page, scale = each.page, each.page.scale
        larger = max(known for known in SCALES if known < scale)
        words = [words.box.bounds for words in page.words if words.kind == "checks"]
        said = max(y1 for _, _, _, y1 in words) - min(y0 for _, y0, _, _ in words)
        for width, height in ((A4.width, A4.height), (A4.height, A4.width)):
            lines = said * (page.width - 24) / (width - 24)
            assert too_large([each.result], larger, width - 24 - 30, height - 24 - 23 - lines - 12)


@pytest.mark.slow
def test_words_beside_figures_are_slim_where_the_figures_are_then_larger() -> None:
    """At 1:15 the figures, 2 x 122.9 cm broad, and 36 mm left of them leave 67 mm of a turned sheet's 273.

    Of these 4 are between and 6 apart; names of levels take 2 mm more than the arms.
    """
    given = Setting(design=shipped_design("sandpiper"), results=shipped_results("sandpiper"), paper=A4)
    drawing = draw_worn(given, next(each for each in given.results if each.size.name == "14"))
    assert (drawing.scale, drawing.paper) == (15, A4.turned)


@pytest.mark.slow
def test_babies_alone_are_drawn_larger(tmp_path: Path) -> None:
    babies = SPEC.replace("child/4", "baby/3 mo").replace("child/6", "baby/6 mo")
    given = setting_of(read(tmp_path, babies))
    assert worn_scale(given) == 10
    for result in given.results:
        _, sheet, page = drawn(given, result.size.name)
        assert sheet.unplaced == ()
        assert faults(given, sheet, page) == []


@pytest.mark.slow
def test_without_a_height_the_sheet_says_so_and_what_to_do(tmp_path: Path) -> None:
    given = edited(tmp_path, "{chest_girth: 60}")
    _, sheet, page = drawn(given, "4")
    assert sheet.unplaced == ()
    assert sheet.scale is None
    assert page.of_kind("figure") == []
    assert "No figure: the wearer's height is not known" in said(page)
    assert "give height in the size's wearer block" in said(page)
    assert drawn(given, "6 years")[2].of_kind("figure") != []


@pytest.mark.slow
def test_a_height_alone_makes_a_figure_that_says_what_it_is_made_of(tmp_path: Path) -> None:
    given = edited(tmp_path, "{height: 104}")
    result, sheet, page = drawn(given, "4")
    assert sheet.unplaced == ()
    assert faults(given, sheet, page) == []
    words = said(page)
    assert re.search(r"drawn from proportions: head height, .*, neck girth, chest girth", words)
    assert height_cm(page, min(y for line in page.of_kind("figure") for _, y in line.points)) == (
        pytest.approx(104, abs=0.05)
    )
    assert typical(result, Body.HEIGHT) == 104


@pytest.mark.slow
def test_arms_off_the_edge_leave_the_bands_out(tmp_path: Path) -> None:
    text = SPEC.replace("arms: {from_front: 40, stitches: 20}", "arms: {from_front: 400, stitches: 20}")
    given = setting_of(read(tmp_path, text))
    _, sheet, page = drawn(given, "4")
    assert sheet.unplaced == ()
    assert page.groups("leader") == []
    assert page.of_kind("way") == []
    assert "where the bands come is not known, so none are drawn" in said(page)


@pytest.mark.slow
def test_a_body_too_short_to_hang_is_left_out(tmp_path: Path) -> None:
    text = SPEC.replace("body: {neck: 60, hem: 176, rows: 30}", "body: {neck: 60, hem: 60, rows: 2}")
    given = setting_of(read(tmp_path, text))
    _, sheet, page = drawn(given, "4")
    assert sheet.unplaced == ()
    assert page.of_kind("garment") == []
    assert len(page.groups("figure")) == 2
    assert "too short to be drawn on a body" in said(page)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("word", "seed"), seeds([(word, seed) for word in sorted(SIZES) for seed in (7, 8, 24, 31)])
)
def test_random_designs_have_room(word: str, seed: int) -> None:
    """Among them ponchos wider than the arms, longer than the body, and with bands over the hands."""
    given = setting_of(random_design(word, seed))
    for result in given.results:
        _, sheet, page = drawn(given, result.size.name)
        assert sheet.unplaced == ()
        found = [*svg_faults(to_svg(sheet)), *layout_faults(page)]
        assert [fault for fault in found if "title-title-block" not in fault] == []


@pytest.mark.parametrize(
    ("ys", "expected"),
    [
        ([0, 10, 20], [0, 10, 20]),
        ([0, 10, 11], [0, 8.5, 12.5]),
        ([0, 1, 2], [-3, 1, 5]),
        ([0, 3, 6.5], [-0.833333, 3.166667, 7.166667]),
        ([5], [5]),
        ([], []),
    ],
)
def test_labels_are_spread_out_evenly(ys: list[float], expected: list[float]) -> None:
    """By hand: those nearer than 4 share their mean, 4 apart."""
    assert spread_out(ys, 4) == pytest.approx(expected)
