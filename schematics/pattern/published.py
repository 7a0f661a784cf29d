"""The pattern as it is sold: what is written, with its drawings, and how its pages look."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.document.document import Block, Document, Items, Picture, Section
from schematics.document.lettering.text import SMALL
from schematics.document.page_look import PageLook
from schematics.drawing.assembly.step_pictures import STEP_KEY, step_pictures
from schematics.drawing.bare.charts import CHART_SCALE, bare_charts
from schematics.drawing.bare.look import look_of
from schematics.drawing.bare.rooms import LARGE_PAGE, LARGE_PT, PAGE, PHONE, Room
from schematics.drawing.bare.schematic import bare_schematic
from schematics.drawing.charts.chart_views import chart_views
from schematics.drawing.charts.chart_words import numbering_fact, reading_facts
from schematics.drawing.charts.panel_chart import panel_pieces
from schematics.drawing.charts.part_charts import charted_parts
from schematics.drawing.charts.stitch_key import key_entries
from schematics.drawing.ink import raster
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.pattern.written import written_pattern

_PANEL = "centre panel"

_PLACES = {_PANEL: "centre_panel", "neck band": "neck_band", "arm band": "arm_bands"}
"""The key of the part that a chart comes after, by whose chart it is; a border's comes after the body."""

_SCHEMATIC = "schematic"

_ACCENT = "#1a4a5a"
_SIZE_PT = 9.0
_MARGIN_MM, _LARGE_MARGIN_MM = 20.0, 15.0


def published_pattern(design: Design, results: Sequence[Result]) -> Document:
    """The written pattern of the results, at least one, with its steps, stitch charts and schematic drawn."""
    charts: dict[str, list[Section]] = {}
    drawn: list[str] = []
    for part, section, words in _charts(design, tuple(results)):
        charts.setdefault(_PLACES.get(part, "body"), []).append(section)
        drawn += words
    document = written_pattern(design, results, drawn=drawn)
    sections: list[Section] = []
    steps: dict[str, list[str | Picture]] = {}
    look = look_of(design)
    for number, step in enumerate(step_pictures(results, design.publication.seam, look.font), start=1):
        key = () if steps else (STEP_KEY,)
        inked = replace(step.sheet, ink=look.ink(f"step-{number}"))
        steps.setdefault(step.part, [*key]).append(picture(inked, 1.0))
    for section in document.sections:
        blocks = (*steps.get(section.key, ()), *section.blocks, *charts.get(section.key, ()))
        sections.append(replace(section, blocks=blocks))
        if section.key == "finishing":
            sections += _schematic(design, results, PAGE, _narrow(design, results))
    return replace(document, sections=tuple(sections))


def in_large_print(document: Document, design: Design, results: Sequence[Result]) -> Document:
    """The published pattern of the results, its drawings lettered like its text where a page is so wide."""
    sections: list[Section] = []
    for section in document.sections:
        if section.key == _SCHEMATIC:
            sections += _schematic(design, results, LARGE_PAGE, _narrow_in(section)) or (section,)
        else:
            sections.append(_enlarged(section))
    return replace(document, sections=tuple(sections))


def _narrow_in(section: Section) -> str:
    """The drawing for phones among its pictures; empty if there is none."""
    return next((block.narrow for block in section.blocks if isinstance(block, Picture)), "")


def _enlarged(section: Section) -> Section:
    """The section with its drawings, and those of sections within it, as large as that."""
    blocks: list[Block] = []
    for block in section.blocks:
        if isinstance(block, Picture):
            larger = LARGE_PAGE.lettering / block.lettering_mm
            blocks.append(
                replace(block, width_mm=block.width_mm * larger, height_mm=block.height_mm * larger)
            )
        else:
            blocks.append(_enlarged(block) if isinstance(block, Section) else block)
    return replace(section, blocks=tuple(blocks))


def _schematic(design: Design, results: Sequence[Result], room: Room, narrow: str) -> tuple[Section, ...]:
    """Nothing where the pieces find no room; ``narrow`` is shown on phones."""
    drawn = bare_schematic(results, look_of(design), room)
    if drawn is None:
        return ()
    sheet, legend = drawn
    shape = ", drawn in the shape of one size" if len(results) > 1 else ""
    words = " ".join(
        filter(None, (f"Not to scale{shape}. The letters are those of the finished measurements.", legend))
    )
    section = Section("Schematic", (words, replace(picture(sheet, 1.0), narrow=narrow)), _SCHEMATIC)
    return (section,)


def _narrow(design: Design, results: Sequence[Result]) -> str:
    """The schematic for phones as SVG; empty where the pieces find no room there."""
    drawn = bare_schematic(results, look_of(design), PHONE)
    return to_svg(drawn[0]) if drawn else ""


def _charts(design: Design, results: tuple[Result, ...]) -> Iterator[tuple[str, Section, list[str]]]:
    """Whose chart it is; how it is read, its key and the chart in each width; its key in US terms."""
    borders = {area.name for result in results for area in result.garment.piece("body").patterned}
    panel = design.parts.centre_panel, panel_pieces(result.size for result in results)
    for part, (fabric, pieces) in {_PANEL: panel, **charted_parts(results)}.items():
        on_body = part in borders
        if fabric.chart is None:
            continue
        views = chart_views(fabric, pieces, in_short=on_body, once_across=True)
        sheets = bare_charts(fabric.chart, part, views, design.terms)
        first, *others = reading_facts(fabric, views, design.terms)
        facts = Items(tuple(filter(None, (first, numbering_fact(fabric, views), *others))))
        pictures = (picture(each, CHART_SCALE) for each in sheets)
        names = [worked.name for entry in key_entries(views) for worked in entry.worked.values()]
        yield part, Section(f"Stitch chart of the {part}", (facts, *pictures)), names


def picture(sheet: Sheet, scale: float) -> Picture:
    """A drawing as a picture of a document, at ``scale`` times its size."""
    return Picture(
        shows=sheet.description,
        width_mm=sheet.paper.width * scale,
        height_mm=sheet.paper.height * scale,
        lettering_mm=SMALL * scale,
        svg=to_svg(sheet, shared=True),
        png=partial(raster.to_png, sheet),
    )


def page_look(design: Design, paper: Paper, *, large: bool = False) -> PageLook:
    """How the pattern's pages look: which terms it uses is printed at the foot of each."""
    publication = design.publication
    return PageLook(
        width_mm=paper.width,
        height_mm=paper.height,
        size_pt=LARGE_PT if large else _SIZE_PT,
        margin_mm=_LARGE_MARGIN_MM if large else _MARGIN_MM,
        foot=f"{design.title} · {design.terms.value} terms",
        large=large,
        author=publication.designer or "",
        date=design.date,
        accent=publication.house.accent or _ACCENT,
    )
