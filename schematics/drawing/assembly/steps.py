"""How the pieces go together: numbered steps in words, with the garment's figures."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.checks.wording import listed, sentence_case
from schematics.crochet.charts.chart_fault import count_words
from schematics.crochet.join_words import join_words, schedule_words
from schematics.crochet.spacing import join
from schematics.design.limits import Limits
from schematics.drawing.assembly.joined import equally_wide, joined_views
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Text
from schematics.drawing.ink.text_block import TextBlock
from schematics.drawing.notes import STOPPED_HEADING
from schematics.drawing.pieces.body_outline import BODY, FRONT, PANEL
from schematics.drawing.pieces.piece_texture import shades_in_words
from schematics.garment.garment import ArmsOn, Edge, Garment, Seam

_INDENT = 5.0
_BETWEEN = 1.2
_CLOSE = "1 row to each edge stitch. Join the last row to the first: a ring."
_HEADING = "How it goes together"
_EQUALLY = "folded at the sides where front and back lie equally wide"
_HALFWAY = (
    "folded at the sides, halfway from front edge to centre back: no fold near there makes front and back "
    "equally wide"
)
_SHOULDERS = "folded at the shoulders"
TRIANGLE_TOLD = "A triangle points to where yarn is joined"
UNSEEN_CM = 1.0
"""A front wider or narrower than the back by less than this needs no word: the eye does not see it."""


@dataclass(frozen=True, slots=True)
class Instructions:
    """The text under the views of the joined garment: what they show, and what to do in turn.

    ``stops`` say why it cannot be made.
    """

    legend: str
    steps: tuple[str, ...]
    stops: tuple[str, ...] = ()


def instructions(garment: Garment, limits: Limits) -> Instructions:
    """The text for one garment; lines that are dotted in its views are named."""
    body = garment.piece(BODY)
    views = joined_views(garment, limits)
    at_shoulders = any(crease.folded for crease in body.creases)
    sides = _EQUALLY if views and equally_wide(views) else _HALFWAY
    legend = [
        f"The outside is up, {_SHOULDERS if at_shoulders else sides}.",
        *(_uneven(garment) if at_shoulders else ()),
        f"{TRIANGLE_TOLD}. Seams dashed.",
        *([f"{sentence_case(listed(body.dotted))} dotted."] if body.dotted else []),
        *(["Strokes on the body are increases."] if body.increases else []),
        *([shades] if (shades := shades_in_words(garment)) else []),
    ]
    return Instructions(" ".join(legend), assembly_steps(garment))


def _uneven(garment: Garment) -> Iterator[str]:
    """Why the front is wider than the back, or narrower."""
    opening = 2 * garment.piece(BODY).edge(FRONT).path.coords[0][0]
    more = garment.piece(PANEL).edge("lower").length_cm - opening
    if abs(more) >= UNSEEN_CM:
        how = "wider" if more > 0 else "narrower"
        yield f"The panel is {how} than its opening, and so is the front than the back."


def assembly_steps(garment: Garment) -> tuple[str, ...]:
    """What to do in turn, one step a sentence or a few."""
    return tuple(itertools.chain.from_iterable(steps_by_piece(garment).values()))


def steps_by_piece(garment: Garment) -> dict[str, tuple[str, ...]]:
    """The same by the piece that each puts in place: the body where that is joined to itself."""
    return {
        PANEL: tuple(_front_seams(garment)),
        "neck band": (_neck_band(garment),),
        "arm band": (_arm_bands(garment),),
        BODY: tuple(_side_seams(garment)),
    }


def _front_seams(garment: Garment) -> Iterator[str]:
    for seams in _alike(garment, to_panel=True):
        yield (
            f"{_letters(seams)}: join the body's front edges to both sides of the centre panel, level at the "
            f"neck, from the hem up. {_join(seams[0], 'body', 'panel')}."
        )


def _neck_band(garment: Garment) -> str:
    ring = garment.neck
    deep = garment.piece("neck band").foundation_stitches
    along = f", {ring.picked_up} of them picked up along the row ends" if ring.picked_up else ""
    return (
        f"Neck band: join yarn at the centre back. {count_words(ring.band_rows, 'ribbing row')} of "
        f"{count_words(deep)}, worked sideways onto {count_words(ring.edge_count, 'edge stitch')}{along}, "
        f"those of the panel's top included: {_CLOSE}"
    )


def _arm_bands(garment: Garment) -> str:
    arm, ring = garment.arm, garment.arm.ring
    deep = garment.piece("arm band").foundation_stitches
    name, (left_first, left_last), (right, left) = arm.edge.name, arm.left, arm.starts
    if arm.on is ArmsOn.HEM:
        where = (
            f"{name} stitches {arm.first} to {arm.last} on the wearer's right, {left_first} to {left_last} "
            f"on the left, counted inclusively along the {name} from the right front edge. Join yarn at "
            f"{right} and at {left}"
        )
    else:
        where = (
            f"rows {arm.first} to {arm.last} of each {name} edge, counted inclusively from the front hem, "
            f"where {count_words(ring.edge_count)} are picked up. Join yarn at {right} on the wearer's "
            f"right, at {left} on the left"
        )
    return (
        f"Arm bands: {where}. {count_words(ring.band_rows, 'ribbing row')} of {count_words(deep)} each, "
        f"worked sideways: {_CLOSE}"
    )


def _side_seams(garment: Garment) -> Iterator[str]:
    for seams in _alike(garment, to_panel=False):
        first, second = seams[0].first.name, seams[0].second.name
        yield (
            f"{_letters(seams)}: join the {first} to the {second} from the hem up to the arm band. "
            f"{_join(seams[0], first, second)}."
        )


def _alike(garment: Garment, *, to_panel: bool) -> list[list[Seam]]:
    """Seams of the body to the panel or to itself, those with the same figures together."""
    groups: dict[tuple[object, ...], list[Seam]] = {}
    for seam in garment.seams:
        others = {seam.first_piece, seam.second_piece} - {BODY}
        if (others == {PANEL}) is to_panel:
            groups.setdefault((*_figures(seam.first), *_figures(seam.second)), []).append(seam)
    return list(groups.values())


def _figures(edge: Edge) -> tuple[object, ...]:
    return edge.length_cm, edge.count, edge.counted


def _letters(seams: Sequence[Seam]) -> str:
    letters = [seam.letter for seam in seams]
    return f"Seam {letters[0]}" if len(letters) == 1 else f"Seams {', '.join(letters[:-1])} and {letters[-1]}"


def _join(seam: Seam, first: str, second: str) -> str:
    """The ratio to work by and the schedule, or that each row meets one."""
    how = join(seam.first.count, seam.second.count)
    sides = seam.sides((first, second))
    if set(how.shares) == {1}:
        return sentence_case(schedule_words(how, *sides))
    return join_words(how, *sides)


def steps_block(guide: Instructions, width: float) -> Block:
    """The legend and the steps numbered under a heading, in lines no wider than ``width`` mm.

    What stops the size comes first.
    """
    text = TextBlock(STOPPED_HEADING if guide.stops else _HEADING, width)
    block = Block()
    if guide.stops:
        text.add(guide.stops, _BETWEEN)
        block.add("checks", "checks", text.marks)
        text.marks = []
        text.head(_HEADING)
    text.add([guide.legend], _BETWEEN)
    for number, step in enumerate(guide.steps, start=1):
        text.marks.append(Text((0, text.y), f"{number}", bold=True))
        text.add([step], _BETWEEN, _INDENT)
    block.add("steps", "steps", text.marks)
    return block
