"""Of many wearers, in columns, for whom a rule surely holds on a garment.

What holds with much to spare, and what plainly does not, is decided by its margins alone; the chance is put
together for the wearers in between. A fabric's error moves a margin by as much whoever wears the garment, and
a body's by as much whatever the garment, but where the girth is read at a wearer's depth: there the most that
any depth or girth gives is taken, until what lies in between is worked out.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.garment_numbers import GIRTH_POINTS
from schematics.checks.rules.sureness import (
    Chances,
    failing_chance,
    failures,
    holding_chance,
    surely_holds,
)
from schematics.checks.rules.varied_facts import Gathered, VariedFacts, band_rows_of, varied_parts
from schematics.design.design import Parts, Size
from schematics.design.limits import Limits
from schematics.garment.constructions import Construction
from schematics.garment.garment import Garment
from schematics.wearer.body import Body
from schematics.wearer.estimates import estimates_of
from schematics.wearer.evaluator import Inputs, Numbers
from schematics.wearer.events import Event, over_nought_event
from schematics.wearer.expr import OfBody
from schematics.wearer.varied_body import Ends, VariedBody

_FAR_CM = 1000.0
"""Deeper than any garment."""
_LEAST = 1e-9
"""What is moved by less, or is likelier by less, is alike."""

Bools = NDArray[np.bool_]
Rows = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True)
class DoubtfulWearers:
    """Many wearers: what verdicts go by, how far each measurement may be off, and whose are estimates."""

    inputs: Inputs
    errors_cm: Mapping[Body, NDArray[np.float64]]
    estimated: Mapping[Body, Bools]

    def only(self, rows: Rows) -> DoubtfulWearers:
        """The wearers in those rows."""
        return DoubtfulWearers(
            inputs=rows_of(self.inputs, rows),
            errors_cm={each: column[rows] for each, column in self.errors_cm.items()},
            estimated={each: column[rows] for each, column in self.estimated.items()},
        )

    def varied(self, errors: Sequence[Body], following: Sequence[Body]) -> VariedBody:
        """The wearers' measurements with some errors, and the estimates that follow from them."""
        return VariedBody(
            self.inputs.body,
            self.inputs.age_years,
            {body: self.errors_cm[body] for body in errors},
            {body: self.estimated[body] for body in following},
        )


def rows_of(inputs: Inputs, rows: Rows, bodies: Collection[Body] = frozenset(Body)) -> Inputs:
    """What is known of some of the wearers: those measurements."""
    body = {
        each: Ends(low_cm=value.low_cm[rows], cm=value.cm[rows], high_cm=value.high_cm[rows])
        for each, value in inputs.body.items()
        if each in bodies
    }
    return Inputs(body=body, adult=inputs.adult[rows], age_years=inputs.age_years[rows], facts=inputs.facts)


@dataclass(frozen=True, slots=True, kw_only=True)
class MarginMoves:
    """What a garment's fabrics may move each margin of a rule by, each error by itself; at least and at most.

    Both are the same but where it depends on the wearer.
    """

    least_cm: NDArray[np.float64]
    most_cm: NDArray[np.float64]

    @property
    def alike(self) -> bool:
        """Whether it is the same whoever wears it."""
        return bool(np.all(self.most_cm - self.least_cm <= _LEAST))


