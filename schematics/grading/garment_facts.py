"""What the checks' rules know of a garment, found from columns of counts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

import numpy as np

from schematics.checks.rules.garment_numbers import padded
from schematics.checks.rules.judging import inputs_of
from schematics.garment.amounts import CountValues, Numbers
from schematics.grading.case import SizeCase
from schematics.wearer.evaluator import Inputs
from schematics.wearer.expr import Expr, Fact


class _Columns(Mapping[str, Any]):
    """Facts of garments, as `schematics.checks.rules.garment_numbers` names them, when asked for."""

    def __init__(self, case: SizeCase, counts: CountValues) -> None:
        self._case, self._counts = case, counts
        self._found: dict[str, Numbers] = {}

    def __getitem__(self, name: str) -> Numbers:
        if name not in self._found:
            self._found[name] = _fact(self._case, self._counts, name)
        return self._found[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._found)

    def __len__(self) -> int:
        return len(self._found)


def _fact(case: SizeCase, counts: CountValues, name: str) -> Numbers:
    formulas = case.formulas
    head, _, rest = name.partition(".")
    if head in ("neck", "arm"):
        ring = formulas.neck if head == "neck" else formulas.arm
        if rest in ("rest_cm", "full_cm"):
            middle = "" if rest == "rest_cm" else "full_"
            sides = (getattr(ring, f"{side}_{middle}cm").at(counts) for side in ("edge", "band"))
            return np.minimum(*sides)
        return getattr(ring, rest).at(counts)
    if head == "girth":
        points = formulas.girths(counts)
        if rest == "closed":
            return float(bool(points))
        number, _, what = rest.partition(".")
        depth, girth = padded(points)[int(number)]
        return girth if what == "girth_cm" else depth
    if name == "drop_cm":
        return formulas.drop.at(counts)
    if name == "longest_drop_cm":
        return formulas.longest_drop.at(counts)
    band = formulas.lengths["arm_band.depth"].at(counts)
    paths = formulas.arm_paths(counts)
    if name == "arms.measured":
        return np.where(np.isnan(paths.reach), 0.0, 1.0)
    back, front = paths.back + 2 * band, paths.front + 2 * band
    return {
        "reach_cm": paths.reach + band,
        "spread_back_cm": back,
        "spread_front_cm": front,
        "spread_cm": np.minimum(back, front),
    }[name]


def needs_of(case: SizeCase, name: str) -> frozenset[str]:
    """The counts a fact depends on."""
    formulas = case.formulas
    head = name.partition(".")[0]
    if head in ("neck", "arm"):
        ring = formulas.neck if head == "neck" else formulas.arm
        return ring.edge_cm.needs | ring.band_cm.needs
    if head == "girth":
        return formulas.girths_need | frozenset(case.shaping)
    if name == "drop_cm":
        return formulas.drop.needs
    if name == "longest_drop_cm":
        return formulas.longest_drop.needs
    if name == "arms.measured":
        return formulas.arm_paths_need | frozenset(case.shaping)
    return formulas.arm_paths_need | formulas.lengths["arm_band.depth"].needs | frozenset(case.shaping)


ARM_PATHS = frozenset({"arms.measured", "reach_cm", "spread_back_cm", "spread_front_cm", "spread_cm"})
"""Facts that tie the arms to the body."""


def facts_in(exprs: Sequence[Expr | None]) -> set[str]:
    """The names of the facts that rules ask for."""
    nodes = (node for expr in exprs if expr is not None for node in expr.walk())
    return {node.name for node in nodes if isinstance(node, Fact)}


def inputs_from(case: SizeCase) -> Callable[[CountValues], Inputs]:
    """From columns of counts to what a rule knows of the garments and the wearer."""
    known = inputs_of(case.wearer)
    return lambda counts: known.of(_Columns(case, counts))
