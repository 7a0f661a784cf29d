"""Yarn for one size: mass of each part from its stitches and its swatch, thread in seams, tails, balls.

mass of a part = its stitches, row by row, x mass of the swatch / (stitches x rows of the swatch), exactly.
A part whose rows cannot be counted has as many stitches as fill its area. Nothing is guessed: where a swatch
was not weighed, or the ball has no length, what follows from it is None, and that is reported.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from schematics.analysis.yarn.accuracy import relative_error
from schematics.crochet.fabric import Fabric, Swatch
from schematics.crochet.yarn_use import YarnUse
from schematics.design.design import PART_OF, Design, Yarn
from schematics.garment.garment import Garment, Piece
from schematics.units import HAIR


@dataclass(frozen=True, slots=True, kw_only=True)
class PartYarn:
    """Yarn in all the pieces of one name; ``mass_g`` is None where the swatch was not weighed.

    ``stitches`` are those of all rows; where they are not ``counted``, as many as fill the area.
    """

    part: str
    fabric: Fabric
    quantity: int
    colour: str
    stitches: float
    counted: bool
    mass_g: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """Yarn that is in no piece: in a join, or hanging at the ends."""

    name: str
    colour: str
    length_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourYarn:
    """Yarn of one colour; ``colour`` is empty where the design names none.

    ``net_g`` counts parts and threads, give or take ``error_g``: what swatches and the maker's hand may be
    off by. ``buy_g`` has the margin as well, or the give or take where that is more; ``balls`` is rounded up
    from it. ``without_thread`` says that the threads are not in
    the masses, for want of a ball's mass and length. All None if a swatch was not weighed.
    """

    colour: str
    parts: tuple[PartYarn, ...]
    threads: tuple[Thread, ...]
    net_g: float | None
    buy_g: float | None
    error_g: float | None
    length_m: float | None
    balls: int | None
    without_thread: bool

    @property
    def thread_m(self) -> float:
        """Metres of yarn in joins and tails."""
        return sum(thread.length_cm for thread in self.threads) / 100


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnNeed:
    """Yarn for one size, by colour in the order of the parts; ``unweighed`` are fabrics by name."""

    colours: tuple[ColourYarn, ...]
    unweighed: tuple[str, ...]

    @property
    def parts(self) -> tuple[PartYarn, ...]:
        """Every part, of all colours."""
        return tuple(part for colour in self.colours for part in colour.parts)

    @property
    def net_g(self) -> float | None:
        """Grams in the garment; None if a swatch was not weighed."""
        return _total([colour.net_g for colour in self.colours])

    @property
    def buy_g(self) -> float | None:
        """Grams to buy, the margin added; None if a swatch was not weighed."""
        return _total([colour.buy_g for colour in self.colours])

    @property
    def error_g(self) -> float | None:
        """What ``net_g`` may be off by: fabrics err on their own, parts of one fabric together."""
        return _error_g(self.parts)


def _total(values: Sequence[float | None]) -> float | None:
    weighed = [value for value in values if value is not None]
    return sum(weighed) if len(weighed) == len(values) else None


def metres_per_gram(yarn: Yarn) -> float | None:
    """Metres in a gram; None unless the ball's mass and length are both known."""
    if yarn.ball_mass_g is None or yarn.ball_length_m is None:
        return None
    return yarn.ball_length_m / yarn.ball_mass_g


def spare_words(use: YarnUse, needs: Iterable[YarnNeed]) -> str:
    """What is bought beyond what is worked: ``10 %``, or more where some size has a larger give or take."""
    more = any(_error_decides(colour, use) for need in needs for colour in need.colours)
    return f"the larger of {use.margin_words} and the give or take" if more else use.margin_words


def _error_decides(colour: ColourYarn, use: YarnUse) -> bool:
    net_g, error_g = colour.net_g, colour.error_g
    return net_g is not None and error_g is not None and error_g > net_g * use.margin


def stitches_mass_g(stitches: float, swatch: Swatch) -> float | None:
    """Grams in so many stitches of the swatch's fabric; None if it was not weighed."""
    if swatch.mass_g is None:
        return None
    return stitches * swatch.mass_g / (swatch.stitches * swatch.rows)


def yarn_need(design: Design, garment: Garment) -> YarnNeed:
    """The yarn that the garment, one size of the design, takes."""
    parts = [_part(piece, design.yarn_use) for piece in garment.pieces]
    threads = [*_joins(garment, design.yarn_use), *_tails(garment, design.yarn_use)]
    colours = dict.fromkeys(part.colour for part in parts)
    return YarnNeed(
        colours=tuple(
            _colour(
                design,
                colour,
                tuple(part for part in parts if part.colour == colour),
                tuple(thread for thread in threads if thread.colour == colour),
            )
            for colour in colours
        ),
        unweighed=tuple(dict.fromkeys(part.fabric.name for part in parts if part.mass_g is None)),
    )


