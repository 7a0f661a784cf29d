"""Until when a poncho fits a child, in words and as plain JSON values."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from schematics.checks.wording import sentence_case
from schematics.design.limits import Limits
from schematics.document.document import Section
from schematics.document.json_text import number
from schematics.fitting.growing import SOURCE, age_of, ages_fitted, growth_words
from schematics.fitting.sizing import SizeFit
from schematics.wearer.body import Wearer


def and_next(fits: Sequence[SizeFit], chosen: SizeFit) -> tuple[SizeFit, ...]:
    """The chosen one of the fits, and one size up if there is one."""
    place = [fit.name for fit in fits].index(chosen.name)
    return tuple(fits[place : place + 2])


def growth_sections(fits: Sequence[SizeFit], wearer: Wearer, limits: Limits) -> Iterator[Section]:
    """Until when the first fits, and in a sentence each the others as they stand; nothing of a grown-up."""
    told = _told(fits, wearer, limits)
    if not told:
        return
    larger = zip(fits[1:], told[1:], strict=True)
    sizes = tuple(f"Size {fit.name} as it stands: {words}." for fit, words in larger)
    source = f"{sentence_case(SOURCE)}: no child keeps to it exactly."
    yield Section("How long it fits", (f"{sentence_case(told[0])}.", *sizes, source))


def _told(fits: Sequence[SizeFit], wearer: Wearer, limits: Limits) -> list[str]:
    age = age_of(wearer)
    spans = ages_fitted([fit.made.facts for fit in fits], wearer, limits)
    return [] if age is None or not any(spans) else [growth_words(each, age) for each in spans]


def growth_json(fits: Sequence[SizeFit], wearer: Wearer, limits: Limits) -> list[dict[str, Any]]:
    """The same: a line for each size and each place it is grown out of."""
    spans = ages_fitted([fit.made.facts for fit in fits], wearer, limits)
    return [
        {
            "size": fit.name,
            "by": each.by,
            "from_years": number(each.from_years),
            "until_years": number(each.until_years),
        }
        for fit, of_size in zip(fits, spans, strict=True)
        for each in of_size
    ]
