"""Why a count is what it is: what keeps it from coming nearer to its intent."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from schematics.checks.counts import EVEN
from schematics.checks.finding import Severity
from schematics.fabric import CountRule
from schematics.grading.grade import Graded
from schematics.grading.rules import SizeCase
from schematics.grading.search import Search
from schematics.linear import Linear

_HAIR_CM = 1e-6
_Counts = tuple[Mapping[str, int], ...]
"""Of every size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A line of the table: one finished measurement of one size.

    ``count`` is None where it is made of several counts; ``intent_cm`` is None where nothing was said.
    """

    key: str
    count: int | None
    length_cm: float
    intent_cm: float | None
    because: str


def rows(graded: Graded, case: SizeCase) -> Iterator[Row]:
    """The lines of one size: its counts, then the intents for what is made of several."""
    search, counts = graded.search, graded.found.counts[case.index]
    known = {**counts, **{each.name: each.count(counts) for each in case.facts.picked_up}}
    targets_cm = search.targets_cm[case.index]
    for count, key in graded.draft.counts.items():
        length = case.facts.lengths[key]
        yield Row(
            key=count,
            count=counts[count],
            length_cm=length.at(known),
            intent_cm=targets_cm.get(key),
            because=because(search, case, graded.found.counts, count),
        )
    told = set(graded.draft.counts.values())
    for key, target_cm in targets_cm.items():
        if key not in told:
            yield Row(
                key=key,
                count=None,
                length_cm=case.facts.lengths[key].at(known),
                intent_cm=target_cm,
                because="",
            )


def because(search: Search, case: SizeCase, found: _Counts, count: str) -> str:
    """What a count was bound by, in a few words."""
    if count in case.size.given:
        return "by hand"
    nearer = _nearer(search, case, found, count)
    if not nearer:
        rule = _rule(case, count)
        return f"nearest {_multiple(rule)}" if rule != CountRule() else "nearest"
    barred = (_barred(search, case, found, moved) for moved in nearer)
    return next((each for each in barred if each != EVEN), "nearest even")


def _multiple(rule: CountRule) -> str:
    """Such as ``4k + 2``."""
    return f"{rule.multiple}k" + (f" + {rule.plus}" if rule.plus else "")


def _rule(case: SizeCase, count: str) -> CountRule:
    """What the stitch pattern asks of the count."""
    return next(
        (
            each.rule
            for each in case.facts.patterns
            if each.count == Linear.of(count) and each.rule != CountRule()
        ),
        CountRule(),
    )


def _nearer(search: Search, case: SizeCase, found: _Counts, count: str) -> list[_Counts]:
    """The counts with this one nearer to what was meant for it, in the pattern; the smallest steps first."""
    here, rule = _off_cm(search, case, found, count), _rule(case, count)
    nearer = []
    for step in range(1, 2 * rule.multiple + 1):
        for value in (found[case.index][count] + step, found[case.index][count] - step):
            moved = tuple(
                {**each, count: value} if at == case.index else each for at, each in enumerate(found)
            )
            if rule.allows(value) and _off_cm(search, case, moved, count) < here - _HAIR_CM:
                nearer.append(moved)
    return nearer


def _off_cm(search: Search, case: SizeCase, found: _Counts, count: str) -> float:
    """How far the count is off its own intent, or else off every other that it has a part in."""
    values, name = search.values(dict(enumerate(found))), f"{case.index}/{count}"
    terms = [term for term in search.problem.terms if term.size == case.index and name in term.value.terms]
    own = [term for term in terms if term.words == search.draft.counts[count]]
    return sum(term.cost(values) for term in own or terms)


def _barred(search: Search, case: SizeCase, found: _Counts, moved: _Counts) -> str:
    """What the nearer counts would break."""
    before, after = search.values(dict(enumerate(found))), search.values(dict(enumerate(moved)))
    for wish in (False, True):
        for rule in search.problem.rules:
            if rule.wish is wish and case.index in rule.sizes and rule.miss(after) and not rule.miss(before):
                return rule.code or rule.short
    try:
        findings = search.workshop.findings(case.index, moved[case.index])
    except ValueError as error:
        return str(error).splitlines()[0]
    good = {
        each.code
        for each in search.workshop.findings(case.index, found[case.index])
        if each.severity is Severity.GOOD
    }
    for severity in (Severity.STOP, Severity.MIND):
        for each in findings:
            if each.severity is severity and each.code in good:
                return each.code
    worse = {
        term.words: term.cost(after) - term.cost(before)
        for term in search.problem.terms
        if term.cost(after) > term.cost(before) + _HAIR_CM
    }
    return max(worse, key=lambda each: worse[each], default="")
