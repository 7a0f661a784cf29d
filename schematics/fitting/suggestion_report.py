"""Suggestions in words and as plain JSON values: the changed counts, and all that they do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from schematics.analysis.changed_counts import count_changes
from schematics.analysis.side_effects import changed_checks, severity_changes, together
from schematics.checks.check_names import check_name
from schematics.checks.finding import Finding, Severity
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.design.design import Design
from schematics.document.document import Items, Section
from schematics.fitting.advice import Advice
from schematics.fitting.advice_words import NOTHING_LEFT
from schematics.fitting.changed_json import changed_json
from schematics.fitting.sizing import SizeFit
from schematics.fitting.to_measure.asked_changes import NONE_ASKED

LESS_LIKELY = ", and less likely to hold than before"
_AS_MUCH = 0.05
"""Chances that differ by no more are told in the same words."""


def suggestion_sections(design: Design, offered: Sequence[Advice], advised: SizeFit) -> Iterator[Section]:
    """Each by its number: the changed counts, what they do, and what the checks say of them."""
    for number, advice in enumerate(offered, 1):
        yield _section(design, number, advice)
    if offered and advised.verdict is not Severity.STOP:
        sentence = (
            f"It can be worn unchanged, too; what is said of it above is then left to mind. Where the number "
            f"of a suggestion is asked for, say “{NONE_ASKED}”."
        )
        yield Section(f"None of them: size {advised.name} as the pattern has it", (sentence,))


def _section(design: Design, number: int, advice: Advice) -> Section:
    before, after = advice.before.at_gauge, advice.after.at_gauge
    size = before.size.name
    moved = changed_checks(severity_changes(advice.before.findings, advice.after.findings))
    left = {each.code: each.severity for each in reversed(advice.after.reported)}
    worse = less_likely(advice.before.findings, advice.after.findings)
    names = [
        f"{check_name(code)} ({severity}{LESS_LIKELY if code in worse else ''})"
        for code, severity in reversed(left.items())
    ]
    return Section(
        f"Suggestion {number}: the smallest changes found that make size {size} right"
        if advice.right
        else f"Suggestion {number}: nothing small makes size {size} right; this would make it better",
        (
            Items(tuple(each.words for each in count_changes(before.size, after.size, design))),
            together(before, after, Tape(design.unit)),
            *([moved] if moved else ()),
            f"Checked again; still there: {listed(names)}." if names else NOTHING_LEFT,
        ),
    )


def less_likely(before: Sequence[Finding], after: Sequence[Finding]) -> set[str]:
    """The checks, by their codes, that hold in fewer cases after, by more than a rounding."""
    chances = [_chances(findings) for findings in (before, after)]
    return {code for code, chance in chances[1].items() if chance < chances[0].get(code, 0.0) - _AS_MUCH}


def _chances(findings: Sequence[Finding]) -> dict[str, float]:
    """The share of cases in which each check holds, where it is least."""
    least: dict[str, float] = {}
    for each in findings:
        if each.severity is not Severity.GOOD and (sure := each.certainty) is not None:
            least[each.code] = min(sure.holds_fraction, least.get(each.code, 1.0))
    return least


def suggestions_json(design: Design, offered: Sequence[Advice]) -> list[dict[str, Any]]:
    """The suggested changes as plain JSON values."""
    return [
        {
            "number": number,
            "size": advice.before.name,
            "right": advice.right,
            **changed_json(design, advice.before, advice.after),
        }
        for number, advice in enumerate(offered, 1)
    ]
