"""What grading says of its answer: each count with its length, the misses first, and why they are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from schematics.grading.best import InfeasibleError, best
from schematics.grading.case import SizeCase
from schematics.grading.costs import STRAIGHT
from schematics.grading.grade import Graded
from schematics.grading.search import Found, Search
from schematics.linear import HAIR

_WORTH = 0.5
"""A reason is one if without it a miss is smaller by at least this share of the tolerance, or none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A line of the table: one finished measurement of one size.

    ``count`` is None where it is made of several counts; ``meant_cm`` is None where nothing was said.
    """

    key: str
    count: float | None
    length_cm: float | None
    meant_cm: float | None
    tolerance_cm: float | None
    by_hand: bool

    @property
    def off_cm(self) -> float:
        """How much longer it is than was meant."""
        return 0.0 if self.meant_cm is None or self.length_cm is None else self.length_cm - self.meant_cm

    @property
    def missed(self) -> bool:
        """Whether it is off by more than its tolerance."""
        return self.tolerance_cm is not None and abs(self.off_cm) > self.tolerance_cm + HAIR


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """What a miss comes from: ``words`` name it, ``length_cm`` is what grading without it gives.

    ``choice`` says what to write into the spec to have it so.
    """

    words: str
    length_cm: float
    choice: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Miss:
    """A length off by more than its tolerance, and why; no reason where no single one was found."""

    size: str
    row: Row
    reason: Reason | None


def rows(graded: Graded, case: SizeCase) -> Iterator[Row]:
    """The lines of one size: its counts, then the intents for what is made of several."""
    counts = graded.found.counts[case.index]
    told = dict(graded.draft.counts)
    for count, key in told.items():
        yield _row(case, counts, key, count)
    for count in case.shaping:
        yield Row(
            key=count, count=counts[count], length_cm=None, meant_cm=None, tolerance_cm=None,
            by_hand=count in case.size.given,
        )  # fmt: skip
    for key in case.targets_cm:
        if key not in told.values():
            yield _row(case, counts, key, None)


def _row(case: SizeCase, counts: Mapping[str, float], key: str, count: str | None) -> Row:
    meant = case.targets_cm.get(key)
    return Row(
        key=count or key,
        count=None if count is None else counts[count],
        length_cm=float(case.length_cm(key, counts)),
        meant_cm=meant,
        tolerance_cm=None if meant is None else case.tolerance_cm(key),
        by_hand=count in case.size.given,
    )


def misses(graded: Graded) -> tuple[Miss, ...]:
    """Every miss, the largest beside its tolerance first."""
    found = [
        Miss(size=case.size.name, row=row, reason=_reason(graded, case, row))
        for case in graded.search.cases
        for row in rows(graded, case)
        if row.missed
    ]
    return tuple(sorted(found, key=lambda miss: -abs(miss.row.off_cm) / (miss.row.tolerance_cm or 1.0)))


def _reason(graded: Graded, case: SizeCase, row: Row) -> Reason | None:
    """The first thing without which grading comes nearer, of what the size must keep and what it costs."""
    key = graded.draft.counts.get(row.key, row.key)
    if row.by_hand:
        return None
    search = graded.search
    for words, choice, left_out in _suspects(search, case):
        trial = Search(cases=(case,), left_out=search.left_out | left_out)
        found = _solved(trial)
        if found is None:
            continue
        length = float(case.length_cm(key, found.counts[0]))
        gained = abs(row.off_cm) - abs(length - (row.meant_cm or 0.0))
        if gained >= _WORTH * (row.tolerance_cm or 0.0):
            return Reason(words=words, length_cm=length, choice=choice)
    return None


def _solved(search: Search) -> Found | None:
    try:
        return best(search)
    except InfeasibleError:
        return None


def _suspects(search: Search, case: SizeCase) -> Iterator[tuple[str, str, frozenset[tuple[int, str]]]]:
    """What may be the reason: its words, what to write to be rid of it, and what to leave out."""
    yield "the sizes beside it and the rows increases are made on in all sizes", "", frozenset()
    at = search.cases.index(case)
    for ask in search.asks[at]:
        if ask.code and not ask.code.startswith("COUNT"):
            yield f"{ask.code} would stop it", _limit_words(ask.code), frozenset({(case.index, ask.key)})
    for cost in search.costs[at]:
        left_out = frozenset({(case.index, cost.name)})
        if cost.name == STRAIGHT:
            yield "the increases would end further above the hem", "", left_out
        elif cost.name not in case.targets_cm:
            yield f"{cost.name} would be past its limit", _limit_words(cost.name), left_out
    for ask in search.asks[at]:
        if ask.count:
            left_out = frozenset({(case.index, ask.key)})
            yield ask.words, f"leave {ask.count} out of size {case.size.name!r}", left_out
        elif ask.code.startswith("COUNT"):
            yield ask.words, ask.cure, frozenset({(case.index, ask.key)})
    for cost in search.costs[at]:
        if cost.name in case.targets_cm:
            weight = case.weight(cost.name) / 10
            choice = f"weights: {{{cost.name}: {weight:g}}}"
            yield f"{cost.name} would be further off", choice, frozenset({(case.index, cost.name)})


def _limit_words(code: str) -> str:
    from schematics.checks import EXPLANATIONS

    limits = EXPLANATIONS[code].limits
    return f"limits: {{{limits[0]}: ...}}" if limits else ""
