"""What mends a finished poncho: the smallest changes of what can still be changed, every one checked.

A piece comes off whole and is worked anew, with other counts, or at the pattern's gauge where it came out
otherwise. Of the body rows can be ripped back or worked on; nothing else of it can be changed.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from schematics.checks.evaluation import SEVERITIES
from schematics.crochet.fabric import Fabric
from schematics.design.border import BorderEdge
from schematics.design.design import PART_OF, PARTS, Design, Parts, Size
from schematics.fitting.advice import advise, is_right
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import SizeFit, in_making, size_fit
from schematics.fitting.workshop import NOBODY, Workshop
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.construction import Construction
from schematics.garment.constructions.levers import ARM_BANDS, PANEL, Apply, Lever, Purpose
from schematics.garment.garment import ArmsOn, Garment
from schematics.wearer.body import Wearer

BODY = "body"
_COMES_OFF: Mapping[str, frozenset[str]] = {
    "neck band": frozenset({"neck band"}),
    "arm band": ARM_BANDS,
    "centre panel": PANEL,
}
"""The pieces that can be worked anew, and what comes off with each of them."""

_AT: Mapping[str, str] = {"neck": "neck band", "arm bands": "arm band", "hem": BODY}
"""What has to come off to mend what is amiss at a place."""

MOST_REPAIRS = 4
MUCH, WORTH_HOLDING = 0.25, 0.65
"""Hardly worth it is what has more than so much of a poncho worked anew, and holds less often than so (common
practice, no source)."""

OFF = 0.01
"""A fabric is worked anew at the pattern's gauge where its own is off by more than this fraction."""


@dataclass(frozen=True, kw_only=True)
class Repair:
    """A finished size, ``before`` as it came out and ``after`` it is mended, on one wearer.

    ``at_pattern_gauge`` are the pieces that are worked anew at the pattern's gauge. It is ``right``
    where nothing is left to mind; where that is only not sure, ``mended``.
    """

    before: SizeFit
    after: SizeFit
    at_pattern_gauge: frozenset[str]
    right: bool

    @cached_property
    def pieces(self) -> frozenset[str]:
        """The pieces that are not left as they are."""
        old, new = self.before.at_gauge.size, self.after.at_gauge.size
        longer = old.body != new.body
        on_hem = self.before.at_gauge.garment.arm.on is ArmsOn.HEM
        panel = (old.panel_stitches, old.panel_rows) != (new.panel_stitches, new.panel_rows)
        touched = {
            BODY: longer,
            "centre panel": panel,
            "arm band": old.arms != new.arms
            or old.arm_band_stitches != new.arm_band_stitches
            or (longer and on_hem),
        }
        reworked = self.at_pattern_gauge | {name for name, changed in touched.items() if changed}
        return frozenset(reworked | (PANEL if "centre panel" in reworked else frozenset()))

    @property
    def mended(self) -> bool:
        """Whether it is right, at least as far as it is measured."""
        return self.right or bool(self.after.to_be_sure)

    @property
    def holds(self) -> float | None:
        """In which share of cases what holds least often does; None where nothing is left in doubt."""
        sure = [each.certainty for each in self.after.reported if each.unsure]
        return min((each.holds_fraction for each in sure if each is not None), default=None)

    @property
    def hardly_worth_it(self) -> bool:
        """Whether much of it is worked anew for what fails about as often as it holds."""
        garment = self.before.at_gauge.garment
        whole = sum(_stitches_of(garment, piece.name) for piece in garment.pieces)
        seldom = self.holds is not None and self.holds < WORTH_HOLDING
        return seldom and self.worked > MUCH * whole

    @property
    def panel_stays(self) -> bool:
        """Whether the panel only has other rows at its top, or the same."""
        same = self.before.at_gauge.size.panel_stitches == self.after.at_gauge.size.panel_stitches
        return same and "centre panel" not in self.at_pattern_gauge

    @cached_property
    def unpicked(self) -> int:
        """Stitches that are ripped out."""
        return self._stitches(self.before.at_gauge.garment, self.after.at_gauge.garment)

    @cached_property
    def worked(self) -> int:
        """Stitches that are worked anew."""
        return self._stitches(self.after.at_gauge.garment, self.before.at_gauge.garment)

    def _stitches(self, one: Garment, other: Garment) -> int:
        """Those of one that are not in the other."""
        count = 0
        for name in self.pieces:
            rows_only = name == BODY or (name == "centre panel" and self.panel_stays)
            here, there = (_stitches_of(each, name) for each in (one, other))
            count += max(0, here - there) if rows_only else here
        return count