def _colour_of(piece_name: str, use: YarnUse) -> str:
    return use.colour(PART_OF.get(piece_name, piece_name))


def _part(piece: Piece, use: YarnUse) -> PartYarn:
    counted, fabric = piece.row_stitches, piece.fabric
    filling = piece.area_cm2 * fabric.stitches_per_cm * fabric.rows_per_cm
    stitches = piece.quantity * (filling if counted is None else sum(counted))
    return PartYarn(
        part=piece.name,
        fabric=fabric,
        quantity=piece.quantity,
        colour=_colour_of(piece.name, use),
        stitches=stitches,
        counted=counted is not None,
        mass_g=stitches_mass_g(stitches, fabric.weighed),
    )


def _joins(garment: Garment, use: YarnUse) -> Iterator[Thread]:
    """Slip-stitch joins: the seams, the bands onto their edges, the ends of each band to each other."""

    def thread(name: str, piece: str, seam_cm: float) -> Thread:
        return Thread(name=name, colour=_colour_of(piece, use), length_cm=seam_cm * use.seam_factor)

    for seam in garment.seams:
        longer_cm = max(seam.first.length_cm, seam.second.length_cm)
        yield thread(f"seam {seam.letter}", seam.first_piece, longer_cm * seam.places)
    for ring, piece in ((garment.neck, "neck band"), (garment.arm.ring, "arm band")):
        quantity = garment.piece(piece).quantity
        yield thread(f"{piece} onto its edge", piece, ring.edge_cm * quantity)
        yield thread(f"{piece} closed to a ring", piece, ring.band_depth_cm * quantity)


def _tails(garment: Garment, use: YarnUse) -> Iterator[Thread]:
    """Two tails to each piece and to each seam."""
    for piece in garment.pieces:
        length = 2 * use.tail_cm * piece.quantity
        yield Thread(name=f"tails of the {piece.name}", colour=_colour_of(piece.name, use), length_cm=length)
    for seam in garment.seams:
        length, colour = 2 * use.tail_cm * seam.places, _colour_of(seam.first_piece, use)
        yield Thread(name=f"tails of seam {seam.letter}", colour=colour, length_cm=length)


def _colour(
    design: Design, colour: str, parts: tuple[PartYarn, ...], threads: tuple[Thread, ...]
) -> ColourYarn:
    yarn, use = design.yarn, design.yarn_use
    thickness = metres_per_gram(yarn)
    parts_g = _total([part.mass_g for part in parts])
    net_g = parts_g
    if parts_g is not None and thickness is not None and yarn.ball_mass_g is not None:
        threads = (*threads, *_ball_tails(parts_g, colour, yarn.ball_mass_g, use))
        net_g = parts_g + sum(thread.length_cm for thread in threads) / 100 / thickness
    error_g = _error_g(parts)
    buy_g = None if net_g is None or error_g is None else net_g + max(net_g * use.margin, error_g)
    return ColourYarn(
        colour=colour,
        parts=parts,
        threads=threads,
        net_g=net_g,
        buy_g=buy_g,
        error_g=error_g,
        length_m=None if buy_g is None or thickness is None else buy_g * thickness,
        balls=None if buy_g is None or yarn.ball_mass_g is None else balls_of(buy_g, yarn.ball_mass_g),
        without_thread=thickness is None,
    )


def _ball_tails(parts_g: float, colour: str, ball_g: float, use: YarnUse) -> Iterator[Thread]:
    """Two tails wherever a new ball of the colour is joined in."""
    joins = balls_of(parts_g, ball_g) - 1
    if joins > 0:
        length = joins * 2 * use.tail_cm
        yield Thread(name="tails where a new ball is joined", colour=colour, length_cm=length)


def balls_of(mass_g: float, ball_g: float) -> int:
    """Balls that hold ``mass_g``; a hair of float error is forgiven."""
    return math.ceil(mass_g / ball_g - HAIR)


def _error_g(parts: Sequence[PartYarn]) -> float | None:
    """Grams the parts may be off by together; None if one was not weighed."""
    masses: dict[Fabric, float] = {}
    for part in parts:
        if part.mass_g is None:
            return None
        masses[part.fabric] = masses.get(part.fabric, 0.0) + part.mass_g
    return math.hypot(*(mass * (relative_error(fabric.weighed) or 0.0) for fabric, mass in masses.items()))
