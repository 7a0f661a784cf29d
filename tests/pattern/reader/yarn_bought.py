"""Yarn to buy, as the text tells it, against the grams of the stitches in hand: closed forms, no garment."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from tests.pattern.reader.complaint import CannotWorkError
from tests.pattern.reader.maker import Finished, chosen_in
from tests.pattern.reader.measures import size_values
from tests.pattern.reader.page import Grid, Page, Words, read_page

Spec = Mapping[str, Any]

_OUNCE, _YARD = 28.349523125, 0.9144
"""Grams and metres; exact by the international agreement of 1959."""

_BUY_G = 0.6
"""What is to be bought is printed to a gram; a tenth for sums of floats."""

_DRIFT = 0.02
"""A maker's hand over the swatch's (common practice, no source)."""

_BALLS = re.compile(r", in balls of (?P<mass>[^,]+), (?P<length>[^,]+)\.$")
_PARTS = {"Body": "body", "Centre panel": "centre_panel", "Neck band": "neck_band", "Arm bands": "arm_bands"}


def wrong_materials(markdown: str, size: str, made: Finished, spec: Spec) -> list[str]:
    """What is wrong with the yarn that the text has the maker of that size buy, in words."""
    page = read_page(markdown)
    mass, length = _ball(page)
    pieces, names = pieces_of(made, spec), chosen_in(page, size).names
    margin = spec.get("yarn_use", {}).get("margin", 0.1)
    faults = []
    for colour, told in _to_buy(page, names, size).items():
        masses = {name: grams for name, (of, grams) in pieces.items() if of == colour}
        net, error, step = _worked_in(page, colour, names, size)
        faults += [
            *_faults(colour, told, sum(masses.values()), (mass, length)),
            *_in_poncho(colour, net, error, step, masses, spec),
        ]
        least, most = _bought(net, error, step, margin)
        if not least - _BUY_G <= told["g"] <= most + _BUY_G:
            faults.append(f"{colour}: {told['g']:g} g to buy of {net:g} g, give or take {error:g} g")
    return faults


def _bought(net: float, error: float, step: float, margin: float) -> tuple[float, float]:
    """The least and the most grams to buy for a poncho's grams and their error, both printed to that step."""
    nets = net - step / 2, net + step / 2
    errors = 0.0 if error <= step else error - step / 2, error + step / 2
    least, most = (each + max(margin * each, wrong) for each, wrong in zip(nets, errors, strict=True))
    return least, most


def _worked_in(page: Page, colour: str, names: Sequence[str], size: str) -> tuple[float, float, float]:
    """Grams in the poncho itself, give or take how many, and the step of both: one gram or 0.1 oz."""
    head = f"In the poncho itself{f' of {colour}' if colour else ''}: "
    (line,) = (
        block.text for block in page["Materials"] if isinstance(block, Words) and block.text.startswith(head)
    )
    found = re.fullmatch(r"(.+) (g|oz), give or take (.+) \2\.", line.removeprefix(head))
    if found is None:
        raise CannotWorkError("Materials", f"no mass is told in {line!r}")
    unit, step = (_OUNCE, 0.1) if found[2] == "oz" else (1.0, 1.0)
    net, error = (float(size_values(found[place], names)[size]) * unit for place in (1, 3))
    return net, error, step * unit


def _in_poncho(
    colour: str, net: float, error: float, step: float, masses: Mapping[str, float], spec: Spec
) -> Iterator[str]:
    """No less than the pieces, and thread; the errors of one fabric together, those of several by themselves.

    A swatch is read to half a stitch, half a row and a gram. No less than a step is told as give or take.
    """
    if not sum(masses.values()) - 1.5 <= net <= 1.4 * sum(masses.values()) + 30:
        yield f"{colour}: {net:g} g in the poncho, {sum(masses.values()):.1f} g in the pieces"
    by_fabric: dict[str, float] = {}
    for part, grams in masses.items():
        fabric = spec["parts"][_PARTS[part]]
        by_fabric[fabric] = by_fabric.get(fabric, 0.0) + grams
    squares = 0.0
    for name, grams in by_fabric.items():
        swatch = spec["fabrics"][name]["swatch"]
        parts = (0.5 / swatch["stitches"], 0.5 / swatch["rows"], 1 / swatch["mass"], _DRIFT)
        squares += sum((grams * each) ** 2 for each in parts)
    expected = max(squares**0.5, step)
    if not error or abs(error - expected) > 1.5:
        yield f"{colour}: give or take {error:g} g, not {expected:.2f}"


def _faults(colour: str, told: Mapping[str, float], grams: float, ball: tuple[float, float]) -> Iterator[str]:
    """Balls are as few as hold what is to be bought, and that is no less than the pieces take."""
    mass, length = ball
    bought, buy = told["balls"] * mass, told["g"]
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


def pieces_of(made: Finished, spec: Spec) -> dict[str, tuple[str, float]]:
    """Colour and grams of each part: the stitches in hand, each as heavy as one of its swatch."""
    colours = spec.get("yarn_use", {}).get("colours", {})
    found = {}
    for part, count in _stitches(made).items():
        swatch = spec["fabrics"][spec["parts"][_PARTS[part]]]["swatch"]
        each = swatch["mass"] / (swatch["stitches"] * swatch["rows"])
        found[part] = colours.get(_PARTS[part], "main colour" if colours else ""), count * each
    return found


def _stitches(made: Finished) -> dict[str, int]:
    """Worked in each part, both arm bands."""
    return {
        "Body": made.body_stitches,
        "Centre panel": made.panel_stitches,
        "Neck band": made.neck_band_stitches * made.neck_band_rows,
        "Arm bands": 2 * made.arm_band_stitches * made.arm_band_rows,
    }
