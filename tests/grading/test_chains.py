"""Groups of counts by themselves, against every answer of small problems and against the solver."""

from __future__ import annotations

import itertools
import random
from dataclasses import replace
from pathlib import Path

import pytest

from schematics.constructions.facts import PickedUp
from schematics.grading.chains import apart
from schematics.grading.problem import Problem, Term
from schematics.grading.rules import Rule
from schematics.grading.search import Search
from schematics.linear import Linear, Row, at_least, within
from schematics.spec import read_draft
from tests.specs_for_tests import write

SPEC = (Path(__file__).parents[2] / "specs" / "sandpiper.yaml").read_text("utf-8")
SIZES, MOST = 3, 5
FEWER, MIND = 0.01, 3.0


def rule(key: str, *rows: Row, size: int | None = None, wish: bool = False) -> Rule:
    """A rule of one clause, on one size or on all its rows take."""
    sizes = sorted({int(name.split("/")[0]) for row in rows for name in row.value.terms})
    return Rule(key=key, sizes=tuple(sizes), words=key, clauses=(rows,), wish=wish)


class Tiny:
    """Stitches and rows of three sizes: what they cost and obey, once as numbers and once as a `Problem`."""

    def __init__(self, seed: int) -> None:
        dice = random.Random(seed)
        self.wanted = [[dice.uniform(0.5, MOST) for _ in range(SIZES)] for _ in "ab"]
        self.steps = dice.choice((0.0, 0.3, 1.0))
        self.multiple = dice.choice((1, 2, 3))
        self.together = [dice.choice((None, dice.randint(2, 2 * MOST))) for _ in range(SIZES)]
        self.seam = dice.choice((0.0, 0.0, 0.7))
        self.widest = dice.randint(1, MOST)
        self.either = dice.choice((None, (dice.randint(2, MOST), dice.randint(2, MOST))))
        self.picked = dice.choice((None, dice.uniform(1.0, 1.6)))

    def cost(self, a: tuple[int, ...], b: tuple[int, ...]) -> float | None:
        """What these counts cost; None where they break a rule."""
        if any(x % self.multiple for x in a) or not (a[0] <= a[1] <= a[2] and b[0] <= b[1] <= b[2]):
            return None
        if any(most is not None and x + y < most for x, y, most in zip(a, b, self.together, strict=True)):
            return None
        if self.either and not all(
            x >= self.either[0] or y >= self.either[1] for x, y in zip(a, b, strict=True)
        ):
            return None
        cost = FEWER * (sum(a) + sum(b)) + MIND * sum(y > self.widest for y in b)
        for at in range(SIZES):
            cost += abs(a[at] - self.wanted[0][at]) + self.seam * abs(a[at] - b[at])
            made = b[at] if self.picked is None else even_near(self.picked * b[at])
            cost += abs(made - self.wanted[1][at])
        return cost + self.steps * sum(abs(x[0] - 2 * x[1] + x[2]) for x in (a, b))

    def best(self) -> float | None:
        """The least cost of all answers."""
        trios = list(itertools.product(range(1, MOST + 1), repeat=SIZES))
        costs = (self.cost(a, b) for a in trios for b in trios)
        return min((each for each in costs if each is not None), default=None)

    @property
    def problem(self) -> Problem:
        names = [f"{at}/{count}" for at in range(SIZES) for count in "ab"]
        rules, terms = [], []
        picked = (
            ()
            if self.picked is None
            else (PickedUp(name="p", exact=self.picked * Linear.of("b"), besides=Linear()),)
        )
        for at in range(SIZES):
            a, b = (Linear.of(f"{at}/{count}") for count in "ab")
            made = Linear.of(f"{at}/p") if picked else b
            rules.append(rule(f"{at} a", Row(value=a, multiple=self.multiple)))
            rules.append(rule(f"{at} wide", within(b, 0, self.widest), wish=True))
            if picked:
                off = Linear.of(f"{at}/p") - picked[0].exact.of_size(at)
                rules.append(rule(f"{at} p even", Row(value=Linear.of(f"{at}/p"), multiple=2)))
                rules.append(rule(f"{at} p near", within(off, -1 + 1e-6, 1 + 1e-7)))
            most = self.together[at]
            if most is not None:
                rules.append(rule(f"{at} a and b", at_least(a + b, most)))
            if self.either:
                least_a, least_b = self.either
                rows = at_least(a, least_a), at_least(a, least_a + 1), at_least(b, least_b)
                rules.append(rule(f"{at} either", *rows))
            terms.append(Term(words="a", value=a, target_cm=self.wanted[0][at], weight=1.0, size=at))
            terms.append(Term(words="b", value=made, target_cm=self.wanted[1][at], weight=1.0, size=at))
            if self.seam:
                terms.append(Term(words="seam", value=a - b, target_cm=0.0, weight=self.seam, size=at))
        for count in "ab":
            first, second, third = (Linear.of(f"{at}/{count}") for at in range(SIZES))
            rules += [
                rule(f"{count} grows {at}", at_least(y, x))
                for at, x, y in ((0, first, second), (1, second, third))
            ]
            if self.steps:
                terms.append(
                    Term(words="steps", value=first - 2 * second + third, target_cm=0.0, weight=self.steps)
                )
        return Problem(
            bounds=dict.fromkeys(names, (1, MOST)),
            fewer_cm=dict.fromkeys(names, FEWER),
            picked_up=tuple((at, each) for at in range(SIZES) for each in picked),
            rules=tuple(rules),
            terms=tuple(terms),
            mind_cm=MIND,
        )


