"""Random designs with everything the figures use: masses, balls, colours, multiples, increase rows."""

from __future__ import annotations

import random
from typing import Any

from schematics.design.design import Design
from schematics.garment.constructions import CONSTRUCTIONS
from tests.drawing.designs import as_text, random_spec, read_spec
from tests.pattern.recompute import hem_count

Spec = dict[str, Any]

WORDS = tuple(CONSTRUCTIONS)


def dressed_spec(number: int) -> Spec:
    """The spec of that number; the constructions take turns, and the same number gives the same."""
    word = WORDS[number % len(WORDS)]
    spec = random_spec(word, number)
    dice = random.Random(f"figures {number}")
    spec["yarn"] |= {"ball_mass": dice.choice((25, 50, 100)), "ball_length": dice.choice((45, 95, 120, 210))}
    for fabric in spec["fabrics"].values():
        over = float(fabric["swatch"]["width"].split()[0])
        fabric["swatch"]["mass"] = round(over**2 * dice.uniform(0.04, 0.14), 1)
    first = next(iter(spec["sizes"].values()))
    panel = spec["fabrics"][spec["parts"]["centre_panel"]]
    multiple, repeat = dice.choice((1, 2, 4, 6)), dice.choice((1, 2, 4, 8))
    panel["multiple"] = {"of": multiple, "plus": first["panel"]["stitches"] % multiple}
    setup = dice.randrange(3)
    panel["row_repeat"] = {
        "rows": repeat,
        "setup": setup,
        "closing": (first["panel"]["rows"] - setup) % repeat,
    }
    for size in spec["sizes"].values():
        _spaced(word, size["body"], dice)
        if number % 4 == 3 and word != "folded":
            _regular(size["body"], size["arms"], every=1 + number // 3 % 3)
    use = {"margin": dice.choice((0.0, 0.1, 0.125)), "tail": f"{dice.choice((10, 15, 20))} cm"}
    if dice.random() < 0.5:
        use["seam_thread"] = round(dice.uniform(2, 5), 1)
    if dice.random() < 0.5:
        use["colours"] = {part: dice.choice(("sand", "fog")) for part in spec["parts"]}
    spec["yarn_use"] = use
    return spec


def _spaced(word: str, body: dict[str, Any], dice: random.Random) -> None:
    """Increases on some rows only, where the rows allow it."""
    every = dice.choice((1, 1, 2, 3))
    rows_for_them = len(range(2, body.get("rows", 0) + 1, every))
    if word == "flared" or (word == "mitred" and rows_for_them >= body["increase_rows"]):
        body["increase_every"] = every


def _regular(body: dict[str, Any], arms: dict[str, Any], every: int) -> None:
    """As many increases in every increase row, and a few rows without at the hem; the arms follow it."""
    rows = len(range(2, body["rows"] + 1, every)) * 5 // 6
    if rows < 2:
        return
    before = hem_count(body)
    body |= {"increase_every": every, "increase_until": 2 + every * (rows - 1)}
    if "lines" in body:
        body["increase_rows"] = rows
    else:
        body["hem"] = body["neck"] + rows * max(2, (body["hem"] - body["neck"]) // rows)
    arms["from_front"] = arms["from_front"] * hem_count(body) // before
    arms["stitches"] = max(2, arms["stitches"] * hem_count(body) // before // 2 * 2)


def design_of(spec: Spec, number: int) -> Design:
    """The design such a spec describes."""
    return read_spec(as_text(spec), f"design-{number}")
