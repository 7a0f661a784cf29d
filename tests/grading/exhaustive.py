"""Small grading problems whose best answer is found by looking at every answer.

The neck and the depth of its band are to be found in three sizes. What the checks ask of them is
written out here from the wearers' measurements, without the program's rules, costs or solver.
"""

from __future__ import annotations

import itertools
import random
from pathlib import Path

from schematics.wearer.body import Body, Value, WearerSpec
from schematics.wearer.resolve import resolve

TEMPLATE = (Path(__file__).parents[2] / "specs" / "sandpiper.yaml").read_text("utf-8")
CHARTS = ("child/2", "child/4", "child/6", "child/8", "child/10", "child/12")
STITCH, PANEL, RIB_ROW, RIB_STITCH = 20 / 27, 20 / 30, 20 / 30, 20 / 28
"""Centimetres of one stitch of body, panel, one ribbing row and one ribbing stitch, from the swatches."""
FEWER = 0.001
MIND, STEPS = 20.0, 0.2


class SmallProblem:
    """One random problem: its spec, and what the best answer costs."""

    def __init__(self, seed: int) -> None:
        dice = random.Random(seed)
        first = dice.randrange(len(CHARTS) - 2)
        self.charts = CHARTS[first : first + 3]
        self.part = round(dice.uniform(0.85, 1.05), 2)
        self.weight = dice.choice((0.5, 1.0, 2.0))
        self.depth_part = round(dice.uniform(0.03, 0.06), 3)
        self.by_hand = dice.choice((None, None, 48, 50, 52))
        self.wearers = [resolve(WearerSpec(chart=chart), chart) for chart in self.charts]

    @property
    def text(self) -> str:
        head = TEMPLATE[: TEMPLATE.index("# How it should fit.")]
        hand = "" if self.by_hand is None else f"neck: {self.by_hand}, "
        arms = "arms: {from_front: 52, stitches: 28}, arm_bands: {stitches: 11}"
        rest = f"{arms}, panel: {{stitches: 20, rows: 42}}}}\n"
        return (
            f"{head}limits: {{reach_forearm_fraction: 2, reach_hand_cm: 90, spread_fraction: 0.2, "
            "girth_ease_cm: 0, arm_rest_high_fraction: 2, short_above_waist_cm: 40}\n"
            "grading:\n  intent:\n"
            f"    neck.edge: {{measure: head_girth, part: {self.part}}}\n"
            f"    neck_band.depth: {{measure: head_girth, part: {self.depth_part}}}\n"
            f"  weights: {{neck.edge: {self.weight}}}\n"
            "sizes:\n"
            + "".join(
                f'  "{at}": {{wearer: {chart}, body: {{{hand if at == 1 else ""}hem: 236, rows: 35}}, {rest}'
                for at, chart in enumerate(self.charts)
            )
        )

    def _value(self, at: int, body: Body) -> Value:
        value = self.wearers[at].get(body)
        assert value is not None
        return value

    def necks(self, at: int) -> dict[int, float]:
        """What each neck that can be made and worn costs in one size, in stitches of the body's neck."""
        found = {}
        head, neck, breadth = (
            self._value(at, each) for each in (Body.HEAD_GIRTH, Body.NECK_GIRTH, Body.SHOULDER_BREADTH)
        )
        for stitches in range(20, 90, 2):
            if at == 1 and self.by_hand is not None and stitches != self.by_hand:
                continue
            edge, band = stitches * STITCH + 20 * PANEL, (stitches + 20) * RIB_ROW
            full = min(stitches * STITCH * 1.2 + 20 * PANEL * 1.1, band * 1.4)
            if full < head.high_cm - 1e-9 or min(edge, band) < neck.high_cm + 2 - 1e-9:
                continue
            cost = self.weight * abs(edge - self.part * head.cm) + FEWER * stitches
            slips = min(edge, band) / 2 / breadth.cm > 0.9 + 1e-9
            found[stitches] = cost + MIND * slips
        return found

    def bands(self, at: int) -> dict[int, float]:
        """What each depth of the neck band costs in one size."""
        target = self.depth_part * self._value(at, Body.HEAD_GIRTH).cm
        return {each: abs(each * RIB_STITCH - target) + FEWER * each for each in range(1, 15)}

    def best(self) -> float | None:
        """The least cost of the counts to be found; None where nothing can be made."""
        necks = self._least([self.necks(at) for at in range(3)], STITCH, self.weight)
        bands = self._least([self.bands(at) for at in range(3)], RIB_STITCH, 1.0)
        return None if necks is None or bands is None else necks + bands

    def cost(self, necks: list[int], bands: list[int]) -> float:
        """What these counts cost."""
        own = sum(self.necks(at)[necks[at]] + self.bands(at)[bands[at]] for at in range(3))
        return own + STEPS * (
            self.weight * STITCH * abs(necks[0] - 2 * necks[1] + necks[2])
            + RIB_STITCH * abs(bands[0] - 2 * bands[1] + bands[2])
        )

    def _least(self, choices: list[dict[int, float]], unit: float, weight: float) -> float | None:
        costs = [
            sum(choice[value] for choice, value in zip(choices, trio, strict=True))
            + STEPS * weight * unit * abs(trio[0] - 2 * trio[1] + trio[2])
            for trio in itertools.product(*choices)
            if trio[0] <= trio[1] <= trio[2]
        ]
        return min(costs, default=None)
