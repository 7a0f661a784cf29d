"""How the checks compare and how they put figures into words.

A verdict is reached on exact values. The words then round as coarsely as they can without
contradicting it: a difference that decides something is never rounded away.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from schematics.checks.finding import Case, Finding, Severity
from schematics.units import round_half_up
from schematics.wearer.body import Body, Origin, Value

LOW, TYPICAL, HIGH = "low end", "typical", "high end"
"""Which end of a size's spread a body figure is."""

_HAIR = 1e-9
_ORIGINS = {
    Origin.OWN: "measured",
    Origin.CHART: "from the chart",
    Origin.AGE_TABLE: "from the age table",
    Origin.ESTIMATE: "an estimate",
}


def exceeds(value: float, limit: float) -> bool:
    """Whether ``value`` is over ``limit`` by more than a hair of float error; at the limit it is not."""
    return value > limit + _HAIR


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """Two lengths and how far they are apart, in words that agree with each other."""

    first: str
    second: str
    gap: str


def compare_cm(first_cm: float, second_cm: float, *, step: float = 0.1) -> Compared:
    """Two lengths rounded to ``step``, or finer where that would misstate their difference.

    >>> compare_cm(56.0, 52.5)
    Compared(first='56.0 cm', second='52.5 cm', gap='3.5 cm')
    """
    gap = abs(first_cm - second_cm)
    for each in (0.5, 0.1, 0.01):
        rounded = [round_half_up(value, each) for value in (first_cm, second_cm)]
        printed = abs(rounded[0] - rounded[1])
        honest = abs(printed - round_half_up(gap, each)) < each / 2 and (printed > each / 2 or gap <= _HAIR)
        if each <= step and honest:
            return Compared(first=cm(first_cm, each), second=cm(second_cm, each), gap=cm(printed, each))
    gap_words = cm(gap, 0.01) if round_half_up(gap, 0.01) else "less than 0.01 cm"
    return Compared(first=cm(first_cm, 0.01), second=cm(second_cm, 0.01), gap=gap_words)


def cm(length_cm: float, step: float = 0.1) -> str:
    """The length to ``step``: ``58.5 cm``."""
    return f"{round_half_up(length_cm, step):.{2 if step < 0.1 else 1}f} cm"


def percent(fraction: float, *against: float, signed: bool = False) -> str:
    """``35 %``, with as many decimals as it takes to print unlike any limit it is held ``against``."""
    for decimals in (0, 1, 2):
        words, *limits = (
            f"{round_half_up(each * 100, 10**-decimals):{'+' if signed else ''}.{decimals}f}"
            for each in (fraction, *against)
        )
        if words not in limits or any(abs(fraction - limit) <= _HAIR for limit in against):
            break
    return f"{words} %"


def of_body(value: Value, end: str) -> str:
    """What a body figure is: ``high end, from the age table``; ``measured`` where there is no spread."""
    spread = value.high_cm - value.low_cm > _HAIR
    return f"{end}, {_ORIGINS[value.origin]}" if spread else _ORIGINS[value.origin]


def borrowed_clause(case: Case, bodies: Iterable[Body]) -> str:
    """`` (knee height from the age table)`` for those of ``bodies`` that are borrowed, else nothing."""
    notes = []
    for body in bodies:
        value = case.wearer.get(body)
        if value is not None and value.borrowed:
            notes.append(f"{body.words} {_ORIGINS[value.origin]}")
    return f" ({', '.join(notes)})" if notes else ""


def listed(words: Iterable[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    *rest, last = words
    return f"{', '.join(rest)} and {last}" if rest else last


def sentence_case(words: str) -> str:
    """The words with a capital first letter, the rest untouched."""
    return words[:1].upper() + words[1:]


def unknown(case: Case, code: str, place: str, bodies: Iterable[Body], what: str) -> Finding:
    """The finding for a check that lacks a measurement: names it and says how to give it."""
    missing = [body for body in bodies if case.wearer.get(body) is None]
    names, keys = listed(body.words for body in missing), listed(body.value for body in missing)
    is_, it = ("are", "them") if len(missing) > 1 else ("is", "it")
    return case.finding(
        code,
        Severity.MIND,
        place,
        f"{sentence_case(names)} {is_} not known, so {what} cannot be checked: measure {it} and give "
        f"{keys} with the size's wearer, or give an age that the tables cover.",
    )
