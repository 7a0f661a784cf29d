"""What sizes cost, in cm, as the README and the block's own words state it; how sure is as checks have it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from statistics import NormalDist
from typing import Any

import numpy as np

from schematics.checks.finding import Case
from schematics.checks.rules.short_of_sure import ShortOfSure
from schematics.crochet.fabric import Counted, Fabric
from schematics.design.design import Parts
from schematics.grading.draft import Wishes
from schematics.wearer.body import Body, Stage
from tests.wearer.tape_over_arms import girth_over_arms_cm

UNMEASURED_CM, UNSURE = 3.0, 0.25
HAIR = 1e-9

Numbers = Any
"""A number, or an array of them."""


@dataclass(frozen=True)
class Made:
    """So many cm for each of a count, which comes in repeats of so many."""

    count: str
    cm: float
    repeat: int = 1

    def times(self, factor: int) -> Made:
        """The same so many times over."""
        return Made(self.count, self.cm * factor, self.repeat)


def makings(construction: str, lines: int, parts: Parts) -> dict[str, tuple[Made, ...]]:
    """The measurements that follow from counts, each with all it is made of."""
    body, panel = parts.body, parts.centre_panel
    shared = {
        "panel.width": (_made("panel.stitches", panel, panel.stitch_rule.multiple),),
        "panel.length": (_made("panel.rows", panel, panel.row_rule.repeat),),
        "neck_band.depth": (_made("neck_band.stitches", parts.neck_band),),
        "arm_band.depth": (_made("arm_bands.stitches", parts.arm_bands),),
    }
    if construction == "folded":
        made = {name: _made(name, body) for name in _FOLDED}
        width = _made("body.width", body, body.stitch_rule.multiple)
        edge = made["body.front_rows"], made["body.neck_front_rows"].times(-1)
        hole = [made[f"body.neck_{each}_rows"].times(2) for each in ("front", "back")]
        stitches = made["body.neck"].times(2), made["body.slot"].times(-1)
        whole = {key: (made[name],) for name, key in _FOLDED.items()}
        ring = (*stitches, *hole, *shared["panel.width"])
        return shared | whole | {"body.width": (width,), "body.front_edge": edge, "neck.edge": ring}
    neck = _made("body.neck", body, body.stitch_rule.multiple)
    lined = neck, _made("body.increase_rows", body, stitches=True).times(2 * lines)
    return shared | {
        "body.hem": lined if lines else (_made("body.hem", body, body.stitch_rule.multiple),),
        "body.depth": (_made("body.rows", body, body.row_rule.repeat),),
        "arm.from_front": (_made("arms.from_front", body, stitches=True),),
        "arm.run": (_made("arms.stitches", body, parts.arm_bands.row_rule.repeat),),
        "neck.edge": (neck, *shared["panel.width"]),
    }


_FOLDED = {
    "body.front_rows": "body.front", "body.back_rows": "body.back", "body.neck": "body.neck_width",
    "body.neck_front_rows": "body.neck_front", "body.neck_back_rows": "body.neck_back",
    "body.slot": "body.slot", "arms.rows": "arm.opening",
}  # fmt: skip
MAY_SHRINK = frozenset({"body.neck_front", "body.neck_back", "body.front_edge"})
"""Measurements of which neighbours ask nothing; of all others in `makings` they do."""


def _made(name: str, fabric: Fabric, repeat: int = 1, *, stitches: bool = False) -> Made:
    across = stitches or not name.endswith("rows")
    return Made(name, fabric.length_cm(1, Counted.STITCHES if across else Counted.ROWS), repeat)


def lengths_cm(made: Mapping[str, Sequence[Made]], counts: Mapping[str, Numbers]) -> dict[str, Numbers]:
    """Every measurement, of one size or of many at once."""
    return {key: sum(each.cm * counts[each.count] for each in parts) for key, parts in made.items()}


@dataclass(frozen=True)
class Prices:
    """The prices of one design."""

    wishes: Wishes
    made: Mapping[str, Sequence[Made]]

    def tolerance_cm(self, key: str, meant_cm: float) -> float:
        """As the spec says, else the largest of 1 cm, 3 %, and half of what whole repeats come to."""
        if key in self.wishes.tolerances_cm:
            return self.wishes.tolerances_cm[key]
        seamed = {"panel.length": ("body.depth", "body.front_edge"), "body.depth": ("panel.length",)}
        seamed["body.front_edge"] = ("panel.length",)
        alike = [key, *(each for each in seamed.get(key, ()) if each in self.made)]
        return max(1.0, 0.03 * meant_cm, *(self.least_step_cm(each) / 2 for each in alike))

    def least_step_cm(self, key: str) -> float:
        """By how much a measurement can change at least: a stitch, a row, or a repeat."""
        return min(abs(each.cm) * each.repeat for each in self.made[key])

    def lengths(self, meant_cm: Mapping[str, float], lengths: Mapping[str, Numbers]) -> Numbers:
        """What lengths cost that are off what was meant."""
        found: Numbers = 0.0
        for key, meant in meant_cm.items():
            off = abs(lengths[key] - meant)
            past = np.maximum(off - self.tolerance_cm(key, meant), 0.0)
            steep = np.where(past > HAIR, 5 + 10 * (past + past**2), 0.0)
            found = found + max(self.wishes.weights.get(key, 1.0), 0.01) * (0.25 * off + steep)
        return found

    def straight(self, counts: Mapping[str, Numbers]) -> Numbers:
        """What regular increases cost that end more than a sixth of the depth above the hem."""
        if "body.increase_until" not in counts:
            return 0.0
        rows, row_cm = counts["body.rows"], self.made["body.depth"][0].cm
        straight = rows - (counts["body.increase_until"] - 1 + counts["body.increase_every"] / 2)
        return 0.25 * row_cm * np.maximum(np.maximum(straight, 0) - rows / 6, 0)

    def steps(
        self,
        meant_cm: tuple[Mapping[str, float], Mapping[str, float]],
        lengths: tuple[Mapping[str, Numbers], Mapping[str, Numbers]],
    ) -> Numbers:
        """What the step costs from each of some garments of a size to each of some of the next size."""
        found: Numbers = 0.0
        for key in self.made.keys() - MAY_SHRINK:
            step = lengths[1][key][None, :] - lengths[0][key][:, None]
            meant = meant_cm[1].get(key, math.nan) - meant_cm[0].get(key, math.nan)
            shrinking = np.where(step < -HAIR, 20 - 10 * step, 0.0)
            if math.isnan(meant):
                continue
            weight = self.wishes.steps * self.wishes.weights.get(key, 1.0)
            found = found + 0.25 * weight * abs(step - meant)
            if meant >= -HAIR:
                staying = 2 * min(1.0, max(meant, 0.0) / (self.least_step_cm(key) / 2))
                found = found + shrinking + np.where(abs(step) <= HAIR, staying, 0.0)
        return found

    def minded(self, case: Case) -> float:
        """What findings to mind cost."""
        past = (*_seams(case), *_slot(case), *_by_the_rules(case))
        weighed = [self.wishes.mind * max(each, 0.0) for each in past if not math.isnan(each)]
        weighed += [UNSURE * self.wishes.mind * max(each, 0.0) for each in _short_of_sure(case)]
        return sum(each / (1 + each / 5) for each in weighed)


def _seams(case: Case) -> Iterator[float]:
    """Cm past what agrees: half a row of the coarser edge, or a share of the longer."""
    for seam in case.garment.seams:
        if seam.letter in "AC":  # B is as A, D as C
            edges = seam.first, seam.second
            row = max(edge.fabric.length_cm(1, edge.counted) for edge in edges)
            share = case.limits.seam_mind_fraction * max(edge.length_cm for edge in edges)
            yield abs(edges[0].length_cm - edges[1].length_cm) - max(row / 2, share)


def _slot(case: Case) -> Iterator[float]:
    lengths = {each.key: each.length_cm for each in case.garment.finished}
    if "body.slot" in lengths:
        back = lengths["body.width"]
        front = back - lengths["body.slot"] + lengths["panel.width"]
        yield abs(front - back) - case.limits.seam_mind_fraction * max(front, back)


def _by_the_rules(case: Case) -> Iterator[float]:
    """Cm past each rule's limit, not a number where a measurement is not known."""
    limits, neck, arm = case.limits, case.garment.neck.rest_cm, case.garment.arm.ring.rest_cm
    sag = 1 + limits.hem_sag_fraction
    yield neck / 2 - limits.neck_slip_fraction * _typical(case, Body.SHOULDER_BREADTH)
    wrist = _typical(case, Body.WRIST_GIRTH)
    yield wrist * (1 + limits.arm_rest_low_fraction) - arm
    yield arm - wrist * (1 + limits.arm_rest_high_fraction)
    yield from _freedom(case)
    yield _girth(case)
    nape, knee = _typical(case, Body.NAPE_HEIGHT), _typical(case, Body.KNEE_HEIGHT)
    if case.wearer.stage is Stage.ADULT:
        yield limits.knee_clearance_cm - (nape - case.garment.longest_drop_cm * sag - knee)
    waist = _typical(case, Body.BACK_WAIST_LENGTH)
    waist = nape - _typical(case, Body.WAIST_HEIGHT) if math.isnan(waist) else waist
    yield waist - case.garment.drop_cm * sag - limits.short_above_waist_cm


