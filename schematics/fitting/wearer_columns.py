"""Many wearers at once, as columns: filling in what is missing, and which size is best for each."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.judging import Judge, judges
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.sure_columns import DoubtfulWearers, SureColumns, SureGarment
from schematics.checks.rules.sureness import surely
from schematics.design.design import Design
from schematics.design.limits import Limits
from schematics.fitting.flaws import flaws_of
from schematics.fitting.sizing import HEM, REACH, TIE, SizeFit, are_far_off, in_making, score
from schematics.wearer.body import Body
from schematics.wearer.estimates import Estimate, estimates_of
from schematics.wearer.evaluator import Inputs, Numbers, evaluator_of
from schematics.wearer.expr import End
from schematics.wearer.resolve import ADULT, SCALED_TO_HEIGHT, tabled_values
from schematics.wearer.standard_deviations import OWN_CM, body_sd_cm

Column = NDArray[np.float64]
Bools = NDArray[np.bool_]

_AT_ONCE = 25_000
"""Wearers whose chances are worked out together."""

_WEIGHED_AT_ONCE = 1_000
"""Those of them whose flaws are: a garment whose errors hang on the wearer takes much memory."""

_MORE_THAN_ALL_STOPS = 99
"""How many stops weigh less than that a size is not the wearer's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """The ends of one body measurement of many wearers, in cm; not a number where it is unknown.

    ``sd_cm`` is how far each may be off by itself, ``taken`` of whom it was measured, ``estimated`` of whom
    it is an estimate.
    """

    low_cm: Column
    cm: Column
    high_cm: Column
    sd_cm: Column | float = 0.0
    taken: Bools | bool = False
    estimated: Bools | bool = False

    @classmethod
    def measured(cls, lengths: Column) -> Columns:
        """Lengths that were taken with a tape."""
        return cls(low_cm=lengths, cm=lengths, high_cm=lengths, sd_cm=OWN_CM, taken=True)

    def taking(self, rows: NDArray[np.bool_], other: Columns) -> Columns:
        """The columns, in the rows that say so those of ``other``."""
        both = {each.name: (getattr(other, each.name), getattr(self, each.name)) for each in fields(self)}
        return Columns(**{name: np.where(rows, *each) for name, each in both.items()})

    def at(self, end: End, *, certain: bool) -> Columns:
        """One end of the spread; what is in no table's doubt where it is ``certain`` to lie there."""
        ends: Column = getattr(self, end.field)
        kept = np.logical_or(self.taken, self.estimated) | (not certain)
        return replace(self, low_cm=ends, cm=ends, high_cm=ends, sd_cm=np.where(kept, self.sd_cm, 0.0))


def complete(own: Mapping[Body, Column], ages: Column) -> Inputs:
    """Whole wearers from their own measurements and ages, as `schematics.wearer.resolve` does for one.

    Args:
        own: own measurements in cm, not a number where there is none.
        ages: years, not a number where unknown.

    Returns:
        What is known of them with its whole spread, without a garment. Verdicts on a person go by the
        typical end, see `with_all_at`.
    """
    columns = _by_age(ages)
    unknown = np.full(len(ages), np.nan)
    height = own.get(Body.HEIGHT, unknown)
    for body in SCALED_TO_HEIGHT:
        if body in columns:
            columns[body] = columns[body].taking(~np.isnan(height), Columns.measured(unknown))
    for body, lengths in own.items():
        mine = Columns.measured(lengths)
        columns[body] = columns[body].taking(~np.isnan(lengths), mine) if body in columns else mine
    inputs = Inputs(body=columns, age_years=ages)
    for estimate in estimates_of("both"):
        body, work = estimate.body, evaluator_of(estimate.cm)
        gaps = np.isnan(columns[body].cm) if body in columns else np.ones(len(ages), dtype=bool)
        if gaps.any():
            low, typical, high = (np.broadcast_to(work(inputs.at_end(end)), ages.shape) for end in End)
            sd_cm = _sd_cm(estimate, inputs)
            estimated = Columns(low_cm=low, cm=typical, high_cm=high, sd_cm=sd_cm, estimated=True)
            columns[body] = estimated if gaps.all() else columns[body].taking(gaps, estimated)
    adult = evaluator_of(ADULT)(Inputs(body={Body.HEIGHT: Columns.measured(height)}, age_years=ages))
    return Inputs(body=columns, gaps=gaps_of(columns), adult=adult, age_years=ages)


