"""The smallest changes that make a size right for one wearer; every one is checked by the real checks.

The search predicts: the neck opening and the arm ring of changed counts are exact, reach, spread, girth
and drop are taken to change by the sum of what each change by itself does. What is predicted to be right
is worked out in the order of how small the change is, by formulas of its counts, and what they find right is
made: only what the checks find right, too, is advised. Each margin is predicted to be as much in doubt as in
the size as it is.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules import arms, hang, neck
from schematics.checks.rules.judging import Judge, inputs_of, judges
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.short_of_sure import short_of_sure_cm
from schematics.design.limits import Limits
from schematics.fitting.flaws import usual_flaws_of
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.fitting.workshop import Versions, Workshop
from schematics.garment.constructions.levers import Purpose
from schematics.units import HAIR
from schematics.wearer.body import Wearer
from schematics.wearer.evaluator import Inputs, Truths

TRIED = 40
"""Predicted changes that are worked out before the search gives up."""

Sds: TypeAlias = Mapping[str, Sequence[float]]
"""The standard deviations of the margins of each rule, in cm."""

_SEARCH: Mapping[Purpose, tuple[int, tuple[str, ...]]] = {
    Purpose.NECK: (4, (neck.PASS, neck.TIGHT, neck.SLIP)),
    Purpose.RING: (2, (arms.PASS, arms.REST)),
    Purpose.LENGTH: (14, (hang.KNEE, hang.WHERE)),
    Purpose.WIDTH: (15, ()),
    Purpose.PLACE: (11, ()),
    Purpose.DEPTH: (9, ()),
}
"""How many options of a purpose are searched, the smallest first; the rules that one settles by itself."""


def purpose_of(code: str) -> Purpose | None:
    """What changes settle a rule by themselves; None where none do."""
    return next((purpose for purpose, (_, codes) in _SEARCH.items() if code in codes), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """A size changed for one wearer: ``before`` as the pattern has it, ``after`` with the changes."""

    before: SizeFit
    after: SizeFit

    @property
    def right(self) -> bool:
        """Whether nothing is left to mind; what is unknown stays unknown."""
        return is_right(self.after)


def is_right(fit: SizeFit) -> bool:
    """Whether no rule stops the size or gives something to mind; what is unknown is neither."""
    return fit.on_wearer <= Answer.UNKNOWN


def advise(workshop: Workshop, wearer: Wearer) -> Advice | None:
    """The smallest changes found that make the size right.

    Where none do, the smallest that leave the least to mind and nothing that stops.

    Returns:
        None where nothing small helps, or nothing needs to.
    """
    before = size_fit(workshop.design, workshop.pattern, wearer)
    if is_right(before):
        return None
    limits = workshop.design.limits
    inputs, sds_cm = inputs_of(wearer), {code: before.case.sds_cm(code) for code in judges(limits)}
    kept = [_kept(workshop, purpose, inputs, sds_cm, limits) for purpose in Purpose]
    tried = _predicted(workshop, [options for options in kept if len(options)], inputs, sds_cm, limits)
    best: SizeFit | None = None
    for size, left in zip(tried.facts.sizes, _worked_out(tried, wearer, limits), strict=True):
        if left[0] or left >= _left(best or before):
            continue
        after = size_fit(
            workshop.design, size_at_gauge(workshop.design, size, workshop.pattern.parts), wearer
        )
        if not workshop.are_as_good(after.making):
            continue
        if is_right(after):
            return Advice(before=before, after=after)
        better = _left(after) < _left(best or before)
        if after.on_wearer is not Answer.STOP and better:
            best = after
    return None if best is None else Advice(before=before, after=best)


_Left: TypeAlias = tuple[int, int]
"""How many rules stop, and how much is to be expected amiss by the others, in hundredths of a thing to mind
and by what is usual: the search predicts, and does not work out chances."""


def _left(fit: SizeFit) -> _Left:
    """What is left amiss of a size."""
    judges, inputs = fit.case.judges, fit.case.inputs
    answers = [
        (
            np.array([point.answer], dtype=np.uint8),
            np.array([point.unsure]),
            judges[point.code].stops_if_it_fails(inputs),
        )
        for point in fit.points
    ]
    ((stops,), (flaws,)) = _counted(answers, (1,)).tolist()
    return stops, flaws


def _worked_out(options: Versions, wearer: Wearer, limits: Limits) -> list[_Left]:
    """What is left amiss of each version."""
    garments = inputs_of(wearer).of(options.facts)
    sure = options.facts.are_sure(wearer, limits, judges(limits))
    answers = [_answers(judge, garments, sure[code]) for code, judge in judges(limits).items()]
    stops, flaws = _counted(answers, (len(options),)).tolist()
    return list(zip(stops, flaws, strict=True))


def _kept(workshop: Workshop, purpose: Purpose, inputs: Inputs, sds_cm: Sds, limits: Limits) -> Versions:
    """The smallest options that settle the purpose's own rules, or else come nearest to it."""
    most, codes = _SEARCH[purpose]
    options = workshop.options(purpose)
    here, rules = inputs.of(options.facts), [judges(limits)[code] for code in codes]
    answers = [_predicted_answers(judge, here, sds_cm, limits) for judge in rules]
    left = _counted(answers, (len(options),))
    order = np.lexsort((options.costs, *left[::-1]))
    least = order[(left[:, order] == left[:, order[:1]]).all(axis=0)]
    good = (place for place in least if workshop.is_as_good_to_make(options.steps[place]))
    return options.some([*itertools.islice(good, most)])


