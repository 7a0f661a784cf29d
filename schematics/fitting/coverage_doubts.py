"""What to measure so that sizes surely suit more children than they do for certain."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.design.design import Design
from schematics.fitting.coverage import CRITERIA, AgeShares
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import size_fit
from schematics.wearer.body import WearerSpec
from schematics.wearer.resolve import resolve


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverageDoubt:
    """A size that would suit more children, were it sure by one of `CRITERIA`, and what to measure for that.

    ``fraction`` is how many more of the children of the age at which they are most, ``measure`` as in
    `schematics.checks.finding.Certainty`, of the middle one for whom it is not sure.
    """

    criterion: str
    size: str
    age_years: float
    fraction: float
    measure: str


def coverage_doubts(
    design: Design, shares: Sequence[AgeShares], least_fraction: float
) -> tuple[CoverageDoubt, ...]:
    """Those of at least so many of the children of some age, by criterion and size."""
    return tuple(
        doubt
        for criterion in CRITERIA
        for size in shares[0].sizes
        for doubt in _doubts(design, shares, criterion, size, least_fraction)
    )


def _doubts(
    design: Design, shares: Sequence[AgeShares], criterion: str, name: str, least_fraction: float
) -> Iterator[CoverageDoubt]:
    most = max(shares, key=lambda each: each.sizes[name].unsure[criterion].fraction)
    unsure = most.sizes[name].unsure[criterion]
    if unsure.fraction < least_fraction:
        return
    body, codes = CRITERIA[criterion]
    child = resolve(WearerSpec(age_years=most.age_years, own={body: unsure.typical_cm}), "the middle child")
    (size,) = (each for each in design.sizes if each.name == name)
    for finding in size_fit(design, size_at_gauge(design, size), child).findings:
        if finding.code in codes:
            for measure in finding.to_measure:
                yield CoverageDoubt(
                    criterion=criterion,
                    size=name,
                    age_years=most.age_years,
                    fraction=unsure.fraction,
                    measure=measure,
                )
