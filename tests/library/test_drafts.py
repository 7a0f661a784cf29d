"""The designer's view of a spec: drawn anew at each save, and what was drawn last while it is broken."""

from __future__ import annotations

import asyncio
import base64
import re
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from schematics.checks.evaluation import evaluate
from schematics.drawing.compose import Drawing
from schematics.drawing.ink.marks import Text
from schematics.drawing.ink.page import Box
from schematics.drawing.pieces import pieces
from schematics.drawing.pieces.figures_look import Wording
from schematics.drawing.sheets import setting_of
from schematics.garment.garment import Garment
from schematics.library.web.drafts import Drafts, draft_view
from schematics.library.web.reply import Reply
from tests.shipped import shipped_design, shipped_text

pytestmark = [pytest.mark.seeds, pytest.mark.slow]


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "lake.yaml"
    path.write_text(shipped_text("tidepool", "4", "6"), "utf-8")
    return path


def drawn(address: str) -> str:
    kind, _, data = address.partition(";base64,")
    assert kind == "data:image/svg+xml"
    return " ".join(ET.fromstring(base64.b64decode(data)).itertext())


def test_the_size_asked_for_is_drawn_with_its_counts(spec: Path) -> None:
    view = draft_view(spec, "4")
    assert (view.size, view.problems) == ("4", ())
    assert {"4", "6"} <= {*view.sizes}
    assert "(146 sts)" in drawn(view.picture)  # the spec says hem: 146
    assert view.findings[0][0].startswith("Size 4")


def test_a_broken_spec_is_told_with_its_lines(spec: Path) -> None:
    text = spec.read_text("utf-8")
    number = next(n for n, line in enumerate(text.splitlines(), 1) if line.startswith("construction:"))
    spec.write_text(re.sub("(?m)^construction:.*$", "construction: knotted", text), "utf-8")
    view = draft_view(spec, "4")
    assert view.picture == ""
    assert f"{spec}:{number}: construction" in view.problems[0]
    assert draft_view(spec.with_name("gone.yaml"), "").problems


def test_of_a_spec_without_counts_those_of_one_size_are_found() -> None:
    specs = Path(__file__).parents[2] / "specs"
    view = draft_view(specs / "sandpiper.yaml", "")
    assert view.problems == ()
    assert "found" in view.note or not view.note
    assert view.picture


async def after_a_save(drafts: Drafts, spec: Path, text: str, seen: str) -> Reply:
    """What the page shows that waits for the next save."""
    waiting = asyncio.create_task(drafts.page("lake", "4", seen))
    await asyncio.sleep(0)
    assert not waiting.done()
    spec.write_text(text, "utf-8")
    reply = await waiting
    assert reply is not None
    return reply


def shown(reply: Reply | None) -> tuple[str, str, bool]:
    """The number of the save, the drawing, and whether something is to mend."""
    assert reply is not None
    text = reply.content.decode()
    (number,) = re.findall(r'data-number="(\d+)"', text)
    (picture,) = re.findall(r'src="(data:image[^"]*)"', text)
    return number, picture, "To mend" in text


def test_each_save_is_drawn_and_the_last_drawing_outlives_a_slip(spec: Path) -> None:
    text = spec.read_text("utf-8")
    wider = text.replace("hem: 146", "hem: 150")

    async def edited(drafts: Drafts) -> None:
        number, first, mend = shown(await drafts.page("lake", "4", "0"))
        assert not mend
        number, kept, mend = shown(await after_a_save(drafts, spec, text + "\n: [", number))
        assert mend
        assert kept == first
        number, second, mend = shown(await after_a_save(drafts, spec, wider, number))
        assert not mend
        assert second != first

    async def followed() -> None:
        drafts = Drafts([spec], lambda: ThreadPoolExecutor(1))
        following = asyncio.create_task(drafts.follow())
        try:
            await edited(drafts)
        finally:
            drafts.stop()
            await following
            drafts.close()

    asyncio.run(followed())


def test_a_draft_is_laid_out_fewer_times_and_says_all_that_the_sheet_says(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """In driftwood labels take much room, so that the sheet is tried at four scales."""
    tried: list[int] = []
    layouts = pieces._laid_out

    def noted(garment: Garment, scale: int, area: Box, wording: Wording) -> pieces._Layout:
        tried.append(scale)
        return layouts(garment, scale, area, wording)

    monkeypatch.setattr(pieces, "_laid_out", noted)
    design = shipped_design("driftwood")
    design = replace(design, sizes=design.sizes[:1])
    setting = setting_of(design, evaluate(design))
    sheet = pieces.draw_pieces(setting, setting.results[0])
    usual = {*tried}
    tried.clear()
    draft = pieces.draw_pieces(replace(setting, draft=True), setting.results[0])
    assert {*tried} < usual
    assert draft.unplaced == ()
    assert words_of(draft) == words_of(sheet)


def words_of(drawing: Drawing) -> list[str]:
    texts = [mark.words for group in drawing.groups for mark in group.marks if isinstance(mark, Text)]
    return sorted(" ".join(texts).split())
