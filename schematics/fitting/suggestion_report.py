"""Suggestions in words and as plain JSON values: the changed counts, and all that they do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from schematics.analysis.changed_counts import count_changes
from schematics.analysis.side_effects import changed_checks, severity_changes, together
from schematics.checks.check_names import check_name
from schematics.checks.finding import Severity
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.design.design import Design
from schematics.document.document import Items, Section
from schematics.fitting.advice import Advice
from schematics.fitting.advice_words import NOTHING_LEFT
from schematics.fitting.changed_json import changed_json
from schematics.fitting.sizing import SizeFit
from schematics.fitting.to_measure.asked_changes import NONE_ASKED
from schematics.fitting.trade_offs import MADE_WORSE, losses, worst_gets_worse


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
    names = [f"{check_name(code)} ({severity})" for code, severity in reversed(left.items())]
    worse = losses(advice.before.reported, advice.after.reported)
    return Section(
        f"Suggestion {number}: {_promise(advice).format(size=size)}",
        (
            Items(tuple(each.words for each in count_changes(before.size, after.size, design))),
            together(before, after, Tape(design.unit)),
            *([moved] if moved else ()),
            f"Checked again; still there: {listed(names)}." if names else NOTHING_LEFT,
            *([Items(worse, MADE_WORSE)] if worse else ()),
        ),
    )


def _promise(advice: Advice) -> str:
    """What a suggestion comes to, in words."""
    if advice.right:
        return "the smallest changes found that make size {size} right"
    if worst_gets_worse(advice.before.reported, advice.after.reported):
        return "nothing small makes size {size} right; this mends some of it and makes some of it worse"
    return "nothing small makes size {size} right; this would make it better"


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
