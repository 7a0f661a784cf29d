"""What to write into a spec to be free of something that its sizes must keep or that costs."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

import numpy as np

from schematics.checks import EXPLANATIONS
from schematics.design.limits import LIMIT_FIELDS
from schematics.grading.asks import asks_of
from schematics.grading.case import Ask, SizeCase
from schematics.grading.columns import one_row
from schematics.grading.costs import costs_of
from schematics.units import HAIR


def cure_words(case: SizeCase, ask: Ask, counts: Mapping[str, float]) -> str:
    """What would let these counts keep what is asked, such as ``a neck 1.5 cm longer, or less clearance``."""
    miss = _miss(ask, counts)
    return ask.cure.format(miss=case.tape.at_least(miss), missing=math.ceil(miss - 1e-6))


def words_to_keep(case: SizeCase, ask: Ask, counts: Mapping[str, float]) -> str:
    """A limit with which these counts keep what a check asks; nothing where there is none."""

    def kept(case: SizeCase) -> bool:
        return all(_miss(each, counts) <= HAIR for each in asks_of(case) if each.key == ask.key)

    return _limit_words(case, ask.code, kept)


def words_to_cost_nothing(case: SizeCase, code: str, counts: Mapping[str, float]) -> str:
    """A limit with which these counts are not past that of a finding to mind; nothing where there is none."""

    def kept(case: SizeCase) -> bool:
        costs = (each for each in costs_of(case) if each.name == code)
        return all(each.cost(one_row(counts))[0] <= HAIR for each in costs)

    return _limit_words(case, code, kept)


def _miss(ask: Ask, counts: Mapping[str, float]) -> float:
    return float(np.broadcast_to(ask.miss(one_row(counts)), (1,))[0])


def _limit_words(case: SizeCase, code: str, kept: Callable[[SizeCase], bool]) -> str:
    for name in EXPLANATIONS[code].limits:
        is_length = LIMIT_FIELDS[name].metadata["length"]
        values = list(_values(case, name, kept))
        if values:
            value = min(values, key=lambda each: abs(each - getattr(case.limits, name)))
            return f"limits: {{{name}: {value:g}{' cm' if is_length else ''}}}"
    return ""


def _values(case: SizeCase, name: str, kept: Callable[[SizeCase], bool]) -> Iterator[float]:
    """The nearest limits on both sides of the present one that will do, to a thousandth or a millimetre."""
    about = LIMIT_FIELDS[name].metadata
    step = 0.1 if about["length"] else 0.001

    def will_do(value: float) -> bool:
        return kept(replace(case, limits=replace(case.limits, **{name: value})))

    start = getattr(case.limits, name)
    for end in about["between"]:
        if not will_do(end):
            continue
        towards, away = (1, math.ceil) if end > start else (-1, math.floor)
        first = away(start / step) - towards

        def limit(steps: int, first: int = first, towards: int = towards) -> float:
            return round((first + towards * steps) * step, 3)

        near, far = 0, abs(away(end / step) - first)
        while far - near > 1:
            middle = (near + far) // 2
            near, far = (near, middle) if will_do(limit(middle)) else (middle, far)
        if will_do(limit(far)):
            yield limit(far)