def even_near(exact: float) -> int:
    """The nearest even number that is not 0; of two the larger."""
    return max(2, 2 * int(exact / 2 + 0.5))


@pytest.mark.parametrize("seed", range(60))
def test_no_answer_is_better(seed: int) -> None:
    tiny = Tiny(seed)
    best = tiny.best()
    found = apart(tiny.problem)
    answer = tiny.problem.best(tiny.problem.rules)
    if best is None:
        assert found is None
        assert answer is None
        return
    assert found is not None
    assert answer is not None
    counts = [tuple(found.counts[f"{at}/{count}"] for at in range(SIZES)) for count in "ab"]
    assert tiny.cost(*counts) == pytest.approx(best)
    assert found.least_cm == pytest.approx(best)
    assert answer.objective == pytest.approx(best)


def test_a_wish_of_counts_apart_is_not_paid_for() -> None:
    """What they cost at least is then no more than any answer costs."""
    tiny = Tiny(0)
    wish = rule("far", at_least(Linear.of("0/a") + Linear.of("0/b"), 3 * MOST), wish=True)
    problem = replace(tiny.problem, rules=(*tiny.problem.rules, wish))
    found, answer = apart(problem), problem.best(problem.rules)
    assert found is not None
    assert answer is not None
    assert answer.objective == pytest.approx(found.least_cm + MIND)


def test_too_many_counts_to_look_at() -> None:
    """Without an intent that draws a count near, it may be anything."""
    free = Problem(
        bounds={"0/a": (1, 9000)}, fewer_cm={"0/a": FEWER}, picked_up=(), rules=(), terms=(), mind_cm=MIND
    )
    assert apart(free) is None


def test_the_demo_costs_no_less_than_its_groups(tmp_path: Path) -> None:
    """Where a check refuses what is best apart, the solver finds what costs more."""
    search = Search.of(read_draft(write(tmp_path, SPEC)))
    groups, solved = search.by_groups(), search.by_solver()
    assert groups is not None
    assert solved is not None
    assert groups.bound_cm < solved.cost_cm < groups.cost_cm
    assert solved.gap_cm == 0


def test_counts_proven_by_groups_are_those_the_solver_finds(tmp_path: Path) -> None:
    """Without the size whose reach is refused."""
    text = SPEC.replace('  "2": {wearer: child/2}\n', "")
    search = Search.of(read_draft(write(tmp_path, text)))
    groups, solved = search.by_groups(), search.by_solver()
    assert groups is not None
    assert solved is not None
    assert groups.gap_cm == solved.gap_cm == 0
    assert groups.cost_cm == pytest.approx(solved.cost_cm, abs=1e-5)
    assert groups.counts == solved.counts
