"""The whole problem: every size's unknown counts, the rules, and what the best answer is."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass, field, replace

from schematics.constructions.facts import PickedUp
from schematics.fabric import CountRule
from schematics.grading.program import Answer, Program
from schematics.grading.rules import Clause, Rule
from schematics.linear import HAIR, Linear, Row, at_least

LARGEST = 10_000
LONGEST_CM = 600.0
"""No count is looked for beyond this length."""
_SECONDS = 60.0
_PASSES = 4
"""How often bounds are taken from one another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A length and what each centimetre of it off ``target_cm`` costs.

    ``words`` say what it is for. ``size`` is None where it takes several sizes. ``count`` and ``rule``
    are the one count it is the length of and what that count may be, None where it is made of several.
    """

    words: str
    value: Linear
    target_cm: float
    weight: float
    size: int | None = None
    count: str | None = None
    rule: CountRule | None = None

    @property
    def sizes(self) -> set[int]:
        """The sizes it takes."""
        return {size_of(name) for name in self.value.terms}

    def cost(self, counts: Mapping[str, float]) -> float:
        """What it costs at these counts, in cm."""
        return self.weight * abs(self.value.at(counts) - self.target_cm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Counts with their bounds, rules and costs. Counts are named with their size: ``0/body.neck``.

    ``fewer_cm`` is what each stitch or row costs: of two equally good answers the one with fewer is
    taken.
    """

    bounds: Mapping[str, tuple[int, int]]
    fewer_cm: Mapping[str, float]
    picked_up: tuple[tuple[int, PickedUp], ...]
    rules: tuple[Rule, ...]
    terms: tuple[Term, ...]
    mind_cm: float

    def only(self, *sizes: int) -> Problem:
        """The part of it that is these sizes' own."""
        return replace(
            self,
            bounds={name: each for name, each in self.bounds.items() if size_of(name) in sizes},
            picked_up=tuple(each for each in self.picked_up if each[0] in sizes),
            rules=tuple(rule for rule in self.rules if set(rule.sizes) <= set(sizes)),
            terms=tuple(term for term in self.terms if term.sizes <= set(sizes)),
        )

    def among(self, counts: Set[str]) -> Problem:
        """The part of it that takes none but these counts, named without a size."""
        bounds = {name: each for name, each in self.bounds.items() if name.split("/")[1] in counts}
        picked_up = tuple(
            each for each in self.picked_up if (each[1].exact + each[1].besides).terms.keys() <= counts
        )
        names = bounds.keys() | {f"{index}/{each.name}" for index, each in picked_up}
        return replace(
            self,
            bounds=bounds,
            picked_up=picked_up,
            rules=tuple(
                rule
                for rule in self.rules
                if all(row.value.terms.keys() <= names for clause in rule.clauses for row in clause)
            ),
            terms=tuple(term for term in self.terms if term.value.terms.keys() <= names),
        )

    def values(self, counts: Mapping[str, int]) -> dict[str, float]:
        """Counts by their names with their sizes, and with them what is picked up from them."""
        values: dict[str, float] = dict(counts)
        for index, each in self.picked_up:
            own = {
                name: counts[f"{index}/{name}"]
                for name in (each.exact + each.besides).terms
                if f"{index}/{name}" in counts
            }
            if own:
                values[f"{index}/{each.name}"] = each.count(own)
        return values

    def cost_cm(self, counts: Mapping[str, int]) -> float:
        """What counts cost, findings left aside."""
        fewer = sum(self.fewer_cm[name] * value for name, value in counts.items())
        values = self.values(counts)
        return fewer + sum(term.cost(values) for term in self.terms)

    def at_most(self, most_cm: Mapping[int, float]) -> Problem:
        """The same, each size's counts bounded by what can be had for so many cm at most.

        Bounds follow from one another along the terms and the hard rules that are a single row.
        """
        bounds = dict(self.bounds)
        rows = [
            Row(value=term.value, low=term.target_cm - off, high=term.target_cm + off)
            for size, cm in most_cm.items()
            for term in self.terms
            if term.size == size
            for off in [cm / term.weight]
        ]
        rows += [
            row
            for rule in self.rules
            if rule.always
            for clause in rule.clauses
            if len(clause) == 1
            for row in clause
        ]
        rows = [row for row in rows if row.value.terms.keys() <= bounds.keys()]
        for _ in range(_PASSES):
            for row in rows:
                _narrow(bounds, row)
        return replace(self, bounds=bounds)

    def best(self, rules: Iterable[Rule]) -> Answer | None:
        """The counts that keep ``rules``, of these and more, at the least cost; None where none do."""
        build = _Build(self)
        for name, cost in self.fewer_cm.items():
            if name in self.bounds:
                build.program.charge(Linear.of(name), cost)
        for rule in rules:
            build.keep(rule, priced=True)
        for number, term in enumerate(self.terms):
            build.term(number, term)
        return build.program.solve(_SECONDS)

    def possible(self, rules: Iterable[Rule], loose: Rule | None = None) -> Answer | None:
        """Any counts that keep ``rules``, wishes left aside; None where none do.

        Args:
            rules: those to keep.
            loose: a rule without multiples to come as near to as can be.
        """
        build = _Build(self)
        for rule in rules:
            build.keep(rule, priced=False)
        if loose is not None:
            build.loosen(loose)
        return build.program.solve(_SECONDS)


