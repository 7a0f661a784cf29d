"""One piece as a block: outline, fold, seam letters, markers, direction of work, dimensions, caption."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from shapely import LineString
from shapely import Point as ShapelyPoint

from schematics.checks.wording import listed
from schematics.crochet.terms import Terms
from schematics.design.guessed import marked
from schematics.design.limits import Limits
from schematics.document.lettering.text import LARGE, PLAIN, SMALL, Lettering, line_pitch, wrap
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.dimension import draw_dimension
from schematics.drawing.ink.labeller import (
    beside_edge,
    draw_first,
    draw_label,
    draw_leader,
    letter_seam,
    number_marker,
    off_lines,
)
from schematics.drawing.ink.leaders import ANY, FEW, MANY, Spot, Tips
from schematics.drawing.ink.marks import (
    Area,
    Label,
    Line,
    Pen,
    Point,
    Text,
    along,
    arrowhead,
    between,
    marker_tick,
    opposite,
    text_lines,
    unit,
)
from schematics.drawing.ink.taken import shapes_of
from schematics.drawing.pieces.edge_tips import clear_first, edge_tips
from schematics.drawing.pieces.figures_look import FiguresLook, Wording, Words
from schematics.drawing.pieces.joined_edges import NARROWEST_ALONE, draw_joins, joined_edges
from schematics.drawing.pieces.patterned import draw_strips, shows_motif, strip_words
from schematics.drawing.pieces.piece_texture import colour_words, draw_texture, thinned_words
from schematics.drawing.pieces.view import CENTRE_BACK, View, mirrored
from schematics.garment.garment import ArmsOn, Finished, Garment, Piece, Span
from schematics.units import NEAR

_CAPTION_WIDTH = 70.0

_UNDER_CAPTION = 2.0
"""Under a caption so many mm are free: nearer, an arrow of work would underline it."""

_APART, _NUMBER_APART = 6.0, 3.0
"""Least distances between a caption or the fold's name, or a marker's number, and a label beside it, in mm.

Nearer, both would read as one.
"""

_INSIDE_FIRST, _BESIDE_MOTIF = (3.6, 4.6, -3.6, -5.0), (-3.6, -5.0, 3.6, 4.6)
"""How far into a piece from its edge, in mm, a seam's letter is tried."""

_ALONG_FOLD = (0.5, 0.6, 0.4, 0.7, 0.3)
"""Where beside the fold its name is tried, as shares of its length."""

_FROM_FOLD, _BELOW_FOLD, _OVER_WORDS = 1.1, (1.5, 2.5, 4.0), 3.0
"""Between the fold and its name, from its end to a name below it, and from there to other words, in mm.

Nearer over them, it would be read as one with them.
"""

_OFF_FOLD = (0.0, 0.2, -0.2, 0.4, -0.4)
"""How far aside of the fold a name below it is tried, as shares of its width: the fold still points at it."""

_AT_A_LINE = 1.5
"""Within so many mm of an arrow's end no line of a dimension begins."""

_FAR_ENOUGH = 1.2
"""So many mm will do on an edge too short for more: lines of dimensions begin 1 mm off its ends."""

_DIMENSIONED = 20.0
"""A stretch longer than this, in mm, is to have lines at its ends: an arrow does not show where it ends."""

_NEARER = 1.4
"""Least distance of a seam's letter from another seam's edge over that from its own."""

_LEAST_ARROW, _ROUND_ARROW, _BESIDE_ARROW, _OFF_PIECE = 4.0, 0.4, 2.5, 2.5
"""Length of the shortest arrow of work, free space round it, how far from it sideways words should be, and
how far it is beside a piece, in mm.
"""

_OFF_MIDDLE = (0.25, -0.25)
"""How far from the middle of its length an arrow beside a piece is tried where that is taken."""

_PLAINLY = Wording()


@dataclass(frozen=True, slots=True)
class _LeftOver:
    """A measurement without a dimension line: where arrows to it may end, its words in several shapes."""

    span: Span
    tips: Tips
    labels: Sequence[Label]


def labelled_block(
    piece: Piece, garment: Garment, scale: int, widest: float = math.inf, wording: Wording = _PLAINLY
) -> Block:
    """All that is written at a piece at 1:``scale``, no wider than ``widest`` mm if labels can help it."""
    figures = FiguresLook(wording.units).labels
    empty = Block(widest=widest)
    block = dimensioned(piece, garment, scale, figures, seams=wording.limits, block=empty)
    _draw_caption(block, piece, garment, view_of(piece, garment, scale), wording.terms)
    return block