class SureGarment:
    """A garment whose fabrics may be off, for whoever wears it."""

    def __init__(
        self, facts: Mapping[str, float], construction: Construction, size: Size, garment: Garment,
        parts: Parts, limits: Limits,
    ) -> None:  # fmt: skip
        self.facts, self._limits = facts, limits
        self.errors = len(varied_parts(parts)[1])
        self.varied = VariedFacts(Gathered([facts]), construction, [size], band_rows_of([garment]), parts)
        depths = [np.ravel(self.varied[f"girth.{each}.depth_cm"]) for each in range(GIRTH_POINTS)]
        self._depths = np.nan_to_num(np.unique(np.concatenate([*depths, [_FAR_CM]])))
        self._moved: dict[str, MarginMoves] = {}

    def moved(self, code: str) -> MarginMoves:
        """By how much its errors move the margins of a rule; a column for each of them."""
        if code not in self._moved:
            any_body = dict.fromkeys(Body, Ends(low_cm=self._depths, cm=self._depths, high_cm=self._depths))
            everyone = Inputs(body=any_body, adult=np.zeros(len(self._depths)), facts=self.varied)
            columns = failures(self._limits, code).margins(everyone)
            slopes = np.zeros((self.errors, len(columns), len(self._depths)))
            for place, column in enumerate(columns):
                if np.ndim(column) > 1:
                    slopes[:, place] = (column[1 : 1 + self.errors] - column[1 + self.errors :]) / 2
            slopes = np.nan_to_num(slopes)
            same = np.ptp(slopes, axis=2) <= _LEAST
            least = np.where(same, slopes[:, :, 0], 0.0)
            most = np.where(same, slopes[:, :, 0], np.abs(slopes).max(axis=2))
            self._moved[code] = MarginMoves(least_cm=least, most_cm=most)
        return self._moved[code]

    @property
    def steepest(self) -> float:
        """The most the girth grows with each centimetre of depth; nought where the sides are open."""
        depths, girths = (
            np.array([self.facts[f"girth.{each}.{what}_cm"] for each in range(GIRTH_POINTS)])
            for what in ("depth", "girth")
        )
        return float(np.nan_to_num(np.max(np.abs(np.diff(girths) / np.diff(depths)), initial=0.0)))


