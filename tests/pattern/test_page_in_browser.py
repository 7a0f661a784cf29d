"""The page of figures in a browser: nothing fetched, no sideways scrolling on a phone, tables on paper."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from schematics.document.writers import file_content
from tests.document.pdf_reading import page_texts
from tests.examples import seeds
from tests.fitting.page.browser import MISSING, PROGRAM, Browser, Tab
from tests.pattern.test_writers import HOSTILE, demo, hostile

pytestmark = pytest.mark.skipif(PROGRAM is None, reason=MISSING)

SIDEWAYS = """(() => {
    const page = document.documentElement;
    const out = [...document.querySelectorAll("body *")].filter(each =>
        each.getBoundingClientRect().right > page.clientWidth + 0.5 && !each.closest("thead"));
    return [page.scrollWidth - page.clientWidth, out.length];
})()"""
"""How far the page scrolls sideways, and how many elements stick out of the window."""


def tab_of(browser: Browser, folder: Path, content: bytes, width: int) -> Tab:
    path = folder / "figures.html"
    path.write_bytes(content)
    return browser.open(path, width=width)


@pytest.mark.slow
@pytest.mark.parametrize("name", seeds(["tidepool", "saltmarsh", "driftwood"]))
def test_readable_at_320_pixels_and_on_paper(browser: Browser, tmp_path: Path, name: str) -> None:
    tab = tab_of(browser, tmp_path, file_content(demo(name), "html"), 320)
    assert tab.run(SIDEWAYS) == [0, 0]
    font = "parseFloat(getComputedStyle(document.querySelector('td')).fontSize)"
    assert tab.run(font) >= 16
    pages = page_texts(tab.pdf())
    text = "\n".join(pages)
    assert demo(name).head["title"] in text
    assert "Before it is worn" in text
    ends = {table.header[-1] for section in demo(name).sections for table in section.tables} - {"of", "rows"}
    assert not [page for page in pages if page.split("\n")[-1].strip() in ends]
    tab.resize(720, 1000)
    tab.media("print")
    assert tab.run("getComputedStyle(document.querySelector('table')).display") == "table"
    assert tab.run("getComputedStyle(document.querySelector('nav')).display") == "none"
    assert tab.run("document.documentElement.scrollWidth") <= 720
    tab.collect()
    assert all(each.startswith("file:") for each in tab.requests)
    assert len(tab.requests) == 1
    assert tab.complaints == []
    tab.close()


def test_hostile_words_do_nothing(browser: Browser, tmp_path: Path) -> None:
    """All of them on one page."""
    texts = [*HOSTILE, "W" * 80]
    sections = tuple(section for text in texts for section in hostile(text).sections)
    everything = replace(hostile(HOSTILE[0]), sections=sections)
    tab = tab_of(browser, tmp_path, file_content(everything, "html"), 320)
    assert tab.run("document.scripts.length + document.images.length") == 0
    assert tab.run(SIDEWAYS) == [0, 0]
    assert tab.run("[...document.querySelectorAll('h2')].map(each => each.textContent)") == texts
    tab.collect()
    assert len(tab.requests) == 1
    assert tab.complaints == []
    tab.close()
