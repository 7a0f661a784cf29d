"""How sure a verdict is: by how much it holds, give or take how much, and what to measure to be surer."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from schematics.checks.rules.garment_numbers import MADE_OF
from schematics.checks.rules.seam_limits import eases_in_cm
from schematics.checks.rules.size_rules import size_rules
from schematics.checks.rules.varied_facts import FabricDoubt, VariedFacts, varied_parts
from schematics.design.design import Parts, Size
from schematics.design.limits import Limits
from schematics.garment.constructions import Construction
from schematics.garment.constructions.base import counts_of
from schematics.garment.constructions.edge_formulas import SeamFormulas
from schematics.garment.garment import Garment
from schematics.wearer.body import Body, Wearer
from schematics.wearer.evaluator import Inputs, Numbers, evaluators_of
from schematics.wearer.events import Errors, Event, all_of, over_nought_event
from schematics.wearer.margins import Margins, Truth
from schematics.wearer.varied_body import body_errors, varied_body


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyDoubt:
    """The error of one body measurement, and its standard deviation in cm."""

    body: Body
    sd_cm: float


Doubt = FabricDoubt | BodyDoubt


@dataclass(frozen=True, slots=True, kw_only=True)
class Sureness:
    """How sure it is that a rule holds.

    ``margin_cm`` is by how much, negative where it does not, ``sd_cm`` the margin's standard deviation; of
    several comparisons they are of the one that decides. ``holds_fraction`` is the chance that it holds, by
    all of them. ``shares`` are what each error has in the variance, the largest first.
    """

    margin_cm: float
    sd_cm: float
    holds_fraction: float
    shares: tuple[tuple[Doubt, float], ...]


@cache
def _failures(limits: Limits) -> tuple[Callable[[Inputs], tuple[Numbers, ...]], Mapping[str, Truth]]:
    """The margins of every rule's failure as one function, and how each rule fails by them."""
    margins = Margins(MADE_OF)
    truths = {rule.code: margins.truth(rule.fails) for rule in size_rules(limits)}
    return evaluators_of(margins.trees), truths


def sureness(
    known: Inputs, wearer: Wearer, construction: Construction, size: Size, garment: Garment, parts: Parts,
    limits: Limits,
) -> Mapping[str, Sureness]:  # fmt: skip
    """How sure each rule is, by its code, on one size and its wearer.

    Args:
        known: wearer and garment as they are measured.
        wearer: the wearer.
        construction: of the garment.
        size: its counts.
        garment: the garment.
        parts: its fabrics.
        limits: what it is held against.
    """
    doubts = doubts_of(wearer, parts)
    errors = len(doubts)
    body_sds = {each.body: each.sd_cm for each in doubts if isinstance(each, BodyDoubt)}
    inputs = Inputs(
        body=varied_body(wearer, body_sds, errors - len(body_sds), errors),
        gaps=known.gaps,
        adult=known.adult,
        age_years=known.age_years,
        facts=VariedFacts(known.facts, construction, size, garment, parts, errors),
    )
    work, truths = _failures(limits)
    events = [_event(column, errors) for column in work(inputs)]
    return {code: _sureness(truth.event(events).otherwise, doubts) for code, truth in truths.items()}


def seam_sureness(
    lengths_cm: tuple[float, float], seams: Sequence[SeamFormulas], size: Size, parts: Parts, limits: Limits
) -> Sureness | None:
    """How sure it is that two edges can be seamed; None where no formulas are theirs.

    Args:
        lengths_cm: of both edges.
        seams: those of the garment in the columns of `varied_parts`.
        size: its counts.
        parts: its fabrics.
        limits: what they are held against.
    """
    counts = counts_of(size)
    for seam in seams:
        first, second = seam.first_cm.at(counts), seam.second_cm.at(counts)
        if np.allclose((first[0], second[0]), lengths_cm):
            eases_in = eases_in_cm(first, second, *seam.rows_cm, limits)
            doubts: tuple[Doubt, ...] = varied_parts(parts)[1]
            margins = eases_in - (first - second), eases_in - (second - first)
            return _sureness(all_of([_event(each, len(doubts)) for each in margins]), doubts)
    return None


def doubts_of(wearer: Wearer, parts: Parts) -> tuple[Doubt, ...]:
    """Everything that may be off, in the order of the errors."""
    _, fabrics = varied_parts(parts)
    bodies = (BodyDoubt(body=body, sd_cm=sd_cm) for body, sd_cm in body_errors(wearer).items())
    return (*fabrics, *bodies)


def _event(column: Numbers, errors: int) -> Event:
    """That a margin is over nought; what is unknown is not."""
    if not isinstance(column, np.ndarray):
        return over_nought_event(float(column), np.zeros(errors))
    slopes: Errors = (column[1 : 1 + errors] - column[1 + errors :]) / 2
    return over_nought_event(float(column[0]), slopes)


def _sureness(holds: Event, doubts: Sequence[Doubt]) -> Sureness:
    shares = holds.shares**2
    order = np.argsort(-shares, kind="stable")
    return Sureness(
        margin_cm=holds.margin_cm,
        sd_cm=holds.sd_cm,
        holds_fraction=holds.chance,
        shares=tuple((doubts[place], float(shares[place])) for place in order if shares[place] > 0),
    )
