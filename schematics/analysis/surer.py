"""What other counts would make sure that is good as it is measured, but in too few cases."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import replace

from schematics.analysis.changed_counts import count_changes
from schematics.analysis.side_effects import severity_changes
from schematics.checks.evaluation import Result, case_of, evaluate
from schematics.checks.finding import Finding, Severity
from schematics.checks.rules.sentence import Answer
from schematics.checks.wording import listed
from schematics.design.design import Design, Size
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment
from schematics.units import HAIR

TRIED, LOOKED_INTO = 60, 8
"""Changes of one count, the smallest first: of which the finding is worked out, and of which all are."""

IN_COUNTS = "Or in the counts: {changes}."
AT_A_PRICE = "Or in the counts: {changes}; then {codes} would be to mind."


def surer_in_counts(design: Design, result: Result, finding: Finding) -> str:
    """The smallest change of one count, with what follows it, that makes a finding surely good.

    Where each would give something else to mind, the one that gives the least, with what that is.

    Returns:
        A sentence; empty where no small change does without something that stops.
    """
    found: list[tuple[Sequence[str], Size]] = []
    for size in itertools.islice(_sure(design, result, finding), LOOKED_INTO):
        (after,) = evaluate(replace(design, sizes=(size,)))
        changes = severity_changes(result.findings, after.findings)
        if all(each.after is not Severity.STOP for each in changes):
            worse = [each.code for each in changes if each.after is Severity.MIND]
            found.append((tuple(dict.fromkeys(worse)), size))
            if not worse:
                break
    if not found:
        return ""
    codes, size = min(found, key=lambda each: len(each[0]))
    words = listed(each.words for each in count_changes(result.size, size, design))
    return AT_A_PRICE.format(changes=words, codes=listed(codes)) if codes else IN_COUNTS.format(changes=words)


def _sure(design: Design, result: Result, finding: Finding) -> Iterator[Size]:
    """The size with one lever set so that the finding is surely good."""
    for size, garment in _changed(design, result):
        here = replace(result, size=size, garment=garment, freedom=arm_freedom(garment))
        if case_of(design, here).answers(finding.code)[1] is Answer.GOOD:
            yield size


def _changed(design: Design, result: Result) -> Iterator[tuple[Size, Garment]]:
    """The size with one lever set, those first that change the garment least."""
    construction = CONSTRUCTIONS[design.construction]
    usual = {each.key: each.length_cm for each in result.garment.finished}
    found: list[tuple[float, Size, Garment]] = []
    for lever in construction.levers:
        for step in (each for each in range(-lever.most, lever.most + 1) if each):
            size = lever.moved(result.size, step, design.parts)
            garment = size and construction.build(size, design.parts)
            if size and garment and garment.neck.edge_count % 2 == 0:
                lengths = {each.key: each.length_cm for each in garment.finished}
                change_cm = abs(lengths[lever.key] - usual[lever.key])
                if change_cm > HAIR:
                    found.append((lever.weight * change_cm, size, garment))
    found.sort(key=lambda each: each[0])
    yield from ((size, garment) for _, size, garment in found[:TRIED])
