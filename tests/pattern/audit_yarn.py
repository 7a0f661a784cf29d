"""Holding the yarn of a page of figures against closed forms of the spec's numbers."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from tests.pattern.audit_increases import increases_told
from tests.pattern.reading import Page
from tests.pattern.recompute import Anew, Spec, cloth

PART_KEYS = {
    "body": "body",
    "centre panel": "centre_panel",
    "neck band": "neck_band",
    "arm band": "arm_bands",
}


_DRIFT = 0.02
"""A maker's hand over the swatch's (common practice, no source)."""


def audit_yarn(spec: Spec, size: Spec, made: Anew, page: Page, index: int) -> Iterator[str]:
    """Grams, as printed whole, of the stitches of every row."""
    use = spec["yarn_use"]
    colours: dict[str, Any] = {}
    for part in made.rows:
        colour = use.get("colours", {}).get(PART_KEYS[part], "")
        grams = _stitches(part, size, made, page, index) * float(cloth(spec, PART_KEYS[part]).grams)
        name = part + (" ×2" if part == "arm band" else "") + (f", {colour}" if colour else "")
        told = page.size_strings("Yarn", "In the pieces, without joins and tails", name, "g")[index]
        if abs(float(told) - grams) > 0.5 + 1e-9:
            yield f"{part}: told {told} g, expected {grams:.2f} g"
        colours.setdefault(colour, {"g": 0.0, "cm": 0.0, "by_fabric": {}})
        by_fabric = colours[colour]["by_fabric"]
        fabric = spec["parts"][PART_KEYS[part]]
        by_fabric[fabric] = by_fabric.get(fabric, 0.0) + grams
        colours[colour]["g"] += grams
        colours[colour]["cm"] += _thread_cm(part, made, use)
    for colour, sums in colours.items():
        error = math.hypot(
            *(_error(spec["fabrics"][name]["swatch"]) * grams for name, grams in sums["by_fabric"].items())
        )
        yield from _colour(spec, colour, sums["g"], sums["cm"], error, page, index)
        yield from _amount(page, index, colour, "in the poncho, give or take", error, 0.5 + 1e-9)


def _error(swatch: Any) -> float:
    """Half a stitch, half a row, one gram and the maker's hand, as the root of the squares."""
    reading = (0.5 / swatch["stitches"], 0.5 / swatch["rows"], 1 / swatch["mass"])
    return float(math.hypot(*reading, _DRIFT))


def _stitches(part: str, size: Spec, made: Anew, page: Page, index: int) -> int:
    """Row by row, a body worked from the neck down with the increases that the page tells."""
    if part != "body":
        return made.stitches[part] * made.rows[part] * (2 if part == "arm band" else 1)
    body, counted = size["body"], 0
    if "width" in body:
        neck_rows = range(
            body["back_rows"] - body["neck_back_rows"], body["back_rows"] + body["neck_front_rows"]
        )
        for row in range(made.rows["body"]):
            slot = body["slot"] if row >= neck_rows.stop else 0
            counted += body["width"] - (body["neck"] if row in neck_rows else slot)
        return counted
    by_row, wide = increases_told(body, page, index), body["neck"]
    for row in range(1, made.rows["body"] + 1):
        wide += by_row.get(row, 0)
        counted += wide
    return int(counted)


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
    spec: Spec, colour: str, parts_g: float, thread_cm: float, error_g: float, page: Page, index: int
) -> Iterator[str]:
    ball_g, ball_m = spec["yarn"]["ball_mass"], spec["yarn"]["ball_length"]
    margin, tail = spec["yarn_use"]["margin"], float(spec["yarn_use"]["tail"].split()[0])
    thread_cm += max(0, math.ceil(parts_g / ball_g) - 1) * 2 * tail
    net = parts_g + thread_cm / 100 * ball_g / ball_m
    buy = net + max(net * margin, error_g)
    margin_words = {0.0: "0 %", 0.1: "10 %", 0.125: "12.5 %"}[margin]
    yield from _amount(page, index, colour, "joins and tails", thread_cm / 100, 0.051)
    yield from _amount(page, index, colour, "in the poncho", net, 0.5 + 1e-9)
    usual, larger = (
        f"to buy, with {words} to spare"
        for words in (margin_words, f"the larger of {margin_words} and the give or take")
    )
    told = f"{colour}: {larger}" if colour else larger
    rows = [row["yarn"] for row in page.table("Yarn", "In all")]
    if error_g > net * margin and told not in rows:
        yield f"{colour}: nothing is said of a give or take over the margin"
    yield from _amount(page, index, colour, larger if told in rows else usual, buy, 0.5 + 1e-9)
    metres = buy * ball_m / ball_g
    yield from _amount(page, index, colour, "to buy, in metres", metres, 0.5 + 1e-9)
    yield from _amount(page, index, colour, "to buy, in yards", metres / 0.9144, 0.5 + 1e-9)
    prefix = f"{colour}: " if colour else ""
    balls = int(page.size_strings("Yarn", "In all", f"{prefix}balls to buy", "amount")[index])
    if balls != math.ceil(buy / ball_g - 1e-9):
        yield f"{prefix}balls: told {balls}, expected {buy / ball_g:.3f} rounded up"
