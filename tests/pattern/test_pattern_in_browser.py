"""The pattern's page in a browser: for everyone, on a phone, enlarged; its schematic is lettered for each."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.examples import seeds, thorough
from tests.fitting.page.browser import MISSING, PROGRAM, Browser
from tests.fitting.page.test_look import violations
from tests.pattern.test_page_in_browser import SIDEWAYS
from tests.shipped import shipped_pattern

pytestmark = [pytest.mark.skipif(PROGRAM is None, reason=MISSING), pytest.mark.slow]

SPECS = Path(__file__).parents[2] / "specs"

SMALLEST_LETTERS = """(async () => {
    const image = [...document.images].find(each => each.alt.startsWith("The pieces laid flat"));
    await image.decode();
    const svg = new DOMParser().parseFromString(atob(image.currentSrc.split(",")[1]), "image/svg+xml");
    const width = svg.documentElement.viewBox.baseVal.width;
    const sizes = [...svg.querySelectorAll("text")].map(each => parseFloat(each.getAttribute("font-size")));
    return Math.min(...sizes) * image.getBoundingClientRect().width / width;
})()"""
"""The smallest letters of the schematic that is shown, in CSS pixels as they are on the screen."""


@pytest.mark.parametrize("name", seeds(["tidepool", "kelp", "driftwood"]))
def test_the_pattern_is_read_on_any_screen(browser: Browser, tmp_path: Path, name: str) -> None:
    """320 pixels are 1280 at 400 %, 640 are 1280 at 200 % (WCAG 2.2, 1.4.10 and 1.4.4)."""
    path = tmp_path / "pattern.html"
    path.write_bytes(shipped_pattern(name, "html"))
    tab = browser.open(path, width=320)
    for width in (320, 640, 641, 1280):
        tab.resize(width, 800)
        assert tab.run(SIDEWAYS) == [0, 0], width
        assert tab.run(SMALLEST_LETTERS) >= 12, width
        if width == 320 or (thorough() and width == 1280):
            assert list(violations(tab)) == []
    for width in (360, 1280):
        tab.resize(width, 800)
        tab.run("document.documentElement.style.fontSize = '200%'")
        assert tab.run(SIDEWAYS) == [0, 0], width
    tab.collect()
    assert tab.complaints == []
    assert len([each for each in tab.requests if not each.startswith("data:")]) == 1
    tab.close()