@dataclass(slots=True)
class _Build:
    """A programme as it is put together."""

    problem: Problem
    program: Program = field(default_factory=Program)

    def __post_init__(self) -> None:
        for name, (low, high) in self.problem.bounds.items():
            self.program.column(name, low, high, whole=True)
        for index, each in self.problem.picked_up:
            self.program.column(f"{index}/{each.name}", 1, LARGEST, whole=True)

    def switch(self, name: str) -> Linear:
        """A choice by its name, 0 or 1."""
        return self.program.known(name) or self.program.column(name, 0, 1, whole=True)

    def keep(self, rule: Rule, *, priced: bool) -> None:
        """Keep a rule; a wish only where it has its price."""
        if rule.wish and not priced:
            return
        free = Linear()
        if rule.wish:
            name = broken_name(rule)
            if self.program.known(name) is None:
                self.program.charge(self.switch(name), self.problem.mind_cm)
            free = free + self.switch(name)
        if rule.unless:
            free = free + self.switch(rule.unless)
        if rule.given:
            free = free + 1 - self.switch(rule.given)
        for number, every in enumerate(rule.clauses):
            clause = self.weakest(every)
            if len(clause) == 1:
                (row,) = clause
                if free.terms:
                    self.program.keep_if(row, 1 - free)
                else:
                    self.program.keep(row)
                continue
            choices = free
            for option, row in enumerate(clause):
                choice = self.switch(f"{rule.key} {number} {option}")
                self.program.keep_if(row, choice)
                choices = choices + choice
            self.program.keep(at_least(choices, 1))

    def weakest(self, clause: Clause) -> Clause:
        """The rows of a clause that another of them does not follow from."""
        kept: list[Row] = []
        for row in clause:
            if any(self.follows(other, row) for other in kept):
                continue
            kept = [other for other in kept if not self.follows(row, other)] + [row]
        return tuple(kept)

    def follows(self, first: Row, then: Row) -> bool:
        """Whether the first row holds wherever the other does, between the bounds."""
        if first.multiple is not None or then.multiple is not None:
            return False
        least, most = self.program.bounds(first.value - then.value)
        return then.low + least >= first.low and then.high + most <= first.high

    def term(self, number: int, term: Term) -> None:
        """The cost of a length off its target: above both lines, and above the chord next to the target.

        The chord between the two allowed counts next to the target cuts off what only a part of a
        stitch could reach.
        """
        off = self.program.column(f"off {number}", 0, LONGEST_CM * 4)
        self.program.charge(off, term.weight)
        away = term.value - term.target_cm
        self.program.keep(at_least(off, away))
        self.program.keep(at_least(off, -away))
        if term.count is None or term.rule is None:
            return
        (factor,) = term.value.terms.values()
        wanted = (term.target_cm - term.value.constant) / factor
        low, high = term.rule.at_most(wanted), term.rule.at_least(wanted)
        if low < wanted < high:
            below, above = (abs(factor * each + term.value.constant - term.target_cm) for each in (low, high))
            slope = (above - below) / (high - low)
            self.program.keep(at_least(off, slope * (Linear.of(term.count) - low) + below))

    def loosen(self, rule: Rule) -> None:
        """Come as near to a rule as can be instead of keeping it."""
        slack = self.program.column("slack", 0, LARGEST)
        self.program.charge(slack, 1.0)
        for clause in rule.clauses:
            for row in clause:
                self.program.keep(Row(value=row.value + slack, low=row.low))
                self.program.keep(Row(value=row.value - slack, high=row.high))


def _narrow(bounds: dict[str, tuple[int, int]], row: Row) -> None:
    """Leave to each count of a row what the bounds of the others leave to it."""
    ends = {
        name: (min(factor * each for each in bounds[name]), max(factor * each for each in bounds[name]))
        for name, factor in row.value.terms.items()
    }
    least, most = (row.value.constant + sum(each[at] for each in ends.values()) for at in (0, 1))
    for name, factor in row.value.terms.items():
        own = ends[name]
        room = row.low - (most - own[1]), row.high - (least - own[0])
        low, high = sorted(each / factor for each in room)
        bounds[name] = (
            bounds[name][0] if low == -math.inf else max(bounds[name][0], math.ceil(low - HAIR)),
            bounds[name][1] if high == math.inf else min(bounds[name][1], math.floor(high + HAIR)),
        )


def broken_name(rule: Rule) -> str:
    """The choice that is 1 where a wish is broken."""
    return f"broken {rule.price or rule.key}"


def size_of(name: str) -> int:
    """The size of a count by its name, such as ``0/body.neck``."""
    return int(name.split("/")[0])


def named(counts: Mapping[int, Mapping[str, int]]) -> dict[str, int]:
    """Some sizes' counts by their names with their sizes."""
    return {f"{index}/{count}": value for index, each in counts.items() for count, value in each.items()}


def counts_of(values: Mapping[str, int], sizes: Iterable[int]) -> dict[int, dict[str, int]]:
    """Of counts by their names with their sizes those of some sizes."""
    return {
        size: {name.split("/")[1]: value for name, value in values.items() if size_of(name) == size}
        for size in sizes
    }
