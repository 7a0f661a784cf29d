"""Building a design into files."""

from __future__ import annotations

import builtins
import json
import sys
import xml.etree.ElementTree as ET
from collections.abc import Mapping, Sequence
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from schematics.build import BuildReport, build_design
from schematics.design import Design
from schematics.drawing import pieces, raster
from schematics.drawing.sheet import Sheet
from schematics.errors import UsageError
from schematics.evaluate import Result
from schematics.report.files import WriteError
from tests.specs_for_tests import TIGHT_NECK, read


@pytest.fixture
def design(tmp_path: Path) -> Design:
    return read(tmp_path)


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Spare the drawing of PNGs where a test is about something else."""
    monkeypatch.setattr(raster, "to_png", lambda svg: b"PNG of " + svg.encode()[-40:])


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> BuildReport:
    """A design built as users build it, with a size that stops."""
    folder = tmp_path_factory.mktemp("built")
    return build_design(read(folder, TIGHT_NECK), folder / "output")


def files_in(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())


def contents(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in files_in(folder)}


def test_every_size_is_drawn_whatever_its_findings(built: BuildReport) -> None:
    assert [result.verdict for result in built.results] == ["stop", "mind"]
    assert files_in(built.folder) == [
        "4/pieces.png",
        "4/pieces.svg",
        "6 years/pieces.png",
        "6 years/pieces.svg",
        "measurements.json",
    ]
    assert sorted(built.files) == sorted(built.folder / name for name in files_in(built.folder))
    assert built.problems == ()


def test_the_files_are_what_their_names_say(built: BuildReport) -> None:
    for size in ("4", "6 years"):
        root = ET.fromstring((built.folder / size / "pieces.svg").read_bytes())
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        with Image.open(BytesIO((built.folder / size / "pieces.png").read_bytes())) as image:
            image.load()
            assert min(image.size) > 1000
    document = json.loads((built.folder / "measurements.json").read_text(encoding="utf-8"))
    assert [size["name"] for size in document["sizes"]] == ["4", "6 years"]


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


@pytest.mark.usefixtures("quick")
def test_one_size_alone_is_drawn_as_it_is_among_all(design: Design, tmp_path: Path) -> None:
    """The scale is the whole design's, and the measurements are always those of every size."""
    whole, part = tmp_path / "whole", tmp_path / "part"
    build_design(design, whole)
    report = build_design(design, part, ["4"])
    assert [result.size.name for result in report.results] == ["4"]
    expected = contents(whole)
    assert contents(part) == {name: expected[name] for name in expected if "6 years" not in name}


@pytest.mark.usefixtures("quick")
def test_progress_names_each_size_as_it_is_drawn(design: Design, tmp_path: Path) -> None:
    named: list[str] = []
    build_design(design, tmp_path / "output", progress=named.append)
    assert named == ["4", "6 years"]


def test_an_unknown_size_writes_nothing(design: Design, tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="no size '5'; the sizes are 4, 6 years"):
        build_design(design, tmp_path / "output", ["5"])
    assert not (tmp_path / "output").exists()


@pytest.mark.usefixtures("quick")
def test_what_fails_while_drawing_leaves_an_earlier_build_as_it_was(
    design: Design, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "output"
    build_design(read(tmp_path, TIGHT_NECK), out)
    earlier = contents(out)
    drawn: list[str] = []

    def fail_at_the_second(svg: str) -> bytes:
        drawn.append(svg)
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
    with pytest.raises(WriteError, match=r"^cannot write \S+4/pieces\.svg: (file exists|not a directory)$"):
        build_design(design, tmp_path / "output")


def without_cairo(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make ``import cairosvg`` fail as it does where the cairo library is missing: with OSError."""
    honest = builtins.__import__

    def refuse(
        name: str,
        globals_: Mapping[str, object] | None = None,
        locals_: Mapping[str, object] | None = None,
        fromlist: Sequence[str] = (),
        level: int = 0,
    ) -> Any:
        if name.partition(".")[0] in {"cairosvg", "cairocffi"}:
            raise OSError('no library called "cairo-2" was found')
        return honest(name, globals_, locals_, fromlist, level)

    for name in [name for name in sys.modules if name.partition(".")[0] in {"cairosvg", "cairocffi"}]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(builtins, "__import__", refuse)


def test_without_the_cairo_library_all_but_the_png_is_written(
    design: Design, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    without_cairo(monkeypatch)
    report = build_design(design, tmp_path / "output")
    assert files_in(report.folder) == ["4/pieces.svg", "6 years/pieces.svg", "measurements.json"]
    (problem,) = report.problems
    assert problem.startswith("no PNG was drawn")
    assert "libcairo2" in problem


@pytest.mark.usefixtures("quick")
def test_what_found_no_room_is_said_with_file_and_size(
    design: Design, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    honest = pieces.pieces_sheet

    def crowded(design: Design, result: Result, scale: int) -> Sheet:
        sheet = honest(design, result, scale)
        return Sheet(
            paper=sheet.paper,
            scale=sheet.scale,
            title=sheet.title,
            description=sheet.description,
            groups=sheet.groups,
            unplaced=("body.hem",),
        )

    monkeypatch.setattr(pieces, "pieces_sheet", crowded)
    report = build_design(design, tmp_path / "output", ["4"])
    assert report.unplaced == (f"{design.path}: size 4: no room for body.hem",)
