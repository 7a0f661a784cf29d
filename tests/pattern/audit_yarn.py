"""Holding the yarn of a page of figures against closed forms of the spec's numbers."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from tests.pattern.reading import Page
from tests.pattern.recompute import Anew, Spec, cloth

PART_KEYS = {
    "body": "body",
    "centre panel": "centre_panel",
    "neck band": "neck_band",
    "arm band": "arm_bands",
}


def audit_yarn(spec: Spec, made: Anew, page: Page, index: int) -> Iterator[str]:
    """Grams are printed whole; arcs drawn as polygons may cost 1 part in 2000 of the area."""
    use = spec["yarn_use"]
    colours: dict[str, Any] = {}
    for part, area in made.areas.items():
        colour = use.get("colours", {}).get(PART_KEYS[part], "")
        grams = area * float(cloth(spec, PART_KEYS[part]).density)
        name = part + (" ×2" if part == "arm band" else "") + (f", {colour}" if colour else "")
        told = page.size_strings("Yarn", "In the pieces, without joins and tails", name, "g")[index]
        if abs(float(told) - grams) > 0.5 + grams / 2000:
            yield f"{part}: told {told} g, expected {grams:.2f} g"
        colours.setdefault(colour, {"g": 0.0, "cm": 0.0, "by_fabric": {}})
        by_fabric = colours[colour]["by_fabric"]
        fabric = spec["parts"][PART_KEYS[part]]
        by_fabric[fabric] = by_fabric.get(fabric, 0.0) + grams
        colours[colour]["g"] += grams
        colours[colour]["cm"] += _thread_cm(part, made, use)
    for colour, sums in colours.items():
        yield from _colour(spec, colour, sums["g"], sums["cm"], page, index)
        errors = [
            _error(spec["fabrics"][name]["swatch"]) * grams for name, grams in sums["by_fabric"].items()
        ]
        yield from _amount(page, index, colour, "in the poncho, give or take", math.hypot(*errors), 0.6)


def _error(swatch: Any) -> float:
    """Half a stitch, half a row and one gram, as the root of the squares."""
    return float(math.hypot(0.5 / swatch["stitches"], 0.5 / swatch["rows"], 1 / swatch["mass"]))


def _amount(page: Page, index: int, colour: str, name: str, expected: float, slack: float) -> Iterator[str]:
    told = page.size_strings("Yarn", "In all", f"{colour}: {name}" if colour else name, "amount")[index]
    if abs(float(told) - expected) > slack:
        yield f"{colour} {name}: told {told}, expected {expected:.3f}"


def _thread_cm(part: str, made: Anew, use: Any) -> float:
    """Thread in the joins counted to a part, and two tails for each piece and each seam of it."""
    factor, tail = float(use.get("seam_thread", 3.5)), float(use["tail"].split()[0])
    if part == "body":
        seams = [length for name, length in made.seam_cm.items() if name in "ABCD"]
        return factor * sum(seams) + 2 * tail * (1 + len(seams))
    if part == "centre panel":
        return 2 * tail
    band = "neck" if part == "neck band" else "arm"
    return float(factor * made.seam_cm[band] + 2 * tail * (1 if band == "neck" else 2))


def _colour(
    spec: Spec, colour: str, parts_g: float, thread_cm: float, page: Page, index: int
) -> Iterator[str]:
    ball_g, ball_m = spec["yarn"]["ball_mass"], spec["yarn"]["ball_length"]
    margin, tail = spec["yarn_use"]["margin"], float(spec["yarn_use"]["tail"].split()[0])
    thread_cm += max(0, math.ceil(parts_g / ball_g) - 1) * 2 * tail
    net = parts_g + thread_cm / 100 * ball_g / ball_m
    buy = net * (1 + margin)
    one_ball_more = math.ceil(parts_g * 1.0005 / ball_g) != math.ceil(parts_g * 0.9995 / ball_g)
    tails_m = 2 * tail / 100 if one_ball_more else 0.0
    slack = net / 2000 + tails_m * ball_g / ball_m
    margin_words = {0.0: "0 %", 0.1: "10 %", 0.125: "12.5 %"}[margin]
    yield from _amount(page, index, colour, "joins and tails", thread_cm / 100, 0.051 + tails_m)
    yield from _amount(page, index, colour, "in the poncho", net, 0.5 + slack)
    yield from _amount(page, index, colour, f"to buy, with {margin_words} to spare", buy, 0.5 + slack)
    metres, metres_slack = buy * ball_m / ball_g, slack * ball_m / ball_g
    yield from _amount(page, index, colour, "to buy, in metres", metres, 0.5 + metres_slack)
    yield from _amount(page, index, colour, "to buy, in yards", metres / 0.9144, 0.5 + metres_slack / 0.9144)
    prefix = f"{colour}: " if colour else ""
    balls = int(page.size_strings("Yarn", "In all", f"{prefix}balls to buy", "amount")[index])
    if not math.ceil((buy - slack) / ball_g) <= balls <= math.ceil((buy + slack) / ball_g):
        yield f"{prefix}balls: told {balls}, expected {buy / ball_g:.3f} rounded up"