def with_texture(block: Block, piece: Piece, view: View) -> Block:
    """A piece with its labels and how it looks where nothing else is; the groups of ``block`` stay."""
    block = replace(block, groups=[*block.groups])
    draw_texture(block, piece, view)
    return block


def dimensioned(
    piece: Piece,
    garment: Garment,
    scale: float,
    words: Words,
    *,
    seams: Limits | None = None,
    joins: Limits | None = None,
    work: bool = False,
    fold_named: bool = True,
    block: Block | None = None,
    lettering: Lettering = PLAIN,
) -> Block:
    """The outline with its dimensions, labelled by ``words``; with ``seams``, these and their markers too.

    ``seams`` are the limits by which two edges meet; with ``joins``, such too, sewn edges are dashed alone.

    Its fold is named in that ``lettering`` if it is ``fold_named``; with ``work``, an arrow shows the
    direction of work. It is drawn in ``block``, an empty one if none is given.

    A panel is narrow, so that its seam letters need the room beside it before its dimensions do; inside
    a body there are many places for a letter and few for a dimension.
    """
    view = view_of(piece, garment, scale)
    block = Block() if block is None else block
    block.add("outline", piece.name, [_outline(piece, view)])
    _draw_creases(block, piece, view)
    ends = list(_marker_ends(garment, view)) if seams and garment.arm.edge in piece.edges else []
    for at, inward, _, number in ends:
        block.add("marker", f"marker {number}", [marker_tick(at, inward)])
    if seams:
        draw_strips(block, piece, view)
    if seams:
        draw_joins(block, piece, garment, view, seams)
    elif joins:
        draw_joins(block, piece, garment, view, joins, NARROWEST_ALONE)
    fold = view.fold(piece) if piece.on_fold else None
    if fold:
        block.add("fold", piece.name, [Line(fold, Pen.FOLD)])
    if work and not seams:
        draw_strips(block, piece, view)
    if seams and not piece.on_fold:
        _draw_seam_letters(block, piece, garment, view, seams)
    left_over = _draw_dimensions(block, piece, {item.key: item for item in garment.finished}, words, view)
    if seams or work:
        _draw_work(block, piece, view)
    _draw_leaders(block, piece, left_over)
    if fold and fold_named and not (block.hurried and block.is_lost):
        _name_fold(block, fold, view, lettering)
    if seams and piece.on_fold:
        _draw_seam_letters(block, piece, garment, view, seams)
    for at, inward, run, number in ends:
        away, aside = (3.6, 4.6, 5.6, 7.0), (0.0, 2.0, -2.0, 4.0)
        number_marker(block, number, at, inward, run, away, aside, _NUMBER_APART)
    return block


def _outline(piece: Piece, view: View) -> Line | Area:
    """The outline, left open along the fold where half of the piece is drawn."""
    points = view.outline(piece)
    return Line(points, Pen.OUTLINE) if view.half_only else Area(points)


def view_of(piece: Piece, garment: Garment, scale: float) -> View:
    """How the piece is drawn at 1:``scale``."""
    return View(scale=scale, half_only=piece.on_fold and overlaps_itself(piece, garment))


def overlaps_itself(piece: Piece, garment: Garment) -> bool:
    """Whether the whole piece laid flat would lie over itself, so that only its right half is drawn."""
    reaches_over = piece.on_fold and piece.outline.bounds[0] < -NEAR
    return reaches_over or (garment.opening_angle or 0.0) > math.tau


def _draw_dimensions(
    block: Block, piece: Piece, finished: Mapping[str, Finished], words: Words, view: View
) -> list[_LeftOver]:
    """Dimension lines but for whole edges and where a line finds no room, which are returned.

    What comes on both sides of the fold is read on the right, or on the left if there is more room.
    """
    left_over: list[_LeftOver] = []
    for span in piece.spans:
        if block.hurried and block.is_lost:
            break
        item, halved = finished[span.key], span.crosses_fold and view.half_only
        one_side = span.crosses_fold or view.half_only
        sides = (span,) if one_side else (span, replace(span, on_left=not span.on_left))
        tracks = [view.track(side) for side in sides]
        if span.whole_edge or not any(
            draw_dimension(block, span.key, track, words(item, span, halved), inside=span.inside)
            for track in tracks
        ):
            too_long = block.hurried and not span.whole_edge and tracks[0].length > _DIMENSIONED
            if span.open or too_long:
                block.unplaced.append(span.key)
                continue
            named = words(item, replace(span, whole_edge=True), halved)
            tips = [tip for track in tracks for tip in edge_tips(track, hurried=block.hurried)]
            left_over.append(_LeftOver(span, tips, named))
    return left_over