def _short_of_sure(case: Case) -> Iterator[float]:
    """Cm short of surely good, by each rule."""
    doubt = ShortOfSure(case.parts, case.wearer, case.limits)
    for code in case.judges:
        if case.freedom is None and code in ("REACH-BAND", "SPREAD-ARMS"):
            yield UNMEASURED_CM
            continue
        short = float(np.ravel(doubt.short_cm(code, case.inputs))[0])
        yield 0.0 if math.isnan(short) else short


def _freedom(case: Case) -> Iterator[float]:
    limits, wrist = case.limits, _typical(case, Body.CENTRE_BACK_NECK_TO_WRIST)
    if case.freedom is None:
        yield from (UNMEASURED_CM, UNMEASURED_CM)
        return
    over = case.freedom.reach_cm - wrist
    yield over - max(limits.reach_wrist_cm, limits.reach_hand_cm)
    forearm = limits.reach_forearm_fraction * _typical(case, Body.FOREARM_LENGTH)
    yield -over - max(limits.reach_wrist_cm, forearm)
    yield 2 * wrist * limits.spread_fraction - case.freedom.spread_cm


def _girth(case: Case) -> float:
    if not case.garment.girths:
        return 0.0
    depths, girths = zip(*case.garment.girths, strict=True)
    girth = float(np.interp(_typical(case, Body.ARMHOLE_DEPTH), depths, girths))
    chest, arm = (case.wearer.judged.get(each) for each in (Body.CHEST_GIRTH, Body.UPPER_ARM_GIRTH))
    if chest is None:
        return math.nan
    limits = case.limits
    beyond = NormalDist().inv_cdf(1 - limits.girth_tight_fraction) * limits.girth_body_sd_fraction
    room = chest.high_cm * (limits.girth_body_fraction + beyond)
    if arm is not None:
        room = min(room, girth_over_arms_cm(chest.high_cm, arm.high_cm))
    return float(room + limits.girth_ease_cm - girth)


def _typical(case: Case, body: Body) -> float:
    value = case.wearer.get(body)
    return math.nan if value is None else value.cm
