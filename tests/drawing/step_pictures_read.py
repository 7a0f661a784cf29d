"""The pictures of the steps as read back from their SVG, and what is wrong with one."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Polygon

from schematics.checks.evaluation import Result
from schematics.design.publication import SeamStyle
from schematics.drawing.assembly.step_pictures import StepPicture, step_pictures
from schematics.drawing.ink.svg import to_svg
from tests.drawing.audit_layout import letters_astray, upside_down, words_on_lines, words_on_words
from tests.drawing.readback import Page, read_page

NECK = "Neck band, from the centre back round."


def pages_of(results: Sequence[Result], seam: SeamStyle | None = None) -> dict[str, Page]:
    return {caption(page): page for page in map(read, step_pictures(results, seam))}


def read(picture: StepPicture) -> Page:
    return read_page(to_svg(picture.sheet))


def caption(page: Page) -> str:
    _, *words = page.texts("caption")
    return " ".join(words)


def faults(page: Page) -> list[str]:
    """What touches what, and what is not on the paper."""
    found = [*letters_astray(page), *upside_down(page), *words_on_words(page), *words_on_lines(page)]
    paper = Polygon([(0, 0), (page.width, 0), (page.width, page.height), (0, page.height)])
    found += [f"{words.text} leaves the paper" for words in page.words if not paper.contains(words.box)]
    found += [f"{stroke.group} leaves the paper" for stroke in page.strokes if not paper.covers(stroke.shape)]
    return found
