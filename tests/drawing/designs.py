"""Random designs in the ranges real ones fall in, as specs, so that any of them can be built by hand.

A construction joins by one function in `SIZES`: from random measures and a gauge to one size's ``body:``
and ``arms:`` blocks.
"""

from __future__ import annotations

import math
import random
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import yaml

from schematics.design.design import Design
from schematics.reading.design_file import read_design
from schematics.reading.spec_block import LARGEST_COUNT

Spec = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows to the centimetre."""

    stitches: float
    rows: float

    def stitches_in(self, length_cm: float, least: int = 2) -> int:
        return max(least, round(length_cm * self.stitches))

    def rows_in(self, length_cm: float, least: int = 1) -> int:
        return max(least, round(length_cm * self.rows))


@dataclass(frozen=True, slots=True)
class Body:
    """The blocks of one size that depend on its construction; the panel is seamed to ``front_cm``."""

    body: Mapping[str, int]
    arms: Mapping[str, int]
    front_cm: float


@dataclass(frozen=True, slots=True)
class Shape:
    """What the sizes of one design have in common; lengths are those of the largest, in cm.

    ``places`` are shares from nought to one, for whatever a construction has to choose besides.
    """

    neck: float
    depth: float
    opening: float
    run: float
    run_place: float
    panel: float
    lines: int
    places: tuple[float, float, float]

    def smaller(self, growth: float) -> Shape:
        return replace(self, neck=self.neck * growth**0.3, depth=self.depth * growth)


def _flared(shape: Shape, gauge: Gauge) -> Body:
    neck, rows = gauge.stitches_in(shape.neck), gauge.rows_in(shape.depth)
    depth = rows / gauge.rows
    hem = min(LARGEST_COUNT, max(neck, gauge.stitches_in(neck / gauge.stitches + shape.opening * depth)))
    return Body({"neck": neck, "hem": hem, "rows": rows}, _hem_arms(shape, hem, gauge), depth)


def _mitred(shape: Shape, gauge: Gauge) -> Body:
    neck = 2 * max(shape.lines, gauge.stitches_in(shape.neck / 2))
    rows = gauge.rows_in(shape.depth, least=2)
    depth = rows / gauge.rows
    lean = min(1.2, shape.opening / (2 * shape.lines))
    increase_rows = min(rows - 1, gauge.stitches_in(depth * math.tan(lean), least=1))
    hem = neck + 2 * shape.lines * increase_rows
    body = {"neck": neck, "lines": shape.lines, "rows": rows, "increase_rows": increase_rows}
    return Body(body, _hem_arms(shape, hem, gauge), depth)


def _hem_arms(shape: Shape, hem: int, gauge: Gauge) -> dict[str, int]:
    run = max(2, 2 * int(min(shape.run * gauge.stitches, hem / 2) / 2))
    return {"from_front": round(max(0, hem // 2 - run) * shape.run_place), "stitches": run}


def _folded(shape: Shape, gauge: Gauge) -> Body:
    neck = 2 * gauge.stitches_in(shape.neck * 0.18)
    slot = 2 * max(1, round(min(gauge.stitches * shape.panel, neck) / 2))
    width = neck + 2 * gauge.stitches_in(10 + shape.opening / math.tau * 45)
    back = gauge.rows_in(shape.depth, least=6)
    front = max(6, round(back * (0.85 + 0.3 * shape.places[0])))
    neck_front = 1 + round(shape.places[1] * 0.2 * front)
    neck_back = round(shape.places[2] * 0.1 * back)
    body = {"width": width, "front_rows": front, "back_rows": back, "neck": neck}
    body |= {"neck_front_rows": neck_front, "neck_back_rows": neck_back, "slot": slot}
    rows = max(2, 2 * int(min(shape.run * gauge.rows / 2, min(front, back) * 0.9)))
    return Body(body, {"rows": rows}, (front - neck_front) / gauge.rows)


SIZES: Mapping[str, Callable[[Shape, Gauge], Body]] = {
    "flared": _flared,
    "mitred": _mitred,
    "folded": _folded,
}
"""How to make up a size, by the construction's word."""

_STITCHES = (
    "single crochet",
    "half double crochet",
    "half double crochet in the back loop",
    "raised ripple stitch",
    "cables of front post double crochet on a ground of half double crochet",
)
_FABRICS = ("main", "rib", "panel of cables and popcorn stitches", "ribbing, one hook size down", "ground")
_TITLES = (
    "Fen",
    "Harbour poncho",
    "Çapa d'Ångström",
    "A poncho for the long walk home along the shingle beach in November",
)
_WEARERS = ("baby/18 mo", "child/2", "child/4", "child/8", "child/12", "woman/S", "woman/3X", "age/6")


