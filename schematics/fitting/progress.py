"""Half-way: what a piece should measure and weigh now, and how the garment comes out if it goes on so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from schematics.analysis.yarn.need import YarnNeed, yarn_need
from schematics.checks.tape import Tape
from schematics.crochet.fabric import Counted, Fabric, gauge_fault
from schematics.design.design import Design, Size
from schematics.errors import UsageError
from schematics.fitting.gauge import Gauge, parts_at_gauge, size_at_gauge
from schematics.fitting.gauge_text import LOOSEST, TIGHTEST
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment
from schematics.garment.printed_lengths import grain_of
from schematics.units import HAIR, AnyGrain, printed_mass
from schematics.wearer.body import Wearer
from schematics.wearer.resolve import resolve

PIECES: Mapping[str, str] = {
    "body": "body",
    "panel": "centre panel",
    "neck-band": "neck band",
    "arm-band": "arm band",
}
"""Pieces by the words of the command line, in the order in which they are worked."""

CLOSE = 0.05
"""Yarn that is over by less than this fraction of what is still needed only just lasts (common practice)."""


_ACROSS = {"centre panel": "panel.width", "neck band": "neck_band.depth", "arm band": "arm_band.depth"}
"""The finished measurement along each row of a piece, where all its rows are alike."""

_UP = {"neck band": "neck_band.length", "arm band": "arm_band.length"}
"""That up the rows of a piece that is closed to a ring; of others those up the rows are printed alike."""

LIGHTEST, HEAVIEST = 0.4, 2.5
"""A weight beyond these times the pattern's is taken for a slip of the pen."""


BANDS = frozenset(_UP)
"""Pieces worked onto an edge that sets how many rows they have."""


def width_grain(piece: str) -> AnyGrain:
    """How finely it is printed how wide a piece is along a row."""
    return grain_of(_ACROSS.get(piece, ""))


def height_grain(piece: str) -> AnyGrain:
    """How finely it is printed how high a piece is up its rows."""
    return grain_of(_UP.get(piece, ""))


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceProgress:
    """How far one piece is, and what it should measure by the pattern.

    ``stitches`` are those of the last row, of both sides together where it is ``parted``; ``share`` the
    stitches worked over all of the piece. ``width_cm`` is along the last row, ``height_cm`` up the rows.
    ``mass_g`` is None where the swatch was not weighed.
    """

    piece: str
    fabric: Fabric
    rows: int
    all_rows: int
    stitches: int
    parted: bool
    share: float
    width_cm: float
    height_cm: float
    mass_g: float | None

    @property
    def width_grain(self) -> AnyGrain:
        """How finely the width is printed."""
        return width_grain(self.piece)

    @property
    def height_grain(self) -> AnyGrain:
        """How finely the height is printed."""
        return height_grain(self.piece)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """The garment if it goes on at the gauge that was measured.

    ``wearer`` is who it is held against, ``given`` or the one the size is for. ``alike`` says whether the
    other fabrics are taken to be worked as this one. ``rows_instead`` is how many rows the piece would
    need to come out as long as in the pattern.
    """

    gauge: Gauge
    wearer: Wearer
    given: bool
    fit: SizeFit
    alike: bool
    rows_instead: int


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnLeft:
    """Yarn of one colour: what is still to be worked into, and what there is; grams.

    ``have_g`` is None where it was not given.
    """

    colour: str
    rest_g: float
    have_g: float | None

    @property
    def lasts(self) -> str:
        """``yes``, ``only just`` or ``no``; ``unknown`` without a word on what there is."""
        if self.have_g is None:
            return "unknown"
        if self.have_g < self.rest_g - HAIR:
            return "no"
        return "yes" if self.have_g >= self.rest_g * (1 + CLOSE) else "only just"


def row_stitches(size: Size, garment: Garment, piece: str) -> Sequence[int]:
    """Stitches of each row of a piece, first to last; both sides together where the work is parted."""
    if piece == "body":
        return [stitches for stitches, _ in CONSTRUCTIONS[garment.construction].rows_worked(size.body)]
    return garment.piece(piece).row_stitches or ()


