"""Building a design into files."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from schematics.batch import build_design
from schematics.batch.lock import LOCK
from schematics.batch.manifest import MANIFEST
from schematics.design.design import Design
from schematics.document import typeset
from schematics.drawing import sheets
from schematics.drawing.ink import raster
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.sheets import SIZE_SHEETS
from schematics.errors import UsageError
from schematics.fitting.page import fit_page
from schematics.reading.files.saving import WriteError
from schematics.wearer.body import Body
from tests.program import files_in, spare_bare_drawings, spare_drawings, spare_sheets, without_cairo
from tests.specs_for_tests import TIGHT_NECK, read


@pytest.fixture
def design(tmp_path: Path) -> Design:
    return read(tmp_path)


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Spare drawing and rendering where a test is about something else."""
    spare_drawings(monkeypatch)


def contents(folder: Path) -> dict[str, bytes]:
    """What the program wrote there, but for what it says of it."""
    aside = (MANIFEST, LOCK)
    return {name: (folder / name).read_bytes() for name in files_in(folder) if Path(name).name not in aside}


@pytest.mark.slow
@pytest.mark.usefixtures("quick")
def test_every_size_is_drawn_whatever_its_findings(tmp_path: Path) -> None:
    built = build_design(read(tmp_path, TIGHT_NECK), tmp_path / "output")
    assert built.verdicts == (("4", "stop"), ("6 years", "mind"))
    for size in ("4", "6 years"):
        for stem in SIZE_SHEETS:
            assert {f"{size}/{stem}.png", f"{size}/{stem}.svg"} <= set(files_in(built.folder))
    assert "measurements.json" in files_in(built.folder)
    assert sorted([*built.files, built.folder / MANIFEST]) == sorted(
        built.folder / name for name in files_in(built.folder)
    )
    assert sorted(built.written) == sorted(built.files)
    assert built.problems == ()


@pytest.mark.slow
@pytest.mark.usefixtures("quick")
def test_building_twice_gives_the_same_bytes_and_leaves_other_files_alone(
    design: Design, tmp_path: Path
) -> None:
    out = tmp_path / "output"
    build_design(design, out)
    first = contents(out)
    (out / "lake" / "notes.txt").write_text("mine")
    (out / "lake" / "4" / "photo.jpg").write_bytes(b"mine too")
    build_design(design, out)
    again = contents(out)
    assert again.pop("lake/notes.txt") == b"mine"
    assert again.pop("lake/4/photo.jpg") == b"mine too"
    assert again == first


@pytest.mark.slow
@pytest.mark.usefixtures("quick")
def test_one_size_alone_is_drawn_as_it_is_among_all(design: Design, tmp_path: Path) -> None:
    """The scale is the whole design's, and the measurements are always those of every size."""
    whole, part = tmp_path / "whole", tmp_path / "part"
    build_design(design, whole)
    report = build_design(design, part, ["4"])
    assert report.verdicts == (("4", "mind"),)
    expected = contents(whole)
    assert contents(part) == {name: expected[name] for name in expected if "6 years" not in name}


@pytest.mark.slow
@pytest.mark.usefixtures("quick")
def test_progress_goes_up_to_all(design: Design, tmp_path: Path) -> None:
    told: list[float] = []
    build_design(design, tmp_path / "output", progress=told.append)
    assert told == sorted(told)
    assert told[-1] == 1.0
    assert len(set(told)) > 5


def test_an_unknown_size_writes_nothing(design: Design, tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="no size '5'; the sizes are 4, 6 years"):
        build_design(design, tmp_path / "output", ["5"])
    assert files_in(tmp_path / "output") == [LOCK]


@pytest.mark.slow
@pytest.mark.usefixtures("quick")
def test_what_fails_while_drawing_leaves_an_earlier_build_as_it_was(
    design: Design, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "output"
    build_design(read(tmp_path, TIGHT_NECK), out)
    earlier = contents(out)
    drawn: list[Sheet] = []

    def fail_at_the_second(sheet: Sheet) -> bytes:
        drawn.append(sheet)
        if len(drawn) == 2:
            raise MemoryError
        return b"PNG"

    monkeypatch.setattr(raster, "to_png", fail_at_the_second)
    with pytest.raises(MemoryError):
        build_design(design, out)
    assert contents(out) == earlier


@pytest.mark.usefixtures("quick")
def test_a_folder_that_cannot_be_made_is_one_sentence(design: Design, tmp_path: Path) -> None:
    (tmp_path / "output").write_text("a file of this name")
    with pytest.raises(
        WriteError, match=r"^cannot write \S+: \S+/output is a file, not a folder; move it away$"
    ):
        build_design(design, tmp_path / "output")


@pytest.mark.slow
def test_without_the_cairo_library_all_but_png_and_pdf_is_written(
    design: Design, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    without_cairo(monkeypatch)
    monkeypatch.setattr(typeset, "to_pdf", lambda document, look: b"%PDF")
    monkeypatch.setattr(fit_page, "fit_page", lambda design, results: "<html>")
    spare_sheets(monkeypatch)
    spare_bare_drawings(monkeypatch)
    report = build_design(design, tmp_path / "output")
    written = files_in(report.folder)
    assert {"4/pieces.svg", "6 years/pieces.svg", "measurements.json"} <= set(written)
    paged = {"pattern.pdf", "pattern-letter.pdf", "pattern-large.pdf"}
    assert {name for name in written if name.endswith((".png", ".pdf", ".docx"))} == paged
    (problem,) = report.problems
    assert problem.startswith("no PNG or PDF was drawn")
    assert "libcairo2" in problem


@pytest.mark.slow
@pytest.mark.usefixtures("quick")
def test_what_found_no_room_is_said_with_file_and_size(
    design: Design, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    honest = sheets.Pages.draw

    def crowded(pages: sheets.Pages, index: int) -> sheets.Page:
        page = honest(pages, index)
        return replace(page, sheet=replace(page.sheet, unplaced=("body.hem",)))

    monkeypatch.setattr(sheets.Pages, "draw", crowded)
    first, *others = design.sizes
    odd = replace(first.wearer, own={**first.wearer.own, Body.HEAD_GIRTH: 28.0})
    design = replace(design, sizes=(replace(first, wearer=odd), *others))
    for _ in ("drawn", "as it was"):
        report = build_design(design, tmp_path / "output", ["4"])
        (asked,) = report.asked
        assert asked.startswith(f"{design.path}: size 4: 28 cm is far below any head girth at the age of 4")
        assert f"{design.path}: size 4, pieces: no room for body.hem" in report.unplaced
        assert not any("6 years" in each for each in report.unplaced)