def _sd_cm(estimate: Estimate, inputs: Inputs) -> Numbers:
    """How far off an estimate may be where what it follows from is right."""
    sd_cm: Numbers = np.nan
    for derivation in reversed(estimate.derivations):
        length_cm = evaluator_of(derivation.cm)(inputs)
        sd_cm = np.where(np.isnan(length_cm), sd_cm, derivation.sd_fraction * np.abs(length_cm))
    return sd_cm


def gaps_of(columns: Mapping[Body, Columns]) -> frozenset[Body]:
    """The measurements that are unknown for any of the wearers."""
    return frozenset(body for body in Body if body not in columns or bool(np.isnan(columns[body].cm).any()))


def _by_age(ages: Column) -> dict[Body, Columns]:
    """The age table's values; its rows are looked up once for each age there is."""
    has_age = ~np.isnan(ages)
    distinct, rows = np.unique(ages[has_age], return_inverse=True)
    tables = [tabled_values(float(age), "both") for age in distinct]
    columns: dict[Body, Columns] = {}
    for body in Body:
        tabled = [table.get(body) for table in tables]
        if any(tabled):
            ends = {end.field: np.full(len(ages), np.nan) for end in End}
            for name, column in ends.items():
                lengths = np.array([np.nan if each is None else getattr(each, name) for each in tabled])
                column[has_age] = lengths[rows]
            sd_cm = np.full(len(ages), np.nan)
            sd_cm[has_age] = np.array(
                [np.nan if each is None else body_sd_cm(body, each, person=True) for each in tabled]
            )[rows]
            columns[body] = Columns(**ends, sd_cm=sd_cm)
    return columns


def only(inputs: Inputs, rows: Bools | NDArray[np.intp]) -> Inputs:
    """Some of the wearers."""
    body = {each: _rows(value, rows) for each, value in inputs.body.items() if isinstance(value, Columns)}
    return Inputs(body=body, gaps=gaps_of(body), adult=inputs.adult[rows], age_years=inputs.age_years[rows])


def _rows(columns: Columns, rows: Bools | NDArray[np.intp]) -> Columns:
    values = {each.name: getattr(columns, each.name) for each in fields(columns)}
    return Columns(**{name: value[rows] if np.ndim(value) else value for name, value in values.items()})


def with_all_at(inputs: Inputs, end: End, *, certain: bool = True) -> Inputs:
    """The wearers whose every measurement is at one end of its spread.

    Args:
        inputs: the wearers.
        end: which.
        certain: whether it is known to lie there; else it is only taken to, and may as well lie elsewhere.
    """
    body = {
        each: value.at(end, certain=certain)
        for each, value in inputs.body.items()
        if isinstance(value, Columns)
    }
    return Inputs(body=body, gaps=inputs.gaps, adult=inputs.adult, age_years=inputs.age_years)


