"""The coverage as tables for the terminal and as plain JSON values."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from schematics.checks.wording import listed
from schematics.design.design import Design
from schematics.document.table import columns, heading
from schematics.fitting.coverage import CRITERIA, AgeShares
from schematics.fitting.report_json import head_json

GAP = 0.05
"""A share of an age's children with no size that is worth saying."""

OVERLAP = 0.5
"""A share of an age's children with several sizes that is worth saying."""

WORDS = {
    "head": "By head: it passes the neck at full stretch",
    "hand": "By hand: it passes the arm band at full stretch",
    "reach": "By reach: the arm band comes to the wrist or the lower forearm",
    "hang": "By hang: the hem is below the waist and above the knee",
}

NOTES = (
    "Heads are those of the growth references (WHO 2006, UK 1990, CDC 2000: lowest 3rd to highest 97th "
    "percentile of both sexes), hands and heights of the United States survey of children of 1977 (5th to "
    "95th), spread as a normal curve through the median and either percentile.",
    "Reach and hang follow from the height. Of head, hand and height the tables give no correlation: they "
    "are taken as independent; in brackets what any correlation could make of it.",
    "Neck, chest, shoulders and wrist are not looked at here; schematics fit does for one child.",
)


def coverage_parts(design: Design, shares: Sequence[AgeShares]) -> Iterator[RenderableType]:
    """By all four together, by each, and where there are gaps and overlaps; shares in per cent."""
    yield heading(f"{design.title}, {design.construction} ({design.path})")
    names = list(shares[0].sizes)
    for start in range(0, len(names), 4):
        some = names[start : start + 4]
        last = start + 4 >= len(names)
        yield Text()
        yield heading("Per cent of the children of an age that each size suits, by all four together")
        header: list[Text | str] = ["age", *some, *(("none", "several") if last else ())]
        rows: list[list[Text | str]] = [
            [
                f"{each.age_years:g}",
                *(_with_bounds(each, name) for name in some),
                *((_percent(each.none), _percent(each.several)) if last else ()),
            ]
            for each in shares
        ]
        yield columns([header, *rows], right=range(len(header)))
    for name, words in WORDS.items():
        yield Text()
        yield heading(words)
        table: list[list[Text | str]] = [
            [f"{each.age_years:g}", *(_percent(size.by[name]) for size in each.sizes.values())]
            for each in shares
        ]
        yield columns([["age", *names], *table], right=range(len(names) + 1))
    yield Text()
    yield columns([[words] for words in (*gaps(shares), *NOTES)])
    yield Text()


def gaps(shares: Sequence[AgeShares]) -> Iterator[str]:
    """Where the size run leaves gaps and where it overlaps, in words."""
    holes = [each for each in shares if each.none >= GAP]
    if holes:
        told = (f"{each.age_years:g} years ({_percent(each.none)} %)" for each in holes)
        yield f"Gaps, children whom no size suits: at {listed(told)}."
    else:
        yield f"No gaps: at every age less than {GAP * 100:g} % of the children have no size."
    twice = [each for each in shares if each.several >= OVERLAP]
    if twice:
        told = (f"{each.age_years:g} ({_percent(each.several)} %)" for each in twice)
        yield f"Overlaps, children whom several sizes suit: at {listed(told)} years."


def _with_bounds(each: AgeShares, name: str) -> str:
    size = each.sizes[name]
    low, high = _percent(size.all_low), _percent(size.all_high)
    return _percent(size.all) if low == high else f"{_percent(size.all)} ({low}-{high})"


def _percent(share: float) -> str:
    return f"{share * 100:.0f}"


def coverage_json(design: Design, shares: Sequence[AgeShares]) -> dict[str, Any]:
    """Shares from 0 to 1, to 0.0001."""
    return {
        **head_json(design),
        "notes": list(NOTES),
        "criteria": {name: list(codes) for name, (_, codes) in CRITERIA.items()},
        "ages": [
            {
                "age_years": each.age_years,
                "none": round(each.none, 4),
                "several": round(each.several, 4),
                "sizes": {
                    name: {
                        **{criterion: round(share, 4) for criterion, share in size.by.items()},
                        "all": round(size.all, 4),
                        "all_low": round(size.all_low, 4),
                        "all_high": round(size.all_high, 4),
                    }
                    for name, size in each.sizes.items()
                },
            }
            for each in shares
        ],
    }
