"""What a made to measure size starts from: a size, a suggestion, changes that help, or counts found anew."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.analysis.yarn.shorten import SHORTEN
from schematics.checks.evaluation import chosen_sizes
from schematics.design.design import Design, Size
from schematics.errors import UsageError
from schematics.fitting.advice import Advice
from schematics.fitting.fitting import Fitting, fitting
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.fitting.suggestions import suggestions
from schematics.fitting.to_measure.asked_changes import AskedChange, asks_for_none
from schematics.fitting.to_measure.graded_for import graded_size
from schematics.fitting.to_measure.order import NotWearableError, Order
from schematics.fitting.trade_offs import worst_gets_worse
from schematics.wearer.body import Wearer


@dataclass(frozen=True, slots=True, kw_only=True)
class Fittings:
    """How the sizes fit: ``hers`` is the design in her fabrics, ``told`` what `fit` has at her gauge.

    The pattern's counts, bands among them, are there as they are printed. ``chosen`` advises the size to
    start from: where counts are found anew, the pattern's in its own fabrics, whose lengths are kept near.
    """

    hers: Fitting
    told: Fitting
    chosen: Fitting

    @property
    def advised(self) -> Iterator[Advice]:
        """The changes that are advised, the first by their number."""
        return (each for each in (self.chosen.advice, self.hers.advice) if each is not None)

    def fitted_as(self, name: str) -> SizeFit:
        """The size of that name in her fabrics."""
        return next(each for each in self.hers.fits if each.name == name)


def fittings_of(design: Design, own: Design, order: Order, wearer: Wearer) -> Fittings:
    """The sizes that may be started from, on the wearer."""
    names = None if order.size is None else [order.size]
    hers = fitting(own, chosen_sizes(own, names), wearer)
    if order.parts is None:
        return Fittings(hers=hers, told=hers, chosen=hers)
    sizes = chosen_sizes(design, names)
    told = fitting(design, sizes, wearer, order.parts)
    return Fittings(hers=hers, told=told, chosen=fitting(design, sizes, wearer) if order.graded else told)


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """Where it starts: a size as it stands, and the counts before any that are asked for by name.

    ``not_made`` are changes that help, but make something worse than what they mend, where nothing was asked.
    """

    start: SizeFit
    size: Size
    not_made: Advice | None = None


def begun(
    design: Design,
    own: Design,
    order: Order,
    fittings: Fittings,
    numbers: Sequence[int],
    asked: Sequence[AskedChange],
) -> Begun:
    """Where an order starts.

    Args:
        design: the pattern.
        own: the same in the maker's fabrics.
        order: what is asked for.
        fittings: of both.
        numbers: of the suggestions that are asked for.
        asked: the counts that are.

    Raises:
        UsageError: there is no such suggestion.
        NotWearableError: no counts can be found anew.
    """
    offered = [each for each in numbers if each != SHORTEN]
    if len(offered) > 1:
        raise UsageError(
            f"--change: suggestions {' and '.join(map(str, offered))} are each a whole; ask for one of them"
        )
    if offered:
        return _suggested(fittings, offered[0])
    start = fittings.fitted_as(fittings.chosen.advised.name)
    if order.graded:
        graded = graded_size(design, start.at_gauge.size, own.parts, order.wearer)
        if graded is None:
            raise NotWearableError(
                f"No counts near those of size {start.name} keep everything that this body asks for and that "
                "holds the pieces together, so none is made."
            )
        return Begun(start=start, size=graded)
    if asked or asks_for_none(order.changes):
        return Begun(start=start, size=start.at_gauge.size)
    return _unasked(own, fittings, start)


def _unasked(own: Design, fittings: Fittings, start: SizeFit) -> Begun:
    """The smallest changes that help, unless what they make worse is worse than what they mend."""
    not_made = None
    for advice in fittings.advised:
        size = advice.after.at_gauge.size
        after = size_fit(own, size_at_gauge(own, size), fittings.hers.wearer)
        if after.score >= start.score:
            continue
        if worst_gets_worse(start.reported, after.reported):
            not_made = not_made or advice
            continue
        return Begun(start=fittings.fitted_as(advice.before.name), size=size)
    return Begun(start=start, size=start.at_gauge.size, not_made=not_made)


def _suggested(fittings: Fittings, number: int) -> Begun:
    """The suggestion of that number among those that `fit` has."""
    offered = suggestions(fittings.told)
    if not 1 <= number <= len(offered):
        there = f"the last is {len(offered)}" if offered else "there is none, for none is needed or helps"
        raise UsageError(f"--change: there is no suggestion {number}; {there}")
    advice = offered[number - 1]
    return Begun(start=fittings.fitted_as(advice.before.name), size=advice.after.at_gauge.size)
