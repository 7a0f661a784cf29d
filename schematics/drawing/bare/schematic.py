"""Bare schematics of all sizes: one lettered outline with a table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from schematics.checks.evaluation import Result
from schematics.drawing.bare.legend import legend_words
from schematics.drawing.bare.lettered import (
    NO_ROOM,
    Lettered,
    finished_sheet,
    pieces_in_words,
    scale_in_words,
    with_table,
)
from schematics.drawing.bare.look import Look
from schematics.drawing.bare.rooms import PAGE, Room, cropped
from schematics.drawing.ink.page import block_size
from schematics.drawing.ink.sheet import BareInk, Sheet


def bare_schematic(results: Sequence[Result], look: Look, room: Room = PAGE) -> tuple[Sheet, str] | None:
    """The pieces of the middle size, a letter at each measurement, and what its marks mean, in a sentence.

    None where they find no room.
    """
    lettered, high = _all_sizes(results, look, room), room.inside.y1
    drawn = lettered.drawn(high) or lettered.drawn(high, finely=True)
    if drawn is None:
        return None
    description = "; ".join((f"The pieces laid flat: {pieces_in_words(lettered.pieces)}", *drawn.thinned))
    description = f"{description}. {lettered.letters_in_words}"
    legend = legend_words(drawn.finished)
    words = " ".join(filter(None, (description, legend)))
    ink = look.ink("schematic")
    return cropped(drawn.groups, "Schematic", words, scale=drawn.scale, ink=ink), legend


def draw_all_sizes(results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk) -> Sheet:
    """The pieces of the middle size, a letter at each measurement, and a table of all sizes under them.

    On a page that has no room for the table, or only under pieces that are tiny, the names of the
    letters are in its place.
    """
    lettered = _all_sizes(results, look, room)
    return with_table(lettered, title, lettered.shape_in_words, ink)


def draw_outline(results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk) -> Sheet:
    """The lettered pieces of all sizes without their table."""
    lettered = _all_sizes(results, look, room)
    drawn = lettered.drawn(room.inside.y1)
    if drawn is None:
        return replace(draw_tables(results, title, look, room, ink)[0], unplaced=NO_ROOM)
    description = f"{lettered.shape_in_words}, {scale_in_words(drawn)}."
    description = f"{description} {lettered.letters_in_words}"
    return finished_sheet(drawn, title, description, ink, room, lettered.lettering)


def draw_tables(
    results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk
) -> tuple[Sheet, ...]:
    """The table of all sizes without the lettered pieces, in as many parts as pages have room for."""
    return tuple(
        cropped(
            each.table().groups,
            title,
            f"Finished measurements. {each.figures_in_words}",
            ink=ink,
        )
        for each in _parted(results, look, room)
    )


def table_parts(results: Sequence[Result], look: Look, room: Room) -> int:
    """How many drawings the table of all sizes is."""
    return len(_parted(results, look, room))


def _parted(results: Sequence[Result], look: Look, room: Room) -> list[Lettered]:
    """The sizes in as few parts, of equally many, as leave each a table with room on a page.

    All parts have the names where the first has.
    """
    whole = _all_sizes(results, look, room)
    for count in range(1, len(results) + 1):
        each = -(-len(results) // count)
        groups = [results[start : start + each] for start in range(0, len(results), each)]
        names_at = replace(whole, results=tuple(groups[0])).place_of_names
        parts = [replace(whole, results=tuple(group), names_at=names_at) for group in groups]
        if room.scrolls or all(block_size(part.table())[1] <= room.inside.y1 for part in parts):
            break
    return parts


def _all_sizes(results: Sequence[Result], look: Look, room: Room) -> Lettered:
    shape = results[len(results) // 2]
    return Lettered(tuple(results), shape, shape.garment.pieces, look, room, tuple(results))
