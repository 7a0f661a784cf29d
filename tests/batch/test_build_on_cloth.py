"""Sheets of how sizes hang: which sizes have one, and that none is hung again that would be as it was."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from schematics.batch import BuildReport, Options, build_sources, spec_source
from schematics.checks.evaluation import Result, evaluate
from schematics.checks.finding import Severity
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.draped import hang_sheet
from schematics.drawing.ink.sheet import A4
from schematics.drawing.sheets import SIZE_SHEETS, Pages, setting_of
from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.draping import settled
from schematics.garment.cloth.material import Feel
from schematics.reading.design_file import read_design
from tests.program import call, files_in, spare_drawings
from tests.shipped import shipped_design, shipped_results, shipped_text
from tests.specs_for_tests import write

SIZES = ("4", "6")


@pytest.fixture
def hung(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The sizes that were hung, in order; nothing is drawn."""
    names: list[str] = []
    spare_drawings(monkeypatch)

    def draw(_: Setting, result: Result) -> Drawing:
        names.append(result.size.name)
        return Drawing(groups=(), title="hang", description=str(result.garment.drop_cm), scale=None)

    monkeypatch.setitem(SIZE_SHEETS, "hang", draw)
    return names


def build(path: Path) -> BuildReport:
    (report,) = build_sources([spec_source(path)], path.parent / "output", Options(cloth=True))
    assert isinstance(report, BuildReport)
    return report


@pytest.mark.slow
def test_a_size_that_is_as_it_was_is_not_hung_again(tmp_path: Path, hung: list[str]) -> None:
    path = tmp_path / "tidepool.yaml"
    text = shipped_text("tidepool", *SIZES)
    path.write_text(text)
    report = build(path)
    assert hung == [*SIZES]
    assert {f"{size}/hang.{form}" for size in SIZES for form in ("svg", "png", "pdf")} <= {
        *files_in(report.folder)
    }
    assert (build(path).written, hung) == ((), [*SIZES])

    path.write_text(f"# a remark\n\n{text}")
    assert (build(path).written, hung) == ((), [*SIZES]), "every line has moved, and no size is another"

    changed = text.replace("neck_band: {stitches: 5}", "neck_band: {stitches: 6}")
    assert changed != text
    path.write_text(changed)
    build(path)
    assert hung == [*SIZES, "6"]


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
