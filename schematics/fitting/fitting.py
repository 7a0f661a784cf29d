"""One wearer and one design: every size, the best of them, and what would make it right."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

from schematics.analysis.side_effects import LENGTHS
from schematics.checks.finding import Severity
from schematics.design.design import Design, Parts, Size
from schematics.fitting.advice import Advice, advise, is_right
from schematics.fitting.gauge import SizeAtGauge, size_at_gauge
from schematics.fitting.measured import at_end
from schematics.fitting.sizing import TIE, SizeFit, best, size_fits
from schematics.fitting.workshop import Workshop
from schematics.wearer.body import Origin, Wearer
from schematics.wearer.expr import End

SIZES_TRIED = 3
"""Sizes that small changes are looked for in, the best first."""

LARGEST_LOSS = 1.0
"""The size that is advised as it stands is changed, too, unless that leaves so many more things to mind than
changes of another size do (common practice, no source)."""


@dataclass(frozen=True, kw_only=True, repr=False)
class Fitting:
    """How a design fits one wearer, in every size.

    ``advised`` is the best size; it fits if it is `wearable`. ``other_sizes`` are those it could be as
    well, see `other_sizes`.
    """

    design: Design
    wearer: Wearer
    fits: tuple[SizeFit, ...]
    advised: SizeFit
    other_sizes: tuple[str, ...]
    _changed: dict[str, Advice | None] = field(init=False, default_factory=dict, compare=False)

    def __repr__(self) -> str:
        return f"<Fitting of {len(self.fits)} sizes, advised {self.advised!r}>"

    @property
    def right(self) -> bool:
        """Whether the advised size needs no change."""
        return is_right(self.advised)

    @property
    def wearable(self) -> bool:
        """Whether nothing stops the advised size, and it may be the wearer's."""
        return self.advised.verdict != "stop" and not self.advised.is_not_hers

    @cached_property
    def advice(self) -> Advice | None:
        """The changes that are advised; None where nothing needs to change or nothing small helps.

        They are of the advised size, unless another of the best sizes comes out better by more than
        `LARGEST_LOSS`; none that is not the wearer's does, unless the advised size is not hers either. What
        leaves more to mind than the best size as it stands is no advice. Where that is right as far as it is
        measured, only its own changes that make it surely so are: what is not sure is better measured.
        """
        if self.right:
            return None
        first = self.advised
        chosen = self.changed(first)
        if first.to_be_sure:
            return chosen if chosen is not None and chosen.right else None
        if chosen is not None and chosen.after.score >= first.score:
            chosen = None
        for fit in self.best_sizes:
            if fit is first or (fit.is_not_hers and not first.is_not_hers):
                continue
            advice, kept = self.changed(fit), first if chosen is None else chosen.after
            if advice is not None and _is_much_better(advice.after, kept):
                chosen = advice
        return chosen

    @property
    def best_sizes(self) -> list[SizeFit]:
        """The sizes that changes are looked for in, the best first."""
        return sorted(self.fits, key=lambda each: each.score)[:SIZES_TRIED]

    def changed(self, fit: SizeFit) -> Advice | None:
        """One of the sizes with the smallest changes that help; they are looked for once."""
        if fit.name not in self._changed:
            self._changed[fit.name] = advise(Workshop(design=self.design, pattern=fit.at_gauge), self.wearer)
        return self._changed[fit.name]


def _is_much_better(one: SizeFit, other: SizeFit) -> bool:
    """Whether less stops one than the other, or it has fewer things to mind by more than `LARGEST_LOSS`."""
    (stops, flaws), (other_stops, other_flaws) = one.expected_amiss, other.expected_amiss
    better = one.score < other.score
    return better and (stops < other_stops or flaws + LARGEST_LOSS < other_flaws)


def fitting(design: Design, sizes: Sequence[Size], wearer: Wearer, parts: Parts | None = None) -> Fitting:
    """A wearer against these sizes of a design, in the pattern's fabrics or a maker's."""
    fits = size_fits(design, [size_at_gauge(design, size, parts) for size in sizes], wearer)
    return Fitting(
        design=design,
        wearer=wearer,
        fits=fits,
        advised=best(fits),
        other_sizes=other_sizes(design, fits, wearer),
    )


def other_sizes(design: Design, fits: Sequence[SizeFit], wearer: Wearer) -> tuple[str, ...]:
    """The sizes that could be the best as well.

    Those that would be if what is borrowed of the wearer lay at an end of its spread, and where a rule wants
    a measurement in the best size those that are as good, as far as is known; of what lies between, in the
    order of the sizes, all. None that is not the wearer's, or cannot be made.
    """
    advised = best(fits)
    names = {fit.name for fit in fits if advised.unknown and fit.score <= advised.score + TIE}
    if any(value.origin is not Origin.OWN for value in wearer.values.values()):
        for end in End:
            there = at_end(wearer, end)
            names.add(best(size_fits(design, [fit.at_gauge for fit in fits], there)).name)
    may_be = [fit.is_workable and not fit.is_not_hers for fit in fits]
    could = [
        place
        for place, (fit, may) in enumerate(zip(fits, may_be, strict=True))
        if fit is advised or (may and fit.name in names)
    ]
    between = range(could[0], could[-1] + 1)
    return tuple(fits[place].name for place in between if may_be[place] and fits[place] is not advised)


@dataclass(frozen=True, slots=True, kw_only=True)
class Instead:
    """A size of the pattern, and the size to work at a maker's gauge to come out like it."""

    meant: str
    as_it_is: SizeFit
    instead: SizeFit


def instead(design: Design, sizes: Sequence[Size], wearers: Sequence[Wearer], parts: Parts) -> list[Instead]:
    """For each size and its wearer, which size worked in the maker's fabrics does best for that wearer.

    What stops and what is to be minded as it is measured counts first, then how near the lengths come to the
    pattern's, which has its doubts, too.
    """
    mine = [size_at_gauge(design, size, parts) for size in sizes]
    choices = []
    for place, (size, wearer) in enumerate(zip(sizes, wearers, strict=True)):
        meant = size_at_gauge(design, size)
        fits = size_fits(design, mine, wearer)
        chosen = min(fits, key=lambda fit: (*_amiss_as_measured(fit), _unlike(meant, fit.at_gauge)))
        choices.append(Instead(meant=size.name, as_it_is=fits[place], instead=chosen))
    return choices


def _amiss_as_measured(fit: SizeFit) -> tuple[bool, int, int]:
    severities = [each.severity for each in fit.reported if not each.unsure]
    return fit.is_not_hers, severities.count(Severity.STOP), severities.count(Severity.MIND)


def _unlike(one: SizeAtGauge, other: SizeAtGauge) -> float:
    """How far apart `LENGTHS` are: the sum of the logarithms of their ratios, either sign."""
    first, second = one.facts, other.facts
    measured = [name for name in LENGTHS if first[name] > 0 and second[name] > 0]
    return sum(abs(math.log(first[name] / second[name])) for name in measured)