_Answers: TypeAlias = tuple[NDArray[np.uint8], NDArray[np.bool_], Truths]
"""What a rule says of garments as they are measured, of which it is only not sure that it does not fail, and
whether it stops if it fails."""


def _answers(judge: Judge, garments: Inputs, sure: NDArray[np.bool_]) -> _Answers:
    measured = judge.answers(garments)
    return measured, (measured == Answer.GOOD) & ~sure, judge.stops_if_it_fails(garments)


def _predicted_answers(judge: Judge, garments: Inputs, sds_cm: Sds, limits: Limits) -> _Answers:
    """The same of garments about as sure as the pattern's."""
    code = judge.rule.code
    sure = np.less_equal(short_of_sure_cm(code, limits, garments, sds_cm[code]), 0.0)
    return _answers(judge, garments, sure)


def _predicted(
    workshop: Workshop, kept: Sequence[Versions], inputs: Inputs, sds_cm: Sds, limits: Limits
) -> Versions:
    """Combinations of one option of each purpose, at most `TRIED`: what is predicted to leave least first."""
    shape = tuple(len(options) for options in kept)
    here = inputs.of(_facts(workshop, kept))
    answers = [_predicted_answers(judge, here, sds_cm, limits) for judge in judges(limits).values()]
    left = _counted(answers, shape).reshape(2, -1)
    cost = sum(_along(axis, len(kept), options.costs) for axis, options in enumerate(kept))
    order = np.lexsort((np.broadcast_to(cost, shape).ravel(), *left[::-1]))
    places = zip(*np.unravel_index(order[:TRIED], shape), strict=True)
    return workshop.versions(
        tuple(
            itertools.chain.from_iterable(options.steps[at] for options, at in zip(kept, each, strict=True))
        )
        for each in places
    )


def _counted(answers: Iterable[_Answers], shape: tuple[int, ...]) -> NDArray[np.int_]:
    """What is left amiss of each garment, ``(2, *shape)``: the counts of `_Left`."""
    left = np.zeros((2, *shape), dtype=np.int_)
    for measured, unsure, stop in answers:
        left[0] += measured == Answer.STOP
        minded = np.where(unsure, np.uint8(Answer.MIND), measured)
        left[1] += np.rint(100 * usual_flaws_of(minded, unsure, stop)).astype(int)
    return left


def _facts(workshop: Workshop, kept: Sequence[Versions]) -> dict[str, Any]:
    """The facts of every combination, an axis for each purpose."""
    names = workshop.pattern.facts.keys() - {_FOR_WORDS_ONLY}
    facts: dict[str, Any] = {name: float(workshop.usual[name][0]) for name in names}
    for axis, options in enumerate(kept):
        for name in names:
            changes = options.facts[name] - workshop.usual[name]
            changes[np.abs(changes) < HAIR] = 0.0
            if changes.any():
                facts[name] = facts[name] + _along(axis, len(kept), changes)
    facts["spread_cm"] = np.minimum(facts["spread_back_cm"], facts["spread_front_cm"])
    return facts


_FOR_WORDS_ONLY = "arms.on_edge"
"""A fact that only sentences go by."""


def _along(axis: int, axes: int, column: NDArray[np.float64]) -> NDArray[np.float64]:
    shape = [1] * axes
    shape[axis] = -1
    return column.reshape(shape)
