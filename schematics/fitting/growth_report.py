"""Until when a poncho fits a child, in words and as plain JSON values."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import Any

from schematics.checks.finding import Severity
from schematics.checks.wording import sentence_case
from schematics.design.limits import Limits
from schematics.document.document import Section
from schematics.document.json_text import number
from schematics.fitting.growing import SOURCE, FitsWhile, age_of, ages_fitted, growth_words
from schematics.fitting.sizing import SizeFit
from schematics.wearer.body import Wearer


def and_next(fits: Sequence[SizeFit], chosen: SizeFit) -> tuple[SizeFit, ...]:
    """The chosen one of the fits, and one size up if there is one that may be the wearer's."""
    place = [fit.name for fit in fits].index(chosen.name)
    larger = fits[place + 1 : place + 2]
    return (fits[place], *(fit for fit in larger if not fit.is_not_hers))


def growth_sections(fits: Sequence[SizeFit], wearer: Wearer, limits: Limits) -> Iterator[Section]:
    """Until when the first fits, and the others as they stand; nothing of a grown-up."""
    age = age_of(wearer)
    spans = ages_fitted([fit.at_gauge.facts for fit in fits], wearer, limits)
    if age is None or not any(spans):
        return
    names = ("it", *(f"size {fit.name} as it stands" for fit in fits[1:]))
    sentences = map(_growth, fits, names, spans, itertools.repeat(age))
    source = f"{sentence_case(SOURCE)}: no child keeps to it exactly."
    yield Section("How long it fits", (*sentences, source))


def _growth(fit: SizeFit, what: str, spans: Sequence[FitsWhile], age_years: float) -> str:
    """All of one, where something stops it that no age mends with that before it."""
    sentences = growth_words(spans, age_years, what)
    right = all(each.from_years is not None and each.from_years <= age_years for each in spans)
    stopped = [f"{sentence_case(what)} cannot be worn now; were that mended:"]
    return " ".join([*(stopped if right and fit.verdict is Severity.STOP else []), *sentences])


def growth_json(fits: Sequence[SizeFit], wearer: Wearer, limits: Limits) -> list[dict[str, Any]]:
    """Until when sizes fit, as plain JSON values: one for each size and each place it is grown out of."""
    spans = ages_fitted([fit.at_gauge.facts for fit in fits], wearer, limits)
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
