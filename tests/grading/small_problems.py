"""Small grading problems by number: two or three sizes of a random design, some of their counts left out."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from typing import Any

import yaml

from schematics.wearer.body import Body, Wearer, WearerSpec
from schematics.wearer.resolve import resolve

Counts = dict[str, int]

_MOST = 300.0
"""The most combinations of counts of a size within 5 cm of fitting."""

_CHARTS = (
    ("baby/12 mo", "baby/18 mo", "baby/24 mo"),
    ("child/2", "child/4", "child/6"),
    ("child/6", "child/8", "child/10"),
    ("child/10", "child/14", "woman/S"),
    ("woman/S", "woman/M", "woman/L"),
)
_BANDS = {"neck_band.stitches": "neck_band.depth", "arm_bands.stitches": "arm_band.depth"}
_PANEL = {"panel.stitches": "panel.width", "panel.rows": "panel.length"}
_HEM_ARMS = {"arms.from_front": "arm.from_front", "arms.stitches": "arm.run"}
KEYS = {
    "flared": {
        "body.neck": "neck.edge", "body.hem": "body.hem", "body.rows": "body.depth", **_HEM_ARMS, **_PANEL,
        **_BANDS,
    },
    "mitred": {
        "body.neck": "neck.edge", "body.increase_rows": "body.hem", "body.rows": "body.depth", **_HEM_ARMS,
        **_PANEL, **_BANDS,
    },
    "folded": {
        "body.width": "body.width", "body.front_rows": "body.front", "body.back_rows": "body.back",
        "body.neck": "body.neck_width", "body.neck_front_rows": "body.neck_front",
        "body.neck_back_rows": "body.neck_back", "body.slot": "body.slot", "arms.rows": "arm.opening",
        **_PANEL, **_BANDS,
    },
}  # fmt: skip
"""The counts of a construction, each with a measurement that an intent is stated for."""
_MEASURES = {
    "neck.edge": Body.HEAD_GIRTH, "body.neck_width": Body.HEAD_GIRTH, "body.hem": Body.CHEST_GIRTH,
    "body.width": Body.CHEST_GIRTH, "arm.from_front": Body.CHEST_GIRTH, "arm.run": Body.HAND_GIRTH,
    "arm.opening": Body.HAND_GIRTH,
}  # fmt: skip


class SmallProblem:
    """The problem of that number: the ``text`` of its spec, and counts of each size that about ``fit``.

    Args:
        number: which one.
        intervals: from a construction to the rows from one row of regular increases to the next that its
            bodies may be shaped with.
    """

    def __init__(self, number: int, intervals: Callable[[str], Sequence[float]]) -> None:
        self.dice = random.Random(f"small grading {number}")
        self.construction = ("flared", "mitred", "folded")[number % 3]
        self.keys = KEYS[self.construction]
        self.intervals = intervals(self.construction)
        self.fabrics = self._fabrics()
        self.lines = 0
        self.panel_cm = self.dice.uniform(8, 14)
        self.exact = self.construction != "folded" and self.dice.random() < 0.35
        self.parts = {
            "neck.edge": self.dice.uniform(0.9, 1.12),
            "hem": self.dice.uniform(2.6, 3.3),
            "depth": self.dice.uniform(0.22, 0.36),
            "run": self.dice.uniform(0.97, 1.25),
            "from_front": self.dice.uniform(0.16, 0.26),
        }
        self.fit: list[Counts] = []
        self.text = yaml.safe_dump(self._spec(), sort_keys=False)

    def _spec(self) -> dict[str, Any]:
        charts = self.dice.choice(_CHARTS)[: self.dice.choice((2, 2, 3))]
        wearers = [self._wearer(chart) for chart in charts]
        bodies = [_resolved(wearer) for wearer in wearers]
        every = self.dice.choice(self.intervals)
        counts = self.fit = [self._counts(body, every) for body in bodies]
        free = self._free()
        sizes: dict[str, Any] = {}
        for at, (wearer, size) in enumerate(zip(wearers, counts, strict=True)):
            left_out = [count for count in free if self.dice.random() < 0.9]
            if at and not left_out and at == len(wearers) - 1 and len(sizes) == at:
                left_out = free
            sizes[f"size {at}"] = {"wearer": wearer, **self._blocks(size, left_out, every)}
        if not any(self._lacks(size) for size in sizes.values()):
            sizes["size 0"] = {"wearer": wearers[0], **self._blocks(counts[0], free, every)}
        return {
            "title": "Small poncho", "date": "2026-01-01", "unit": "cm", "construction": self.construction,
            "yarn": {"name": "wool"}, "fabrics": self.fabrics,
            "parts": {"body": "main", "centre_panel": "panel", "neck_band": "rib", "arm_bands": "rib"},
            "grading": self._wishes(free, bodies, counts), "sizes": sizes,
        }  # fmt: skip

    def _free(self) -> list[str]:
        """One to three counts to be left out, as long as not too many combinations come near to fitting."""
        names = self.dice.sample(sorted(self.keys), self.dice.choice((1, 2, 2, 3)))
        number = 1.0
        free: list[str] = []
        for name in names:
            number *= 10 / self._unit_cm(name)
            if not free or number < _MOST:
                free.append(name)
        return free

    def _unit_cm(self, name: str) -> float:
        fabric = {"panel": "panel", "neck_band": "rib", "arm_bands": "rib"}.get(name.split(".")[0], "main")
        return self._cm(fabric, "rows" if name.endswith("rows") else "stitches", 1)

    def _fabrics(self) -> dict[str, Any]:
        dice = self.dice

        def fabric(multiple: int, repeat: int, rows_low: float, along: float) -> dict[str, Any]:
            plus, setup = dice.choice((0, 2)) if multiple > 2 else 0, dice.randrange(2) if repeat > 2 else 0
            rows = round(20 * dice.uniform(rows_low, 1.2))
            swatch = {"stitches": dice.randint(18, 30), "rows": rows, "width": 20, "height": 20}
            return {
                "stitch": "half double crochet", "swatch": swatch,
                "stretch": {"across": dice.choice((0.15, 0.25)), "along": along},
                **({"multiple": {"of": multiple, "plus": plus}} if multiple > 1 else {}),
                **({"row_repeat": {"rows": repeat, "setup": setup}} if repeat > 1 else {}),
            }  # fmt: skip

        return {
            "main": fabric(dice.choice((1, 1, 1, 1, 2)), dice.choice((1, 1, 1, 2)), 0.7, 0.1),
            "panel": fabric(dice.choice((1, 2, 4, 6)), dice.choice((1, 2, 4, 8)), 0.7, 0.08),
            "rib": fabric(1, dice.choice((1, 1, 2)), 0.8, 0.4),
        }

    def _wearer(self, chart: str) -> Any:
        """A chart row, one with measurements of its own, or measurements only."""
        if self.dice.random() < 0.6:
            return chart
        body = _resolved(chart)
        known = [each for each in (Body.HEAD_GIRTH, Body.HEIGHT, Body.HAND_GIRTH) if body.get(each)]
        if self.dice.random() < 0.3:
            known = list(body.values)
            chart = ""
        own = {each.value: round(_cm(body, each) * self.dice.uniform(0.97, 1.03), 1) for each in known}
        return {**({"chart": chart} if chart else {}), **{key: f"{cm} cm" for key, cm in own.items()}}

    def _counts(self, body: Wearer, every: float) -> Counts:
        """Counts that fit more or less."""
        panel = self._nearest("panel", "stitches", self.panel_cm)
        bands = {
            "neck_band.stitches": self._nearest("rib", "stitches", 4),
            "arm_bands.stitches": self._nearest("rib", "stitches", 6),
        }
        depth_cm = self.parts["depth"] * _cm(body, Body.HEIGHT)
        if self.construction == "folded":
            return self._folded(body, depth_cm, panel) | bands
        panel_rows = self._nearest("panel", "rows", depth_cm)
        rows = self._nearest("main", "rows", self._cm("panel", "rows", panel_rows))
        neck_cm = self.parts["neck.edge"] * _cm(body, Body.HEAD_GIRTH) - self._cm("panel", "stitches", panel)
        neck = self._nearest("main", "stitches", neck_cm)
        neck += (neck + panel) % 2 if self._multiple == 1 else 0
        hem = self._nearest("main", "stitches", self.parts["hem"] * _cm(body, Body.CHEST_GIRTH))
        there_are = math.ceil((rows - 1) / every)
        number = self.dice.randint(math.ceil(there_are * 5 / 6), there_are)
        counts = {"body.neck": neck, "body.rows": rows}
        if self.construction == "flared":
            each = max(4, round((hem - neck) / number))
            hem = counts["body.hem"] = neck + number * (each + each % self._multiple)
        else:
            self.lines = self.lines or min(8, max(2, math.ceil((hem - neck) / 2 / number)))
            counts["body.neck"] = neck = neck + neck % 2 * (self.lines % 2)
            counts["body.increase_rows"] = number
            hem = neck + 2 * self.lines * number
        run = self._nearest("main", "stitches", self.parts["run"] * _cm(body, Body.HAND_GIRTH))
        return counts | bands | {
            "arms.from_front": round(self.parts["from_front"] * hem), "arms.stitches": run + run % 2,
            "panel.stitches": panel, "panel.rows": panel_rows,
        }  # fmt: skip

    def _folded(self, body: Wearer, depth_cm: float, panel: int) -> Counts:
        width = self._nearest("main", "stitches", self.parts["hem"] / 2 * _cm(body, Body.CHEST_GIRTH))
        neck_front, neck_back = self._nearest("main", "rows", 5), self._nearest("main", "rows", 2)
        edge_cm = max(depth_cm - self._cm("main", "rows", neck_front), 8)
        panel_rows = self._nearest("panel", "rows", edge_cm)
        front = neck_front + round(self._cm("panel", "rows", panel_rows) / self._cm("main", "rows", 1))
        slot = self._nearest("main", "stitches", self._cm("panel", "stitches", panel))
        neck = max(
            slot,
            self._nearest("main", "stitches", 0.36 * self.parts["neck.edge"] * _cm(body, Body.HEAD_GIRTH)),
        )
        slot -= (neck - slot) % 2 and slot > 1
        opening = self._nearest("main", "rows", self.parts["run"] * _cm(body, Body.HAND_GIRTH))
        return {
            "body.width": width + (width - neck) % 2, "body.front_rows": front, "body.back_rows": front,
            "body.neck": neck, "body.neck_front_rows": neck_front, "body.neck_back_rows": neck_back,
            "body.slot": slot, "arms.rows": opening + opening % 2, "panel.stitches": panel,
            "panel.rows": panel_rows,
        }  # fmt: skip

    @property
    def _multiple(self) -> int:
        return int(self.fabrics["main"].get("multiple", {"of": 1})["of"])

    def _cm(self, fabric: str, counted: str, count: float) -> float:
        swatch = self.fabrics[fabric]["swatch"]
        return float(count * 20 / swatch[counted])

    def _nearest(self, fabric: str, counted: str, length_cm: float) -> int:
        """The count of the pattern that comes nearest to a length."""
        asks = self.fabrics[fabric].get("multiple" if counted == "stitches" else "row_repeat", {})
        multiple = asks.get("of", asks.get("rows", 1))
        plus = asks.get("plus", asks.get("setup", 0))
        repeats = round((length_cm / self._cm(fabric, counted, 1) - plus) / multiple)
        return int(max(1, repeats) * multiple + plus)

    def _blocks(self, counts: Counts, left_out: Sequence[str], every: float) -> dict[str, Any]:
        """The blocks of a size, without the counts that are left out."""
        found: dict[str, Any] = {"body": {}}
        if self.construction == "mitred":
            found["body"]["lines"] = self.lines
        if self.construction == "folded" and self.dice.random() < 0.2:
            found["body"]["side_seam"] = False
        by_hand = self.dice.random() < (0.5 if self.exact else 0.1)
        if self.construction != "folded" and every == int(every) and by_hand:
            found["body"]["increase_every"] = every
        for name, value in counts.items():
            block, key = name.split(".")
            if name not in left_out:
                found.setdefault(block, {})[key] = value
        return found

    def _lacks(self, size: dict[str, Any]) -> bool:
        return any(name.split(".")[1] not in size.get(name.split(".")[0], {}) for name in self.keys)

    def _wishes(
        self, free: Sequence[str], bodies: Sequence[Wearer], counts: Sequence[Counts]
    ) -> dict[str, Any]:
        dice = self.dice
        others = [name for name in self.keys if name not in free and dice.random() < 0.15]
        intents = {self.keys[name]: self._intent(name, bodies, counts) for name in (*free, *others)}
        more: dict[str, Any] = {}
        if dice.random() < 0.4:
            more["weights"] = {key: dice.choice((0, 0.3, 2)) for key in intents if dice.random() < 0.5}
        if dice.random() < 0.4:
            more["tolerance"] = {
                key: round(dice.uniform(0.3, 4), 1) for key in intents if dice.random() < 0.5
            }
        if dice.random() < 0.5:
            more["steps"] = dice.choice((0, 1, 3))
        if dice.random() < 0.5:
            more["mind"] = dice.choice((0, 0.5, 3))
        if self.exact:
            more["increases"] = "exact"
        return {"intent": intents, **more}

    def _intent(self, name: str, bodies: Sequence[Wearer], counts: Sequence[Counts]) -> Any:
        """A length for each size that is near what its counts come to, and seldom far from it."""
        lengths = [self._length_cm(name, each) for each in counts]
        near = self.dice.gauss(1, 0.03) if self.dice.random() < 0.8 else self.dice.uniform(0.8, 1.25)
        if self.keys[name].startswith("panel.w") or self.dice.random() < 0.1:
            return round(max(0.5, lengths[0] * near), 1)
        measure = _MEASURES.get(self.keys[name], Body.HEIGHT)
        return {"measure": measure.value, "part": round(lengths[-1] * near / _cm(bodies[-1], measure), 3)}

    def _length_cm(self, name: str, counts: Counts) -> float:
        length = self._unit_cm(name) * counts[name]
        if name == "body.increase_rows":
            neck = counts["body.neck"] + 2 * self.lines * counts[name]
            return self._cm("main", "stitches", neck)
        if self.keys[name] == "neck.edge":
            return length + self._cm("panel", "stitches", counts["panel.stitches"])
        return length


def _resolved(wearer: Any) -> Wearer:
    if isinstance(wearer, str):
        return resolve(WearerSpec(chart=wearer), "size")
    own = {Body(key): float(value.split()[0]) for key, value in wearer.items() if key != "chart"}
    return resolve(WearerSpec(chart=wearer.get("chart"), own=own), "size")


def _cm(body: Wearer, measure: Body) -> float:
    value = body.get(measure)
    assert value is not None
    return value.cm
