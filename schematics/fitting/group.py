"""A class or club at once: the size for each, what is uncertain, how many of each size, and the yarn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from schematics.analysis.yarn.need import YarnNeed, yarn_need
from schematics.design.design import Design, Parts, Size
from schematics.fitting.deciding import MOST_DECIDED, Decided, Settles, deciding
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.group_advice import advised
from schematics.fitting.group_chances import unsure_chances
from schematics.fitting.group_file import WearerGroup
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.fitting.wearer_columns import Judged, complete, judged, only, with_all_at
from schematics.fitting.workshop import NOBODY
from schematics.wearer.asking import group_questions
from schematics.wearer.evaluator import Inputs
from schematics.wearer.expr import End

_AT_ONCE = 50_000
"""Wearers whose answers in every size are kept together, where only the best size is wanted of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeCount:
    """One size in a group: how many take it, how many of them are uncertain, the yarn for one."""

    name: str
    wearers: int
    uncertain: int
    need: YarnNeed


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupFit:
    """A group against every size.

    ``judged`` has the best size of each. ``fits`` marks those whom nothing stops in it and whose it may be.
    ``wanting`` are those for whom some rule wants a measurement. ``could_be`` is, by size and wearer, whether
    it is the best or could be it as well, see `schematics.fitting.fitting.other_sizes`. ``questions`` about
    measurements that hardly any body has are by line. ``deciding`` are the measurements that would settle
    most, see `schematics.fitting.deciding`, ``chances`` how often holds what is not sure in the best size, by
    the wearer's place; None of more wearers than they are worked out for.
    """

    group: WearerGroup
    sizes: tuple[SizeFit, ...]
    judged: Judged
    fits: NDArray[np.bool_]
    questions: Mapping[int, tuple[str, ...]]
    could_be: NDArray[np.bool_]
    wanting: NDArray[np.bool_]
    deciding: Mapping[int, Decided] | None
    chances: Mapping[int, Mapping[str, float]] | None

    @property
    def uncertain(self) -> NDArray[np.bool_]:
        """Those whose size may be another, or for whom something could not be checked."""
        uncertain: NDArray[np.bool_] = (self.could_be.sum(axis=0) > 1) | self.wanting
        for place, decided in (self.deciding or {}).items():
            uncertain[place] |= decided.settles is Settles.SIZE
        return uncertain

    @property
    def could_take(self) -> NDArray[np.bool_]:
        """``could_be`` of those whom some size fits."""
        could: NDArray[np.bool_] = self.could_be[:, self.fits]
        return could

    def counts(self, design: Design) -> tuple[SizeCount, ...]:
        """How many take each size; those no size fits are in none."""
        uncertain = self.uncertain
        return tuple(
            SizeCount(
                name=size.name,
                wearers=int((takes := (self.judged.best == place) & self.fits).sum()),
                uncertain=int((takes & uncertain).sum()),
                need=yarn_need(design, size.at_gauge.garment),
            )
            for place, size in enumerate(self.sizes)
        )


def group_fit(
    design: Design, sizes: Sequence[Size], group: WearerGroup, parts: Parts | None = None
) -> GroupFit:
    """Every wearer of a group against these sizes, in the pattern's fabrics or a maker's."""
    fits = tuple(size_fit(design, size_at_gauge(design, size, parts), NOBODY) for size in sizes)
    inputs = complete(group.own, group.ages)
    advice = advised(design, fits, inputs)
    wanting = advice.unknown > 0
    few = len(group.names) <= MOST_DECIDED
    return GroupFit(
        group=group,
        sizes=fits,
        judged=advice.judged,
        fits=advice.fits,
        questions={
            int(group.lines[place]): sentences
            for place, sentences in group_questions(group.own, group.ages, design.unit).items()
        },
        could_be=_could_be(design, fits, inputs, advice.judged, wanting),
        wanting=wanting,
        deciding=deciding(design, fits, group.own, group.ages, advice) if few else None,
        chances=unsure_chances(design.limits, fits, inputs, advice.judged) if few else None,
    )


def _could_be(
    design: Design, fits: Sequence[SizeFit], inputs: Inputs, result: Judged, wanting: NDArray[np.bool_]
) -> NDArray[np.bool_]:
    wearers = len(result.best)
    could = result.alike & wanting
    spread = np.zeros(wearers, dtype=bool)
    for column in inputs.body.values():
        with np.errstate(invalid="ignore"):
            spread |= column.high_cm > column.low_cm
    vague = np.flatnonzero(spread)
    for first in range(0, len(vague), _AT_ONCE):
        rows = vague[first : first + _AT_ONCE]
        some = only(inputs, rows)
        for end in End:
            there = judged(design, fits, with_all_at(some, end))
            could[there.best, rows] = True
    may_be = np.array([fit.is_workable for fit in fits])[:, None] & ~result.not_hers
    best = np.arange(len(fits))[:, None] == result.best
    could = (could & may_be) | best
    up, down = (np.logical_or.accumulate(each) for each in (could, could[::-1]))
    could_be: NDArray[np.bool_] = (up & down[::-1] & may_be) | best
    return could_be