def _stitches_of(garment: Garment, name: str) -> int:
    piece = garment.piece(name)
    return piece.quantity * sum(piece.row_stitches or ())


def repairs(design: Design, before: SizeFit, wearer: Wearer) -> tuple[Repair, ...]:
    """The repairs of a finished size, those with the fewest stitches to rip out and work first.

    Last are those that are hardly worth it.

    All make it right where any does, at least as far as it is measured. Else there is the one that leaves the
    least to mind.

    Args:
        design: the pattern.
        before: the size as it came out.
        wearer: who is to wear it.

    Returns:
        Empty where nothing has to be mended, or nothing that can be done mends it.
    """
    mending = _Mending(design=design, before=before, wearer=wearer)
    if mending.mends(before):
        return ()
    mended: list[Repair] = []
    better: list[Repair] = []
    for pieces in mending.choices:
        if any(each.pieces <= pieces for each in mended):
            continue
        for repair in mending.tried(pieces):
            if mending.mends(repair.after):
                mended.append(repair)
                break
            better.append(repair)
    if mended:
        return tuple(sorted(mended, key=lambda each: (each.hardly_worth_it, _work(each)))[:MOST_REPAIRS])
    return tuple(sorted(better, key=lambda each: (_left(each.after), _work(each)))[:1])


def _work(repair: Repair) -> int:
    return repair.unpicked + repair.worked


def _left(fit: SizeFit) -> tuple[int, ...]:
    """How many findings there are of each severity, the worst first."""
    severities = [each.severity for each in fit.reported]
    return tuple(severities.count(each) for each in SEVERITIES)


@dataclass(frozen=True, kw_only=True)
class _Mending:
    """One finished size, and what can be tried to mend it."""

    design: Design
    before: SizeFit
    wearer: Wearer

    @property
    def construction(self) -> Construction:
        return CONSTRUCTIONS[self.design.construction]

    @property
    def parts(self) -> Parts:
        return self.before.at_gauge.parts

    @cached_property
    def _making(self) -> tuple[int, int]:
        """What the pattern itself has to mind or to stop it that does not depend on the wearer."""
        pattern = size_at_gauge(self.design, self.before.at_gauge.size)
        return in_making(size_fit(self.design, pattern, NOBODY).making)

    def is_right(self, fit: SizeFit) -> bool:
        """Whether it is right on the wearer, and made as well as in the pattern."""
        return is_right(fit) and in_making(fit.making) <= self._making

    @cached_property
    def off(self) -> tuple[str, ...]:
        """The pieces that can be worked anew and did not come out at the pattern's gauge."""
        parts = ((name, key) for name, key in PART_OF.items() if name in _COMES_OFF)
        return tuple(name for name, key in parts if _is_off(self.design.parts, self.parts, key))

    @cached_property
    def choices(self) -> tuple[frozenset[str], ...]:
        """What may come off together to mend what is amiss, the least first."""
        by_lever = [lever.comes_off for lever in self.levers(self.parts)]
        sets = list(dict.fromkeys([*by_lever, *(_COMES_OFF[name] for name in self.off)]))
        unions = {
            frozenset().union(*some)
            for many in range(1, len(sets) + 1)
            for some in itertools.combinations(sets, many)
        }
        amiss = {_AT[each.place] for each in self.before.reported if each.place in _AT and not each.unsure}
        needed = amiss & frozenset().union(*unions)
        garment = self.before.at_gauge.garment
        return tuple(
            sorted(
                (each for each in unions if needed <= each),
                key=lambda each: (sum(_stitches_of(garment, name) for name in each), sorted(each)),
            )
        )

    def levers(self, parts: Parts) -> tuple[Lever, ...]:
        """The levers that can be moved on the finished piece, the panel's rows as its fabrics ask."""
        hem_border = any(border.at is BorderEdge.HEM for border in parts.borders)
        return tuple(
            replace(lever, apply=_on_finished(self.construction, lever, parts))
            for lever in self.construction.levers
            if lever.comes_off and not (lever.purpose is Purpose.LENGTH and hem_border)
        )

    def tried(self, pieces: frozenset[str]) -> Iterator[Repair]:
        """The repair there is if just these pieces may come off.

        They are worked anew as they came out, then bands at the pattern's gauge, last the panel as well.
        """
        off = frozenset(self.off) & pieces
        for anew in dict.fromkeys((frozenset[str](), off - {"centre panel"}, off)):
            parts = _at_pattern_gauge(self.design.parts, self.parts, anew)
            levers = [lever for lever in self.levers(parts) if lever.comes_off <= pieces]
            size = self._to_start_from(levers, parts)
            start = size_fit(self.design, size_at_gauge(self.design, size, parts), self.wearer)
            after = start
            if not self.is_right(start) and levers:
                advice = advise(
                    Workshop(design=self.design, pattern=start.at_gauge, levers=levers), self.wearer
                )
                after = advice.after if advice else start
            if after.verdict != "stop" and _left(after) < _left(self.before):
                yield Repair(
                    before=self.before, after=after, at_pattern_gauge=anew, right=self.is_right(after)
                )

    def mends(self, fit: SizeFit) -> bool:
        """Whether it is right, at least as far as it is measured."""
        return self.is_right(fit) or bool(fit.to_be_sure)

    def _to_start_from(self, levers: Iterable[Lever], parts: Parts) -> Size:
        """The size; where its panel does not suit the front edges and may come off, with rows that do."""
        size = self.before.at_gauge.size
        if in_making(self.before.making) <= self._making:
            return size
        length = next((lever for lever in levers if lever.purpose is Purpose.LENGTH), None)
        return (length and length.moved(size, 0, parts)) or size


