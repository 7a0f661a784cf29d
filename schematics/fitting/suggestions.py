"""What could be made instead, numbered from 1: changed counts of the best sizes, each checked."""

from __future__ import annotations

from schematics.analysis.yarn.shorten import SHORTEN
from schematics.fitting.advice import Advice
from schematics.fitting.fitting import Fitting

MOST_SUGGESTIONS = SHORTEN - 1


def suggestions(fitting: Fitting) -> tuple[Advice, ...]:
    """The fitting's advice, then that for one size up and for the other best sizes, no two of a size.

    Each leaves less to mind than the advised size as it stands. None is of a size that is not the wearer's,
    unless the first is. None where nothing needs to change or nothing
    small helps.
    """
    first = fitting.advice
    if first is None:
        return ()
    names = [fit.name for fit in fitting.fits]
    place = names.index(first.before.name)
    others = [*fitting.fits[place + 1 : place + 2], *fitting.best_sizes]
    offered = [first]
    for fit in {each.name: each for each in others if each.name != first.before.name}.values():
        if fit.is_not_hers and not first.before.is_not_hers:
            continue
        advice = fitting.changed(fit)
        if advice is not None and advice.after.score < fitting.advised.score:
            offered.append(advice)
    return tuple(offered[:MOST_SUGGESTIONS])