def _draw_leaders(block: Block, piece: Piece, left_over: Sequence[_LeftOver]) -> None:
    """Arrows to what has no dimension line, the shortest first."""
    for each in sorted(left_over, key=lambda each: round(each.span.path.length, 6)):
        if block.hurried and block.is_lost:
            return
        apart = off_lines(block, off_lines(block, each.tips, _FAR_ENOUGH), _AT_A_LINE)
        if block.beside_a_line([apart[0][0]], _AT_A_LINE if block.hurried else _FAR_ENOUGH)[0]:
            block.unplaced.append(each.span.key)
            continue
        best_first = clear_first(block, apart, on_fold=piece.on_fold)
        crossings = (FEW if each.span.whole_edge else MANY) if block.hurried else ANY
        draw_leader(block, each.span.key, best_first, each.labels, crossings=crossings)


def _name_fold(block: Block, fold: tuple[Point, Point], view: View, lettering: Lettering) -> None:
    """Along the fold in one line or, where it is short, in more, or level; else at its end or on a leader.

    On a whole piece, if hurried, it is not at the fold's end, where it would name the hem, and no leader
    crosses the lines of dimensions: a legend has the name then.
    """
    words = view.fold_words
    in_two = tuple(words.split(", ")) if view.half_only else tuple(words.split())
    one, two = (Label.lettered(lines, lettering) for lines in ((words,), in_two))
    shapes = (one, -90.0), (two, -90.0), (two, 0.0)
    (_, top), (_, bottom) = fold
    for label, angle in shapes:
        aside = (label.size[0] if angle == 0.0 else label.size[1]) / 2 + _FROM_FOLD
        spots = [
            Spot((side * aside, top + (bottom - top) * share), angle)
            for share in _ALONG_FOLD
            for side in (1, -1)
        ]
        if draw_label(block, "note", CENTRE_BACK, label, spots, apart=_APART, optional=True):
            return
    in_legend = block.hurried and not view.half_only
    for label in () if in_legend else (one, two):
        width, height = label.size
        spots = [
            Spot((share * width, bottom + height / 2 + below)) for share in _OFF_FOLD for below in _BELOW_FOLD
        ]
        under = [label.box(along(spot.centre, (0.0, 1.0), _OVER_WORDS), 0.0) for spot in spots]
        read_with = block.on_labels(shapes_of(under))
        spots = [spot for spot, is_near in zip(spots, read_with, strict=True) if not is_near]
        if draw_label(block, "note", CENTRE_BACK, label, spots, apart=_APART, optional=True):
            return
    tips = [((0.0, top + (bottom - top) * share), (-1.0, 0.0)) for share in _ALONG_FOLD]
    draw_leader(
        block, CENTRE_BACK, tips, (one, two), crossings=MANY if in_legend else ANY, optional=in_legend
    )


def _draw_creases(block: Block, piece: Piece, view: View) -> None:
    for crease in piece.creases:
        right = view.line(crease.path)
        sides = (right,) if view.half_only else (right, tuple(mirrored(point) for point in right))
        pen = Pen.FOLD if crease.folded else Pen.INCREASE
        block.add("crease", crease.name, [Line(points, pen) for points in sides])


def _marker_ends(garment: Garment, view: View) -> Iterator[tuple[Point, Point, Point, str]]:
    """Both ends of each arm run: where, the direction into the fabric, that along the run, stitch number."""
    arm = garment.arm
    if arm.path is None:
        return
    points = view.line(arm.path)
    for at, towards, number in ((points[0], points[1], arm.last), (points[-1], points[-2], arm.first)):
        run = unit(at, towards)
        inward = (run[1], -run[0]) if at == points[0] else (-run[1], run[0])
        yield at, inward, run, str(number)
        if not view.half_only:
            yield mirrored(at), mirrored(inward), mirrored(run), str(arm.mirrored(number))


