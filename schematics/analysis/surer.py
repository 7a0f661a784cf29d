"""What other counts would make sure that is good as it is measured, but in too few cases."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import replace

from schematics.analysis.changed_counts import count_changes
from schematics.analysis.side_effects import severity_changes
from schematics.checks.evaluation import Result, case_of, evaluate
from schematics.checks.finding import Beside, Finding, Severity
from schematics.checks.rules.sentence import Answer
from schematics.checks.wording import listed
from schematics.design.design import Design, Size
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.units import HAIR

TRIED, LOOKED_INTO = 60, 8
"""Changes of one count, the smallest first: of which the finding is worked out, and of which all are."""

_AT_ONCE = 15
"""Changes of which the finding is worked out together."""

IN_COUNTS = "Or in the counts: {changes}."
AT_A_PRICE = "Or in the counts: {changes}; then {codes} would be to mind."


def surer_in_counts(design: Design, result: Result, finding: Finding) -> str:
    """The smallest change of one count, with what follows it, that makes a finding surely good.

    Where each would give something else to mind, the one that gives the least, with what that is.

    Returns:
        A sentence; empty where no small change does without something that stops.
    """
    workable: list[tuple[Sequence[str], Size]] = []
    for size in itertools.islice(_sure(design, result, finding.code), LOOKED_INTO):
        (after,) = evaluate(replace(design, sizes=(size,)))
        changes = severity_changes(result.findings, after.findings)
        if all(each.after is not Severity.STOP for each in changes):
            worse = [each.code for each in changes if each.after is Severity.MIND]
            workable.append((tuple(dict.fromkeys(worse)), size))
            if not worse:
                break
    if not workable:
        return ""
    codes, size = min(workable, key=lambda each: len(each[0]))
    words = listed(each.words for each in count_changes(result.size, size, design))
    return AT_A_PRICE.format(changes=words, codes=listed(codes)) if codes else IN_COUNTS.format(changes=words)


def _sure(design: Design, result: Result, code: str) -> Iterator[Size]:
    """The size with one lever set so that a rule surely holds."""
    sizes = iter(_changed(design, result))
    while some := list(itertools.islice(sizes, _AT_ONCE)):
        beside = Beside(code)
        cases = [case_of(design, _rebuilt(design, result, size), beside) for size in some]
        yield from (case.size for case in cases if case.answers(code)[1] is Answer.GOOD)


def _rebuilt(design: Design, result: Result, size: Size) -> Result:
    garment = CONSTRUCTIONS[design.construction].build(size, design.parts)
    return replace(result, size=size, garment=garment, freedom=arm_freedom(garment))


def _changed(design: Design, result: Result) -> list[Size]:
    """The size with one lever set, those first that change the garment least."""
    construction = CONSTRUCTIONS[design.construction]
    usual = {each.key: each.length_cm for each in result.garment.finished}
    candidates: list[tuple[float, Size]] = []
    for lever in construction.levers:
        for step in (each for each in range(-lever.most, lever.most + 1) if each):
            changed = lever.moved(result.size, step, design.parts)
            lengths = _lengths_cm(design, changed) if changed else {}
            change_cm = abs(lengths[lever.key] - usual[lever.key]) if lengths else 0.0
            if changed and change_cm > HAIR:
                candidates.append((lever.weight * change_cm, changed))
    candidates.sort(key=lambda each: each[0])
    return [each for _, each in candidates[:TRIED]]


def _lengths_cm(design: Design, size: Size) -> dict[str, float]:
    """The finished measurements by their keys; none where the neck's ribbing rows would be odd."""
    formulas = CONSTRUCTIONS[design.construction].formulas_of(size.body, design.parts)
    counts = counts_of(size)
    if formulas.neck.ring(counts).edge_count % 2:
        return {}
    return {each.key: each.length_cm for each in formulas.finished(counts)}
