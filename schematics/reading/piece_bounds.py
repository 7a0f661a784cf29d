"""How large the pieces of a size may be: more is a slip of the pen, and would be drawn for minutes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from schematics.crochet.fabric import Counted, Fabric
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.panel_formulas import PANEL_ROWS, PANEL_STITCHES
from schematics.garment.garment import Garment
from schematics.grading.draft import Draft, DraftSize, block_of

LONGEST_DRAWN_CM = 1_000.0
"""Of a finished measurement; the sheets have no room for more at their smallest scale."""

MOST_STITCHES = 1_000_000
"""In one piece: at a stitch a second they take 280 hours."""

MOST_CIRCLES = 6
"""A body may open to; from two on its half lies over itself."""

_BLOCKS = {"centre panel": "panel", "neck band": "neck_band", "arm band": "arm_bands"}
"""Blocks of counts by the piece."""


def size_faults(draft: Draft, size: DraftSize) -> Iterator[tuple[str, str]]:
    """What is too large about a size, as far as its counts are given, each with its count or block."""
    construction, parts = CONSTRUCTIONS[draft.head.construction], draft.head.parts
    if faults := list(_panel_faults(parts.centre_panel, size.given)):
        yield from faults
        return
    if not draft.missing(size):
        yield from garment_faults(construction.build(draft.size(size, size.given), parts), draft.counts)
    else:
        formulas = construction.formulas(parts, block_of(size.settings, "body"))
        lengths_cm = {
            key: length.at(size.given)
            for key, length in formulas.lengths.items()
            if length.needs <= size.given.keys()
        }
        yield from _length_faults(lengths_cm, draft.counts)


def _panel_faults(fabric: Fabric, given: Mapping[str, float]) -> Iterator[tuple[str, str]]:
    """A panel that tapers to nothing."""
    if fabric.chart is None or not {PANEL_STITCHES.name, PANEL_ROWS.name} <= given.keys():
        return
    foot, rows = int(given[PANEL_STITCHES.name]), int(given[PANEL_ROWS.name])
    top = fabric.chart.top(foot, max(0, fabric.row_rule.repeats(rows)))
    if top < 1:
        yield (
            PANEL_STITCHES.name,
            f"expected at least {foot + 1 - top} stitches, since the panel's chart takes off {foot - top} "
            f"over its {rows} rows, got {foot}",
        )


def garment_faults(garment: Garment, counts: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """What is too large about a garment, of its first kind, each with its count or block.

    Args:
        garment: the garment.
        counts: the counts of a size, each with its finished measurement.
    """
    yield from (
        list(_length_faults({each.key: each.length_cm for each in garment.finished}, counts))
        or list(_stitches_faults(garment))
        or _opening_fault(garment)
    )


def _length_faults(lengths_cm: Mapping[str, float], counts: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Of what follows from several counts the longest is named, where none of them alone is at fault."""
    long = {key: length_cm for key, length_cm in lengths_cm.items() if length_cm > LONGEST_DRAWN_CM}
    places = {key: count for count, key in counts.items() if key in long}
    for key in places or sorted(long, key=long.__getitem__)[-1:]:
        yield (
            places.get(key, ""),
            f"expected a {key} of at most {LONGEST_DRAWN_CM:.0f} cm, got {long[key]:.0f} cm",
        )


def _stitches_faults(garment: Garment) -> Iterator[tuple[str, str]]:
    for piece in garment.pieces:
        stitches, rows = (
            max((edge.count for edge in piece.edges if edge.counted is counted), default=0)
            for counted in Counted
        )
        if stitches * rows > MOST_STITCHES:
            yield (
                _BLOCKS.get(piece.name, "body"),
                f"expected at most {MOST_STITCHES} stitches in the {piece.name}, "
                f"got {stitches} by {rows} rows",
            )


def _opening_fault(garment: Garment) -> Iterator[tuple[str, str]]:
    turns = (garment.opening_angle or 0.0) / math.tau
    if turns > MOST_CIRCLES:
        yield (
            "body",
            f"expected the body to open to at most {MOST_CIRCLES} full circles, got {turns:.1f}; "
            "check the hem and the rows",
        )
