"""What grading says of its answer: each count with its length, the misses first, and why they are."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from itertools import tee

from schematics.grading.best import InfeasibleError, SearchMemo, best
from schematics.grading.candidates import TooManyError
from schematics.grading.case import SizeCase
from schematics.grading.costs import STRAIGHT
from schematics.grading.grade import Graded
from schematics.grading.release import cure_words, words_to_cost_nothing, words_to_keep
from schematics.grading.search import Search, Solution
from schematics.units import HAIR

_MOST_LOOKED_AT = 5_000_000
"""Choices of a size looked at for reasons before those that are left are given up."""
_WORTH = 0.5
"""A reason is one if without it a miss is smaller by at least this share of the tolerance, or none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GradedLength:
    """A line of the table: one finished measurement of one size.

    ``key`` is the count, or the measurement where that is made of several counts and ``count`` is None;
    ``meant_cm`` is None where nothing was meant.
    """

    key: str
    measurement: str
    count: float | None
    length_cm: float | None = None
    meant_cm: float | None = None
    tolerance_cm: float | None = None
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
class MissCause:
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
    row: GradedLength
    reason: MissCause | None


def rows(graded: Graded, case: SizeCase) -> Iterator[GradedLength]:
    """The lines of one size: its counts, then the intents for what is made of several."""
    counts = graded.solution.counts[case.index]
    keys = dict(graded.draft.counts)
    for count, key in keys.items():
        yield _row(case, counts, key, count)
    for count in case.shaping:
        yield GradedLength(
            key=count, measurement=count, count=counts[count], by_hand=count in case.size.given
        )
    for key in case.targets_cm:
        if key not in keys.values():
            yield _row(case, counts, key, None)


def _row(case: SizeCase, counts: Mapping[str, float], key: str, count: str | None) -> GradedLength:
    meant = case.targets_cm.get(key)
    return GradedLength(
        key=count or key,
        measurement=key,
        count=None if count is None else counts[count],
        length_cm=float(case.formulas.lengths[key].at(counts)),
        meant_cm=meant,
        tolerance_cm=None if meant is None else case.tolerance_cm(key),
        by_hand=count in case.size.given,
    )


def misses(graded: Graded) -> tuple[Miss, ...]:
    """Every miss, the largest beside its tolerance first."""
    missed: list[Miss] = []
    for case in graded.search.cases:
        trials = _trials(graded, case)
        for row in filter(lambda row: row.missed, rows(graded, case)):
            trials, again = tee(trials)
            missed.append(Miss(size=case.size.name, row=row, reason=_reason(case, row, again)))
    return tuple(sorted(missed, key=lambda miss: -abs(miss.row.off_cm) / (miss.row.tolerance_cm or 1.0)))


def _reason(case: SizeCase, row: GradedLength, trials: Iterator[_Trial]) -> MissCause | None:
    """The first thing without which the length is within its tolerance, else that which brings it nearest."""
    if row.by_hand or row.meant_cm is None or row.tolerance_cm is None:
        return None
    nearest: tuple[float, float, _Suspect, Solution] | None = None
    for suspect, solution in trials:
        length_cm = float(case.formulas.lengths[row.measurement].at(solution.counts[0]))
        off_cm = abs(length_cm - row.meant_cm)
        within = off_cm <= row.tolerance_cm + HAIR
        gained = abs(row.off_cm) - off_cm >= _WORTH * row.tolerance_cm
        if within or (gained and (nearest is None or off_cm < nearest[0] - HAIR)):
            nearest = off_cm, length_cm, suspect, solution
        if within:
            break
    if nearest is None:
        return None
    _, length_cm, suspect, solution = nearest
    return MissCause(words=suspect.words, length_cm=length_cm, choice=suspect.choice(solution))


def _trials(graded: Graded, case: SizeCase) -> Iterator[_Trial]:
    """The size graded anew without each thing that is suspected, in their order, when it is asked for."""
    memo = SearchMemo(most=_MOST_LOOKED_AT)
    for suspect in _suspects(graded, case):
        search = Search(
            cases=(case,), left_out=graded.search.left_out | suspect.left_out, only=suspect.intervals
        )
        with suppress(InfeasibleError, TooManyError):
            yield suspect, best(search, memo)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Suspect:
    """What may be the reason: its words, and what to leave out to grade without it.

    ``choice`` says what to write to be rid of it, from what was found so; ``intervals`` are those of
    increases to look at, none for all.
    """

    words: str
    choice: Callable[[Solution], str] = lambda _: ""
    left_out: frozenset[tuple[int, str]] = frozenset()
    intervals: tuple[float, ...] = ()


def _suspects(graded: Graded, case: SizeCase) -> Iterator[_Suspect]:
    search, every = graded.search, graded.solution.every
    at = search.cases.index(case)
    here = () if every is None else (every,)

    def suspect(words: str, name: str, choice: str | Callable[[Mapping[str, float]], str]) -> _Suspect:
        return _Suspect(
            words=words,
            choice=lambda solution: choice if isinstance(choice, str) else choice(solution.counts[0]),
            left_out=frozenset({(case.index, name)}),
            intervals=here,
        )

    if len(search.cases) > 1:
        yield _Suspect(words="the sizes beside it have to grow", intervals=here)
        if case.shaping:
            yield _Suspect(words="increases are on the same rows in all sizes", choice=_interval_words)
    for ask in search.asks[at]:
        if ask.code and not ask.code.startswith("COUNT"):
            yield suspect(f"{ask.code} would stop it", ask.key, partial(words_to_keep, case, ask))
    for cost in search.costs[at]:
        if cost.name == STRAIGHT:
            yield suspect("increases would end further above the hem", cost.name, "")
        elif cost.name not in case.targets_cm:
            choice = partial(words_to_cost_nothing, case, cost.name)
            yield suspect(f"{cost.name} would be past its limit", cost.name, choice)
    for ask in search.asks[at]:
        if ask.count:
            words = f"leave {ask.count} out of size {case.size.name!r}"
            yield suspect(ask.words, ask.key, words)
        elif not ask.code or ask.code.startswith("COUNT"):
            yield suspect(ask.words, ask.key, partial(cure_words, case, ask))
    for cost in search.costs[at]:
        if cost.name in case.targets_cm:
            words = f"weights: {{{cost.name}: {case.weight(cost.name) / 10:g}}}"
            yield suspect(f"{cost.name} would be further off", cost.name, words)


_Trial = tuple[_Suspect, Solution]
"""What is suspected, and the size graded anew without it."""


def _interval_words(solution: Solution) -> str:
    return f"body: {{increase_every: {solution.every:g}}} in that size"
