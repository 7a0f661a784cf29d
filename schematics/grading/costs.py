"""What a size's counts cost: lengths that are off, findings to mind, increases that end far above the hem."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np

from schematics.checks.rules.judging import Judge, judges
from schematics.checks.rules.seam_limits import past_agreement_cm, past_equal_widths_cm
from schematics.checks.rules.short_of_sure import ShortOfSure
from schematics.checks.seams import LENGTH as SEAM_LENGTH
from schematics.checks.slot import WIDTH as FRONT_WIDTH
from schematics.garment.amounts import CountValues, Formula, Numbers
from schematics.garment.constructions.edge_formulas import SeamFormulas
from schematics.grading.case import Cost, SizeCase
from schematics.grading.garment_facts import ARM_PATHS, facts_in, inputs_from, needs_of
from schematics.grading.price import UNSURE, mind_cost, off_cost, straight_cost

UNMEASURED_CM = 3.0
"""How far past its limit a path on the fabric is taken to be that cannot be measured (common practice)."""
STRAIGHT = "worked straight"
"""Name of the cost of increases that end far above the hem."""


def costs_of(case: SizeCase) -> Iterator[Cost]:
    """Everything the counts cost."""
    yield from length_costs(case)
    if case.shaping and case.formulas.straight is not None:
        straight, depth = case.formulas.straight
        yield Cost(
            name=STRAIGHT,
            needs=depth.needs | frozenset(case.shaping),
            cost=lambda counts: straight_cost(straight(counts), depth.at(counts)),
        )
    if case.wishes is None or case.wishes.mind > 0:
        yield from _minds(case)


def length_costs(case: SizeCase) -> Iterator[Cost]:
    """What the lengths cost that are meant."""
    for key, target_cm in case.targets_cm.items():
        length = case.formulas.lengths[key]
        yield Cost(
            name=key,
            needs=length.needs,
            cost=partial(_off, length, target_cm, case.tolerance_cm(key), case.weight(key)),
            loose=length.loose,
        )


def _off(
    length: Formula, target_cm: float, tolerance_cm: float, weight: float, counts: CountValues
) -> Numbers:
    return off_cost(length.at(counts) - target_cm, tolerance_cm, weight)


def _minds(case: SizeCase) -> Iterator[Cost]:
    weight = case.wishes.mind if case.wishes else 1.0
    inputs, doubt = inputs_from(case), ShortOfSure(case.parts, case.wearer, case.limits)
    for judge in judges(case.limits).values():
        names = facts_in(judge.rule.mind) | facts_in(judge.rule.fails)
        on_paths = not ARM_PATHS.isdisjoint(names)

        def cost(counts: CountValues, judge: Judge = judge, on_paths: bool = on_paths) -> Numbers:
            garments = inputs(counts)
            past_cm, short_cm = judge.past_cm(garments), doubt.short_cm(judge.rule.code, garments)
            if on_paths:
                measured = garments.facts["arms.measured"] > 0.5
                past_cm = np.where(measured, past_cm, UNMEASURED_CM)
                short_cm = np.where(measured, short_cm, UNMEASURED_CM)
            return mind_cost(past_cm, weight) + mind_cost(short_cm, UNSURE * weight)

        yield Cost(name=judge.rule.code, needs=needs_of(case, names), cost=cost, loose=on_paths)
    for seam in case.formulas.seams:

        def gap(counts: CountValues, seam: SeamFormulas = seam) -> Numbers:
            first, second = seam.first_cm.at(counts), seam.second_cm.at(counts)
            return mind_cost(past_agreement_cm(first, second, *seam.rows_cm, case.limits), weight)

        yield Cost(name=SEAM_LENGTH, needs=seam.apart_cm.needs, cost=gap)
    if case.formulas.widths_cm is not None:
        front, back = case.formulas.widths_cm
        yield Cost(
            name=FRONT_WIDTH,
            needs=front.needs | back.needs,
            cost=lambda counts: mind_cost(
                past_equal_widths_cm(front.at(counts), back.at(counts), case.limits), weight
            ),
        )
