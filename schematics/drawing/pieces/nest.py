"""The nest: each piece of every size overlaid from a common point, so that sizes compare at a glance.

Bodies share their centre back neck, panels the middle of the lower edge; both are drawn by half, each size
in a grey a little darker than the size before it. Lines grow bolder with the sizes, and neighbours differ in
their dashes, so that black ink alone tells them apart. Every outline is named at a place that is its own.
Bands differ too little to be overlaid.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from shapely import Polygon

from schematics.design.size_string import size_string
from schematics.document.contrast import ordered_grounds
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, wrap
from schematics.drawing.compose import Drawing, Setting, SheetScale
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.labeller import draw_label
from schematics.drawing.ink.leaders import Spot
from schematics.drawing.ink.marks import Area, Group, Label, Line, Pen, Point, between, bounds, text_lines
from schematics.drawing.ink.page import Box, block_size, drawing_area, pack, placed_groups, unplaced_names
from schematics.drawing.pieces.body_outline import BODY, PANEL
from schematics.drawing.pieces.figures_look import FiguresLook
from schematics.drawing.pieces.nest_names import Nested, name_sizes
from schematics.drawing.pieces.size_table import measured_rows, size_table
from schematics.drawing.pieces.view import View
from schematics.garment.garment import Piece

_PENS = (
    (Pen.FINE, Pen.FINE_DASHED, Pen.FINE_DOTTED),
    (Pen.MEDIUM, Pen.MEDIUM_DASHED, Pen.MEDIUM_DOTTED),
    (Pen.BOLD, Pen.BOLD_DASHED, Pen.BOLD_DOTTED),
)
"""By weight, then by dashes."""

_MOST_TINTS = 12
"""More would hardly be told apart."""

_NESTED = (BODY, PANEL)

_ALONG = tuple(step / 20 for step in range(6, 18))
"""Where along a fold its words are tried."""

_OVER_TABLE = 3.0
"""Between the outlines and the table under them, in mm, at least."""

_ELSEWHERE = "{unit}: on the sheet of finished measurements."
"""What a table in one unit says of the other."""

_TITLE = "nest of all sizes"

_BODY_HALF, _PANEL_HALF = "right half, centre back at its left", "right half"


def size_pen(number: int, sizes: int) -> Pen:
    """The pen of the size of that number, from 0: a third of the sizes each is fine, medium and bold.

    >>> [str(size_pen(number, 4)) for number in range(4)]
    ['fine', 'fine-dashed', 'medium-dotted', 'bold']
    """
    return _PENS[number * len(_PENS) // sizes][number % 3]


def size_tints(sizes: int) -> list[str]:
    """The grey of each size, the smallest's the lightest; of very many sizes neighbours share one.

    >>> size_tints(3)
    ['#e9e9e9', '#d3d3d3', '#bcbcbc']
    """
    greys = ordered_grounds(min(sizes, _MOST_TINTS))
    return [greys[number * len(greys) // sizes] for number in range(sizes)]


def draw_nest(setting: Setting) -> tuple[Drawing, ...]:
    """The nest of all sizes, at the largest scale at which it fits with every name.

    Their measurements stand under it, or on sheets of their own where they have no room there.
    """
    fitting: list[tuple[SheetScale, list[Block], list[Point]]] = []
    for scale, paper in setting.sheet_scales:
        area = drawing_area(paper)
        if (scale, paper) != setting.sheet_scales[-1] and not _outlines_fit(
            setting, scale, area.x1 - area.x0, area.y1 - area.y0
        ):
            continue
        blocks = [_nested(setting, name, scale) for name in _NESTED]
        corners = pack([block_size(block) for block in blocks], area)
        if corners is not None:
            fitting.append(((scale, paper), blocks, corners))
            if not unplaced_names(blocks):
                break
    sizes = size_string([size.name for size in setting.design.sizes])
    described = (
        f"The pieces of {setting.design.title} in sizes {sizes}, overlaid from a common point; "
        "the larger the size, the darker."
    )
    if not fitting:
        nothing = Drawing(groups=(), title=_TITLE, description=described, scale=None, unplaced=("the nest",))
        return (nothing,)
    (shown, sheet), blocks, corners = min(fitting, key=lambda each: len(unplaced_names(each[1])))
    outlines = placed_groups(zip(blocks, corners, strict=True))
    area = drawing_area(sheet)
    table, in_words = _table_under(setting, area, bounds(outlines)[3] + _OVER_TABLE)
    nest = Drawing(
        groups=(*outlines, *table),
        title=_TITLE,
        description=f"{described}{in_words}",
        scale=shown,
        paper=sheet,
        unplaced=unplaced_names(blocks),
    )
    return (nest,) if table else (nest, *_tables_alone(setting))


def _table_under(setting: Setting, area: Box, top: float) -> tuple[list[Group], str]:
    """The measurements of the nested pieces and the same in words, in one unit where both have no room."""
    units = setting.design.units
    for shown, tight in product((units, units[:1]), (False, True)):
        remark = "".join(_ELSEWHERE.format(unit=each.words.capitalize()) for each in units[len(shown) :])
        table, in_words = _table(setting, FiguresLook(shown, counts=False), area, tight=tight, remark=remark)
        if block_size(table)[1] <= area.y1 - top:
            return table.at(area.x0, area.y1 - block_size(table)[1]), f" {in_words}"
    return [], ""


def _tables_alone(setting: Setting) -> Iterator[Drawing]:
    """The measurements of the nested pieces, counts too, on as few sheets of their own as have room."""
    area, results, look = drawing_area(setting.paper), setting.results, FiguresLook(setting.design.units)
    for count in range(1, len(results) + 1):
        each = -(-len(results) // count)
        parts = [results[start : start + each] for start in range(0, len(results), each)]
        tables = [_table(replace(setting, results=part), look, area, tight=False) for part in parts]
        if max(block_size(table)[1] for table, _ in tables) <= area.y1 - area.y0:
            break
    for table, in_words in tables:
        yield Drawing(
            groups=placed_groups([(table, (area.x0, area.y0))]),
            title=f"{_TITLE}, table",
            description=f"Finished measurements of the nested pieces of {setting.design.title}: {in_words}",
            scale=None,
        )


def _table(
    setting: Setting, look: FiguresLook, area: Box, *, tight: bool, remark: str = ""
) -> tuple[Block, str]:
    """Every measurement of the nested pieces in any size, and the same in words."""
    garments = [result.garment for result in setting.results]
    spans = {span.key for each in garments for name in _NESTED for span in each.piece(name).spans}
    names = {item.key: "" for each in garments for item in each.finished if item.key in spans}
    rows = measured_rows(names, setting.results, look)
    sizes = [result.size.name for result in setting.results]
    in_words = "; ".join(
        f"{row.name} {size_string(values)} {unit}" for row in rows for unit, values in row.lines
    )
    table = size_table(rows, "Sizes", sizes, area.x1 - area.x0, SMALL, tight=tight, remark=remark)
    return table, f"{in_words}."


def _outlines_fit(setting: Setting, scale: int, width: float, height: float) -> bool:
    """Whether every bare outline is smaller than the room: cheap, and mostly decides it."""
    for result in setting.results:
        for name in _NESTED:
            points = _outline(result.garment.piece(name), scale)
            xs, ys = zip(*points, strict=True)
            if max(xs) - min(xs) > width or max(ys) - min(ys) > height:
                return False
    return True


def _outline(piece: Piece, scale: int) -> tuple[Point, ...]:
    """Its right half: of a body from the hem at the fold, of a panel from the foot of its middle."""
    view = View(scale=scale, half_only=True)
    if piece.on_fold:
        return view.outline(piece)
    side = view.line(piece.edge("right side").path)
    return (0.0, side[0][1]), *side, (0.0, side[-1][1])


def _nested(setting: Setting, name: str, scale: int) -> Block:
    """The right half of one piece in every size."""
    block = Block()
    pieces = [result.garment.piece(name) for result in setting.results]
    outlines = []
    for number, (piece, result) in enumerate(zip(pieces, setting.results, strict=True)):
        points = _outline(piece, scale)
        block.add("outline", f"{name} {result.size.name}", [Line(points, size_pen(number, len(pieces)))])
        outlines.append(Nested(name=result.size.name, points=points, named_at_end=not piece.on_fold))
    _tint(block, name, outlines)
    block.add("fold", name, [Line(_middle(outlines), Pen.FOLD)])
    name_sizes(block, outlines)
    _name_folds(block, name, pieces, scale)
    _caption(block, name, _BODY_HALF if pieces[0].on_fold else _PANEL_HALF)
    return block


def _name_folds(block: Block, name: str, pieces: Sequence[Piece], scale: int) -> None:
    """The fold of a body over the shoulders, the longest of all sizes, and what is on either side of it."""
    view = View(scale=scale, half_only=True)
    folds = [crease for piece in pieces for crease in piece.creases if crease.folded]
    if not folds:
        return
    start, *_, end = points = view.line(max((each.path for each in folds), key=lambda path: path.length))
    block.add("crease", name, [Line(points, Pen.FOLD)])
    for words, below in ((folds[0].name, 4.5), ("front", -14.0), ("back", 14.0)):
        label = Label((words,), LARGE)
        along_fold = (between(start, end, share) for share in _ALONG)
        spots = (Spot((x, y + below)) for x, y in along_fold)
        free = (spot for spot in spots if block.free(label, spot.centre, spot.angle))
        draw_label(block, "note", words, label, free, optional=True)


def _tint(block: Block, name: str, outlines: Sequence[Nested]) -> None:
    """Fill each outline in the grey of its size, smaller ones over larger."""
    tinted = zip(outlines, size_tints(len(outlines)), strict=True)
    for each, grey in sorted(tinted, key=lambda pair: Polygon(pair[0].points).area, reverse=True):
        block.underlay(f"{name} {each.name}", [Area(each.points, Pen.TINT, grey)])


def _caption(block: Block, name: str, words: str) -> None:
    """Above the outlines, in lines no wider than they are."""
    x0, y0, x1, _ = block.bounds()
    names, lines = wrap(name, x1 - x0, LARGE, bold=True), wrap(words, x1 - x0)
    foot = y0 - 3.0 - (len(lines) - 1) * line_pitch(SMALL)
    top = foot - 5.0 - (len(names) - 1) * line_pitch(LARGE)
    marks = [*text_lines((x0, top), names, LARGE, bold=True), *text_lines((x0, foot), lines)]
    block.add("caption", name, marks)


def _middle(outlines: Sequence[Nested]) -> tuple[Point, Point]:
    """From the highest to the lowest end of the outlines."""
    top, foot = min(each.points[-1][1] for each in outlines), max(each.points[0][1] for each in outlines)
    return (0.0, top), (0.0, foot)
