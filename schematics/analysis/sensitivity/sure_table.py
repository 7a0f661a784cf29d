"""How sure each verdict on a size is, and what it rests on."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks import EXPLANATIONS
from schematics.checks.evaluation import Result
from schematics.checks.finding import Finding
from schematics.checks.rules.sentence import TO_BE_SURE
from schematics.checks.wording import sentence_case
from schematics.document.document import Quantity, Section, Table
from schematics.units import Grain, Unit, figure, round_half_up

_NAMED = 2
"""Doubts that are named, the largest first."""


def sure_section(result: Result, unit: Unit) -> Section:
    """By how much each verdict holds, give or take how much, in how many of a hundred, and by what doubts.

    Below it, what to measure where that is too few.
    """
    doubtful = (finding for finding in result.findings if finding.certainty is not None)
    table = Table(
        header=("", "holds by", "give or take", "of 100", "most of the doubt"),
        rows=tuple(_row(finding, unit) for finding in doubtful),
    )
    return Section(f"Size {result.size.name}: how sure each verdict is", (table, *_to_measure(result)))


def _to_measure(result: Result) -> Iterator[str]:
    """What to measure where a verdict may well be another."""
    for finding in result.findings:
        for measure in finding.to_measure:
            name = EXPLANATIONS[finding.code].tracked[1]
            yield f"{sentence_case(name)}: {TO_BE_SURE[0].lower()}{TO_BE_SURE[1:].format(measure=measure)}"


def _row(finding: Finding, unit: Unit) -> tuple[str | Quantity, ...]:
    sure = finding.certainty
    assert sure is not None
    lengths = (
        Quantity(unit.from_cm(each), figure(each, unit, Grain.USUAL), unit.value)
        for each in (sure.margin_cm, sure.sd_cm)
    )
    doubts = ", ".join(
        f"{name} {round_half_up(100 * share, 1):.0f} %" for name, share in sure.shares[:_NAMED]
    )
    hundred = Quantity(sure.holds_fraction, f"{round_half_up(100 * sure.holds_fraction, 1):.0f}")
    return EXPLANATIONS[finding.code].tracked[1], *lengths, hundred, doubts
