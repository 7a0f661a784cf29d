"""Hooks and yarn weights as the trade numbers them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from schematics.wearer.tables import read_rows

_SAME_HOOK_MM = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Hook:
    """A hook size; ``us_name`` is its United States letter and number, None if it has none."""

    mm: float
    us_name: str | None
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnWeight:
    """One of the trade's yarn weights, 0 to 7."""

    number: int
    name: str

    @property
    def words(self) -> str:
        """The weight as printed on a sheet: ``4 Medium``."""
        return f"{self.number} {self.name}"


@cache
def hooks() -> tuple[Hook, ...]:
    """All hook sizes, smallest first."""
    return tuple(
        Hook(mm=float(row["mm"]), us_name=row["us_letter_number"] or None, source=row["source"])
        for row in read_rows("crochet_hooks", "crochet")
    )


@cache
def yarn_weights() -> tuple[YarnWeight, ...]:
    """The yarn weights in order of their number."""
    rows = read_rows("yarn_weights", "crochet")
    return tuple(YarnWeight(number=int(row["number"]), name=row["name"]) for row in rows)


def yarn_weight(number: int) -> YarnWeight:
    """The yarn weight of that number.

    Raises:
        KeyError: the number is not from 0 to 7.
    """
    for weight in yarn_weights():
        if weight.number == number:
            return weight
    raise KeyError(f"no yarn weight {number}; the trade numbers them 0 to 7")


def hook_words(mm: float) -> str:
    """A hook as printed: ``5.5 mm (US I-9)``; only millimetres if the trade has no such size."""
    hook = next((hook for hook in hooks() if abs(hook.mm - mm) < _SAME_HOOK_MM), None)
    words = f"{hook.mm if hook else mm:g} mm"
    return f"{words} (US {hook.us_name})" if hook and hook.us_name else words


_US_NAME = re.compile(
    r"""\s*(?P<us>US\b)?\s*(?P<letters>[A-Z](?:\s*/\s*[A-Z])*(?![A-Z]))?
    [\s/-]*(?P<number>[0-9]{1,2}(?:[ ]1/2|\.5)?)?\s*""",
    re.VERBOSE | re.IGNORECASE,
)


def hooks_called(name: str) -> tuple[Hook, ...] | None:
    """The hooks that a United States name may mean; None for a text that is no such name.

    A letter alone, or one of two (``M`` of ``M/N-13``), may mean several: ``J`` is 5.75 mm, and short for
    ``J-10``, 6 mm. A number alone is one only after ``US``.
    """
    called = _us_parts(name)
    if called is None:
        return None
    letters, number = called
    named = ((hook, _us_parts(f"US {hook.us_name}")) for hook in hooks() if hook.us_name)
    return tuple(
        hook for hook, parts in named if parts and letters <= parts[0] and number in (None, parts[1])
    )


def _us_parts(name: str) -> tuple[frozenset[str], str | None] | None:
    """The letters and the number of a United States hook name."""
    match = _US_NAME.fullmatch(name)
    if match is None or not (match["letters"] or (match["us"] and match["number"])):
        return None
    letters = frozenset(re.findall("[A-Z]", (match["letters"] or "").upper()))
    return letters, match["number"] and match["number"].replace(".5", " 1/2")
