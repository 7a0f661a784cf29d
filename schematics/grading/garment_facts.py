"""What the checks' rules know of a garment, from columns of counts."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import numpy as np

from schematics.checks.rules.garment_numbers import padded
from schematics.checks.rules.judging import inputs_of
from schematics.garment.amounts import CountValues, Formula, Numbers
from schematics.grading.case import SizeCase
from schematics.wearer.evaluator import Inputs
from schematics.wearer.expr import Expr, Fact


class _Facts(dict[str, Numbers]):
    """Facts of garments, as `schematics.checks.rules.garment_numbers` names them, when asked for."""

    def __init__(self, case: SizeCase, counts: CountValues) -> None:
        super().__init__()
        self._case, self._counts = case, counts

    def __missing__(self, name: str) -> Numbers:
        return self.setdefault(name, _fact(self._case, self._counts, name))


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
    if name in _DROPS:
        return getattr(formulas, _DROPS[name]).at(counts)
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


_DROPS = {"drop_cm": "drop", "longest_drop_cm": "longest_drop"}
"""The formula of each drop."""


def needs_of(case: SizeCase, names: Iterable[str]) -> frozenset[str]:
    """The counts that facts depend on."""
    return frozenset(count for name in names for count in _needs(case, name))


def _needs(case: SizeCase, name: str) -> frozenset[str]:
    formulas = case.formulas
    head = name.partition(".")[0]
    if head in ("neck", "arm"):
        ring = formulas.neck if head == "neck" else formulas.arm
        return ring.edge_cm.needs | ring.band_cm.needs
    if head == "girth":
        return formulas.girths_need | frozenset(case.shaping)
    if name in _DROPS:
        drop: Formula = getattr(formulas, _DROPS[name])
        return drop.needs
    bands = frozenset[str]() if name == "arms.measured" else formulas.lengths["arm_band.depth"].needs
    return formulas.arm_paths_need | bands | frozenset(case.shaping)


ARM_PATHS = frozenset({"arms.measured", "reach_cm", "spread_back_cm", "spread_front_cm", "spread_cm"})
"""Facts that tie the arms to the body."""


def facts_in(expr: Expr | None) -> set[str]:
    """The names of the facts that an expression asks for."""
    return {node.name for node in expr.walk() if isinstance(node, Fact)} if expr is not None else set()


def inputs_from(case: SizeCase) -> Callable[[CountValues], Inputs]:
    """From columns of counts to what a rule knows of the garments and the wearer."""
    wearer = inputs_of(case.wearer)
    return lambda counts: wearer.of(_Facts(case, counts))
