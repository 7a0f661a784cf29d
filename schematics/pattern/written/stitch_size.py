"""What a maker's larger or smaller stitches take of the yarn, where nobody weighed her swatch.

Loops grow as stitches do, in length: a stitch takes its yarn along lines, not over an area. So what it takes
is reckoned by the linear scale of a stitch, the root of how many times as large its area is (derived).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from schematics.analysis.yarn.accuracy import ALIKE
from schematics.analysis.yarn.need import ColourYarn, YarnNeed, balls_of
from schematics.checks.wording import listed
from schematics.design.design import Design, Yarn
from schematics.garment.garment import Garment
from schematics.units import Unit, printed_mass

STITCH_FOR_STITCH = "The amount is reckoned by the pattern’s swatches, stitch for stitch."
"""What is said of amounts of yarn at a maker's own gauge."""

_OTHER = (
    "Your stitches are {size} than the pattern’s, and {size} ones take {more}: as a rule, with as much to "
    "spare, {amounts}. To be sure weigh a swatch of {span} by {span}: the poncho is as large as {swatches} "
    "of it."
)


def stitch_for_stitch(design: Design, need: YarnNeed, garment: Garment, yarn: Yarn) -> Iterator[str]:
    """How amounts at a maker's own gauge are reckoned, and about what stitches of another size take.

    Args:
        design: the design in her fabrics.
        need: what it takes stitch for stitch.
        garment: the size that takes it.
        yarn: what it is worked in.
    """
    if all(fabric.weighed is fabric.swatch for fabric in design.parts.fabrics.values()):
        return
    yield STITCH_FOR_STITCH
    if need.net_g is None:
        return
    scales = {each.colour: _scale(design, each) for each in need.colours}
    whole = sum(scales[each.colour] * (each.net_g or 0.0) for each in need.colours) / need.net_g
    if abs(whole - 1.0) > ALIKE:
        span_cm, span = design.unit_first.gauge_span
        area_cm2 = sum(piece.quantity * piece.area_cm2 for piece in garment.pieces)
        yield _OTHER.format(
            size="larger" if whole > 1.0 else "smaller",
            more="more yarn" if whole > 1.0 else "less",
            amounts=listed(
                amount_words(each, yarn, design.unit_first, scales[each.colour]) for each in need.colours
            ),
            span=span,
            swatches=f"{area_cm2 / span_cm**2:.0f}",
        )


def amount_words(each: ColourYarn, yarn: Yarn, unit: Unit, times: float = 1.0) -> str:
    """So many times what is to be bought of a colour: balls, and what they weigh in all."""
    colour = f" in {each.colour}" if each.colour else ""
    buy_g = times * (each.buy_g or 0.0)
    buy = printed_mass(buy_g, unit)
    if each.balls is None or yarn.ball_mass_g is None:
        return f"{buy}{colour}"
    balls, ball = balls_of(buy_g, yarn.ball_mass_g), printed_mass(yarn.ball_mass_g, unit)
    return f"{balls} ball{'' if balls == 1 else 's'} of {ball}{colour} ({buy})"


def _scale(design: Design, each: ColourYarn) -> float:
    """How many times as large as in the pattern the stitches of a colour are, each way, by their yarn."""
    usual = design.pattern_parts
    if usual is None or not each.parts:
        return 1.0
    scaled = 0.0
    for part in each.parts:
        own, theirs = part.fabric, usual.fabrics[part.fabric.name]
        areas = (theirs.stitches_per_cm * theirs.rows_per_cm) / (own.stitches_per_cm * own.rows_per_cm)
        scaled += math.sqrt(areas) * (part.mass_g or 0.0)
    return scaled / sum(part.mass_g or 0.0 for part in each.parts)