def random_spec(word: str, seed: int, most_sizes: int = 3) -> Spec:
    """A made-up spec of that construction; the same seed gives the same."""
    rng = random.Random(f"{word} {seed}")
    names = rng.sample(_FABRICS, rng.choice((1, 2, 3, 4)))
    swatches = {name: _swatch(rng) for name in names}
    gauges = {name: _gauge(swatch) for name, swatch in swatches.items()}
    parts = {part: rng.choice(names) for part in ("body", "centre_panel", "neck_band", "arm_bands")}
    shape = _shape(rng)
    wearers = sorted(rng.sample(_WEARERS, min(most_sizes, rng.choice((1, 1, 2, 3)))), key=_WEARERS.index)
    growth = rng.uniform(0.75, 0.98)
    return {
        "title": rng.choice(_TITLES),
        "unit": rng.choice(("cm", "in")),
        "construction": word,
        "yarn": {"name": "made up"},
        "fabrics": {
            name: {"stitch": rng.choice(_STITCHES), "swatch": swatch, "turning_chains": rng.choice((1, 2, 3))}
            for name, swatch in swatches.items()
        },
        "parts": parts,
        "sizes": {
            wearer.replace("/", " "): _size(word, rng, shape.smaller(growth**steps), wearer, parts, gauges)
            for steps, wearer in zip(reversed(range(len(wearers))), wearers, strict=True)
        },
    }


def _swatch(rng: random.Random) -> dict[str, Any]:
    """7 to 30 stitches and about as many rows to 10 cm, counted over one size of swatch or another."""
    over = rng.choice((10, 15, 20))
    stitches = rng.uniform(7, 30)
    rows = stitches * rng.uniform(0.6, 1.3)
    return {
        "stitches": round(stitches * over / 10),
        "rows": round(rows * over / 10),
        "width": f"{over} cm",
        "height": f"{over} cm",
    }


def _gauge(swatch: Mapping[str, Any]) -> Gauge:
    over = float(swatch["width"].split()[0])
    return Gauge(swatch["stitches"] / over, swatch["rows"] / over)


def _shape(rng: random.Random) -> Shape:
    """Openings up to a full circle, now and then none, and now and then more than one circle."""
    opening = rng.choice((0.0, *[rng.uniform(0, math.tau)] * 16, rng.uniform(math.tau, 2 * math.tau)))
    return Shape(
        neck=rng.uniform(36, 70),
        depth=rng.uniform(15, 75),
        opening=opening,
        run=rng.uniform(10, 30),
        run_place=rng.choice((0.0, 1.0, *[rng.random()] * 8)),
        panel=rng.uniform(4, 25),
        lines=rng.choice((1, 2, 2, 3, 4, 4, 6, 8)),
        places=(rng.random(), rng.random(), rng.choice((0.0, rng.random()))),
    )


def _size(
    word: str,
    rng: random.Random,
    shape: Shape,
    wearer: str,
    parts: Mapping[str, str],
    gauges: Mapping[str, Gauge],
) -> Spec:
    made = SIZES[word](shape, gauges[parts["body"]])
    panel = gauges[parts["centre_panel"]]
    length = made.front_cm * rng.choice((1.0, 1.0, rng.uniform(0.9, 1.1)))
    return {
        "wearer": wearer,
        "body": dict(made.body),
        "arms": dict(made.arms),
        "panel": {"stitches": panel.stitches_in(shape.panel), "rows": panel.rows_in(length)},
        "neck_band": {"stitches": gauges[parts["neck_band"]].stitches_in(rng.uniform(2, 12))},
        "arm_bands": {"stitches": gauges[parts["arm_bands"]].stitches_in(rng.uniform(2, 14))},
    }


def as_text(spec: Spec) -> str:
    """The spec as a file."""
    return yaml.safe_dump(spec, sort_keys=False, allow_unicode=True)


def read_spec(text: str, slug: str) -> Design:
    """The design such a file describes."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"{slug}.yaml"
        path.write_text(text, encoding="utf-8")
        return read_design(path)


def random_design(word: str, seed: int, most_sizes: int = 3) -> Design:
    return read_spec(as_text(random_spec(word, seed, most_sizes)), f"{word}-{seed}")
