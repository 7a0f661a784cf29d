"""What is amiss with a size, apart from what is only not sure; and what other counts mend of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from schematics.analysis.changed_counts import count_changes
from schematics.checks.evaluation import SEVERITIES
from schematics.checks.finding import Finding
from schematics.design.design import Design
from schematics.document.document import Block, Items
from schematics.fitting.advice import Advice
from schematics.fitting.advice_words import worn_sentence
from schematics.fitting.not_known import not_known
from schematics.fitting.sizing import SizeFit
from schematics.fitting.trade_offs import MADE_WORSE, badness_of, gains, holds_fraction, losses

NOT_SURE = "This is right as it is measured, but that is not sure:"
MENDED = "What the changes mend of size {size} as it stands:"
SURER = "What the changes make surer of size {size} as it stands:"
NOT_MADE = {
    True: "This would mend something and make something else worse; it is made only where it is asked for:",
    False: "This would mend something, too; it is made only where it is asked for:",
}
"""The words before changes that were not made, by whether they have a price."""

WOULD_MEND, WOULD_SPOIL = "What they would mend:", "What they would make worse:"
_LESS = "Of this something is left, see above."


def told_apart(findings: Iterable[Finding]) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """What is amiss, and what is only not sure, each with what is least likely to hold first."""
    ordered = sorted(findings, key=lambda each: (SEVERITIES.index(each.severity), holds_fraction(each)))
    return (
        tuple(each for each in ordered if not each.unsure),
        tuple(each for each in ordered if each.unsure),
    )


def verdict_blocks(fit: SizeFit) -> Iterator[Block]:
    """Whether it can be worn, what is to be minded, and in a list of its own what is not sure."""
    amiss, unsure = told_apart(fit.reported)
    yield worn_sentence(fit.how, unknown=not_known(fit) is not None)
    if amiss:
        yield Items(tuple(each.full_sentence for each in amiss))
    if unsure:
        yield Items(tuple(each.full_sentence for each in unsure), NOT_SURE if amiss else "")


def not_made_blocks(design: Design, advice: Advice) -> Iterator[Items]:
    """Changes that nobody asked for and that have their price: what they are, mend and make worse."""
    before, after = advice.before, advice.after
    changes = count_changes(before.at_gauge.size, after.at_gauge.size, design)
    found = before.reported, after.reported
    better, worse = gains(*found), losses(*found)
    yield Items(tuple(each.words for each in changes), NOT_MADE[bool(worse)])
    if better:
        yield Items(better, WOULD_MEND)
    if worse:
        yield Items(worse, WOULD_SPOIL)


def mended_blocks(before: SizeFit, after: SizeFit) -> Iterator[Items]:
    """What other counts mend of a size, or make less of, and what they make surer and worse."""
    mended, unsure = _mended(before, after)
    if mended:
        yield Items(mended, MENDED.format(size=before.name))
    if unsure:
        yield Items(unsure, SURER.format(size=before.name))
    if worse := losses(before.reported, after.reported):
        yield Items(worse, MADE_WORSE)


def _mended(before: SizeFit, after: SizeFit) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What is mended, in whole or in part, and what only got surer."""
    left: dict[tuple[str, str], int] = {}
    for each in after.reported:
        key = each.code, each.place
        left[key] = max(badness_of(each), left.get(key, 0))
    better = [each for each in before.reported if badness_of(each) > left.get((each.code, each.place), 0)]
    amiss, unsure = told_apart(better)
    mended = tuple(
        f"{each.sure_sentence} {_LESS}" if (each.code, each.place) in left else each.sure_sentence
        for each in amiss
    )
    return mended, tuple(each.sure_sentence for each in unsure)