def doubtful(inputs: Inputs) -> DoubtfulWearers:
    """The wearers, with how far each of their measurements may be off."""
    columns = {each: value for each, value in inputs.body.items() if isinstance(value, Columns)}
    shape = inputs.age_years.shape
    errors = {
        body: np.nan_to_num(np.broadcast_to(np.asarray(each.sd_cm, dtype=float), shape))
        for body, each in columns.items()
    }
    estimates = {body: np.broadcast_to(each.estimated, shape) for body, each in columns.items()}
    return DoubtfulWearers(
        inputs=inputs,
        errors_cm={body: errors[body] for body in Body if body in errors and errors[body].any()},
        estimated={body: rows for body, rows in estimates.items() if rows.any()},
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """Every wearer against every size.

    ``answers`` are numbers of `Answer` by size, rule (in the order of ``codes``) and wearer; ``unsure`` says
    which are to be minded only because they are not sure. ``best`` is each wearer's best size by its place;
    ``alike`` says by size and wearer whether one is as good as it, ``not_hers`` whether it is not the
    wearer's, see `schematics.fitting.sizing.SizeFit.is_not_hers`.
    """

    codes: tuple[str, ...]
    answers: NDArray[np.uint8]
    unsure: NDArray[np.bool_]
    best: NDArray[np.intp]
    alike: NDArray[np.bool_]
    not_hers: NDArray[np.bool_]

    def at_best(self) -> NDArray[np.uint8]:
        """The answers at each wearer's best size, by rule and wearer."""
        chosen: NDArray[np.uint8] = np.take_along_axis(self.answers, self.best[None, None, :], axis=0)[0]
        return chosen

    def not_hers_at_best(self) -> NDArray[np.bool_]:
        """Whether even the best size of each is not the wearer's."""
        chosen: NDArray[np.bool_] = np.take_along_axis(self.not_hers, self.best[None, :], axis=0)[0]
        return chosen

    def unsure_at_best(self) -> NDArray[np.bool_]:
        """Which of the answers at each wearer's best size would be good, were they sure."""
        chosen: NDArray[np.bool_] = np.take_along_axis(self.unsure, self.best[None, None, :], axis=0)[0]
        return chosen


def judge_all(
    limits: Limits,
    garments: Sequence[Mapping[str, float]],
    inputs: Inputs,
    codes: Collection[str] = (),
) -> NDArray[np.uint8]:
    """The answer of every rule on every garment for every wearer, as measured: numbers of `Answer`.

    Args:
        limits: the design's.
        garments: the facts of each size.
        inputs: the wearers.
        codes: the rules, where not all are wanted.

    Returns:
        By size, rule and wearer.
    """
    rules = _judges(limits, codes)
    wearers = len(inputs.age_years)
    answers = np.empty((len(garments), len(rules), wearers), dtype=np.uint8)
    for place, each in enumerate(garments):
        here = inputs.of(each)
        for row, judge in enumerate(rules.values()):
            answers[place, row] = judge.answers(here)
    return answers


def _judges(limits: Limits, codes: Collection[str]) -> dict[str, Judge]:
    return {code: judge for code, judge in judges(limits).items() if not codes or code in codes}


@dataclass(frozen=True, slots=True, kw_only=True)
class Otherwise:
    """What else than rules that depend on the wearer the best size is chosen by.

    ``making`` is `in_making` of each size, ``not_hers`` as in `Judged`.
    """

    making: Sequence[tuple[int, int]]
    not_hers: NDArray[np.bool_]

    def rivals(self, answers: NDArray[np.uint8], some: slice) -> NDArray[np.bool_]:
        """Which sizes are best of some wearers but for how much is to be minded, by size and wearer.

        None where one size alone is, or nothing is to be minded.
        """
        stops, minds = (np.array(each)[:, None] for each in zip(*self.making, strict=True))
        stopped = stops + (answers == Answer.STOP).sum(axis=1) + _MORE_THAN_ALL_STOPS * self.not_hers[:, some]
        minded = (minds > 0) | (answers == Answer.MIND).any(axis=1)
        worse = 2 * stopped + minded
        best = worse == worse.min(axis=0)
        rivals: NDArray[np.bool_] = best & minded & (best.sum(axis=0) > 1)
        return rivals


@dataclass(frozen=True, slots=True, kw_only=True)
class SureAnswers:
    """Answers with how sure the lengths are: good only where it surely is; see `Judged`.

    ``flaws`` is by size and wearer how many things to mind are to be expected; how many there may be where
    that decides nothing.
    """

    answers: NDArray[np.uint8]
    unsure: NDArray[np.bool_]
    flaws: NDArray[np.float64]


def sure_answers(
    limits: Limits,
    sizes: Sequence[SizeFit],
    inputs: Inputs,
    codes: Collection[str] = (),
    otherwise: Otherwise | None = None,
) -> SureAnswers:
    """The same of sizes, with how sure their lengths and the wearers' are.

    Args:
        limits: the design's.
        sizes: the sizes.
        inputs: the wearers.
        codes: the rules, where not all are wanted.
        otherwise: what else the best size is chosen by; None where none is.
    """
    answers = judge_all(limits, [each.at_gauge.facts for each in sizes], inputs, codes)
    wearers, judges_asked = len(inputs.age_years), _judges(limits, codes)
    unsure, flaws = np.zeros(answers.shape, dtype=bool), np.zeros((len(sizes), wearers))
    sure_garments, in_doubt = sure_garments_of(sizes, limits), doubtful(inputs)
    steepest = max(each.steepest for each in sure_garments)
    for first in range(0, wearers, _AT_ONCE):
        some = slice(first, min(first + _AT_ONCE, wearers))
        here, unsure_here = answers[:, :, some], unsure[:, :, some]
        columns = SureColumns(in_doubt.only(np.arange(some.start, some.stop)), limits, steepest)
        for place, garment in enumerate(sure_garments):
            for row, code in enumerate(judges_asked):
                good = np.flatnonzero(here[place, row] == Answer.GOOD)
                if len(good):
                    sure = columns.is_sure(code, good, garment)
                    here[place, row, good] = surely(here[place, row, good], sure)
                    unsure_here[place, row, good] = ~sure
        if otherwise is None:
            continue
        flaws[:, some] = (here == Answer.MIND).sum(axis=1)
        weighed = otherwise.rivals(here, some)
        flaws[:, some][weighed] = 0.0
        for place, garment in enumerate(sure_garments):
            for row, (code, judge) in enumerate(judges_asked.items()):
                minded = np.flatnonzero(weighed[place] & (here[place, row] == Answer.MIND))
                stop = np.broadcast_to(judge.stops_if_it_fails(inputs), wearers)[some]
                for few in np.split(minded, range(_WEIGHED_AT_ONCE, len(minded), _WEIGHED_AT_ONCE)):
                    if len(few):
                        fails = columns.fails(code, few, garment)
                        flaws[place, first + few] += flaws_of(
                            here[place, row, few], unsure_here[place, row, few], stop[few], fails
                        )
    return SureAnswers(answers=answers, unsure=unsure, flaws=flaws)


def sure_garments_of(sizes: Sequence[SizeFit], limits: Limits) -> list[SureGarment]:
    """The garments of sizes, whose fabrics may be off."""
    return [
        SureGarment(made.facts, each.case.construction, made.size, made.garment, made.parts, limits)
        for each in sizes
        for made in (each.at_gauge,)
    ]


def judged(design: Design, sizes: Sequence[SizeFit], inputs: Inputs) -> Judged:
    """Every wearer against every size, and the best for each: the same score as for one wearer.

    ``sizes`` give the garments and what is wrong with how they are made; who they were fitted on is
    of no account. The wearers are judged by what is typical within the spread of what is not measured.
    """
    typical = with_all_at(inputs, End.TYPICAL, certain=False)
    not_hers = _not_hers(design.limits, sizes, inputs)
    making = [in_making(each.making) for each in sizes]
    otherwise = Otherwise(making=making, not_hers=not_hers)
    sure = sure_answers(design.limits, sizes, typical, otherwise=otherwise)
    scores = np.empty((len(inputs.age_years), len(sizes)))
    for place, (each, (stops, minds)) in enumerate(zip(sizes, making, strict=True)):
        scores[:, place] = score(
            (sure.answers[place] == Answer.STOP).sum(axis=0) + stops,
            sure.flaws[place] + minds,
            _lengths_off(design.limits, typical, each),
            each.meant_cm,
            failing=((sure.answers[place] == Answer.MIND) & ~sure.unsure[place]).any(axis=0),
            not_hers=not_hers[place],
        )
    return Judged(
        codes=tuple(judges(design.limits)),
        answers=sure.answers,
        unsure=sure.unsure,
        best=np.argmin(scores, axis=1),
        alike=(scores <= scores.min(axis=1, keepdims=True) + TIE).T,
        not_hers=not_hers,
    )


def _not_hers(limits: Limits, sizes: Sequence[SizeFit], inputs: Inputs) -> Bools:
    """By size and wearer, whether a size is not the wearer's, see `Judged`."""
    not_hers = np.ones((len(sizes), len(inputs.age_years)), dtype=bool)
    for end in End:
        there = with_all_at(inputs, end)
        for place, each in enumerate(sizes):
            not_hers[place] &= are_far_off(_lengths_off(limits, there, each), each.meant_cm)
    return not_hers


def _lengths_off(limits: Limits, inputs: Inputs, size: SizeFit) -> dict[str, Column]:
    """By how much hem and reach of a size are off for each wearer, in cm."""
    inputs_on = inputs.of(size.at_gauge.facts)
    return {code: judges(limits)[code].figure("ease_cm", inputs_on) for code in (REACH, HEM)}
