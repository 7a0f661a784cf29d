"""How a size hangs, as a worn sheet and as a picture by itself, where its fabrics were weighed and pulled."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from schematics.checks.evaluation import Result
from schematics.checks.finding import Finding, Severity
from schematics.design.design import Design
from schematics.drawing.bare.drawings import slug
from schematics.drawing.bare.look import look_of
from schematics.drawing.bare.rooms import WIDTHS
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.draped.hang_drawing import SeenHung, hang_drawing, seen_hung
from schematics.drawing.draped.hang_words import FOLDS, HEADING, hang_words, hem_words
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import moved_group
from schematics.drawing.ink.page import block_size, drawing_area
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.ink.text_block import TextBlock
from schematics.garment.cloth.draping import settled
from schematics.garment.cloth.material import Feel, unmeasured
from schematics.garment.garment import Garment
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.proportions import Proportioned, proportioned

PICTURE = "worn-page"
"""The stem of the bare picture, as wide as a page's text at most."""

_ROOM = WIDTHS["page"].inside.x1, WIDTHS["page"].inside.y1

_OVER_WORDS = 4.0
"""Room between pictures and words, in mm."""

_BETWEEN = 1.0
"""Room under a paragraph, in mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wearing:
    """A garment to be hung on a body; known by the ``content`` that decides both."""

    content: str
    garment: Garment = field(compare=False)
    body: FigureSize = field(compare=False)


def hangs(design: Design, result: Result) -> bool:
    """Whether a size can be hung: it can be worn, its fabrics are measured, its wearer's height is known."""
    return (
        result.verdict is not Severity.STOP
        and not any(unmeasured(tuple(design.parts.fabrics.values())))
        and proportioned(result.wearer) is not None
    )


def hang_content(setting: Setting, result: Result) -> str:
    """All that decides the sheet, for whoever asks whether it would be another; a line of a spec does not."""
    design = setting.design
    about = design.title, design.date, design.units, design.unit, design.terms, design.limits, setting.paper
    found = [(each.code, each.severity, each.reason) for each in result.findings]
    return repr((about, _wearing_content(design, result), result.wearer.label, found))


def picture_content(design: Design, result: Result) -> str:
    """All that decides the bare picture: how the house style has it drawn, too."""
    look = look_of(design)
    letters = [hashlib.sha256(each).hexdigest() for each in (look.font.contents if look.font else ())]
    return f"{design.title} {_wearing_content(design, result)} {look!r} {letters}"


def _wearing_content(design: Design, result: Result) -> str:
    size = replace(result.size, line=0)
    return repr((design.construction, size, design.parts, result.wearer.stage, proportioned(result.wearer)))


def draw_hang(setting: Setting, result: Result) -> Drawing:
    """The worn sheet of a size that hangs as cloth, of the usual feel; it takes some seconds.

    Raises:
        ClothError: it cannot be hung.
        ValueError: `hangs` says that it cannot.
    """
    body, seen = _worn(setting.design, result)
    return hung_drawing(setting, result, seen, hang_words(setting.design, result, body, seen))


def hung_picture(
    design: Design, result: Result, room: tuple[float, float] = _ROOM, *, measured: bool = False
) -> Sheet:
    """The six pictures by themselves; takes as long.

    Args:
        design: the design.
        result: one of its sizes.
        room: how broad and how high it may be, in mm.
        measured: whether it is told how far the hem hangs, and where that is on the body.

    Raises:
        ClothError: it cannot be hung.
        ValueError: `hangs` says that it cannot.
    """
    _, seen = _worn(design, result)
    ink = look_of(design).ink("-".join((design.slug, slug(result.size.name), PICTURE)))
    title = f"{design.title}, size {result.size.name}"
    drawn = hang_drawing(title, seen, design.units if measured else (), room, ink.font)
    return replace(drawn, ink=ink)


def hung_words(design: Design, result: Result) -> str:
    """How far the hem of a size hangs on its body, in sentences for whoever makes it; takes as long.

    Raises:
        ClothError: it cannot be hung.
        ValueError: `hangs` says that it cannot.
    """
    _, seen = _worn(design, result)
    return f"{'. '.join(hem_words(design, seen))}. {FOLDS}"


def _worn(design: Design, result: Result) -> tuple[Proportioned, SeenHung]:
    """The body, and what is seen of the size on it.

    Raises:
        ClothError: it cannot be hung.
        ValueError: no height is known of its wearer.
    """
    body = proportioned(result.wearer)
    if body is None:
        raise ValueError(f"no height is known of size {result.size.name}")
    content = _wearing_content(design, result)
    return body, hung_once(_Wearing(content=content, garment=result.garment, body=body.size))


@lru_cache(maxsize=2)
def hung_once(wearing: _Wearing) -> SeenHung:
    """What is seen of a garment at rest; that of the last two is remembered, for sheet, picture and words."""
    return seen_hung(wearing.garment, wearing.body, settled(wearing.garment, wearing.body, Feel()).hung)


def hung_drawing(
    setting: Setting, result: Result, seen: SeenHung, words: Sequence[str], findings: Sequence[Finding] = ()
) -> Drawing:
    """Six pictures of a size at rest and words under them, on whichever paper shows them larger."""
    title = f"{setting.design.title}, size {result.size.name}"
    sheets = [
        _on_paper(setting, seen, title, words, paper) for paper in (setting.paper.turned, setting.paper)
    ]
    paper, bare, text = min(sheets, key=lambda each: (each[1].scale, each[0].height))
    area = drawing_area(paper)
    width, height = area.x1 - area.x0, area.y1 - area.y0
    left = height - bare.paper.height - _OVER_WORDS - block_size(text)[1]
    fits = bare.paper.width <= width and left >= 0.0
    aside, lower = (width - bare.paper.width) / 2, max(left, 0.0) / 2
    return Drawing(
        groups=(
            *(moved_group(each, area.x0 + aside, area.y0 + lower) for each in bare.groups),
            *text.at(area.x0, area.y1 - block_size(text)[1]),
        ),
        title="worn, hung as cloth",
        description=" ".join((bare.description, *words)),
        scale=None if bare.scale is None else round(bare.scale),
        paper=paper,
        unplaced=bare.unplaced if fits else (*bare.unplaced, "the pictures of how it hangs"),
        findings=tuple(findings),
    )


def _on_paper(
    setting: Setting, seen: SeenHung, title: str, words: Sequence[str], paper: Paper
) -> tuple[Paper, Sheet, Block]:
    """Pictures as large as the words under them let them be."""
    area = drawing_area(paper)
    width = area.x1 - area.x0
    text = TextBlock(HEADING, width)
    text.add(words, _BETWEEN)
    block = text.block("checks", "worn")
    room = width, area.y1 - area.y0 - _OVER_WORDS - block_size(block)[1]
    return paper, hang_drawing(title, seen, setting.design.units, room), block