class SureColumns:
    """For whom of many wearers rules surely hold, garment by garment.

    Args:
        wearers: they.
        limits: what garments are held against.
        steepest: the most any garment's girth grows with each centimetre of depth.
    """

    def __init__(self, wearers: DoubtfulWearers, limits: Limits, steepest: float) -> None:
        self._wearers, self._limits = wearers, limits
        self._any_garment = AnyGarment(np.array([0.0, steepest])[:, None, None])
        self._varied: dict[Body, VariedBody] = {}
        self._by_code: dict[str, list[dict[Body, NDArray[np.float64]]]] = {}

    def is_sure(self, code: str, rows: Rows, garment: SureGarment) -> Bools:
        """Whether a rule surely holds for each of some of the wearers on a garment."""
        failing, fails = failures(self._limits, code), 1 - self._limits.sure_fraction
        share = fails / len(failing.lengths)
        margins = failing.margins(self._of(rows, failing.bodies, garment))
        moved, bodies = garment.moved(code), self._slopes(code)
        least, most = [], []
        for place, margin_cm in enumerate(margins):
            body = sum((each[rows] ** 2 for each in bodies[place].values()), np.zeros(len(rows)))
            low_sd, high_sd = (
                np.sqrt(body + (each[:, place] ** 2).sum()) for each in (moved.least_cm, moved.most_cm)
            )
            over, doubtful = margin_cm > _LEAST, high_sd > _LEAST
            likely = margin_cm + _deviates(fails) * low_sd > 0
            possible = margin_cm + _deviates(share) * high_sd >= 0
            is_number = ~np.isnan(margin_cm)
            least.append(is_number * np.where(doubtful, likely * (fails + _LEAST), over))
            most.append(is_number * np.where(doubtful, np.where(possible, 1.0, share), over))
        low, high = failing.truths[code].between(least, most)
        sure = np.broadcast_to(high <= fails + _LEAST / 2, len(rows)).copy()
        between = np.flatnonzero(~sure & ~(low > fails))
        if len(between):
            sure[between] = self._worked_out(code, rows[between], garment)
        return sure

    def fails(self, code: str, rows: Rows, garment: SureGarment) -> NDArray[np.float64]:
        """The `failing_chance` of a rule for each of some of the wearers on a garment."""
        if not garment.moved(code).alike:
            return self._chances(code, rows, garment).fails(code)
        return failing_chance(failures(self._limits, code).truths[code], self._margins(code, rows, garment))

    def holds(self, code: str, rows: Rows, garment: SureGarment) -> NDArray[np.float64]:
        """The `holding_chance` of a rule for each of some of the wearers on a garment."""
        if not garment.moved(code).alike:
            return self._chances(code, rows, garment).holds(code)
        return holding_chance(failures(self._limits, code).truths[code], self._margins(code, rows, garment))

    def _worked_out(self, code: str, rows: Rows, garment: SureGarment) -> Bools:
        if not garment.moved(code).alike:
            return self._chances(code, rows, garment).is_sure(code)
        whole = self._margins(code, rows, garment)
        truth = failures(self._limits, code).truths[code]
        return surely_holds(truth, whole, whole.chance, self._limits.sure_fraction)

    def _chances(self, code: str, rows: Rows, garment: SureGarment) -> Chances:
        """Of a garment whose errors move a margin by as much as hangs on the wearer."""
        wearers = self._wearers.only(rows)
        inputs, errors = wearers.inputs.of(garment.facts), tuple(wearers.errors_cm)
        body = wearers.varied(errors, tuple(wearers.estimated))
        both = inputs.of(garment.varied), replace(inputs, body=body, memo={}, garment_memo={})
        return Chances(len(rows), both, (garment.errors, len(errors)), (), self._limits, code)

    def _margins(self, code: str, rows: Rows, garment: SureGarment) -> Event:
        """That each margin of a rule is over nought."""
        failing, moved, number = failures(self._limits, code), garment.moved(code), len(rows)
        slopes = self._slopes(code)
        errors = tuple(dict.fromkeys(body for each in slopes for body in each))
        margins = failing.margins(self._of(rows, failing.bodies, garment))
        usual = np.array([np.broadcast_to(each, number) for each in margins])
        by_errors = np.empty((garment.errors + len(errors), *usual.shape))
        by_errors[: garment.errors] = moved.most_cm[:, :, None]
        for place in range(len(usual)):
            own = [
                slopes[place][body][rows] if body in slopes[place] else np.zeros(number) for body in errors
            ]
            by_errors[garment.errors :, place] = np.reshape(own, (-1, number))
        return over_nought_event(usual, by_errors)

    def _of(self, rows: Rows, bodies: Collection[Body], garment: SureGarment) -> Inputs:
        return rows_of(self._wearers.inputs, rows, bodies).of(garment.facts)

    def _slopes(self, code: str) -> list[dict[Body, NDArray[np.float64]]]:
        """By how much each body's error moves each margin of a rule; at most, where that is the garment's."""
        if code not in self._by_code:
            self._by_code[code] = self._moved_by_bodies(code)
        return self._by_code[code]

    def _moved_by_bodies(self, code: str) -> list[dict[Body, NDArray[np.float64]]]:
        failing, wearers = failures(self._limits, code), self._wearers
        by_margin: list[dict[Body, NDArray[np.float64]]] = [{} for _ in range(len(failing.lengths))]
        for body in wearers.errors_cm:
            following = [each for each in wearers.estimated if each in _following(body)]
            if failing.bodies.isdisjoint({body, *following}):
                continue
            varied = self._varied.setdefault(body, wearers.varied([body], following))
            inputs = replace(wearers.inputs, body=varied, facts=self._any_garment, memo={}, garment_memo={})
            for place, column in enumerate(failing.margins(inputs)):
                if np.ndim(column) > 1 and column.shape[-2] > 1:
                    slope = np.nan_to_num(column[..., 1, :] - column[..., 2, :]) / 2
                    by_margin[place][body] = np.abs(slope).max(axis=0) if slope.ndim > 1 else slope
        return by_margin


class AnyGarment(dict[str, Numbers]):
    """Facts of no garment in particular: its girth grows so steeply with the depth."""

    def __init__(self, steep: Numbers) -> None:
        super().__init__()
        self._steep = steep

    def __missing__(self, name: str) -> Numbers:
        head, _, rest = name.partition(".")
        if head != "girth" or rest == "closed":
            return 1.0
        number, what = rest.split(".")
        depth_cm = int(number) * _FAR_CM
        return depth_cm if what == "depth_cm" else depth_cm * self._steep


@cache
def _following(body: Body) -> frozenset[Body]:
    """The measurements that are estimated from one, or from such."""
    asked = {
        each.body: {node.body for node in each.cm.walk() if isinstance(node, OfBody)}
        for each in estimates_of("both")
    }
    following = {body}
    while more := {each for each, of in asked.items() if of & following} - following:
        following |= more
    return frozenset(following - {body})


@cache
def _deviates(chance: float) -> float:
    """How many standard deviations below nought a margin is over it with that chance."""
    return -NormalDist().inv_cdf(chance)
