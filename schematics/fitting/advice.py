"""The smallest changes that make a size right for one wearer; every one is checked by the real checks.

The search predicts: the neck opening and the arm ring of changed counts are exact, reach, spread, girth
and drop are taken to change by the sum of what each change by itself does. What is predicted to be right
is made and checked in the order of how small the change is, and only what the checks find right is
advised. Each margin is taken to be as much in doubt as in the size as it is.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.judging import Judge, inputs_of, judges
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.short_of_sure import short_of_sure_cm
from schematics.checks.rules.sureness import surely
from schematics.design.limits import Limits
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.fitting.workshop import Option, Workshop
from schematics.garment.constructions.levers import Purpose
from schematics.wearer.body import Wearer
from schematics.wearer.evaluator import Inputs

TRIED = 40
"""Predicted changes that are made and checked before the search gives up."""

Sds: TypeAlias = Mapping[str, Sequence[float]]
"""The standard deviations of the margins of each rule, in cm."""

_SEARCH: Mapping[Purpose, tuple[int, tuple[str, ...]]] = {
    Purpose.NECK: (4, ("NECK-PASS", "NECK-TIGHT", "NECK-SLIP")),
    Purpose.RING: (2, ("ARM-PASS", "ARM-REST")),
    Purpose.LENGTH: (14, ("HANG-KNEE", "HANG-WHERE")),
    Purpose.WIDTH: (15, ()),
    Purpose.PLACE: (11, ()),
    Purpose.DEPTH: (9, ()),
}
"""How many options of a purpose are searched, the smallest first; the rules that one settles by itself."""


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
    shortlist = [options for options in kept if options]
    best: SizeFit | None = None
    for combination in _predicted(workshop, shortlist, inputs, sds_cm, limits):
        after = _after(workshop, combination, wearer)
        if after is None:
            continue
        if is_right(after):
            return Advice(before=before, after=after)
        better = _left(after) < _left(best or before)
        if after.on_wearer is not Answer.STOP and better:
            best = after
    return None if best is None else Advice(before=before, after=best)


def _left(fit: SizeFit) -> tuple[int, int]:
    """How much there is that stops and to mind."""
    answers = [point.answer for point in fit.points]
    return answers.count(Answer.STOP), answers.count(Answer.MIND)


def _after(workshop: Workshop, options: Sequence[Option], wearer: Wearer) -> SizeFit | None:
    size = workshop.together(options)
    if size is None:
        return None
    each = size_at_gauge(workshop.design, size, workshop.parts)
    return size_fit(workshop.design, each, wearer) if workshop.as_good_to_make(each) else None


def _kept(
    workshop: Workshop, purpose: Purpose, inputs: Inputs, sds_cm: Sds, limits: Limits
) -> tuple[Option, ...]:
    """The smallest options that settle the purpose's own rules, or else come nearest to it."""
    most, codes = _SEARCH[purpose]
    rules = [judges(limits)[code] for code in codes]

    def left(option: Option) -> tuple[int, int, float]:
        answers = [_answers(judge, inputs.of(option.facts), sds_cm, limits) for judge in rules]
        return answers.count(Answer.STOP), answers.count(Answer.MIND), option.cost

    options = sorted(workshop.options(purpose), key=left)
    if not options:
        return ()
    whole = (workshop.whole(option) for option in options if left(option)[:2] == left(options[0])[:2])
    return tuple(itertools.islice((each for each in whole if each is not None), most))


def _answers(judge: Judge, garments: Inputs, sds_cm: Sds, limits: Limits) -> Any:
    """What a rule says of garments about as sure as the pattern's; one answer, or a column of them."""
    one = not any(isinstance(fact, np.ndarray) for fact in garments.facts.values())
    code = judge.rule.code
    short = np.greater(short_of_sure_cm(code, limits, garments, sds_cm[code]), 0.0)
    return surely(judge.answer(garments) if one else judge.answers(garments), ~short)


def _predicted(
    workshop: Workshop, kept: Sequence[Sequence[Option]], inputs: Inputs, sds_cm: Sds, limits: Limits
) -> Iterator[tuple[Option, ...]]:
    """Combinations of one option of each purpose, at most `TRIED`: what is predicted to leave least first."""
    shape = tuple(len(options) for options in kept)
    here = inputs.of(_facts(workshop, kept))
    stops, minds = np.zeros(shape, dtype=np.int8), np.zeros(shape, dtype=np.int8)
    for judge in judges(limits).values():
        answers = _answers(judge, here, sds_cm, limits)
        stops += answers == Answer.STOP
        minds += answers == Answer.MIND
    cost = sum(
        _along(axis, len(kept), [option.cost for option in options]) for axis, options in enumerate(kept)
    )
    order = np.lexsort((np.broadcast_to(cost, shape).ravel(), minds.ravel(), stops.ravel()))
    for flat in order[:TRIED]:
        yield tuple(options[at] for options, at in zip(kept, np.unravel_index(flat, shape), strict=True))


def _facts(workshop: Workshop, kept: Sequence[Sequence[Option]]) -> dict[str, Any]:
    """The facts of every combination, an axis for each purpose."""
    facts: dict[str, Any] = dict(workshop.facts)
    for axis, options in enumerate(kept):
        for name, unchanged in workshop.facts.items():
            changes = [option.facts[name] - unchanged for option in options]
            if any(changes):
                facts[name] = facts[name] + _along(axis, len(kept), changes)
    facts["spread_cm"] = np.minimum(facts["spread_back_cm"], facts["spread_front_cm"])
    return facts


def _along(axis: int, axes: int, numbers: Iterable[float]) -> NDArray[np.float64]:
    shape = [1] * axes
    shape[axis] = -1
    return np.array(list(numbers), dtype=np.float64).reshape(shape)
