"""What is amiss with a size, apart from what is only not sure; and what other counts mend of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from schematics.checks.evaluation import SEVERITIES
from schematics.checks.finding import Finding, Severity
from schematics.document.document import Block, Items
from schematics.fitting.advice_words import worn_sentence
from schematics.fitting.not_known import not_known
from schematics.fitting.sizing import SizeFit

NOT_SURE = "This is right as it is measured, but that is not sure:"
MENDED = "What the changes mend of size {size} as it stands:"
SURER = "What the changes make surer of size {size} as it stands:"
_LESS = "Of this something is left, see above."


def told_apart(findings: Iterable[Finding]) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """What is amiss, and what is only not sure, each with what is least likely to hold first."""
    ordered = sorted(findings, key=lambda each: (SEVERITIES.index(each.severity), _holds(each)))
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


def mended_blocks(before: SizeFit, after: SizeFit) -> Iterator[Items]:
    """What other counts mend of a size, or make less of, and what they make surer."""
    left: dict[tuple[str, str], int] = {}
    for each in after.reported:
        key = each.code, each.place
        left[key] = max(_level(each), left.get(key, 0))
    better = [each for each in before.reported if _level(each) > left.get((each.code, each.place), 0)]
    amiss, unsure = told_apart(better)
    mended = tuple(
        f"{each.sure_sentence} {_LESS}" if (each.code, each.place) in left else each.sure_sentence
        for each in amiss
    )
    if mended:
        yield Items(mended, MENDED.format(size=before.name))
    if unsure:
        yield Items(tuple(each.sure_sentence for each in unsure), SURER.format(size=before.name))


def _level(finding: Finding) -> int:
    """How bad it is: nothing, not sure, to be minded, a stop."""
    if finding.severity is Severity.GOOD:
        return 0
    if finding.unsure:
        return 1
    return 3 if finding.severity is Severity.STOP else 2


def _holds(finding: Finding) -> float:
    """In which share of all cases it holds; in none where nothing of it is in doubt."""
    return finding.certainty.holds_fraction if finding.certainty else 0.0
