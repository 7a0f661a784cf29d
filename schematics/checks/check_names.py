"""What is checked, named for people who know no codes."""

from __future__ import annotations

from collections.abc import Iterable

from schematics.checks import EXPLAINED


def check_name(code: str) -> str:
    """What a check looks at: what is to spare by it, or that it holds.

    >>> check_name("NECK-SLIP"), check_name("COUNT-REPEAT")
    ('shoulders over neck', 'row counts fit the row repeat')
    """
    explanation = EXPLAINED[code]
    _, measured = explanation.tracked
    return measured or explanation.title[0].lower() + explanation.title[1:]


def check_names(codes: Iterable[str]) -> list[str]:
    """What several checks look at, each named once, in their order."""
    return list(dict.fromkeys(map(check_name, codes)))
