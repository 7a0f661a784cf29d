"""One size to be graded: what its counts must keep, and what they cost, as formulas on columns of counts."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from schematics.checks.seams import LENGTH as SEAM_LENGTH
from schematics.checks.slot import WIDTH as FRONT_WIDTH
from schematics.checks.tape import Tape
from schematics.constructions.facts import Facts, Gradable, SeamFacts, even
from schematics.design import Meant, Parts
from schematics.fabric import Counted, CountRule
from schematics.grading.draft import DraftSize, Wishes
from schematics.grading.price import TOLERANCE, TOLERANCE_CM, off_cost
from schematics.limits import Limits
from schematics.linear import HAIR, Counts, Linear, Numbers
from schematics.rules.answers import Judge, judges, known_of
from schematics.rules.expr import Expr, Fact
from schematics.rules.size_rules import Rule
from schematics.rules.working import Known
from schematics.seam_limits import past_agreement_cm, past_equal_widths_cm, past_stop_cm
from schematics.wearer.body import Wearer

UNMEASURED_CM = 3.0
"""How far past its limit a way on the fabric is taken to be that cannot be measured (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """Something a size's counts must keep: ``miss`` is nought where they do.

    ``count`` is given where the ask is that a count is as by hand. ``loose`` asks tie counts together that
    otherwise have nothing to do with each other.
    """

    key: str
    words: str
    needs: frozenset[str]
    miss: Callable[[Counts], Numbers]
    code: str = ""
    cure: str = ""
    count: str = ""
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """Something a size's counts cost, in cm; ``name`` is the key of a length or the code of a finding."""

    name: str
    needs: frozenset[str]
    cost: Callable[[Counts], Numbers]
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeCase:
    """One size with its formulas, its wearer, and the lengths that are meant for it in cm."""

    index: int
    size: DraftSize
    facts: Facts
    gradable: Gradable
    wearer: Wearer
    parts: Parts
    limits: Limits
    tape: Tape
    settings: Mapping[str, Any]
    shaping: tuple[str, ...]
    wishes: Wishes | None
    targets_cm: Mapping[str, float] = field(default_factory=dict)

    @property
    def complete(self) -> bool:
        """Whether nothing is left to find."""
        return all(count in self.size.given for count in self.counts)

    @property
    def counts(self) -> tuple[str, ...]:
        """Every count of the size."""
        return (*self.gradable.all_counts, *self.shaping)

    def base(self, names: frozenset[str]) -> frozenset[str]:
        """The counts behind names of which some may follow from counts."""
        follows = {each.name: each.needs for each in self.facts.picked_up}
        return frozenset[str]().union(*(follows.get(name, {name}) for name in names))

    def needs(self, *values: Linear) -> frozenset[str]:
        """The counts that sums depend on."""
        return self.base(frozenset[str]().union(*(value.needs for value in values)))

    @property
    def meant(self) -> tuple[Meant, ...]:
        """The lengths that are meant, with their tolerances."""
        return tuple(
            Meant(key=key, length_cm=length_cm, tolerance_cm=self.tolerance_cm(key))
            for key, length_cm in self.targets_cm.items()
        )

    def weight(self, key: str) -> float:
        """How much a centimetre off matters."""
        return self.wishes.weights.get(key, 1.0) if self.wishes else 1.0

    def tolerance_cm(self, key: str) -> float:
        """How far off what was meant a length may be."""
        if self.wishes and key in self.wishes.tolerances_cm:
            return self.wishes.tolerances_cm[key]
        usual = max(TOLERANCE_CM, TOLERANCE * abs(self.targets_cm[key]))
        return max(usual, self._half_unit_cm(key))

    def unit_cm(self, key: str) -> float:
        """The least a length can grow by: a stitch, a row, or a repeat of them."""
        return self._unit_cm(self.facts.lengths[key])

    def _unit_cm(self, length: Linear) -> float:
        repeats = dict.fromkeys(length.terms, 1)
        for pattern in self.facts.patterns:
            for name in pattern.count.needs & repeats.keys():
                if len(pattern.count.terms) == 1:
                    repeats[name] = pattern.rule.multiple
        return min(abs(factor) * repeats[name] for name, factor in length.terms.items())

    def _half_unit_cm(self, key: str) -> float:
        """Half of the least a length, or the edge it is seamed to, can grow by."""
        length = self.facts.lengths[key]
        alike = [length]
        for seam in self.facts.seams:
            sides = seam.first_cm, seam.second_cm
            alike += [other for one, other in (sides, sides[::-1]) if one.needs == length.needs]
        return max(map(self._unit_cm, alike)) / 2

    def with_following(self, counts: Counts) -> Counts:
        """The counts with those that follow from them."""
        found = dict(counts)
        for each in self.facts.picked_up:
            if each.name not in found and each.needs <= counts.keys():
                found[each.name] = each.count(counts)
        return found

    def length_cm(self, key: str, counts: Counts) -> Numbers:
        """A finished measurement."""
        return self.facts.lengths[key].at(self.with_following(counts))

    def asks(self) -> Iterator[Ask]:
        """Everything the counts must keep; a size that is given whole is as it is."""
        yield from _given(self)
        if self.complete:
            return
        yield from _patterns(self)
        yield from _evens(self)
        for each in self.facts.demands:
            loose = each.code == "ARM-PLACE" and "arms.from_front" in each.row.needs
            yield Ask(
                key=each.words, words=each.words, needs=self.base(each.row.needs), miss=each.row.miss,
                code=each.code or "", cure=each.cure, loose=loose,
            )  # fmt: skip
        yield from _seam_asks(self)
        yield from _stops(self)

    def costs(self) -> Iterator[Cost]:
        """Everything they cost."""
        for key, target_cm in self.targets_cm.items():
            length = self.facts.lengths[key]
            yield Cost(
                name=key,
                needs=self.needs(length),
                cost=_off(length, target_cm, self.tolerance_cm(key), self.weight(key)),
                loose=key == "arm.back",
            )
        if self.wishes is None or self.wishes.mind > 0:
            yield from _minds(self)


def _off(length: Linear, target_cm: float, tolerance_cm: float, weight: float) -> Callable[[Counts], Numbers]:
    return lambda counts: off_cost(length.at(counts) - target_cm, tolerance_cm, weight)


def _given(case: SizeCase) -> Iterator[Ask]:
    for count, value in case.size.given.items():
        line = f" (line {case.size.lines[count]})" if count in case.size.lines else ""
        yield Ask(
            key=f"{count} by hand",
            words=f"{count} is {value} by hand{line}",
            needs=frozenset({count}),
            miss=_apart(count, value),
            count=count,
        )


def _apart(count: str, value: int) -> Callable[[Counts], Numbers]:
    return lambda counts: np.abs(np.asarray(counts[count]) - value)


def _patterns(case: SizeCase) -> Iterator[Ask]:
    for pattern in case.facts.patterns:
        rule, rows = pattern.rule, pattern.fabric.row_rule
        if rule == CountRule():
            continue
        across = pattern.counted is Counted.STITCHES
        if across:
            fits = f"multiples of {rule.multiple}{f' plus {rule.plus}' if rule.plus else ''}"
        else:
            ends = rows.setup + rows.closing
            fits = f"repeats of {rule.multiple} rows{f' plus {ends}' if ends else ''}"
        yield Ask(
            key=f"pattern of {pattern.words}",
            words=f"{pattern.words} fits {fits} ({pattern.fabric.name})",
            needs=case.needs(pattern.count),
            miss=pattern.row.miss,
            code="COUNT-MULTIPLE" if across else "COUNT-REPEAT",
            cure=f"another {'stitch multiple' if across else 'row repeat'} for {pattern.fabric.name}",
        )


def _evens(case: SizeCase) -> Iterator[Ask]:
    for ring, place in ((case.facts.neck, "neck band"), (case.facts.arm, "arm band")):
        yield Ask(
            key=f"{place} even",
            words=f"the {place} is worked onto an even number of edge stitches",
            needs=case.needs(ring.edge_count),
            miss=even(ring.edge_count).miss,
            code="COUNT-EVEN",
            cure="one edge stitch more or less",
        )


def _seam_asks(case: SizeCase) -> Iterator[Ask]:
    for seam in case.facts.seams:

        def miss(counts: Counts, seam: SeamFacts = seam) -> Numbers:
            first, second = seam.first_cm.at(counts), seam.second_cm.at(counts)
            past = past_stop_cm(first, second, *seam.rows_cm, case.limits)
            positive = (first > HAIR) & (second > HAIR)
            return np.where(positive, np.where(past > HAIR, past, 0.0), 1.0)

        yield Ask(
            key=f"{seam.words} meet",
            words=f"{seam.words}: the edges meet",
            needs=case.needs(seam.first_cm, seam.second_cm),
            miss=miss,
            code=SEAM_LENGTH,
            cure="edges nearer in length by {miss}: a shorter row repeat, or other counts by hand",
        )


class _Columns(Mapping[str, Any]):
    """Facts of garments, as `schematics.rules.facts` names them, found when they are asked for."""

    def __init__(self, case: SizeCase, counts: Counts) -> None:
        self._case, self._counts = case, case.with_following(counts)
        self._found: dict[str, Numbers] = {}

    def __getitem__(self, name: str) -> Numbers:
        if name not in self._found:
            self._found[name] = _fact(self._case, self._counts, name)
        return self._found[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._found)

    def __len__(self) -> int:
        return len(self._found)


def _fact(case: SizeCase, counts: Counts, name: str) -> Numbers:
    facts = case.facts
    head, _, rest = name.partition(".")
    if head in ("neck", "arm"):
        ring = facts.neck if head == "neck" else facts.arm
        if rest in ("rest_cm", "full_cm"):
            middle = "" if rest == "rest_cm" else "full_"
            sides = (getattr(ring, f"{side}_{middle}cm").at(counts) for side in ("edge", "band"))
            return np.minimum(*sides)
        return getattr(ring, rest).at(counts)
    if head == "girth":
        points = facts.girths(counts)
        if rest == "closed":
            return float(bool(points))
        number, _, what = rest.partition(".")
        if not points:
            return math.nan
        at = min(int(number), len(points) - 1)
        return points[at][1] if what == "girth_cm" else points[at][0] * (1 + int(number) - at)
    if name == "drop_cm":
        return facts.drop.at(counts)
    if name == "longest_drop_cm":
        return np.maximum.reduce([corner.at(counts) for corner in facts.corners])
    band = facts.lengths["arm_band.depth"].at(counts)
    ways = facts.ways(counts)
    if name == "arms.measured":
        return np.where(np.isnan(ways.reach), 0.0, 1.0)
    back, front = ways.back + 2 * band, ways.front + 2 * band
    return {
        "reach_cm": ways.reach + band,
        "spread_back_cm": back,
        "spread_front_cm": front,
        "spread_cm": np.minimum(back, front),
    }[name]


def _needs_of(case: SizeCase, name: str) -> frozenset[str]:
    """The counts a fact depends on."""
    facts = case.facts
    head = name.partition(".")[0]
    if head in ("neck", "arm"):
        ring = facts.neck if head == "neck" else facts.arm
        return case.needs(ring.edge_cm, ring.band_cm, ring.edge_full_cm, ring.band_full_cm)
    if head == "girth":
        return case.base(facts.girths_need) | frozenset(case.shaping)
    if name == "drop_cm":
        return case.base(facts.drop.needs)
    if name == "longest_drop_cm":
        return case.base(frozenset[str]().union(*(corner.needs for corner in facts.corners)))
    if name == "arms.measured":
        return case.base(facts.ways_need) | frozenset(case.shaping)
    return case.base(facts.ways_need) | case.needs(facts.lengths["arm_band.depth"]) | frozenset(case.shaping)


WAYS = frozenset({"arms.measured", "reach_cm", "spread_back_cm", "spread_front_cm", "spread_cm"})
"""Facts that tie the arms to the body."""


def _rule_facts(exprs: Sequence[Expr | None]) -> set[str]:
    nodes = (node for expr in exprs if expr is not None for node in expr.walk())
    return {node.name for node in nodes if isinstance(node, Fact)}


def _asked(case: SizeCase) -> Callable[[Counts], Known]:
    known = known_of(case.wearer)
    return lambda counts: known.of(_Columns(case, counts))


def _stops(case: SizeCase) -> Iterator[Ask]:
    known = _asked(case)
    for judge in judges(case.limits).values():
        rule = judge.rule
        if rule.stop is None:
            continue
        names = _rule_facts([rule.stop])

        def miss(counts: Counts, judge: Judge = judge) -> Numbers:
            assert judge.stop is not None
            there = known(counts)
            short = -np.asarray(judge.figure("ease_cm", there), dtype=float)
            return np.where(judge.stop(there), np.maximum(np.nan_to_num(short), HAIR * 2), 0.0)

        words, cure = _STOP_WORDS.get(rule.code, (f"{rule.place} passes", "other lengths by {miss}"))
        yield Ask(
            key=rule.code,
            words=words,
            needs=frozenset[str]().union(*(_needs_of(case, name) for name in names)),
            miss=miss,
            code=rule.code,
            cure=cure,
        )


_STOP_WORDS = {
    "NECK-PASS": (
        "the head passes the neck, stretched",
        "a neck that opens {miss} wider: more stretch or stitches",
    ),
    "NECK-TIGHT": ("the neck at rest is not tight", "a neck {miss} longer, or less clearance"),
    "ARM-PASS": (
        "the hand passes the arm bands, stretched",
        "arm bands that open {miss} wider: more stretch or stitches",
    ),
    "HANG-KNEE": ("the hem's lowest place stays above the knee", "a body that hangs {miss} shorter"),
    "GIRTH-EASE": ("chest and both arms have room", "a body {miss} wider round the chest"),
}


def _minds(case: SizeCase) -> Iterator[Cost]:
    weight = case.wishes.mind if case.wishes else 1.0
    known = _asked(case)
    for judge in judges(case.limits).values():
        rule: Rule = judge.rule
        if rule.mind_past is None:
            continue
        names = _rule_facts([rule.mind])

        def cost(counts: Counts, judge: Judge = judge, measured: bool = bool(names & WAYS)) -> Numbers:
            there = known(counts)
            found = np.nan_to_num(np.maximum(judge.past_cm(there), 0.0))
            if not measured:
                return weight * found
            return weight * np.where(there.facts["arms.measured"] > 0.5, found, UNMEASURED_CM)

        yield Cost(
            name=rule.code,
            needs=frozenset[str]().union(*(_needs_of(case, name) for name in names)),
            cost=cost,
            loose=bool(names & WAYS),
        )
    for seam in case.facts.seams:

        def gap(counts: Counts, seam: SeamFacts = seam) -> Numbers:
            first, second = seam.first_cm.at(counts), seam.second_cm.at(counts)
            return weight * np.maximum(past_agreement_cm(first, second, *seam.rows_cm, case.limits), 0.0)

        yield Cost(name=SEAM_LENGTH, needs=case.needs(seam.first_cm, seam.second_cm), cost=gap)
    if case.facts.widths_cm is not None:
        front, back = case.facts.widths_cm
        yield Cost(
            name=FRONT_WIDTH,
            needs=case.needs(front, back),
            cost=lambda counts: (
                weight * np.maximum(past_equal_widths_cm(front.at(counts), back.at(counts), case.limits), 0.0)
            ),
        )
