"""How figures are put into words; lengths are `schematics.checks.tape`'s."""

from __future__ import annotations

from collections.abc import Iterable

from schematics.checks.finding import Case
from schematics.checks.rules.sentence import BORROWED, BORROWED_FROM, ENDS, HELD, ORIGINS
from schematics.units import HAIR, round_half_up
from schematics.wearer.body import Body, BodyValue, Origin
from schematics.wearer.expr import End


def every_row(step: float) -> str:
    """``every row``, ``every 2nd row``, ``every 11th row``; of 1.5, that it is two rows of every three."""
    if step == 1:
        return "every row"
    if step != int(step):
        return "row 3, and so two rows of every three,"
    return f"every {ordinal(int(step))} row"


def ordinal(number: int) -> str:
    """``1st``, ``2nd``, ``11th``."""
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


PERCENT_DECIMALS = (0, 1)
"""How many decimals a percentage may have, the fewest first."""

JUST_OFF = ("just under {limit}", "just over {limit}")
"""A percentage that still prints like a limit it is not at."""


def percent(fraction: float, *against: float, signed: bool = False) -> str:
    """``35 %``; where that reads like a limit it is held ``against``, ``35.4 %``, else ``just over 35 %``."""
    if any(abs(fraction - limit) <= HAIR for limit in against):
        return _rounded_percent(fraction, PERCENT_DECIMALS[0], signed)
    for decimals in PERCENT_DECIMALS:
        words = _rounded_percent(fraction, decimals, signed)
        alike = [limit for limit in against if _rounded_percent(limit, decimals, signed) == words]
        if not alike:
            return words
    return JUST_OFF[fraction > alike[0]].format(limit=_rounded_percent(alike[0], PERCENT_DECIMALS[0], signed))


def _rounded_percent(fraction: float, decimals: int, signed: bool) -> str:
    return f"{round_half_up(fraction * 100, 10**-decimals):{'+' if signed else ''}.{decimals}f} %"


def of_body(value: BodyValue, end: str) -> str:
    """What a body figure is: ``high end, from the age table``; ``measured`` where there is no spread.

    One person's comes from an age table without its spread, which is typical.
    """
    if value.high_cm - value.low_cm > HAIR:
        return f"{end}, {_origin(value)}"
    return f"{ENDS[End.TYPICAL]}, {_origin(value)}" if value.origin is Origin.AGE_TABLE else _origin(value)


def _origin(value: BodyValue) -> str:
    """``from the age table``, and which end of it answers for a wearer beyond it."""
    words = ORIGINS[value.origin]
    return HELD.format(origin=words, held=value.held) if value.held else words


def borrowed_clause(case: Case, bodies: Iterable[Body]) -> str:
    """`` (from the age table: hip height; estimated: nape height)`` for those borrowed, else nothing."""
    notes: dict[str, list[str]] = {}
    for body in bodies:
        value = case.wearer.get(body)
        if value is not None and value.borrowed:
            notes.setdefault(_origin(value), []).append(body.words)
    origins = [BORROWED_FROM.format(origin=origin, bodies=listed(words)) for origin, words in notes.items()]
    return BORROWED.format(origins="; ".join(origins)) if origins else ""


def listed(words: Iterable[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    *rest, last = words
    return f"{', '.join(rest)} and {last}" if rest else last


def sentence_case(words: str) -> str:
    """The words with a capital first letter, the rest untouched."""
    return words[:1].upper() + words[1:]
