"""A maker's whole way in Chromium, on a phone and by keyboard alone: from the designs to her pattern."""

from __future__ import annotations

import time
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from tests.document.pdf_reading import reader
from tests.examples import thorough
from tests.fitting.page.browser import Browser, Tab
from tests.library.served import Service, served
from tests.shipped import shipped_text

AXE = files("axe_core_python").joinpath("axe.min.js")


def violations(tab: Tab) -> list[Any]:
    """What axe-core 4 finds, all of its rules run, at whose script the page's policy looks away."""
    tab.command("Page.setBypassCSP", enabled=True)
    tab.run(AXE.read_text("utf-8") + ";0")
    found = tab.run("axe.run(document, {resultTypes: ['violations']})")
    return [each["id"] for each in found["violations"]]


def go_to(tab: Tab, script: str) -> None:
    """Press Tab until the script is true of the focus, here called ``at``."""
    for _ in range(60):
        tab.press("Tab")
        if tab.run(f"(at => {script})(document.activeElement)"):
            return
    raise AssertionError(script)


def enter(tab: Tab) -> None:
    tab.browser.events.clear()
    tab.press("Enter")
    tab.browser.wait_for("Page.loadEventFired", tab.session)


CUT_OFF = """
[...document.querySelectorAll("select")].filter((select) => {
  const has = select.offsetWidth;
  Object.assign(select.style, { maxWidth: "none", width: "max-content" });
  const asks = select.offsetWidth;
  Object.assign(select.style, { maxWidth: "", width: "" });
  return has > 0 && asks > has;
}).map((select) => select.id)
"""
"""Lists that are narrower than their widest choice."""


def looked_at(tab: Tab) -> None:
    """Nothing for axe, nothing wider than the window or its list with text of twice the size, nothing stopped
    by the policy."""
    assert violations(tab) == []
    for size in ("200%", ""):
        tab.run(f"document.documentElement.style.fontSize = '{size}'; 0")
        assert tab.run("document.documentElement.scrollWidth <= innerWidth")
        assert tab.run(CUT_OFF) == []
    tab.collect()
    assert tab.blocked == []
    assert [each for each in tab.complaints if "status of 422" not in each] == []


@pytest.mark.seeds
def test_from_the_designs_to_the_pattern(browser: Browser, service: Service, tmp_path: Path) -> None:
    tab = browser.open(f"http://{service.host}/", width=320, height=740)
    tab.media(dark=True)
    tab.command("Page.setDownloadBehavior", behavior="allow", downloadPath=str(tmp_path))
    if thorough():
        looked_at(tab)
    go_to(tab, "at.textContent === 'Tidepool poncho'")
    enter(tab)
    go_to(tab, "at.id === 'age'")
    tab.type("6x")
    go_to(tab, "at.id === 'height'")
    tab.type("118")
    enter(tab)
    assert tab.run("document.querySelector('[role=alert]').textContent").count("6x") == 1
    closed = tab.run("[...document.querySelectorAll('details:not([open])')].map(each => each.open = true)")
    for width in (360, 768, 1280, 320) if thorough() else (320,):
        tab.resize(width, 740)
        tab.media(dark=width < 768)
        looked_at(tab)
    assert closed
    tab.run("document.querySelectorAll('details').forEach(each => each.open = false)")
    go_to(tab, "at.getAttribute('href') === '#age'")
    tab.press("Enter")
    go_to(tab, "at.id === 'age'")
    tab.press("a", modifiers=2)
    tab.type("6")
    go_to(tab, "at.id === 'head_girth'")
    tab.type("52,5")
    go_to(tab, "at.id === 'name'")
    tab.type("Mara")
    enter(tab)
    looked_at(tab)
    assert tab.run("document.querySelector('h1').textContent") == "Tidepool poncho for Mara"
    verdict = "document.querySelector('.summary button').getBoundingClientRect().bottom"
    assert tab.run(verdict) <= 740  # seen without scrolling
    go_to(tab, "at.textContent === 'Get the pattern as PDF'")
    tab.press("Enter")
    pattern = tmp_path / "tidepool Mara.pdf"
    patience = time.monotonic() + 300
    while not pattern.exists() and time.monotonic() < patience:
        time.sleep(0.05)
    assert "Tidepool poncho for Mara" in reader(pattern.read_bytes()).pages[0].extract_text()
    tab.close()


def until(tab: Tab, script: str) -> None:
    """Wait until the script is true of the page."""
    patience = time.monotonic() + 300
    while not tab.run(script):
        assert time.monotonic() < patience, script
        time.sleep(0.02)


@pytest.mark.seeds
def test_a_designer_sees_each_save(browser: Browser, tmp_path: Path) -> None:
    spec = tmp_path / "lake.yaml"
    text = shipped_text("tidepool", "4", "6")
    spec.write_text(text, "utf-8")
    with served([], edited=[spec]) as service:
        tab = browser.open(f"http://{service.host}/draft/lake?size=4", width=768)
        assert tab.run("document.querySelector('h2').textContent").startswith("Size 4")
        tab.run("globalThis.first = document.querySelector('img').src; 0")
        spec.write_text(text.replace("hem: 146", "hem: 15O"), "utf-8")
        until(tab, "document.querySelector('.stop li') !== null")
        assert "hem" in tab.run("document.querySelector('.stop li').textContent")
        assert tab.run("document.querySelector('img').src === first")
        looked_at(tab)
        spec.write_text(text.replace("hem: 146", "hem: 150"), "utf-8")
        until(
            tab, "document.querySelector('.stop li') === null && document.querySelector('img').src !== first"
        )
        assert tab.run("document.getElementById('told').textContent") == "Saved and drawn anew."
        if thorough():
            looked_at(tab)
        tab.close()
