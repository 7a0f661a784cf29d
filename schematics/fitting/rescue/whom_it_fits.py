"""Whom a garment fits as it is: whose sizes of the design, and children of what age."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from schematics.checks.finding import Severity
from schematics.checks.rules.sentence import Answer
from schematics.checks.wording import listed
from schematics.design.design import Design
from schematics.fitting.advice import is_right
from schematics.fitting.gauge import SizeAtGauge
from schematics.fitting.growing import FitsWhile, ages_fitted, ages_words
from schematics.fitting.sizing import size_fit
from schematics.wearer.age_words import age_words
from schematics.wearer.body import WearerSpec
from schematics.wearer.resolve import resolve

_AT_FIRST = 0.0
"""Years of age from which children are tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WhomItFits:
    """Whom a garment fits.

    ``sizes`` are those of the design on whose own wearers nothing is to be minded but that it is not
    sure, ``not_sure`` those of them where it is not, ``with_care`` those on whose nothing stops it.
    ``ages`` are for each place the ages at which it is right on a child whose every measurement is
    typical of its age. ``stopped`` says that something which does not depend on the wearer stops it, such
    as edges that do not meet.
    """

    sizes: tuple[str, ...]
    not_sure: tuple[str, ...]
    with_care: tuple[str, ...]
    ages: tuple[FitsWhile, ...]
    stopped: bool

    @property
    def years(self) -> tuple[float, float | None] | None:
        """The ages from and until which every place is right; None at none, the end None when grown up."""
        if any(each.from_years is None for each in self.ages):
            return None
        start = max(each.from_years or 0.0 for each in self.ages)
        ends = [each.until_years for each in self.ages if each.until_years is not None]
        end = min(ends, default=None)
        return None if end is not None and end < start else (start, end)

    def sentences(self, *, another: bool) -> tuple[str, ...]:
        """Both in words; ``another`` says that they are not about the wearer it was made for."""
        return (self._ages_words(another), *self._sizes_words())

    def _ages_words(self, another: bool) -> str:
        by_place = ages_words(self.ages)
        if self.years is None:
            return (
                f"There is no age at which all of it is right on a child of typical measurements: {by_place}."
            )
        start, end = self.years
        first, last = age_words(start), "grown up" if end is None else age_words(end)
        both = f"{first.removesuffix(' years') if last.endswith(' years') else first} to {last}"
        span = f"about {first if first == last else both}"
        fits = "Apart from what stops it on every child, it would fit" if self.stopped else "As it is it fits"
        whom = "another child, one" if another else "a child"
        return f"{fits} {whom} of {span} with measurements typical of its age: {by_place}."

    def _sizes_words(self) -> tuple[str, ...]:
        told = (
            ("It fits {}.", tuple(each for each in self.sizes if each not in self.not_sure)),
            ("It should fit {}, but that is not sure.", self.not_sure),
            ("On {} it can be worn, but something is to be minded.", self.with_care),
        )
        sentences = tuple(words.format(_wearers(sizes)) for words, sizes in told if sizes)
        return sentences or ("It can be worn by nobody that a size of the pattern is made for.",)


def _wearers(sizes: Sequence[str]) -> str:
    return f"wearers of size{'s' if len(sizes) > 1 else ''} {listed(sizes)}"


def whom_it_fits(design: Design, at_gauge: SizeAtGauge) -> WhomItFits:
    """Everybody the design has sizes for, and children from birth on, against a garment as it is."""
    fits = [size_fit(design, at_gauge, resolve(size.wearer, size.name)) for size in design.sizes]
    names = [size.name for size in design.sizes]
    good = [is_right(fit) or bool(fit.to_be_sure) for fit in fits]
    typical = resolve(WearerSpec(age_years=_AT_FIRST), "a child")
    (ages,) = ages_fitted([at_gauge.facts], typical, design.limits)
    return WhomItFits(
        sizes=tuple(itertools.compress(names, good)),
        not_sure=tuple(itertools.compress(names, (fit.to_be_sure for fit in fits))),
        with_care=tuple(
            name
            for name, fit, right in zip(names, fits, good, strict=True)
            if not right and fit.on_wearer is not Answer.STOP
        ),
        ages=ages,
        stopped=any(finding.severity is Severity.STOP for finding in fits[0].making),
    )