def _draw_seam_letters(block: Block, piece: Piece, garment: Garment, view: View, limits: Limits) -> None:
    """Each seam's letter beside its edge and nowhere nearly as close to the edge of another seam."""
    edges = [
        (each.letter, each.points[0], each.points[-1], each.inward)
        for each in joined_edges(piece, garment, view, limits)
    ]
    away = _BESIDE_MOTIF if not piece.on_fold and shows_motif(piece.patterned) else _INSIDE_FIRST
    for letter, start, end, inward in edges:
        others = [LineString(each[1:3]) for each in edges if each[0] != letter]
        beside = beside_edge(start, end, inward, (0.5, 0.35, 0.65, 0.2, 0.8), away)
        spots = [
            spot
            for spot, away in beside
            if all(ShapelyPoint(spot.centre).distance(other) > _NEARER * abs(away) for other in others)
        ]
        letter_seam(block, "seam", letter, spots, (between(start, end), opposite(inward)))


def _draw_work(block: Block, piece: Piece, view: View) -> None:
    """The arrow beside the piece, where it is not taken for a stitch, of a body on it; else where it is free.

    Where no words are beside it if there is such a place. It may be left out: on working sheets the caption
    says it, too.
    """
    anywhere = [(view.point(*start), view.point(*end)) for start, end in piece.work.arrow_places]
    inside = [each for each in anywhere if math.dist(*each) >= _LEAST_ARROW]
    for places, apart in product((list(_beside(piece, anywhere, view)), inside), (_BESIDE_ARROW, 0.0)):
        arrows = (
            (Line((start, end)), arrowhead(end, (end[0] - start[0], end[1] - start[1])))
            for start, end in places
        )
        if draw_first(block, "work", piece.name, arrows, clear=_ROUND_ARROW, apart=apart, optional=True):
            return


def _beside(piece: Piece, ends: Sequence[tuple[Point, Point]], view: View) -> Iterator[tuple[Point, Point]]:
    """Beside the middle of a piece, to the left or above it first; none beside a body, which has room."""
    if piece.on_fold or not ends:
        return
    direction = unit(*ends[0])
    half = max(math.dist(*ends[0]), _LEAST_ARROW) / 2
    xs, ys = zip(*view.outline(piece), strict=True)
    middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    across, length = (wide, high) if abs(direction[0]) < abs(direction[1]) else (high, wide)
    for aside, onward in product((1.0, -1.0), (0.0, *_OFF_MIDDLE)):
        at = along(middle, (direction[1] * aside, -direction[0] * aside), across / 2 + _OFF_PIECE)
        at = along(at, direction, onward * length)
        yield along(at, direction, -half), along(at, direction, half)


def _draw_caption(block: Block, piece: Piece, garment: Garment, view: View, terms: Terms) -> None:
    """Name and facts above the piece, as low as they go without touching anything."""
    fabric = piece.fabric
    chain = f"foundation chain {fabric.foundation_chain(piece.foundation_stitches)}"
    facts = f"{fabric.stitch}; {marked(chain, guess=fabric.turning_chains_guessed)}; {piece.work.words}"
    if garment.arm.edge in piece.edges:
        facts += f"; markers count from {'A' if garment.arm.on is ArmsOn.HEM else 'the front hem'}"
    if piece.dotted:
        facts += f"; {listed(piece.dotted)} dotted"
    facts += "".join(f"; {words}" for words in strip_words(piece))
    if colours := colour_words(piece):
        facts += f"; {colours}"
    if thinned := thinned_words(piece, view):
        facts += f"; {thinned}"
    if piece.increases:
        facts += "; each increase a fine stroke"
    if view.half_only:
        facts += "; over a full circle, so the right half is drawn, on the fold"
    facts = terms.text(facts)
    x0, _, x1, _ = block.bounds()
    width = max(_CAPTION_WIDTH, x1 - x0)
    lines = min((wrap(facts, width), wrap(facts, min(width * 1.15, block.widest))), key=len)
    lowest = min(y for _, y in view.outline(piece)) - 6.5 - (len(lines) - 1) * line_pitch(SMALL)
    captions = (
        (Text((x0, y), piece.heading, LARGE, bold=True), *text_lines((x0, y + 4.8), lines))
        for y in (lowest - step / 2 for step in range(200))
    )
    draw_first(block, "caption", piece.name, captions, clear=_UNDER_CAPTION, apart=_APART)
