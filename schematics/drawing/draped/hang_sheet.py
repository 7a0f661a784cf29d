"""The sheet of how a size hangs: six pictures on cloth, where its fabrics were weighed and pulled."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field, replace
from functools import lru_cache

from schematics.checks.evaluation import Result
from schematics.checks.finding import Finding, Severity
from schematics.document.lettering.text import wrap
from schematics.drawing.bare.drawings import slug
from schematics.drawing.bare.look import look_of
from schematics.drawing.bare.rooms import WIDTHS, cropped
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.draped.hang_drawing import hang_drawing
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import moved_group, text_lines
from schematics.drawing.ink.page import drawing_area
from schematics.drawing.ink.sheet import Sheet
from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.draping import Hung, settled
from schematics.garment.cloth.material import Feel, unmeasured
from schematics.garment.garment import Garment
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.proportions import proportioned

TITLE = "how it hangs"

PICTURE = "hang-page"
"""The stem of the bare picture, as wide as a page's text at most."""


_ROOM = WIDTHS["page"].inside.x1, WIDTHS["page"].inside.y1


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worn:
    """The body, and the garment on it in both poses."""

    body: FigureSize
    hung: Hung


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wearing:
    """A garment to be hung on a body; known by the ``content`` that decides both."""

    content: str
    garment: Garment = field(compare=False)
    body: FigureSize = field(compare=False)


def hangs(setting: Setting, result: Result) -> bool:
    """Whether a size gets the sheet: one that can be worn, of measured fabric, on a body of known height."""
    return (
        setting.cloth
        and result.verdict is not Severity.STOP
        and not any(unmeasured(tuple(setting.design.parts.fabrics.values())))
        and proportioned(result.wearer) is not None
    )


def hang_content(setting: Setting, result: Result) -> str:
    """All that decides the sheet, for whoever asks whether it would be another; a line of a spec does not."""
    design = setting.design
    size = replace(result.size, line=0)
    whose = result.wearer.label, result.wearer.stage, proportioned(result.wearer)
    about = design.title, design.construction, design.date, design.units, design.terms, setting.paper
    severities = [each.severity for each in result.findings]
    return repr((about, size, design.parts, whose, severities))


def picture_content(setting: Setting, result: Result) -> str:
    """All that decides the bare picture: how the house style has it drawn, too."""
    look = look_of(setting.design)
    letters = [hashlib.sha256(each).hexdigest() for each in (look.font.contents if look.font else ())]
    return f"{hang_content(setting, result)} {look!r} {letters}"


def draw_hang(setting: Setting, result: Result) -> Drawing:
    """The sheet of one size, of the usual feel; it takes some seconds.

    Raises:
        ValueError: `hangs` says that it has none.
    """
    try:
        worn = _worn(setting, result)
    except ClothError as error:
        return _without(setting, _why_not(error))
    return hung_drawing(setting, result, worn.body, worn.hung)


def hung_picture(setting: Setting, result: Result) -> Sheet:
    """The six pictures by themselves, without a measurement, to be placed into a page; takes as long."""
    design = setting.design
    title = f"{design.title}, size {result.size.name}"
    ink = look_of(design).ink("-".join((design.slug, slug(result.size.name), PICTURE)))
    try:
        worn = _worn(setting, result)
    except ClothError as error:
        why = _why_not(error)
        return cropped(_words(why, _ROOM[0]).groups, title, why, ink=ink)
    drawn = hang_drawing(title, result.garment, worn.body, worn.hung, room=_ROOM, font=ink.font)
    return replace(drawn, ink=ink)


def _worn(setting: Setting, result: Result) -> _Worn:
    """How the size hangs.

    Raises:
        ClothError: it cannot be hung.
        ValueError: no height is known of its wearer.
    """
    body = proportioned(result.wearer)
    if body is None:
        raise ValueError(f"no height is known of size {result.size.name}")
    return _hung(_Wearing(content=hang_content(setting, result), garment=result.garment, body=body.size))


@lru_cache(maxsize=2)
def _hung(wearing: _Wearing) -> _Worn:
    return _Worn(body=wearing.body, hung=settled(wearing.garment, wearing.body, Feel()).hung)


def hung_drawing(
    setting: Setting, result: Result, size: FigureSize, hung: Hung, findings: tuple[Finding, ...] = ()
) -> Drawing:
    """Six pictures of a size at rest on a body, on the setting's paper lying."""
    paper = setting.paper.turned
    area = drawing_area(paper)
    width, height = area.x1 - area.x0, area.y1 - area.y0
    title = f"{setting.design.title}, size {result.size.name}"
    bare = hang_drawing(title, result.garment, size, hung, setting.design.units, (width, height))
    unplaced = bare.unplaced
    if bare.paper.width > width or bare.paper.height > height:
        unplaced = (*unplaced, "the pictures of how it hangs")
    aside, lower = (width - bare.paper.width) / 2, (height - bare.paper.height) / 2
    return Drawing(
        groups=tuple(moved_group(each, area.x0 + aside, area.y0 + lower) for each in bare.groups),
        title=TITLE,
        description=bare.description,
        scale=None if bare.scale is None else round(bare.scale),
        paper=paper,
        unplaced=unplaced,
        findings=findings,
    )


def _why_not(error: ClothError) -> str:
    return f"This size cannot be hung on cloth: {error}."


def _words(words: str, width: float) -> Block:
    block = Block()
    block.add("note", "why not", text_lines((0.0, 0.0), wrap(words, width)))
    return block


def _without(setting: Setting, why: str) -> Drawing:
    area = drawing_area(setting.paper.turned)
    return Drawing(
        groups=tuple(_words(why, area.x1 - area.x0).at(area.x0, area.y0)),
        title=TITLE,
        description=why,
        scale=None,
        paper=setting.paper.turned,
    )