def _is_off(pattern: Parts, own: Parts, key: str) -> bool:
    usual, mine = getattr(pattern, key), getattr(own, key)
    ratios = (mine.stitches_per_cm / usual.stitches_per_cm, mine.rows_per_cm / usual.rows_per_cm)
    return any(abs(ratio - 1) > OFF for ratio in ratios)


def _at_pattern_gauge(pattern: Parts, own: Parts, pieces: Iterable[str]) -> Parts:
    """The fabrics with those of some pieces as in the pattern, under new names where others keep them."""
    anew: dict[str, Fabric] = {}
    for name in pieces:
        fabric = getattr(pattern, PART_OF[name])
        shared = len([key for key in own.by_name.values() if key.name == fabric.name]) > 1
        anew[PART_OF[name]] = replace(fabric, name=f"new {fabric.name}") if shared else fabric
    return Parts(**{key: anew.get(key, getattr(own, key)) for key in PARTS}, borders=own.borders)


def _on_finished(construction: Construction, lever: Lever, parts: Parts) -> Apply:
    """How a lever is moved where what is worked stays; the fabrics are those of the finished piece."""

    def counted(size: Size, step: int, _: Parts) -> Size | None:
        return lever.apply(size, step, parts)

    def in_rows(size: Size, step: int, _: Parts) -> Size | None:
        rows = step * parts.body.row_rule.repeat
        change = construction.longer if rows > 0 else construction.shorter
        changed = change(size.body, size.arms, abs(rows)) if rows else (size.body, size.arms)
        if changed is None:
            return None
        body, arms = changed
        worked = construction.rows_worked(size.body), construction.rows_worked(body)
        return lever.apply(replace(size, body=body, arms=arms), 0, parts) if _stays(*worked) else None

    return in_rows if lever.purpose is Purpose.LENGTH else counted


def _stays(old: Sequence[tuple[int, int]], new: Sequence[tuple[int, int]]) -> bool:
    """Whether rows are only ripped back from the last, or only added before the first and after the last."""
    if len(new) <= len(old):
        return tuple(old[: len(new)]) == tuple(new)
    return any(tuple(new[first : first + len(old)]) == tuple(old) for first in range(len(new) - len(old) + 1))
