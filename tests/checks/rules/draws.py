"""A hundred thousand makers of one size: swatches misread, hands that drift, other pulls, other bodies.

What they make and whether it holds is worked out for each by itself: by the garment's formulas, which other
tests hold against the drawn garment, and by the rules' own verdicts. Nothing in here is a slope.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from schematics.checks.finding import Case
from schematics.checks.rules.formula_facts import FormulaFacts
from schematics.checks.rules.judging import inputs_of
from schematics.crochet.fabric import Counted, Fabric
from schematics.garment.amounts import ROWS
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.wearer.body import Body, Origin, Wearer
from schematics.wearer.estimates import estimates_of
from schematics.wearer.evaluator import Inputs, evaluator_of
from schematics.wearer.expr import End

DRAWS = 100_000
DRIFT, STRETCH, OWN_CM = 0.02, 1 / 3, 0.5
"""The standard deviations as stated: of lengths, of a stretch pulled once, of a tape."""

SURVEY_Z, GROWTH_Z = 1.644854, 1.880794
"""The 95th and the 97th percentile of the normal distribution (any table of it)."""

Column = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnFabric(Fabric):
    """A fabric of many makers."""

    seed: int
    drawn: dict[Any, Any] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        rng = np.random.default_rng(self.seed)
        drift = 1 + DRIFT * rng.standard_normal(DRAWS)
        drawn = {}
        for counted, count in ((Counted.STITCHES, self.swatch.stitches), (ROWS, self.swatch.rows)):
            misread = 1 + 0.5 / count * rng.standard_normal(DRAWS)
            pulled = 1 + STRETCH / np.sqrt(self.stretch_pulls) * rng.standard_normal(DRAWS)
            drawn[counted] = drift * misread, 1 + self.stretch(counted) * pulled
        object.__setattr__(self, "drawn", drawn)

    def length_cm(self, count: float, counted: Counted) -> Any:
        return Fabric.length_cm(self, count, counted) * self.drawn[counted][0]

    def full_length_cm(self, count: float, counted: Counted) -> Any:
        return self.length_cm(count, counted) * self.drawn[counted][1]


class DrawnFacts(FormulaFacts):
    """The facts of every maker's garment; its counts are the pattern's."""

    def __init__(self, case: Case, seed: int) -> None:
        names = list(case.parts.fabrics)
        self.case = case
        self.parts = case.parts.with_fabrics(
            lambda fabric: DrawnFabric(
                **{each.name: getattr(fabric, each.name) for each in fields(Fabric)},
                seed=1000 * seed + names.index(fabric.name),
            )
        )
        formulas = CONSTRUCTIONS[case.design.construction].formulas(self.parts, dict(case.size.body))
        super().__init__(formulas, counts_of(case.size))

    def _fact(self, name: str) -> Any:
        garment, head = self.case.garment, name.partition(".")[0]
        if head in ("neck", "arm") and "band" in name:
            ring, band = (
                (garment.neck, self.parts.neck_band)
                if head == "neck"
                else (garment.arm.ring, self.parts.arm_bands)
            )
            measure = band.full_length_cm if "full" in name else band.length_cm
            return measure(ring.band_rows, ROWS)
        if name.endswith((".rest_cm", ".full_cm")):
            full = "full_" if name.endswith(".full_cm") else ""
            sides = (self[f"{head}.{side}_{full}cm"] for side in ("edge", "band"))
            return np.minimum(*sides)
        if name in ("arms.on_edge", "girth.closed", "arms.measured"):
            return self.case.inputs.facts[name]
        return super()._fact(name)


@dataclass(frozen=True)
class DrawnEnds:
    low_cm: Any
    cm: Any
    high_cm: Any


def drawn_body(wearer: Wearer, seed: int) -> Mapping[Body, Any]:
    """Every body as it might be: measured, of its age, or estimated from those."""
    rng = np.random.default_rng(1000 * seed + 999)
    known = {body: value for body, value in wearer.judged.items() if value.origin is not Origin.ESTIMATE}
    bodies: dict[Body, Any] = dict(known)
    for body, value in known.items():
        whole = wearer.values[body]
        z = GROWTH_Z if body is Body.HEAD_GIRTH else SURVEY_Z
        sd_cm = OWN_CM if value.origin is Origin.OWN else (whole.high_cm - whole.low_cm) / 2 / z
        if wearer.person:
            bodies[body] = DrawnEnds(*[value.cm + sd_cm * rng.standard_normal(DRAWS)] * 3)
    age = np.nan if wearer.age_years is None else wearer.age_years
    for estimate in estimates_of("both"):
        if estimate.body not in wearer.judged:
            continue
        value = wearer.judged[estimate.body]
        if value.origin is not Origin.ESTIMATE:
            continue
        work = evaluator_of(estimate.cm)
        error = rng.standard_normal(DRAWS) * value.sd_cm
        ends = []
        for end in End:
            usual, drawn = (work(Inputs(body=each, age_years=age, end=end)) for each in (known, bodies))
            follows = 1.0 if np.isnan(usual) else drawn / usual
            ends.append(getattr(value, end.field) * follows + error)
        known[estimate.body], bodies[estimate.body] = value, DrawnEnds(*ends)
    return bodies


def drawn_chances(case: Case, seed: int) -> dict[str, float]:
    """In what share of all draws each rule holds."""
    inputs = replace(inputs_of(case.wearer), body=drawn_body(case.wearer, seed), facts=DrawnFacts(case, seed))
    chances = {}
    for code, judge in case.judges.items():
        stop, mind = judge.truths(inputs)
        minded_only = judge.rule.stop is None or (code == "HANG-KNEE" and inputs.adult)
        chances[code] = 1 - float(np.mean(mind if minded_only else stop))
    return chances
