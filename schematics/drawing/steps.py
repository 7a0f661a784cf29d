"""How the pieces go together: numbered steps in words, with the garment's figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.drawing.block import Block
from schematics.drawing.joined import BODY, PANEL
from schematics.drawing.marks import Mark, Text
from schematics.drawing.text import LARGE, SMALL, line_pitch, wrap
from schematics.fabric import Counted
from schematics.garment import Edge, Garment, Seam
from schematics.join_words import Side, ratio_words, schedule_words
from schematics.spacing import join

_INDENT = 5.0
_BETWEEN = 1.2
_LEGEND = "Both views show the outside, folded flat at the sides. A triangle points to where yarn is joined."


def assembly_steps(garment: Garment) -> tuple[str, ...]:
    """What to do in turn, one step a sentence or a few."""
    return (*_front_seams(garment), _neck_band(garment), _arm_bands(garment), *_side_seams(garment))


def _front_seams(garment: Garment) -> Iterator[str]:
    for seams in _alike(garment, to_panel=True):
        yield (
            f"{_letters(seams)}: lay the body's front edges along both sides of the centre panel, outsides "
            f"up and level at the neck, and join them from the neck down. {_join(seams[0], 'body', 'panel')}."
        )


def _neck_band(garment: Garment) -> str:
    ring = garment.neck
    deep = garment.piece("neck band").foundation_stitches
    picked_up = [item.count for item in garment.finished if item.key == "neck.picked_up"]
    along = f", {picked_up[0]} of them picked up along the row ends" if picked_up else ""
    return (
        f"Neck band: join yarn at the centre back. {_count(ring.band_rows, 'ribbing row')} of "
        f"{_count(deep, 'stitch')}, worked sideways onto {_count(ring.edge_count, 'edge stitch')}{along}, the "
        "panel's top included: 1 row to each. Join the last row to the first: a ring."
    )


def _arm_bands(garment: Garment) -> str:
    arm, ring = garment.arm, garment.arm.ring
    deep = garment.piece("arm band").foundation_stitches
    first, last = arm.left
    if arm.edge.crosses_fold:
        what = "stitches" if arm.edge.counted is Counted.STITCHES else "rows"
        where = (
            f"{arm.edge.name} {what} {arm.first} to {arm.last} on the wearer's right and {first} to {last} on "
            "the left, counted inclusively along the hem from the right front edge. Join yarn at "
            f"{arm.first} and at {first}"
        )
    else:
        where = (
            f"rows {arm.first} to {arm.last} of each {arm.edge.name} edge, counted inclusively from the front "
            f"hem, where {_count(ring.edge_count, 'stitch')} are picked up. Join yarn at {arm.first}"
        )
    return (
        f"Arm bands: {where}. {_count(ring.band_rows, 'ribbing row')} of {_count(deep, 'stitch')} each, 1 row to "
        "each edge stitch. Join the last row to the first: a ring."
    )


def _side_seams(garment: Garment) -> Iterator[str]:
    for seams in _alike(garment, to_panel=False):
        seam = seams[0]
        yield (
            f"{_letters(seams)}: join the {seam.first.name} to the {seam.second.name} from the arm band down. "
            f"{_join(seam, seam.first.name, seam.second.name)}."
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
    sides = Side(name=first, counted=seam.first.counted), Side(name=second, counted=seam.second.counted)
    schedule = schedule_words(how, *sides)
    if set(how.shares) == {1}:
        return schedule[0].upper() + schedule[1:]
    return f"Join {ratio_words(how, *sides)}; exactly, {schedule}"


def _count(number: int, name: str) -> str:
    many = f"{name}es" if name.endswith("h") else f"{name}s"
    return f"{number} {name if number == 1 else many}"


def steps_block(steps: Sequence[str], width: float) -> Block:
    """The steps numbered under a heading, in lines no wider than ``width`` mm."""
    marks: list[Mark] = [Text((0, 0), "How it goes together", LARGE, bold=True)]
    y = line_pitch(SMALL) + 1.0
    for line in wrap(_LEGEND, width):
        marks.append(Text((0, y), line))
        y += line_pitch(SMALL)
    y += _BETWEEN
    for number, step in enumerate(steps, start=1):
        marks.append(Text((0, y), f"{number}", bold=True))
        for line in wrap(step, width - _INDENT):
            marks.append(Text((_INDENT, y), line))
            y += line_pitch(SMALL)
        y += _BETWEEN
    block = Block()
    block.add("steps", "steps", marks)
    return block
