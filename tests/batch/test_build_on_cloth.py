"""Sheets of how sizes hang: which sizes have one, and that none is hung again that would be as it was."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from shapely import MultiPoint

from schematics.batch import BuildReport, Options, build_sources, spec_source
from schematics.checks.evaluation import evaluate
from schematics.checks.finding import Severity
from schematics.drawing.compose import Setting
from schematics.drawing.draped import hang_sheet
from schematics.drawing.ink.marks import Text, mark_points
from schematics.drawing.ink.sheet import A4
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import SIZE_SHEETS, Pages, setting_of
from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.draping import Settled, settled
from schematics.garment.cloth.material import Feel
from schematics.garment.garment import Garment
from schematics.reading.design_file import read_design
from schematics.wearer.body_figure import FigureSize
from tests.program import call, files_in, spare_drawings
from tests.shipped import shipped_design, shipped_results, shipped_text
from tests.specs_for_tests import write

SIZES = ("4", "6")


@pytest.fixture
def hung(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """How deep each garment is that was hung, in order, on a coarse mesh; nothing else is drawn."""
    depths: list[float] = []
    spare_drawings(monkeypatch)
    monkeypatch.setitem(SIZE_SHEETS, "hang", hang_sheet.draw_hang)

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
    names = [f"{size}/hang" for size in SIZES] + [f"schematics/{size}/hang-page" for size in SIZES]
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

    setting = setting_of(read_design(path), evaluate(read_design(path)), cloth=True)
    publication = setting.design.publication
    house = replace(publication.house, accent="#aa3311")
    other = replace(setting.design, publication=replace(publication, house=house))
    accented, result = replace(setting, design=other), setting.results[0]
    assert hang_sheet.picture_content(setting, result) != hang_sheet.picture_content(accented, result), (
        "the picture has the accent"
    )


@pytest.mark.slow
def test_the_picture_has_no_figures_and_is_as_wide_as_a_page_of_text(hung: list[float]) -> None:
    design, results = shipped_design("kelp"), shipped_results("kelp")
    setting = setting_of(design, results, cloth=True)
    sheet = hang_sheet.hung_picture(setting, next(each for each in results if each.size.name == "6"))
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
def test_only_what_can_be_worn_and_was_measured_has_the_sheet(tmp_path: Path) -> None:
    on_cloth = setting_of(shipped_design("tidepool"), shipped_results("tidepool"), cloth=True)
    names = {result.size.name for result in on_cloth.results}
    assert {size for stem, size in Pages(on_cloth).names if stem == "hang"} == names
    without = replace(on_cloth, cloth=False)
    assert not any(stem == "hang" for stem, _ in Pages(without).names)
    stopped = setting_of(shipped_design("first-draft"), shipped_results("first-draft"), cloth=True)
    assert {each.verdict for each in stopped.results} == {Severity.STOP}
    assert not any(stem == "hang" for stem, _ in Pages(stopped).names)
    unweighed = read_design(write(tmp_path))
    lake = setting_of(unweighed, evaluate(unweighed), cloth=True)
    assert not any(stem == "hang" for stem, _ in Pages(lake).names)


def test_where_it_cannot_be_hung_the_sheet_says_why(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise ClothError("an arm run does not lie on its edge")

    monkeypatch.setattr(hang_sheet, "settled", refuse)
    setting = Setting(
        design=shipped_design("tidepool"), results=shipped_results("tidepool"), paper=A4, cloth=True
    )
    drawing = hang_sheet.draw_hang(setting, setting.results[0])
    assert drawing.description == "This size cannot be hung on cloth: an arm run does not lie on its edge."
    assert (drawing.scale, drawing.unplaced) == (None, ())


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
    assert "tidepool/6/hang.svg" not in files_in(place / "output")
    assert call(*arguments).exit_code == 0
    svg = (place / "output/tidepool/6/hang.svg").read_text()
    for words in ("arms down, front", "arms down, side", "arms down, back", "arms level, back", "knee"):
        assert words in svg
    assert "how it hangs" in svg
