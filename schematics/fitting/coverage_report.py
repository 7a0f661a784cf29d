"""The coverage as a document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from schematics.checks.wording import listed
from schematics.design.design import Design
from schematics.document.common import cautions_section, design_title
from schematics.document.document import Document, Items, Quantity, Section, Table
from schematics.fitting.coverage import CRITERIA, AgeShares, SizeShares
from schematics.fitting.coverage_doubts import CoverageDoubt, coverage_doubts
from schematics.fitting.report_json import head_and_cautions
from schematics.wearer.age_words import age_words
from schematics.wearer.growth import REFERENCES

GAP = 0.05
"""A share of an age's children with no size that is worth saying."""

OVERLAP = 0.5
"""A share of an age's children with several sizes that is worth saying."""

_TO_BE_SURE = "What to measure to be sure"
_NOT_COUNTED = (
    "A child whom a size suits as it is measured, but in too few cases, is not counted as suited. In "
    "brackets: how many more would be, by all four, if that were sure, at the age at which they are most."
)

WORDS = {
    "head": "By head: it passes the neck at full stretch",
    "hand": "By hand: it passes the arm band at full stretch",
    "reach": "By reach: the arm band comes to the wrist or the lower forearm",
    "hang": "By hang: the hem is below the waist and above the knee",
}

NOTES = (
    f"Heads are those of the growth references ({REFERENCES}: lowest 3rd to highest 97th "
    "percentile of both sexes), hands and heights of the United States survey of children of 1977 (5th to "
    "95th), spread as a normal curve through the median and either percentile.",
    "Reach and hang follow from the height. Of head, hand and height the tables give no correlation: they "
    "are taken as independent; in brackets what any correlation could make of it.",
    "Neck, chest, shoulders and wrist are not looked at here; schematics fit does for one child.",
)


def coverage_document(design: Design, shares: Sequence[AgeShares]) -> Document:
    """By all four together, by each, and where there are gaps and overlaps; shares in per cent."""
    names, doubts = list(shares[0].sizes), coverage_doubts(design, shares, GAP)
    together = Table(
        header=("age", *names, "none", "several"),
        rows=tuple(
            (
                _age(each),
                *(_with_bounds(each.sizes[name]) for name in names),
                _share(each.none),
                _share(each.several),
            )
            for each in shares
        ),
    )
    return Document(
        title=design_title(design),
        sections=(
            Section(
                "Per cent of the children of an age that each size suits, by all four together", (together,)
            ),
            *(
                Section(
                    words,
                    (
                        Table(
                            header=("age", *names),
                            rows=tuple(
                                (_age(each), *(_share(size.by[name]) for size in each.sizes.values()))
                                for each in shares
                            ),
                        ),
                    ),
                )
                for name, words in WORDS.items()
            ),
            Section("Gaps and overlaps", (*gaps(shares), *NOTES)),
            *([Section(_TO_BE_SURE, (_NOT_COUNTED, Items(tuple(_doubt_words(doubts)))))] if doubts else []),
        ),
        closing=(cautions_section(),),
        data=lambda: coverage_json(design, shares, doubts),
    )


def _doubt_words(doubts: Sequence[CoverageDoubt]) -> Iterator[str]:
    """A sentence for each measurement and what it is for, the sizes that it would help with it."""
    whose: dict[tuple[str, str], list[CoverageDoubt]] = {}
    for each in doubts:
        whose.setdefault((each.criterion, each.measure), []).append(each)
    for (criterion, measure), some in whose.items():
        sizes = (
            f"size {each.size} ({_percent(each.fraction)} % at {age_words(each.age_years)})" for each in some
        )
        yield f"By {criterion}, {measure}: {listed(sizes)}."


def gaps(shares: Sequence[AgeShares]) -> Iterator[str]:
    """Where the size run leaves gaps and where it overlaps, in words."""
    holes = [each for each in shares if each.none >= GAP]
    if holes:
        ages = (f"{each.age_years:g} years ({_percent(each.none)} %)" for each in holes)
        yield f"Gaps, children whom no size suits: at {listed(ages)}."
    else:
        yield f"No gaps: at every age less than {GAP * 100:g} % of the children have no size."
    twice = [each for each in shares if each.several >= OVERLAP]
    if twice:
        ages = (f"{each.age_years:g} ({_percent(each.several)} %)" for each in twice)
        yield f"Overlaps, children whom several sizes suit: at {listed(ages)} years."


def _age(each: AgeShares) -> Quantity:
    return Quantity(each.age_years, f"{each.age_years:g}")


def _share(share: float) -> Quantity:
    return Quantity(share * 100, _percent(share), "%")


def _with_bounds(size: SizeShares) -> Quantity:
    low, high = _percent(size.all_low), _percent(size.all_high)
    bounds = "" if low == high else f" ({low}-{high})"
    return Quantity(size.all * 100, f"{_percent(size.all)}{bounds}", "%")


def _percent(share: float) -> str:
    return f"{share * 100:.0f}"


def coverage_json(
    design: Design, shares: Sequence[AgeShares], doubts: Sequence[CoverageDoubt]
) -> dict[str, Any]:
    """Shares from 0 to 1, to 0.0001."""
    return {
        **head_and_cautions(design),
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
                        "unsure": {
                            criterion: round(unsure.fraction, 4) for criterion, unsure in size.unsure.items()
                        },
                        "all": round(size.all, 4),
                        "all_low": round(size.all_low, 4),
                        "all_high": round(size.all_high, 4),
                    }
                    for name, size in each.sizes.items()
                },
            }
            for each in shares
        ],
        "to_be_sure": [
            {
                "by": each.criterion,
                "size": each.size,
                "age_years": each.age_years,
                "unsure": round(each.fraction, 4),
                "measure": each.measure,
            }
            for each in doubts
        ],
    }
