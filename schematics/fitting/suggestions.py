"""What could be made instead, numbered from 1: changed counts of the best sizes, each checked."""

from __future__ import annotations

from schematics.analysis.yarn.shorten import SHORTEN
from schematics.design.design import Design, Parts
from schematics.fitting.advice import Advice, advise
from schematics.fitting.fitting import SIZES_TRIED, Fitting
from schematics.fitting.workshop import Workshop

MOST_SUGGESTIONS = SHORTEN - 1


def suggestions(design: Design, fitting: Fitting, parts: Parts | None = None) -> tuple[Advice, ...]:
    """The fitting's advice, then that for one size up and for the other best sizes, no two of a size.

    Each leaves less to mind than the advised size as it stands. None where nothing needs to change or nothing
    small helps.
    """
    first = fitting.advice
    if first is None:
        return ()
    names = [fit.name for fit in fitting.fits]
    place = names.index(first.before.name)
    best = sorted(fitting.fits, key=lambda fit: fit.score)[:SIZES_TRIED]
    others = [*fitting.fits[place + 1 : place + 2], *best]
    found = [first]
    for fit in {each.name: each for each in others if each.name != first.before.name}.values():
        advice = advise(
            Workshop(design=design, size=fit.made.size, parts=parts or design.parts), fitting.wearer
        )
        if advice is not None and advice.after.score < fitting.advised.score:
            found.append(advice)
    return tuple(found[:MOST_SUGGESTIONS])
