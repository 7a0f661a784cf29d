"""How much is to be expected amiss by the rules that depend on the wearer: the one weighing of all advice."""

from __future__ import annotations

import numpy as np

from schematics.checks.rules.sentence import Answer
from schematics.wearer.evaluator import Numbers, Truths

STOP_FLAWS = 5.0
"""That it cannot be put on, presses on the throat or makes a child trip is as bad as so many things to mind
(common practice, no source)."""

FLAW_DECIMALS = 4
"""What differs by less is alike, however it is worked out."""

TOO_MANY_FLAWS = 1.0
"""Where so many are to be expected, all of them not sure, it is no better than where one surely is: nobody is
told that such a size should fit (common practice, no source)."""

USUAL_DOUBT, USUAL_MIND = 0.3, 0.75
"""In what share of cases fails what is only not sure, between one and five in ten, and what is to be minded
as it is measured, between five and ten; where that is not worked out."""


def flaws_of(answers: Numbers, unsure: Truths, stops_if_it_fails: Truths, fails: Numbers) -> Numbers:
    """How many things to mind are to be expected by one rule, for one wearer or in columns.

    What is good, surely, and what is unknown is none, and what stops as it is measured is counted by itself.

    Args:
        answers: numbers of `Answer`.
        unsure: whether it is to be minded only as it is not sure.
        stops_if_it_fails: whether it stops where it fails; else it is to be minded.
        fails: the chance that it fails.
    """
    minded = np.equal(answers, Answer.MIND)
    by_stop = STOP_FLAWS * fails + np.where(unsure, 0.0, 1.0)
    return np.where(minded, np.where(stops_if_it_fails, by_stop, fails), 0.0)


def level_of(flaws: Numbers, failing: Truths) -> Numbers:
    """0 where nothing is to be minded, 1 where what is should be well but is not sure, 2 where it is worse.

    Args:
        flaws: how many things to mind are to be expected.
        failing: whether one is to be minded as it is measured.
    """
    worse = np.logical_or(failing, np.round(flaws, FLAW_DECIMALS) >= TOO_MANY_FLAWS)
    return np.where(np.greater(flaws, 0.0), np.where(worse, 2.0, 1.0), 0.0)


def usual_flaws_of(answers: Numbers, unsure: Truths, stops_if_it_fails: Truths) -> Numbers:
    """The same where the chance that it fails is not worked out."""
    usual = np.where(unsure, USUAL_DOUBT, np.where(stops_if_it_fails, 0.0, USUAL_MIND))
    return flaws_of(answers, unsure, stops_if_it_fails, usual)
