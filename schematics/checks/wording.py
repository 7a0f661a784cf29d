"""How the checks compare and how they put figures into words; lengths are `schematics.checks.tape`'s."""

from __future__ import annotations

from collections.abc import Iterable

from schematics.checks.finding import Case, Finding, Severity
from schematics.checks.rules.chance import IN_WORDS
from schematics.units import HAIR, round_half_up
from schematics.wearer.body import Body, BodyValue, Origin

LOW, TYPICAL, HIGH = "low end", "typical", "high end"
"""Which end of a size's spread a body figure is."""

ONE_PERSON = (
    "One person, given by measurements or an age without a chart row, is judged by those and by what is "
    "typical where nothing was measured."
)
"""For explanations: whom a high or low end does not decide for."""

_ORIGINS = {
    Origin.OWN: "measured",
    Origin.CHART: "from the chart",
    Origin.AGE_TABLE: "from the age table",
    Origin.ESTIMATE: "estimated",
}


def every_row(step: float) -> str:
    """``every row``, ``every 2nd row``, ``every 11th row``; of 1.5, that it is two rows of every three."""
    if step == 1:
        return "every row"
    if step != int(step):
        return "row 3, and so two rows of every three,"
    step = int(step)
    ending = "th" if step % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(step % 10, "th")
    return f"every {step}{ending} row"


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


def chance_words(chance: float) -> str:
    """Such as ``about three in ten``."""
    return next(words for below, words in IN_WORDS if chance < below)


def of_body(value: BodyValue, end: str) -> str:
    """What a body figure is: ``high end, from the age table``; ``measured`` where there is no spread.

    One person's comes from an age table without its spread, which is typical.
    """
    if value.high_cm - value.low_cm > HAIR:
        return f"{end}, {_origin(value)}"
    return f"{TYPICAL}, {_origin(value)}" if value.origin is Origin.AGE_TABLE else _origin(value)


def _origin(value: BodyValue) -> str:
    """``from the age table``, and which end of it answers for a wearer beyond it."""
    words = _ORIGINS[value.origin]
    return f"{words}'s {value.held}" if value.held else words


def borrowed_clause(case: Case, bodies: Iterable[Body]) -> str:
    """`` (from the age table: hip height; estimated: nape height)`` for those borrowed, else nothing."""
    notes: dict[str, list[str]] = {}
    for body in bodies:
        value = case.wearer.get(body)
        if value is not None and value.borrowed:
            notes.setdefault(_origin(value), []).append(body.words)
    told = [f"{origin}: {listed(words)}" for origin, words in notes.items()]
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
