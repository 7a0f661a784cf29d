"""The pictures of the assembly's steps by themselves, to be placed beside the designer's own words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.document.lettering.text import Font
from schematics.drawing.assembly.step_pictures import STEP_KEY, count_steps, plain_steps
from schematics.drawing.bare.steps_key import draw_key
from schematics.drawing.ink.sheet import Sheet

_STEM = "assembly"
_KEY = f"{_STEM}-key"


def step_stems(design: Design, results: Sequence[Result]) -> tuple[str, ...]:
    """The stem of every picture, ``assembly-1`` and so on, and that of their key."""
    steps = count_steps(results, design.publication.seam)
    return (*(f"{_STEM}-{number}" for number in range(1, steps + 1)), _KEY)


def draw_steps(design: Design, results: Sequence[Result], font: Font | None) -> Iterator[tuple[str, Sheet]]:
    """Every picture with its stem, in the one width all of them have, then their key.

    They have neither number nor caption: those are for the page they are placed in.
    """
    for number, sheet in enumerate(plain_steps(results, design.publication.seam, font), start=1):
        title, told = f"{design.title}. {sheet.title}", f"{sheet.description} {STEP_KEY}"
        yield f"{_STEM}-{number}", replace(sheet, title=title, description=told)
    yield _KEY, draw_key(f"{design.title}: key to the pictures of the steps", STEP_KEY, font)
