"""A trade: what would make the worst less bad that counts found anew leave, at the price of something."""

from __future__ import annotations

import itertools

from schematics.checks.finding import Severity
from schematics.design.design import Design
from schematics.fitting.advice import Advice, purpose_of
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.fitting.trade_offs import holds_fraction, is_less_bad, worst_of
from schematics.fitting.workshop import Workshop

_TRIED = 12
"""Changes that are worked out, the smallest first."""

_SELDOM = 0.5
"""A trade is looked for where the worst holds less often than not."""


def trade(design: Design, fit: SizeFit) -> Advice | None:
    """Of small changes of the counts that the worst hangs on, those that leave the least bad.

    Args:
        design: the design of the one size.
        fit: the size on its wearer.

    Returns:
        None where the worst holds often enough, hangs on no such counts, or none of them helps.
    """
    worst = worst_of(fit.reported)
    if worst is None or worst.unsure or holds_fraction(worst) >= _SELDOM:
        return None
    purpose = purpose_of(worst.code)
    if purpose is None:
        return None
    workshop = Workshop(design=design, pattern=fit.at_gauge)
    options = workshop.options(purpose)
    good = (
        size
        for steps, size in zip(options.steps, options.facts.sizes, strict=True)
        if steps and workshop.is_as_good_to_make(steps)
    )
    best, kept = worst, None
    for size in itertools.islice(good, _TRIED):
        after = size_fit(design, size_at_gauge(design, size), fit.case.wearer)
        left = worst_of(after.reported)
        if after.verdict is not Severity.STOP and is_less_bad(left, best):
            kept = Advice(before=fit, after=after)
            if left is None:
                break
            best = left
    return kept
