"""How the checks compare and how they put figures into words.

A verdict is reached on exact values. The words then round as coarsely as they can without
contradicting it: a difference that decides something is never rounded away.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from schematics.checks.finding import Case, Finding, Severity
from schematics.rules.expr import HAIR
from schematics.rules.expr import exceeds as exceeds
from schematics.units import round_half_up
from schematics.wearer.body import Body, Origin, Value

LOW, TYPICAL, HIGH = "low end", "typical", "high end"
"""Which end of a size's spread a body figure is."""

_ORIGINS = {
    Origin.OWN: "measured",
    Origin.CHART: "from the chart",
    Origin.AGE_TABLE: "from the age table",
    Origin.ESTIMATE: "estimated",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """Two lengths and how far they are apart, in words that agree with each other."""

    first: str
    second: str
    gap: str


def compare_cm(first_cm: float, second_cm: float, *, step: float = 0.1) -> Compared:
    """Two lengths rounded to ``step``, or finer where that would misstate their difference.

    The gap is that of the rounded lengths, so the three figures add up; it is within 0.1 cm of the
    exact one, and nought only where the lengths are equal.

    >>> compare_cm(56.0, 52.5)
    Compared(first='56.0 cm', second='52.5 cm', gap='3.5 cm')
    """
    gap = abs(first_cm - second_cm)
    for each in (0.5, 0.1, 0.01):
        printed = abs(round_half_up(first_cm, each) - round_half_up(second_cm, each))
        told_apart = printed > each / 2 or gap <= HAIR
        if each <= step and told_apart and abs(printed - gap) <= 0.1:
            return Compared(first=cm(first_cm, each), second=cm(second_cm, each), gap=cm(printed, each))
    return Compared(first=cm(first_cm, 0.01), second=cm(second_cm, 0.01), gap="less than 0.01 cm")


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
        if words not in limits or any(abs(fraction - limit) <= HAIR for limit in against):
            break
    return f"{words} %"


def of_body(value: Value, end: str) -> str:
    """What a body figure is: ``high end, from the age table``; ``measured`` where there is no spread."""
    spread = value.high_cm - value.low_cm > HAIR
    return f"{end}, {_ORIGINS[value.origin]}" if spread else _ORIGINS[value.origin]


def borrowed_clause(case: Case, bodies: Iterable[Body]) -> str:
    """`` (from the age table: hip height; estimated: nape height)`` for those borrowed, else nothing."""
    notes: dict[Origin, list[str]] = {}
    for body in bodies:
        value = case.wearer.get(body)
        if value is not None and value.borrowed:
            notes.setdefault(value.origin, []).append(body.words)
    told = [f"{_ORIGINS[origin]}: {listed(words)}" for origin, words in notes.items()]
    return f" ({'; '.join(told)})" if told else ""


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
        f"{keys} in the size's wearer block, or give a child's age there.",
    )
