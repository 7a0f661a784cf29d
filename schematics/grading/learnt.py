"""What the checks of made garments have told so far: their cuts as rules, and what counts truly cost."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from schematics.checks.finding import Finding, Severity
from schematics.grading.bends import Bend, bends
from schematics.grading.boxes import box_rule, boxes
from schematics.grading.made import Counts, Workshop
from schematics.grading.planes import SAME_FOR_ALL, Plane, Region, lent, plane, region
from schematics.grading.problem import Problem, broken_name, named
from schematics.grading.program import Answer
from schematics.grading.rules import Clause, Rule, SizeCase

UNPRICED = frozenset({"FLAT-CIRCLE"})
"""Findings to mind that are the designer's own choice: a body over a full circle is only drawn otherwise."""


Several = Mapping[int, Counts]
"""The counts of some sizes."""


@dataclass(slots=True)
class Learnt:
    """The cuts found so far, boxes and planes.

    Without ``stop_planes`` what stops is cut off by boxes only, which are exact.
    """

    workshop: Workshop
    clauses: dict[str, list[Clause]] = field(default_factory=dict)
    bends: dict[str, tuple[SizeCase, Bend]] = field(default_factory=dict)
    regions: dict[int, list[Region]] = field(default_factory=dict)
    stop_planes: bool = True
    _numbers: Iterator[int] = field(default_factory=itertools.count)

    @property
    def rules(self) -> list[Rule]:
        """The rules that stand for cuts."""
        return self._boxes + [
            rule for regions in self.regions.values() for each in regions for rule in each.rules
        ]

    @property
    def _boxes(self) -> list[Rule]:
        return [box_rule(*self.bends[key], clauses) for key, clauses in self.clauses.items()]

    def near(self, counts: Several) -> list[Rule]:
        """The same, but that sizes with counts stay in the windows these lie in, and do without others."""
        found = self._boxes
        for index, regions in self.regions.items():
            for each in regions:
                if not each.window or index not in counts:
                    found += each.rules
                elif each.plane.holds(counts[index]):
                    found += [replace(rule, unless="") for rule in each.rules if not rule.given]
        return found

    def windows(self, index: int) -> int:
        """How many planes with a window a size has."""
        return sum(bool(each.window) for each in self.regions.get(index, []))

    def forget_stops(self) -> bool:
        """Do without planes for what stops, which samples may have laid too low; whether there were any."""
        kept = {
            index: [each for each in regions if each.plane.bend.severity is not Severity.STOP]
            for index, regions in self.regions.items()
        }
        some, self.stop_planes, self.regions = kept != self.regions, False, kept
        return some

    def stops(self, case: SizeCase, counts: Counts) -> Iterator[Bend]:
        """What stops a size with these counts and no rule foresees."""
        try:
            findings = self.workshop.findings(case.index, counts)
        except ValueError:
            return
        yield from (bend for bend in bends(case, findings) if bend.severity is Severity.STOP)

    def cost_cm(
        self,
        problem: Problem,
        counts: Several,
        beside: Several | None = None,
    ) -> float | None:
        """What some sizes' counts cost by the checks themselves; None where a check stops one of them.

        The sizes ``beside`` them are not checked.
        """
        minded = 0
        for index, each in counts.items():
            try:
                findings = self.workshop.findings(index, each)
            except ValueError:
                return None
            if any(finding.severity is Severity.STOP for finding in findings):
                return None
            minded += len(minds(findings))
        return problem.cost_cm(named({**counts, **(beside or {})})) + problem.mind_cm * minded

    def cut(self, case: SizeCase, counts: Counts, answer: Answer) -> bool:
        """Cut off counts the checks refuse and the answer has not paid for; whether there were any."""
        fresh = False
        for bend in bends(case, self.workshop.findings(case.index, counts)):
            rule = box_rule(case, bend, ())
            if rule.wish and answer.values.get(broken_name(rule), 0.0) > 0.5:
                continue
            fresh = True
            found = self._plane(case, bend, counts)
            if found is None:
                self.box(case, bend, counts)
                continue
            self.regions.setdefault(case.index, []).append(region(case, found, next(self._numbers)))
        return fresh

    def box(self, case: SizeCase, bend: Bend, counts: Counts) -> None:
        """Cut off a box of counts that fail in this way."""
        key = box_rule(case, bend, ()).key
        self.bends.setdefault(key, (case, bend))
        clauses = self.clauses.setdefault(key, [])
        clauses += [each for each in boxes(case, self.workshop, bend, counts) if each not in clauses]

    def _plane(self, case: SizeCase, bend: Bend, counts: Counts) -> Plane | None:
        """A plane that refuses these counts, another size's if one does."""
        if bend.severity is Severity.STOP and not self.stop_planes:
            return None
        return self._lent(case, bend, counts) or plane(case, self.workshop, bend, counts)

    def _lent(self, case: SizeCase, bend: Bend, counts: Counts) -> Plane | None:
        """A plane found for another size that refuses these counts too."""
        if bend.quantity not in SAME_FOR_ALL:
            return None
        for index, regions in self.regions.items():
            if index == case.index or not self.workshop.alike(index, case.index):
                continue
            for each in (its.plane for its in regions):
                same = (each.bend.code, each.bend.quantity, each.bend.sense)
                if same == (bend.code, bend.quantity, bend.sense):
                    found = lent(each, case, self.workshop, bend)
                    if found is not None and found.refuses(counts):
                        return found
        return None


def minds(findings: Sequence[Finding]) -> list[Finding]:
    """Findings to mind that cost: not the designer's own choices, nor what is not known of the wearer."""
    return [
        each
        for each in findings
        if each.severity is Severity.MIND and each.code not in UNPRICED and each.figures
    ]
