"""A body as it is known, and as it would be if one of its measurements were off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from math import nan
from typing import Any

import numpy as np

from schematics.wearer.body import Body, BodyValue, Origin, Wearer
from schematics.wearer.estimates import estimates_of
from schematics.wearer.evaluator import Evaluator, Inputs, Numbers, Spread, Truths, evaluator_of
from schematics.wearer.standard_deviations import body_sd_cm


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """The ends of a measurement, in columns."""

    low_cm: Numbers
    cm: Numbers
    high_cm: Numbers


def body_errors(wearer: Wearer) -> dict[Body, float]:
    """The measurements that may be off by themselves, and their standard deviations in cm."""
    errors = {body: body_sd_cm(body, value, person=wearer.person) for body, value in wearer.values.items()}
    return {body: sd_cm for body, sd_cm in errors.items() if sd_cm > 0}


class VariedBody(dict[Body, Spread]):
    """Measurements that verdicts go by, when asked for; in columns where an error moves them.

    The columns are `1 + 2 * errors` numbers: nothing off, each error one standard deviation up, then each one
    down. Of many wearers they are rows, a number for each.

    Args:
        judged: the measurements, of one wearer or in columns of many.
        age_years: of the wearer, or of each.
        errors_cm: see `body_errors`; of many wearers a column, nought where there is none.
        estimated: which measurements are estimates; of many wearers whose.
    """

    def __init__(
        self,
        judged: Mapping[Body, Spread],
        age_years: Numbers,
        errors_cm: Mapping[Body, Numbers],
        estimated: Mapping[Body, Truths],
    ) -> None:
        super().__init__()
        self._judged, self._age_years = judged, age_years
        self.errors_cm, self._estimated = errors_cm, estimated
        self._places = {body: place for place, body in enumerate(errors_cm, start=1)}

    def __missing__(self, body: Body) -> Spread:
        if body not in self._estimated:
            return self.setdefault(body, self._moved(body))
        self._estimate()
        return self[body]

    def get(self, body: Body, default: Any = None) -> Any:
        """The measurement, if it is known."""
        return self[body] if body in self._judged else default

    def _moved(self, body: Body) -> Spread:
        value, off = self._judged[body], self._off(body)
        return value if off is None else _ends(value, 1.0, off)

    def _off(self, body: Body) -> Numbers:
        if body not in self._places:
            return None
        sd_cm, place, errors = self.errors_cm[body], self._places[body], len(self._places)
        off = np.zeros((1 + 2 * errors, *np.shape(sd_cm)))
        off[place], off[place + errors] = sd_cm, -sd_cm
        return off

    def _estimate(self) -> None:
        """Every estimate as it follows from what it is estimated from, in the order they were filled in."""
        unmoved = {body: value for body, value in self._judged.items() if body not in self._estimated}
        moved = {body: self[body] for body in unmoved}
        for body, rows in self._estimated.items():
            if not np.all(rows):
                given = np.where(rows, nan, 1.0)
                unmoved[body] = _ends(self._judged[body], given, 0.0)
                moved[body] = _ends(self._moved(body), given, 0.0)
        for body, work in _works().items():
            if body not in self._estimated:
                continue
            value, rows, off = self._judged[body], self._estimated[body], self._off(body)
            before = work(Inputs(body=unmoved, age_years=self._age_years))
            after = work(Inputs(body=moved, age_years=self._age_years))
            times = np.where(rows & ~np.isnan(before), after / before, 1.0)
            unmoved[body] = value
            moved[body] = self[body] = _ends(value, times, 0.0 if off is None else off)


def _ends(value: Spread, times: Numbers, off_cm: Numbers) -> Ends:
    low_cm, cm, high_cm = (end_cm * times + off_cm for end_cm in (value.low_cm, value.cm, value.high_cm))
    return Ends(low_cm=low_cm, cm=cm, high_cm=high_cm)


def varied_bodies(wearers: Sequence[Wearer]) -> tuple[VariedBody, Mapping[Body, Spread]]:
    """Some wearers in columns, and the same as they are known; what is not known of one is no number."""
    present = [body for body in Body if any(body in each.judged for each in wearers)]
    judged = {body: _gathered([each.judged.get(body) for each in wearers]) for body in present}
    errors = [body_errors(each) for each in wearers]
    doubtful = [body for body in Body if any(body in each for each in errors)]
    origins = {body: [each.judged.get(body) for each in wearers] for body in present}
    estimates = {
        body: np.array([each is not None and each.origin is Origin.ESTIMATE for each in values])
        for body, values in origins.items()
    }
    ages = np.array([nan if each.age_years is None else each.age_years for each in wearers])
    errors_cm = {body: np.array([each.get(body, 0.0) for each in errors]) for body in doubtful}
    estimated = {body: rows for body, rows in estimates.items() if rows.any()}
    return VariedBody(judged, ages, errors_cm, estimated), judged


def _gathered(values: Sequence[BodyValue | None]) -> Ends:
    low_cm, cm, high_cm = np.array(
        [(nan, nan, nan) if each is None else (each.low_cm, each.cm, each.high_cm) for each in values]
    ).T
    return Ends(low_cm=low_cm, cm=cm, high_cm=high_cm)


@cache
def _works() -> Mapping[Body, Evaluator]:
    return {each.body: evaluator_of(each.cm) for each in estimates_of("both")}
