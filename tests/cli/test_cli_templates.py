"""``schematics templates``, and the templates among the files of a build."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import Result
from pypdf import PdfReader

import schematics
from schematics.drawing.templates import tiles
from tests.drawing.templates.pdf_strokes import read_pdf
from tests.program import call, files_in, spare_drawings
from tests.remembered import remember_templates
from tests.specs_for_tests import SPEC, TIGHT_NECK, write

ONE_SIZE = SPEC.partition('  "6 years":')[0]


pytestmark = pytest.mark.usefixtures("place")


@pytest.fixture
def drawn_once(monkeypatch: pytest.MonkeyPatch) -> None:
    remember_templates(monkeypatch)


def written(*arguments: object) -> bytes:
    result = call("templates", "lake.yaml", "-o", "t.pdf", *arguments)
    assert (result.exit_code, result.output) == (0, "")
    return Path("t.pdf").read_bytes()


@pytest.mark.slow
@pytest.mark.usefixtures("drawn_once")
def test_it_writes_those_of_the_sizes_asked_for_on_the_paper_asked_for(place: Path) -> None:
    write(place)
    first = written("--size", "4")
    pages = read_pdf(first)
    assert pages[0].bookmark == "size 4, plan"
    assert {page.bookmark.partition(",")[0] for page in pages} == {"size 4"}
    assert pages[0].paper == pytest.approx((210, 297), abs=0.01)
    letter = written("--size", "4", "--paper", "letter")
    assert read_pdf(letter)[0].paper == pytest.approx((215.9, 279.4), abs=0.01)
    design = schematics.read("lake.yaml")
    assert schematics.draw_templates(design, ["4"], paper="letter") == letter
    assert [page.bookmark for page in read_pdf(written("--whole"))] == ["size 4", "size 6 years"]


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("--size", "5", "-o", "t.pdf"), "lake.yaml: no size '5'; the sizes are 4, 6 years"),
        (
            ("shore.yaml", "-o", "t.pdf"),
            "-o takes the templates of one design, and there are 2 specs; name one",
        ),
    ],
)
def test_what_cannot_be_is_told_once(place: Path, arguments: tuple[str, ...], message: str) -> None:
    write(place)
    result = call("templates", "lake.yaml", *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith(message)
    assert result.stderr.count("\n") == 1
    assert not Path("t.pdf").exists()


@pytest.mark.slow
def test_a_file_has_to_be_named_and_is_not_another_s(place: Path) -> None:
    write(place)
    result = call("templates", "lake.yaml")
    assert result.exit_code == 2
    assert "Missing option '-o' / '--output'" in result.stderr
    Path("notes.pdf").write_text("my notes")
    result = call("templates", "lake.yaml", "-o", "notes.pdf")
    assert result.exit_code == 2
    assert Path("notes.pdf").read_text() == "my notes"


@pytest.mark.slow
@pytest.mark.usefixtures("drawn_once")
def test_a_size_that_stops_is_drawn_and_the_exit_code_tells(place: Path) -> None:
    write(place, TIGHT_NECK)
    result = call("templates", "lake.yaml", "-o", "t.pdf")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == "stop: 4; schematics check lake.yaml says why\n"
    assert Path("t.pdf").read_bytes().startswith(b"%PDF-")


def build(*options: str) -> Result:
    result = call("build", "lake.yaml", "--jobs", "1", *options)
    assert result.exit_code == 0
    return result


@pytest.mark.slow
@pytest.mark.usefixtures("drawn_once")
def test_a_build_draws_them_if_asked_and_leaves_them_alone_if_not(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spare_drawings(monkeypatch)
    write(place, ONE_SIZE)
    path, folder = Path("output/lake/4/templates.pdf"), Path("output")
    build()
    plain = files_in(folder)
    assert not path.exists()
    assert not build("--templates").stdout.endswith("as it was\n")
    assert path.read_bytes() == written()
    assert {*files_in(folder)} - {*plain} == {"lake/4/templates.pdf"}
    for options in ((), ("--templates",)):
        result = build(*options)
        assert (result.stdout.endswith("as it was\n"), result.stderr) == (True, "")
    assert "no longer part" not in build("--force").stderr
    write(place, ONE_SIZE.replace("Lake poncho", "Shore poncho"))
    assert "still there: 4/templates.pdf" in build().stderr
    build("--templates")
    assert PdfReader(path).metadata == {
        "/Title": "Shore poncho: templates",
        "/Creator": "schematics",
        "/Producer": "schematics",
    }
    path.unlink()
    build("--templates")
    assert path.exists()


@pytest.mark.slow
def test_a_build_says_which_size_is_too_large_for_them_and_draws_all_else(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spare_drawings(monkeypatch)
    write(place, ONE_SIZE)
    monkeypatch.setattr(tiles, "MOST", 2)
    result = build("--templates")
    assert result.stderr == (
        "lake.yaml: size 4 is too large for templates on pages to be joined; have them as one large page\n"
    )
    assert not Path("output/lake/4/templates.pdf").exists()
    assert Path("output/lake/pattern.pdf").exists()
