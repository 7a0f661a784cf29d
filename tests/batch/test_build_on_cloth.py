"""Sheets of how sizes hang: which sizes have one, and that none is hung again that would be as it was."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from shapely import MultiPoint

from schematics.batch import BuildReport, Options, build_sources, spec_source
from schematics.checks.evaluation import evaluate
from schematics.checks.finding import Severity
from schematics.drawing import sheets
from schematics.drawing.draped import hang_sheet
from schematics.drawing.ink.marks import Text, mark_points
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import Pages, setting_of
from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.draping import Settled, settled
from schematics.garment.cloth.material import Feel
from schematics.garment.cloth.worn_heights import answers
from schematics.garment.garment import Garment
from schematics.reading.design_file import read_design
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.proportions import proportioned
from tests.program import call, files_in, spare_drawings
from tests.shipped import shipped_design, shipped_results, shipped_text
from tests.specs_for_tests import write

SIZES = ("4", "6")


@pytest.fixture(autouse=True)
def nothing_hung_before() -> None:
    hang_sheet.hung_once.cache_clear()


@pytest.fixture
def hung(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """How deep each garment is that was hung, in order, on a coarse mesh; nothing else is drawn."""
    depths: list[float] = []
    spare_drawings(monkeypatch)
    monkeypatch.setattr(sheets, "draw_hang", hang_sheet.draw_hang)

    def coarsely(garment: Garment, size: FigureSize, feel: Feel) -> Settled:
        depths.append(garment.drop_cm)
        return settled(garment, size, feel, points=60)

    monkeypatch.setattr(hang_sheet, "settled", coarsely)
    return depths


def build(path: Path) -> BuildReport:
    (report,) = build_sources([spec_source(path)], path.parent / "output", Options(cloth=True))
    assert isinstance(report, BuildReport)
    return report


@pytest.mark.slow
def test_a_size_that_is_as_it_was_is_not_hung_again(tmp_path: Path, hung: list[float]) -> None:
    path = tmp_path / "tidepool.yaml"
    text = shipped_text("tidepool", *SIZES)
    path.write_text(text)
    four, six = (each.garment.drop_cm for each in evaluate(read_design(path)))
    report = build(path)
    assert hung == [four, six], "once for the sheet and the picture"
    names = [f"{size}/worn" for size in SIZES] + [f"schematics/{size}/worn-page" for size in SIZES]
    assert {f"{name}.{form}" for name in names for form in ("svg", "png", "pdf")} <= {
        *files_in(report.folder)
    }
    assert (build(path).written, hung) == ((), [four, six])

    path.write_text(f"# a remark\n\n{text}")
    assert (build(path).written, hung) == ((), [four, six]), "every line has moved, and no size is another"

    changed = text.replace("neck_band: {stitches: 5}", "neck_band: {stitches: 6}")
    assert changed != text
    path.write_text(changed)
    build(path)
    assert hung == [four, six, six]

    design = read_design(path)
    house = replace(design.publication.house, accent="#aa3311")
    accented = replace(design, publication=replace(design.publication, house=house))
    result = evaluate(design)[0]
    assert hang_sheet.picture_content(design, result) != hang_sheet.picture_content(accented, result), (
        "the picture has the accent"
    )


@pytest.mark.slow
def test_the_picture_has_no_figures_and_is_as_wide_as_a_page_of_text(hung: list[float]) -> None:
    design, results = shipped_design("kelp"), shipped_results("kelp")
    sheet = hang_sheet.hung_picture(design, next(each for each in results if each.size.name == "6"))
    assert len(hung) == 1
    marks = [mark for group in sheet.groups for mark in group.marks if isinstance(mark, Text)]
    assert sorted(mark.words for mark in marks) == sorted(
        f"arms {pose}, {view}" for pose in ("down", "level") for view in ("front", "side", "back")
    )
    assert 120 < sheet.paper.width <= 170
    boxes = [MultiPoint([*mark_points(mark)]).envelope for mark in marks]
    assert not any(one.intersects(other) for one, other in combinations(boxes, 2))
    svg = to_svg(sheet)
    assert 'role="img"' in svg
    assert "<title" in svg
    assert "<desc" in svg


@pytest.mark.slow
def test_only_what_can_be_worn_and_was_measured_is_hung(tmp_path: Path) -> None:
    on_cloth = setting_of(shipped_design("tidepool"), shipped_results("tidepool"), cloth=True)
    assert Pages(on_cloth).hung == tuple(result.size.name for result in on_cloth.results)
    assert Pages(replace(on_cloth, cloth=False)).hung == ()
    stopped = setting_of(shipped_design("first-draft"), shipped_results("first-draft"), cloth=True)
    assert {each.verdict for each in stopped.results} == {Severity.STOP}
    assert Pages(stopped).hung == ()
    unweighed = read_design(write(tmp_path))
    assert Pages(setting_of(unweighed, evaluate(unweighed), cloth=True)).hung == ()


def test_what_cannot_be_hung_is_drawn_by_the_plane_model(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise ClothError("an arm run does not lie on its edge")

    monkeypatch.setattr(hang_sheet, "settled", refuse)
    design, results = shipped_design("tidepool"), shipped_results("tidepool")
    pages = Pages(setting_of(design, results, cloth=True))
    page = pages.draw(pages.names.index(("worn", "6")))
    assert "worn, on a plain figure" in page.sheet.title
    ((_, picture),) = pages.hung_picture("6")
    assert "arms down and arms level" in picture.description


@pytest.mark.slow
def test_the_sheet_says_how_far_the_hem_hangs_and_which_length_to_go_by(hung: list[float]) -> None:
    """The lengths are those of the picture; below the nape is the waist's height from the body's own."""
    design, results = shipped_design("tidepool"), shipped_results("tidepool")
    six = next(each for each in results if each.size.name == "6")
    drawing = hang_sheet.draw_hang(setting_of(design, results, cloth=True), six)
    body = proportioned(six.wearer)
    assert body is not None
    words = " ".join(drawing.description.split())
    down = re.search(r"Arms down, the hem hangs ([\d.]+) cm below the nape in front", words)
    level = re.search(r"([\d.]+) cm at the back, and comes at the back ([\d.]+) cm (above|below)", words)
    assert down is not None
    assert level is not None
    at = answers(settled(six.garment, body.size, Feel(), points=60).hung.level)
    back = body.size.nape_height_cm - at.hem_back_cm
    assert float(level[1]) == pytest.approx(back, abs=0.051)
    over = at.hem_back_cm - body.size.waist_height_cm
    assert float(level[2]) == pytest.approx(abs(over), abs=0.051)
    assert level[3] == ("above" if over > 0 else "below")
    worn = 27 * 20 / 14 * 1.05
    assert f"reckon with {worn:.1f} cm: go by the longer above the knee" in words


@pytest.mark.slow
def test_the_program_hangs_sizes_unless_it_is_told_not_to(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a coarse mesh, all six pictures drawn."""
    monkeypatch.setattr(
        hang_sheet, "settled", lambda garment, size, feel: settled(garment, size, Feel(), points=100)
    )
    path = place / "tidepool.yaml"
    path.write_text(shipped_text("tidepool", "6"))
    arguments = ("build", path, "--jobs", "1", "--size", "6")
    assert call(*arguments, "--no-cloth").exit_code == 0
    assert "hung as cloth" not in (place / "output/tidepool/6/worn.svg").read_text()
    assert "tidepool/schematics/6/worn-page.svg" not in files_in(place / "output")
    assert call(*arguments).exit_code == 0
    svg = (place / "output/tidepool/6/worn.svg").read_text()
    for words in ("arms down, front", "arms down, side", "arms down, back", "arms level, back", "knee"):
        assert words in svg
    assert "hung as cloth" in svg
