"""Yarn to buy, as the text tells it, against the grams of the stitches in hand: closed forms, no garment."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any

from tests.pattern.reader.complaint import CannotWorkError
from tests.pattern.reader.maker import Finished, chosen_in
from tests.pattern.reader.measures import gauges, size_values
from tests.pattern.reader.page import Grid, Page, Words, read_page

Spec = Mapping[str, Any]

_OUNCE, _YARD, _INCH = 28.349523125, 0.9144, 2.54
"""Grams and metres; exact by the international agreement of 1959."""

_TAPER = 0.985
"""Yarn is told for an outline with straight edges; a body that grows early has up to so many more."""

_BALLS = re.compile(r", in balls of (?P<mass>[^,]+), (?P<length>[^,]+)\.$")
_PARTS = {"Body": "body", "Centre panel": "centre_panel", "Neck band": "neck_band", "Arm bands": "arm_bands"}


def wrong_materials(markdown: str, size: str, made: Finished, spec: Spec) -> list[str]:
    """What is wrong with the yarn that the text has the maker of that size buy, in words."""
    page = read_page(markdown)
    mass, length = _ball(page)
    grams = _grams(page, made, spec)
    return [
        fault
        for colour, told in _to_buy(page, chosen_in(page, size).names, size).items()
        for fault in _faults(colour, told, grams[colour], (mass, length))
    ]


def _faults(colour: str, told: Mapping[str, float], grams: float, ball: tuple[float, float]) -> Iterator[str]:
    """Balls are as few as hold what is to be bought, and that is no less than the pieces take."""
    mass, length = ball
    bought, buy = told["balls"] * mass, told["g"]
    grams *= _TAPER
    if bought < grams or bought < buy - 0.5 or bought - mass >= buy + 0.5:
        yield f"{colour}: {bought:g} g in balls, for {buy:g} g to buy, {grams:.0f} g worked"
    if not grams - 0.5 <= buy <= 1.6 * grams + 30:
        yield f"{colour}: {buy:g} g to buy, {grams:.0f} g worked"
    same = {"oz": buy / _OUNCE, "m": buy * length / mass, "yd": told["m"] / _YARD}
    give = {"oz": 0.05 + 0.5 / _OUNCE, "m": 0.5 + 0.5 * length / mass, "yd": 0.5 + 0.5 / _YARD}
    for unit, value in same.items():
        if abs(told[unit] - value) > give[unit] + 1e-6:
            yield f"{colour}: {told[unit]:g} {unit}, not {value:.1f}"


def _ball(page: Page) -> tuple[float, float]:
    """Grams and metres, each told in the other unit too."""
    line = next(block.text for block in page["Materials"] if isinstance(block, Words))
    match = _BALLS.search(line)
    if match is None:
        raise CannotWorkError("Materials", f"no ball is told of in {line!r}")
    (grams, ounces), (metres, yards) = (
        [float(re.search(rf"([\d.]+) {unit}\b", words)[1]) for unit in units]  # type: ignore[index]
        for words, units in ((match["mass"], ("g", "oz")), (match["length"], ("m", "yd")))
    )
    if abs(ounces - grams / _OUNCE) > 0.05 + 1e-6 or abs(yards - metres / _YARD) > 0.5 + 1e-6:
        raise CannotWorkError("Materials", f"a ball is not the same in both units: {line}")
    return grams, metres


def _to_buy(page: Page, names: Sequence[str], size: str) -> dict[str, dict[str, float]]:
    """By colour, empty where there is one, and unit."""
    grid = next(
        block for block in page["Materials"] if isinstance(block, Grid) and block.rows[0][0] == "balls"
    )
    told: dict[str, dict[str, float]] = {}
    for unit, *cells in grid.rows:
        for colour, cell in zip(grid.header[1:], cells, strict=True):
            figure = float(size_values(cell, names)[size])
            told.setdefault("" if colour == "amount" else colour, {})[unit] = figure
    return told


def _grams(page: Page, made: Finished, spec: Spec) -> dict[str, float]:
    """Of each colour in the pieces: stitches in hand, each as heavy as one of its swatch."""
    colours = spec.get("yarn_use", {}).get("colours", {})
    grams: dict[str, float] = {}
    for part, count in _stitches(made).items():
        key = _PARTS[part]
        fabric = spec["fabrics"][spec["parts"][key]]
        swatch, gauge = fabric["swatch"], gauges(page)[part]
        area = _cm(swatch["width"], spec) * _cm(swatch["height"], spec)
        each = 1 / (gauge[0] * gauge[1])
        colour = colours.get(key, "")
        grams[colour] = grams.get(colour, 0.0) + count * each / area * swatch["mass"]
    return grams


def _stitches(made: Finished) -> dict[str, int]:
    """Worked in each part, both arm bands."""
    return {
        "Body": made.body_stitches,
        "Centre panel": made.panel_foot * made.panel_rows,
        "Neck band": made.neck_band_stitches * made.neck_band_rows,
        "Arm bands": 2 * made.arm_band_stitches * made.arm_band_rows,
    }


def _cm(length: object, spec: Spec) -> float:
    number, _, unit = str(length).partition(" ")
    inches = unit == "in" or (not unit and spec.get("unit") == "in")
    return float(Fraction(number)) * (_INCH if inches else 1)