def piece_progress(design: Design, size: Size, piece: str, rows: int) -> PieceProgress:
    """What a piece should measure and weigh after so many rows; the second of two is like the first.

    Raises:
        UsageError: the piece has fewer rows.
    """
    garment = size_at_gauge(design, size).garment
    stitches = row_stitches(size, garment, piece)
    if not 1 <= rows <= len(stitches):
        raise UsageError(
            f"--rows: expected 1 to {len(stitches)}, the rows of the {piece} of size {size.name}, got {rows}"
        )
    part = next(each for each in yarn_need(design, garment).parts if each.part == piece)
    fabric, share = part.fabric, sum(stitches[:rows]) / sum(stitches)
    return PieceProgress(
        piece=piece,
        fabric=fabric,
        rows=rows,
        all_rows=len(stitches),
        stitches=stitches[rows - 1],
        parted=piece == "body" and CONSTRUCTIONS[design.construction].rows_worked(size.body)[rows - 1][1] > 1,
        share=share,
        width_cm=stitches[rows - 1] / fabric.stitches_per_cm,
        height_cm=rows / fabric.rows_per_cm,
        mass_g=None if part.mass_g is None else part.mass_g / part.quantity * share,
    )


def outcome(
    design: Design, size: Size, wearer: Wearer | None, now: PieceProgress, width_cm: float, height_cm: float
) -> Outcome:
    """The garment at the gauge a piece is measured to have.

    What is measured on the body is taken for the maker's hand in every fabric, what is measured on
    another piece for its fabric only. Without a wearer it is held against all those the size is for.

    Raises:
        UsageError: the lengths are far from the pattern's; a line for each.
    """
    gauge = Gauge(
        stitches_per_cm=now.stitches / width_cm,
        rows_per_cm=now.rows / height_cm,
        width_cm=width_cm,
        height_cm=height_cm,
    )
    usual, tape = Gauge.of(now.fabric), Tape(design.unit)
    problems = []
    width, height = tape.length(now.width_cm, now.width_grain), tape.length(now.height_cm, now.height_grain)
    for mine, pattern, counted, what, expected in (
        (gauge.stitches_per_cm, usual.stitches_per_cm, Counted.STITCHES, "width", width),
        (gauge.rows_per_cm, usual.rows_per_cm, Counted.ROWS, "height", height),
    ):
        if not LOOSEST <= mine / pattern <= TIGHTEST or gauge_fault(counted, mine):
            problems.append(
                f"--measured: by the pattern the {what} is about {expected} now; check the {what}, "
                "its unit and --rows"
            )
    if problems:
        raise UsageError(*problems)
    body = design.parts.body
    alike = now.fabric.name == body.name
    parts = (
        parts_at_gauge(design.parts, gauge)
        if alike
        else parts_at_gauge(design.parts, Gauge.of(body), {now.fabric.name: gauge})
    )
    held_against = wearer or resolve(size.wearer, size.name)
    return Outcome(
        gauge=gauge,
        wearer=held_against,
        given=wearer is not None,
        fit=size_fit(design, size_at_gauge(design, size, parts), held_against),
        alike=alike,
        rows_instead=int(rows_for_length(now.all_rows, gauge.rows_per_cm / usual.rows_per_cm)),
    )


def rows_for_length(rows: Any, times: Any) -> Any:
    """Rows that come to the same length where so many ``times`` as many go into a centimetre."""
    return np.maximum(np.floor(rows * times + 0.5), 1.0)


def yarn_left(
    design: Design, size: Size, now: PieceProgress, weighed_g: float | None, have: Mapping[str, float]
) -> tuple[YarnLeft, ...]:
    """Yarn still to be worked into, by colour; the pieces before this one are taken to be finished.

    Where the piece was weighed, everything is taken to be as much heavier or lighter as it is.

    Returns:
        Empty where a swatch was not weighed, so that nothing is known.

    Raises:
        UsageError: the weight is far from the pattern's.
    """
    need = yarn_need(design, size_at_gauge(design, size).garment)
    if need.net_g is None or now.mass_g is None:
        return ()
    times = 1.0 if weighed_g is None else weighed_g / now.mass_g
    if not LIGHTEST <= times <= HEAVIEST:
        raise UsageError(
            f"--weighed: by the pattern it is about {printed_mass(now.mass_g, design.unit)} now; check the "
            "weight, its unit and --rows"
        )
    rest = _rest(need, now, list(PIECES.values()))
    return tuple(
        YarnLeft(colour=colour, rest_g=grams * times, have_g=have.get(colour))
        for colour, grams in rest.items()
    )


def _rest(need: YarnNeed, now: PieceProgress, order: Sequence[str]) -> dict[str, float]:
    """Grams by colour that the pattern has still to come: the rest of this piece, those after it, threads."""
    left_g: dict[str, float] = {}
    for colour in need.colours:
        parts_g = sum(part.mass_g or 0.0 for part in colour.parts)
        rest = (colour.net_g or 0.0) - parts_g
        for part in colour.parts:
            grams = part.mass_g or 0.0
            if part.part == now.piece:
                rest += grams - grams / part.quantity * now.share
            elif order.index(part.part) > order.index(now.piece):
                rest += grams
        left_g[colour.colour] = rest
    return left_g
