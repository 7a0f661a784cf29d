"""What other counts make worse, and whether that outweighs what they mend."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import IntEnum

from schematics.checks.certainty import chance_words
from schematics.checks.check_names import check_name
from schematics.checks.finding import Finding, Severity

MADE_WORSE = "What the changes make worse:"
"""The words before what `losses` gives."""

_AS_MUCH = 0.05
"""Chances that differ by no more are alike."""


class Badness(IntEnum):
    """How bad a finding is."""

    RIGHT = 0
    NOT_SURE = 1
    TO_MIND = 2
    STOPS = 3


_WORDS = {
    Badness.RIGHT: "right",
    Badness.NOT_SURE: "not sure",
    Badness.TO_MIND: "to be minded",
    Badness.STOPS: "a stop",
}


def badness_of(finding: Finding) -> Badness:
    """How bad it is, whatever its chance."""
    if finding.severity is Severity.GOOD:
        return Badness.RIGHT
    if finding.severity is Severity.STOP:
        return Badness.STOPS
    return Badness.NOT_SURE if finding.unsure else Badness.TO_MIND


def holds_fraction(finding: Finding) -> float:
    """In which share of all cases it holds; in none where nothing of it is in doubt."""
    return finding.certainty.holds_fraction if finding.certainty else 0.0


@dataclass(frozen=True, slots=True)
class _State:
    """How a check stands: how bad, and in which share of cases it holds, 1 where all is right."""

    level: Badness
    holds: float
    verb: str = "holds"

    def is_worse(self, other: _State) -> bool:
        """Whether by its level, or at the same level by more than a rounding of its chance."""
        if self.level is not other.level:
            return self.level > other.level
        return self.holds < other.holds - _AS_MUCH


_RIGHT = _State(Badness.RIGHT, 1.0)


def losses(before: Iterable[Finding], after: Iterable[Finding]) -> tuple[str, ...]:
    """Every check that is worse after than before, and by how much, in words.

    Such as ``shoulders over neck: holds in fewer than one in ten, where it was about four in ten``.
    """
    return tuple(
        _words(code, was, now) for code, was, now in _beside(before, after) if _is_seen(worse=now, than=was)
    )


def gains(before: Iterable[Finding], after: Iterable[Finding]) -> tuple[str, ...]:
    """Every check that is better after than before, in the same words."""
    return tuple(
        _words(code, was, now) for code, was, now in _beside(before, after) if _is_seen(worse=was, than=now)
    )


def _is_seen(*, worse: _State, than: _State) -> bool:
    """Whether one is worse than the other, and words say so."""
    return worse.is_worse(than) and (
        worse.level is not than.level or chance_words(worse.holds) != chance_words(than.holds)
    )


def _words(code: str, was: _State, now: _State) -> str:
    if now.level is not was.level:
        return f"{check_name(code)}: {_WORDS[now.level]}, where it was {_WORDS[was.level]}"
    chances = chance_words(now.holds), chance_words(was.holds)
    return f"{check_name(code)}: {now.verb} in {chances[0]}, where it was {chances[1]}"


def _beside(before: Iterable[Finding], after: Iterable[Finding]) -> Iterator[tuple[str, _State, _State]]:
    """Every check that is not right on either side, as it was and as it is."""
    old, new = _states(before), _states(after)
    for code in {**old, **new}:
        yield code, old.get(code, _RIGHT), new.get(code, _RIGHT)


def worst_of(findings: Iterable[Finding]) -> Finding | None:
    """The worst, by how bad it is and then by how seldom it holds; None where all is right."""
    amiss = [each for each in findings if badness_of(each) is not Badness.RIGHT]
    return max(amiss, key=lambda each: (badness_of(each), -holds_fraction(each)), default=None)


def is_less_bad(one: Finding | None, other: Finding) -> bool:
    """Whether a finding, None where there is none, is clearly less bad than the other."""
    return one is None or _state_of(other).is_worse(_state_of(one))


def worst_gets_worse(before: Sequence[Finding], after: Sequence[Finding]) -> bool:
    """Whether of the checks that other counts change the worst is worse after than before."""
    changed = [(was, now) for _, was, now in _beside(before, after) if was.is_worse(now) or now.is_worse(was)]
    if not changed:
        return False
    worst_before, worst_after = (max(each, key=_order) for each in zip(*changed, strict=True))
    is_worse: bool = worst_after.is_worse(worst_before)
    return is_worse


def _states(findings: Iterable[Finding]) -> dict[str, _State]:
    """How each check stands that is not right, where it is worst."""
    states: dict[str, _State] = {}
    for each in findings:
        if badness_of(each) is not Badness.RIGHT:
            states[each.code] = max(_state_of(each), states.get(each.code, _RIGHT), key=_order)
    return states


def _state_of(finding: Finding) -> _State:
    sure = finding.certainty
    verb = "stays short of a stop" if sure and sure.short_of_stop else "holds"
    return _State(badness_of(finding), holds_fraction(finding), verb)


def _order(state: _State) -> tuple[int, float]:
    return state.level, -state.holds
