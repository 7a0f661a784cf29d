"""The pictures of the assembly's steps by themselves, to be placed beside the designer's own words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.assembly.step_pictures import STEP_KEY, count_steps, step_pictures
from schematics.drawing.ink.sheet import Sheet

_STEM = "assembly"


def step_stems(design: Design, results: Sequence[Result]) -> tuple[str, ...]:
    """The stem of every picture, ``assembly-1`` and so on."""
    steps = count_steps(results, design.publication.seam)
    return tuple(f"{_STEM}-{number}" for number in range(1, steps + 1))


def draw_steps(design: Design, results: Sequence[Result]) -> Iterator[tuple[str, Sheet]]:
    """Every picture with its stem, in the one width all of them have; its key is in its description."""
    for number, picture in enumerate(step_pictures(results, design.publication.seam), start=1):
        sheet = picture.sheet
        title, told = f"{design.title}. {sheet.title}", f"{sheet.description} {STEP_KEY}"
        yield f"{_STEM}-{number}", replace(sheet, title=title, description=told)
