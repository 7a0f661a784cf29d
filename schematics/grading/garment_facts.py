"""What the checks' rules know of a garment, from columns of counts."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from schematics.checks.rules.formula_facts import DROPS, FormulaFacts
from schematics.checks.rules.judging import inputs_of
from schematics.garment.amounts import CountValues, Formula
from schematics.grading.case import SizeCase
from schematics.wearer.evaluator import Inputs
from schematics.wearer.expr import Expr, Fact


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
    if name in DROPS:
        drop: Formula = getattr(formulas, DROPS[name])
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
    return lambda counts: wearer.of(FormulaFacts(case.formulas, counts))
