"""Hostile names that may stand are drawn and written as plain text: no markup, no script, no formula."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader
from pypdf.generic import Destination

from schematics.checks.evaluation import evaluate
from schematics.cli import main
from schematics.document.writers import file_content
from schematics.drawing.ink.pdf import join, to_pdf
from schematics.drawing.ink.sheet import A4, Sheet
from schematics.pattern import figures
from tests.examples import thorough
from tests.fitting.page.browser import Browser
from tests.hostile.designs import check_csv, check_svg, cover, design, htmls, places, plain_tags, tags
from tests.hostile.names import DRAWN, TEXT_ONLY, plain, spec_of
from tests.program import files_in, spare_drawings

GROUPS = places([name for name, _ in TEXT_ONLY])
OPENED = range(len(GROUPS) if thorough() else 2)
"""The groups whose pages are opened: in the first two is all that looks like markup."""

CANARY = "new Promise(done => setTimeout(() => done(typeof hacked), 50))"
"""``number`` where any of the names ran as a script."""


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("index", range(len(GROUPS)))
def test_texts_are_drawn_as_they_stand(index: int, tmp_path: Path, browser: Browser) -> None:
    texts = GROUPS[index]
    made = design(tmp_path, texts, [DRAWN[index]])
    check_svg(cover(made), texts[0])
    for name, page in htmls(made).items():
        assert tags(page) == plain_tags(1)[name]
        if index not in OPENED:
            continue
        (tmp_path / name).write_text(page, encoding="utf-8")
        tab = browser.open(tmp_path / name)
        assert tab.run(CANARY) == "undefined"
        assert texts[0] in tab.run("document.title")
        tab.collect()
        assert (len(tab.requests), tab.complaints) == (1, [])
        tab.close()


def test_the_canary_sings(tmp_path: Path, browser: Browser) -> None:
    """The same names in a page that does not escape them."""
    names = "\n".join(name for name, _ in TEXT_ONLY if "refresh" not in name)
    path = tmp_path / "open.html"
    path.write_text(f"<!DOCTYPE html><title>open</title><p>{names}", encoding="utf-8")
    tab = browser.open(path)
    assert tab.run(CANARY) == "number"
    tab.close()


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, len(DRAWN), 40))
def test_sizes_are_written_as_they_stand(first: int, tmp_path: Path) -> None:
    sizes = DRAWN[first : first + 40]
    made = design(tmp_path, places(DRAWN[first:])[0], sizes)
    document = figures(made, evaluate(made))
    page = file_content(document, "html").decode()
    assert set(tags(page)) == set(plain_tags(1)["figures.html"])
    written = [name.replace("e\u0301", "\u00e9") for name in sizes]
    check_csv(file_content(document, "csv").decode(), written)


@pytest.mark.slow
def test_a_build_stays_in_its_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    spare_drawings(monkeypatch)
    monkeypatch.chdir(tmp_path)
    spec = Path("'; touch x;.yaml")
    spec.write_text(spec_of(plain(14), ["$(touch hacked)"]), encoding="ascii")
    result = CliRunner().invoke(main, ["build", str(spec), "--out", "made", "--jobs", "1"])
    assert (result.exit_code, result.stderr) == (1, "")
    folder = "made/'; touch x;"
    new = [name for name in files_in(tmp_path) if name != str(spec)]
    assert all(name.startswith(f"{folder}/") or name == "made/.schematics.lock" for name in new)
    assert {f"{folder}/$(touch hacked)/pieces.svg", f"{folder}/fit.html"} < set(new)


@pytest.mark.slow
def test_a_pdf_bears_the_names_as_text_alone() -> None:
    names = [*DRAWN, *(name for name, _ in TEXT_ONLY)]
    page = to_pdf(Sheet(paper=A4, scale=None, title="", description="", groups=()))
    whole = PdfReader(BytesIO(join([(name, page) for name in names], "")))
    assert [str(each["/Title"]) for each in _bookmarks(whole)] == names
    for title in names[::8]:
        document = PdfReader(BytesIO(join([(title, page)], title)))
        assert document.metadata is not None
        assert document.metadata.title == title
        assert set(document.root_object) == {"/Type", "/Pages", "/Outlines", "/Lang"}


def _bookmarks(document: PdfReader) -> list[Destination]:
    return [each for each in document.outline if isinstance(each, Destination)]
