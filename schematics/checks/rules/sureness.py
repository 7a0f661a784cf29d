"""How sure a verdict is: by how much it holds, give or take how much, and what to measure to be surer."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.garment_numbers import SMALLER_OF_TWO
from schematics.checks.rules.seam_limits import seamable_cm
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.size_rules import size_rules
from schematics.checks.rules.varied_facts import (
    FabricDoubt,
    Gathered,
    VariedFacts,
    band_rows_of,
    varied_parts,
)
from schematics.design.design import Parts, Size
from schematics.design.limits import Limits
from schematics.garment.constructions import Construction
from schematics.garment.constructions.base import counts_of
from schematics.garment.constructions.edge_formulas import SeamFormulas
from schematics.garment.garment import Garment
from schematics.wearer.body import Body, Stage, Wearer
from schematics.wearer.evaluator import Inputs, Numbers, Truths, evaluators_of
from schematics.wearer.events import Event, all_of, over_nought_event
from schematics.wearer.expr import Expr, Fact, OfBody
from schematics.wearer.margins import Margins, Truth
from schematics.wearer.normal import below
from schematics.wearer.varied_body import varied_bodies


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyDoubt:
    """The error of one body measurement."""

    body: Body


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


def surely(answers: Numbers, sure: Truths) -> Numbers:
    """What rules say, of one wearer or of many: what is good, but not surely so, is to be minded."""
    if isinstance(answers, Answer):
        return answers if sure or answers is not Answer.GOOD else Answer.MIND
    return np.where((answers == Answer.GOOD) & ~sure, np.uint8(Answer.MIND), answers)


@dataclass(frozen=True, slots=True, kw_only=True)
class WornSize:
    """A size and its garment on a wearer; ``inputs`` is both as they are measured."""

    inputs: Inputs
    wearer: Wearer
    size: Size
    garment: Garment


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentColumns:
    """Garments that are `alike`: their facts and the rows of their bands, as columns, and their sizes."""

    facts: Mapping[str, Numbers]
    sizes: Sequence[Size]
    band_rows: Mapping[str, Numbers]


def chances_of(
    worn: Sequence[WornSize], construction: Construction, parts: Parts, limits: Limits, *codes: str
) -> Chances:
    """How sure each rule is on some sizes `alike`, each on its wearer; those of ``codes``, or all."""
    garments = GarmentColumns(
        facts=Gathered([each.inputs.facts for each in worn]),
        sizes=[each.size for each in worn],
        band_rows=band_rows_of([each.garment for each in worn]),
    )
    return chances_on([each.wearer for each in worn], garments, construction, parts, limits, *codes)


def chances_on(
    wearers: Sequence[Wearer],
    garments: GarmentColumns,
    construction: Construction,
    parts: Parts,
    limits: Limits,
    *codes: str,
) -> Chances:
    """The same of garments in columns, each on its wearer or all on the one there is."""
    bodies, judged = varied_bodies(wearers)
    usual = Inputs(
        body=judged,
        adult=np.array([each.stage is Stage.ADULT for each in wearers]),
        age_years=np.array([np.nan if each.age_years is None else each.age_years for each in wearers]),
        facts=garments.facts,
    )
    facts = VariedFacts(garments.facts, construction, garments.sizes, garments.band_rows, parts)
    fabrics = varied_parts(parts)[1]
    doubts: tuple[Doubt, ...] = (*fabrics, *(BodyDoubt(body=body) for body in bodies.errors_cm))
    moved = usual.of(facts), replace(usual, body=bodies, memo={}, garment_memo={})
    errors = len(fabrics), len(bodies.errors_cm)
    return Chances(len(garments.sizes), moved, errors, doubts, limits, *codes)


class Chances:
    """How sure each rule is, in columns of cases.

    Args:
        cases: how many there are.
        moved: what is known with the errors of fabrics in columns, and likewise with those of bodies.
        errors: how many there are of either.
        doubts: what they are.
        limits: what is held against.
        codes: of the rules; none for all.
    """

    def __init__(
        self, cases: int, moved: tuple[Inputs, Inputs], errors: tuple[int, int], doubts: tuple[Doubt, ...],
        limits: Limits, *codes: str,
    ) -> None:  # fmt: skip
        failing = failures(limits, *codes)
        self._truths, self._doubts, self._limits = failing.truths, doubts, limits
        worked = [failing.margins(each) for each in moved]
        usual = np.empty((len(worked[0]), cases))
        slopes = np.zeros((sum(errors), *usual.shape))
        first = 0
        for columns, own in zip(worked, errors, strict=True):
            for place, column in enumerate(columns):
                varied = np.ndim(column) == _BY_ERROR
                usual[place] = column[0] if varied else column
                if varied:
                    slopes[first : first + own, place] = (column[1 : 1 + own] - column[1 + own :]) / 2
            first += own
        self._margins = over_nought_event(usual, slopes)
        self._by_margin = self._margins.chance

    def is_sure(self, code: str) -> NDArray[np.bool_]:
        """In which cases a rule holds as often as `Limits.sure_fraction` asks for."""
        return surely_holds(self._truths[code], self._margins, self._by_margin, self._limits.sure_fraction)

    def fails(self, code: str) -> NDArray[np.float64]:
        """The `failing_chance` of a rule in each case."""
        return failing_chance(self._truths[code], self._margins)

    def holds(self, code: str) -> NDArray[np.float64]:
        """The `holding_chance` of a rule in each case."""
        return holding_chance(self._truths[code], self._margins)

    def sds_cm(self, case: int = 0) -> list[float]:
        """The standard deviation of each margin in one case."""
        return [float(each) for each in self._margins.sd_cm[:, case]]

    def sureness(self, code: str, case: int = 0) -> Sureness:
        """How sure a rule is in one case."""
        return _sureness(_of_cases(self._truths[code], self._margins, np.array([case])), self._doubts)


_BY_ERROR = 2
"""Axes of what an error moves: the errors, and the cases."""


@dataclass(frozen=True, slots=True)
class Failures:
    """How rules fail: the margins, all as one function, and what of them is true then.

    ``bodies`` are the measurements in them. Of each margin ``lengths`` say whether it is one in cm; else it
    is a condition, such as that somebody is an adult.
    """

    lengths: tuple[bool, ...]
    bodies: frozenset[Body]
    margins: Callable[[Inputs], tuple[Numbers, ...]]
    truths: Mapping[str, Truth]


@cache
def failures(limits: Limits, *codes: str) -> Failures:
    """How rules fail, by their codes; of all rules where none is named."""
    margins = Margins(SMALLER_OF_TWO)
    rules = [rule for rule in size_rules(limits) if not codes or rule.code in codes]
    truths = {rule.code: margins.truth(rule.fails) for rule in rules}
    nodes = [list(tree.walk()) for tree in margins.trees]
    bodies = frozenset(node.body for tree in nodes for node in tree if isinstance(node, OfBody))
    lengths = tuple(any(map(_is_length, tree)) for tree in nodes)
    return Failures(lengths, bodies, evaluators_of(margins.trees), truths)


def _is_length(node: Expr) -> bool:
    return isinstance(node, OfBody) or (isinstance(node, Fact) and node.name.endswith("_cm"))


def surely_holds(
    fails: Truth, margins: Event, chances: NDArray[np.float64], sure_fraction: float
) -> NDArray[np.bool_]:
    """In which cases it is so seldom true that a rule fails.

    The chance is put together only where those of the margins by themselves, ``chances``, do not decide.
    """
    by_margin = list(chances)
    least, most = fails.between(by_margin, by_margin)
    sure: NDArray[np.bool_] = most <= 1 - sure_fraction
    between = np.flatnonzero(~sure & (least <= 1 - sure_fraction))
    if len(between):
        sure[between] = _of_cases(fails, margins, between).chance >= sure_fraction
    return sure


def failing_chance(fails: Truth, margins: Event) -> NDArray[np.float64]:
    """The chance that a rule fails in each of the cases, by the one comparison that decides it most often.

    It is quickly worked out and near enough to weigh by: the comparisons of a rule mostly go together.
    """
    chance: NDArray[np.float64] = below(fails.largest(margins.deviates))
    return chance


def holding_chance(fails: Truth, margins: Event) -> NDArray[np.float64]:
    """The chance that a rule does not fail in each of the cases, all its comparisons put together."""
    chance: NDArray[np.float64] = _of_cases(fails, margins, np.arange(margins.deviates.shape[1])).chance
    return chance


def _of_cases(fails: Truth, margins: Event, cases: NDArray[np.intp]) -> Event:
    """That a rule holds, in some of the cases."""
    return fails.event({place: margins.at(place).rows(cases) for place in fails.places}).otherwise


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
        if np.allclose((first[0, 0], second[0, 0]), lengths_cm):
            doubts: tuple[Doubt, ...] = varied_parts(parts)[1]
            margins = seamable_cm(first, second, *seam.rows_cm, limits)
            events = [_event(each, len(doubts)) for each in margins]
            return _sureness(all_of(events), doubts)
    return None


def _event(column: Numbers, errors: int) -> Event:
    moved = (column[1 : 1 + errors] - column[1 + errors :]) / 2
    return over_nought_event(column[0], moved)


def _sureness(holds: Event, doubts: Sequence[Doubt]) -> Sureness:
    """Of the one case there is."""
    shares = holds.shares[:, 0] ** 2
    order = np.argsort(-shares, kind="stable")
    return Sureness(
        margin_cm=float(holds.margin_cm[0]),
        sd_cm=float(holds.sd_cm[0]),
        holds_fraction=float(holds.chance[0]),
        shares=tuple((doubts[place], float(shares[place])) for place in order if shares[place] > 0),
    )
