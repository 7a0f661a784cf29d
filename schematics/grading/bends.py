"""What is not linear: what the checks measure on the made garment, and by how much it is off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from schematics.checks.finding import Finding, Severity
from schematics.constructions.facts import Quantity
from schematics.grading.made import Counts, Workshop
from schematics.grading.rules import SizeCase
from schematics.wearer.body import Body

_UNMEASURED = {
    "REACH-BAND": (Quantity.REACH,),
    "SPREAD-ARMS": (Quantity.SPREAD_BACK, Quantity.SPREAD_FRONT),
}
"""What cannot be measured where the body overlaps itself; then any lever may help (sense 0)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """A quantity of one size that a check finds too small (``sense`` 1) or too large (-1)."""

    code: str
    severity: Severity
    quantity: Quantity
    sense: int

    @property
    def key(self) -> str:
        """Unique on one size."""
        return f"{self.code} {self.quantity} {self.sense} {self.severity}"

    def fails(self, case: SizeCase, workshop: Workshop, counts: Counts) -> bool:
        """Whether these counts fail in this way too, or worse."""
        findings = workshop.findings(case.index, counts, self.code)
        return any(
            each.quantity is self.quantity
            and each.sense == self.sense
            and (each.severity is self.severity or each.severity is Severity.STOP)
            for each in bends(case, findings)
        )


def bends(case: SizeCase, findings: Iterable[Finding]) -> Iterator[Bend]:
    """What the findings say is wrong with what no straight line tells."""
    for each in findings:
        if each.severity is Severity.GOOD:
            continue
        for quantity, sense in _wrong(case, each):
            yield Bend(code=each.code, severity=each.severity, quantity=quantity, sense=sense)


def _wrong(case: SizeCase, finding: Finding) -> Iterator[tuple[Quantity, int]]:
    figures = finding.figures
    if not figures:
        if case.wearer.get(Body.CENTRE_BACK_NECK_TO_WRIST) is not None:
            yield from ((quantity, 0) for quantity in _UNMEASURED.get(finding.code, ()))
    elif finding.code == "REACH-BAND":
        yield Quantity.REACH, 1 if figures["above_wrist_cm"] > 0 else -1
    elif finding.code == "SPREAD-ARMS":
        needs = case.limits.spread_fraction * figures["span_cm"]
        for quantity, key in _SPREADS.items():
            if figures[key] < needs:
                yield quantity, 1
    elif finding.code == "GIRTH-EASE":
        yield Quantity.GIRTH, 1
    elif finding.code == "COUNT-INCREASE":
        yield Quantity.INCREASES, 1
    elif finding.code == "HANG-KNEE":
        yield Quantity.LOWEST, -1
    elif finding.code == "HANG-WHERE" and case.facts.drop_cm is None:
        yield Quantity.DROP, 1


_SPREADS = {Quantity.SPREAD_BACK: "spread_back_cm", Quantity.SPREAD_FRONT: "spread_front_cm"}


def margin_cm(case: SizeCase, bend: Bend, findings: Iterable[Finding]) -> float | None:
    """By how much the quantity is right, negative where it is wrong; None where it is not measured."""
    for each in findings:
        if each.code == bend.code and each.figures:
            return _margin_cm(case, bend, dict(each.figures))
    return None


def _margin_cm(case: SizeCase, bend: Bend, figures: dict[str, float]) -> float | None:
    limits, quantity = case.limits, bend.quantity
    if quantity is Quantity.REACH:
        short = limits.reach_forearm_fraction * figures.get("forearm_cm", 0.0)
        most = short if bend.sense > 0 else limits.reach_hand_cm
        return max(limits.reach_wrist_cm, most) - bend.sense * figures["above_wrist_cm"]
    if quantity in _SPREADS:
        return figures[_SPREADS[quantity]] - limits.spread_fraction * figures["span_cm"]
    if quantity is Quantity.GIRTH:
        return figures["ease_cm"] - (0.0 if bend.severity is Severity.STOP else limits.girth_ease_cm)
    if bend.code == "HANG-KNEE":
        return figures["clearance_cm"] - limits.knee_clearance_cm
    if bend.code == "HANG-WHERE":
        waist = figures.get("waist_cm")
        return None if waist is None else figures["worn_cm"] - waist + limits.short_above_waist_cm
    return None
