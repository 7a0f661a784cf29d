"""Templates of one size: all its pieces at full size, on pages of paper or on one large page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.page import Box, block_size, pack, placed_groups
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.ink.text_block import TextBlock
from schematics.drawing.notes import STOPPED_HEADING, stop_reasons, stops_in_words
from schematics.drawing.templates.parts import TileWindow, draw_parts
from schematics.drawing.templates.plan import FOR_BLOCKING, WHOLE, plan_pages, square_block
from schematics.drawing.templates.template import Template, templates_of
from schematics.drawing.templates.tile_page import tile_sheets
from schematics.drawing.templates.tiles import BLANK, LONGEST, Tiling, lay
from schematics.errors import UsageError

_AIR = 15.0
"""Room round a piece on the large page, in mm."""

_BESIDE = 90.0
"""Width of the words on it, in mm."""


_PLAN = "What they are for, a square to check the print, and the plan of the pages."
_LARGE_PAGE = "The pieces at full size, for blocking, and a square to check the print."


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplatePage:
    """A page of templates, and the words by which a reader of the file finds it."""

    bookmark: str
    sheet: Sheet


def _title(design: Design, size: str) -> str:
    return f"{design.title}, size {size}: templates at full size"


def tiled_templates(design: Design, result: Result, paper: Paper) -> tuple[TemplatePage, ...]:
    """The pieces of a size on as few pages as can be, the plan first.

    Raises:
        UsageError: a piece is too large for pages that anybody would join.
    """
    tilings = tuple(_tilings(design, result, paper))
    size = result.size.name
    plans = plan_pages(tilings, _title(design, size), stop_reasons(result, design.terms), paper)
    if plans is None:
        raise _too_large(design, result)
    total = len(plans) + sum(len(each.tiles) for each in tilings)
    pages = [
        TemplatePage(
            bookmark=f"size {size}, plan" if number == 1 else f"size {size}, plan {number}",
            sheet=Sheet(
                paper=paper,
                scale=None,
                title=_title(design, size),
                description=_described(design, result, _PLAN),
                groups=groups,
            ),
        )
        for number, groups in enumerate(plans, start=1)
    ]
    for tiling in tilings:
        numbers = range(len(pages) + 1, len(pages) + 1 + len(tiling.tiles))
        sheets = tile_sheets(tiling, paper, design.title, size, numbers, total)
        pages += [
            TemplatePage(bookmark=f"size {size}, {tile.name}, {tiling.template.name}", sheet=sheet)
            for tile, sheet in sheets
        ]
    return tuple(pages)


def _described(design: Design, result: Result, shown: str) -> str:
    return " ".join(filter(None, (stops_in_words((result,), design.terms), shown)))


def _tilings(design: Design, result: Result, paper: Paper) -> Iterator[Tiling]:
    rows = 0
    for template in templates_of(result.garment, design.units, halved=True):
        tiling = lay(template, paper, rows)
        if tiling is None:
            raise _too_large(design, result)
        rows += tiling.rows
        yield tiling


def _too_large(design: Design, result: Result) -> UsageError:
    return UsageError(
        f"{design.path}: size {result.size.name} is too large for templates on pages to be joined; "
        "have them as one large page"
    )


def large_template(design: Design, result: Result) -> TemplatePage:
    """The pieces of a size on one page as large as they need, whole if that is not too large.

    Raises:
        UsageError: even with halves on the fold it would be larger than a PDF page can be.
    """
    for halved in (False, True):
        paper, blocks, corners = _packed(
            design, result, templates_of(result.garment, design.units, halved=halved)
        )
        longest = max(paper.width, paper.height)
        if longest <= LONGEST:
            break
    else:
        raise UsageError(
            f"{design.path}: size {result.size.name} is too large for templates: the page would be "
            f"{longest / 1000:.2f} m long, and one of a PDF ends at {LONGEST / 1000:.2f} m"
        )
    size = result.size.name
    return TemplatePage(
        bookmark=f"size {size}",
        sheet=Sheet(
            paper=paper,
            scale=1,
            title=_title(design, size),
            description=_described(design, result, _LARGE_PAGE),
            groups=placed_groups(zip(blocks, corners, strict=True)),
            unplaced=tuple(name for block in blocks for name in block.unplaced),
        ),
    )


def _packed(
    design: Design, result: Result, templates: Sequence[Template]
) -> tuple[Paper, list[Block], list[tuple[float, float]]]:
    """The pieces under one another, each lying so that the page is narrow, and the words with the square."""
    size = result.size.name
    lying = [_narrow(templates[0]), *map(_flat, templates[1:])]
    blocks = [block for each in lying for block in draw_parts(each, size, [_whole(each)])]
    words = TextBlock(f"{design.title}, size {size}", _BESIDE)
    if stops := stop_reasons(result, design.terms):
        words.add((f"{STOPPED_HEADING}:", *stops), 1.0)
    words.add(
        (
            FOR_BLOCKING,
            *(
                f"{each.heading}: {'; '.join(each.notes)}; {WHOLE} {'; '.join(each.figures)}."
                for each in templates
            ),
        ),
        1.0,
    )
    blocks += [square_block(), words.block("words", "what it is for")]
    sizes = [(width + _AIR, height + _AIR) for width, height in map(block_size, blocks)]
    across = max(width for width, _ in sizes)
    area = Box(BLANK, BLANK, BLANK + across, BLANK + sum(height + _AIR for _, height in sizes))
    corners = pack(sizes, area)
    if corners is None:
        raise RuntimeError("what lies under one another has room")
    height = max(y + height for (_, y), (_, height) in zip(corners, sizes, strict=True))
    paper = Paper(name="large", width=across + 2 * BLANK, height=height + BLANK)
    return paper, blocks, corners


def _narrow(template: Template) -> Template:
    x0, y0, x1, y1 = template.bounds
    return template if x1 - x0 <= y1 - y0 else template.quarter_turned()


def _flat(template: Template) -> Template:
    x0, y0, x1, y1 = template.bounds
    return template if x1 - x0 >= y1 - y0 else template.quarter_turned()


def _whole(template: Template) -> TileWindow:
    x0, y0, x1, y1 = template.bounds
    box = Box(x0 - _AIR, y0 - _AIR, x1 + _AIR, y1 + _AIR)
    return TileWindow(cut=box, words=box)


def templates_pdf(design: Design, results: Sequence[Result], paper: Paper, *, whole: bool = False) -> bytes:
    """The templates of sizes as a PDF; ``whole`` has each size on one large page.

    Raises:
        UsageError: a size is too large.
        MissingLibraryError: the cairo library is not on this machine, or does not take the font.
    """
    from schematics.drawing.ink.pdf import join, to_pdf

    pages = [
        page
        for result in results
        for page in ((large_template(design, result),) if whole else tiled_templates(design, result, paper))
    ]
    return join([(page.bookmark, to_pdf(page.sheet)) for page in pages], f"{design.title}: templates")
