"""Random trees: worked out here, by columns, and by the reader of their JSON, they come to the same."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.fitting.wearer_columns import Columns
from schematics.units import exceeds
from schematics.wearer.body import Body
from schematics.wearer.evaluator import Inputs, evaluator_of
from schematics.wearer.expr import (
    Const,
    End,
    Expr,
    Fact,
    Lookup,
    OfBody,
    OfWearer,
    Op,
    Term,
    expr_json,
    first,
    least,
    less,
    most,
    over_nought,
    terms,
)
from tests.checks.cases import measured
from tests.examples import examples
from tests.fitting.reader import Reader, through_json
from tests.fitting.wearers import values

BODIES = (Body.HEAD_GIRTH, Body.HEIGHT)
FACTS = {"neck.full_cm": 56.25, "drop_cm": 34.5, "missing": math.nan}

numbers = st.integers(-60, 60).map(float)
leaves = st.one_of(
    numbers.map(Const),
    st.builds(OfBody, st.sampled_from(BODIES), st.sampled_from([*End, None])),
    st.sampled_from(sorted(FACTS)).map(Fact),
    st.sampled_from(["age_years", "adult"]).map(OfWearer),
)


def trees(deeper: st.SearchStrategy[Expr]) -> st.SearchStrategy[Expr]:
    points = st.lists(
        st.tuples(st.integers(-50, 200), numbers), min_size=1, max_size=4, unique_by=lambda p: p[0]
    )
    fixed = points.map(lambda each: tuple((Const(float(x)), Const(y)) for x, y in sorted(each)))
    return st.one_of(
        st.builds(lambda word, a, b: Op(word, (a, b)), st.sampled_from("+-*"), deeper, deeper),
        st.builds(lambda a, by: Op("/", (a, Const(by or 1.0))), deeper, numbers),
        st.builds(
            lambda word, a, b: Op(word, (a, b)), st.sampled_from(["min", "max", "first"]), deeper, deeper
        ),
        st.builds(Lookup, deeper, fixed),
        st.builds(lambda name, a: Term(f"{name} {abs(hash(a))}", a), st.just("term"), deeper),
    )


arithmetic = st.recursive(leaves, trees, max_leaves=8)
truths = st.recursive(
    st.builds(lambda word, a, b: Op(word, (a, b)), st.sampled_from(["<", "<="]), arithmetic, arithmetic),
    lambda deeper: st.builds(
        lambda word, args: Op(word, tuple(args)),
        st.sampled_from(["and", "or"]),
        st.lists(deeper, min_size=1, max_size=3),
    ),
    max_leaves=4,
)


def reader(expr: Expr, body: Any, age: float | None, end: End, adult: bool) -> Reader:
    found = through_json({name: expr_json(each) for name, each in terms([expr]).items()})
    facts = {name: None if math.isnan(number) else number for name, number in FACTS.items()}
    ends = {
        each.value: {"low": value.low_cm, "typical": value.cm, "high": value.high_cm}
        for each, value in body.items()
    }
    return Reader(found, ends, facts, adult=adult, age_years=age, end=end.value)


def known(body: Any, age: float | None, end: End, adult: bool) -> Inputs:
    age_years = math.nan if age is None else age
    return Inputs(body=body, adult=adult, age_years=age_years, facts=FACTS, end=end)


@pytest.mark.slow
@given(
    expr=arithmetic,
    head=values(Body.HEAD_GIRTH),
    age=st.none() | st.integers(0, 20).map(float),
    end=st.sampled_from(End),
    adult=st.booleans(),
)
@examples(200)
def test_numbers(expr: Expr, head: Any, age: float | None, end: End, adult: bool) -> None:
    body = {Body.HEAD_GIRTH: head}
    here = float(evaluator_of(expr)(known(body, age, end, adult)))
    there = reader(expr, body, age, end, adult).number(through_json(expr_json(expr)))
    assert here == pytest.approx(there, rel=1e-9, abs=1e-9, nan_ok=True)
    columns = {
        each: Columns(
            low_cm=np.array([value.low_cm] * 2),
            cm=np.array([value.cm] * 2),
            high_cm=np.array([value.high_cm] * 2),
        )
        for each, value in body.items()
    }
    ages = np.full(2, math.nan if age is None else age)
    many = Inputs(body=columns, adult=np.array([adult] * 2), age_years=ages, facts=FACTS, end=end)
    together = np.broadcast_to(evaluator_of(expr)(many), 2)
    assert together == pytest.approx([here, here], rel=1e-12, abs=1e-12, nan_ok=True)


@pytest.mark.slow
@given(expr=truths, head=values(Body.HEAD_GIRTH), unknown=st.booleans())
@examples(200)
def test_truths(expr: Expr, head: Any, unknown: bool) -> None:
    body = {Body.HEAD_GIRTH: head}
    here = bool(evaluator_of(expr)(known(body, None, End.TYPICAL, False).taking(unknown)))
    assert here is reader(expr, body, None, End.TYPICAL, False).truth(through_json(expr_json(expr)), unknown)


@given(a=st.floats(-100, 100), off=st.sampled_from([-1e-3, -2e-9, -1e-10, 0.0, 1e-10, 2e-9, 1e-3]))
def test_less_is_exceeds(a: float, off: float) -> None:
    """The comparison of the checks and the node for it are one."""
    b = a + off
    assert bool(evaluator_of(less(a, b))(known({}, None, End.TYPICAL, False))) is exceeds(b, a)
    assert bool(
        evaluator_of(Op("<=", (Const(b), Const(a))))(known({}, None, End.TYPICAL, False))
    ) is not exceeds(b, a)


@pytest.mark.parametrize(
    ("head", "drop", "sure", "maybe"),
    [(None, -1, False, True), (None, 1, True, True), (-1, -1, False, False), (-1, 1, True, True)],
)
def test_the_largest_is_over_nought_for_sure_where_one_is(
    head: float | None, drop: float, sure: bool, maybe: bool
) -> None:
    """And the smallest is not where one is not, however little is known of the others."""
    body = {} if head is None else {Body.HEAD_GIRTH: measured(head)}
    some = known(body, None, End.TYPICAL, False).of({"drop_cm": drop})
    either, neither = (
        [bool(evaluator_of(over_nought(expr))(some.taking(unknown))) for unknown in (False, True)]
        for expr in (
            most(OfBody(Body.HEAD_GIRTH), Fact("drop_cm")),
            least(OfBody(Body.HEAD_GIRTH) * -1, Fact("drop_cm") * -1),
        )
    )
    assert either == [sure, maybe]
    assert neither == [not maybe, not sure]


def test_what_is_worked_out_for_the_wearers_is_kept_and_for_the_garment_is_not() -> None:
    doubled = Term("doubled", Fact("drop_cm") * 2)
    expr = doubled + OfBody(Body.HEAD_GIRTH, End.HIGH) * 3
    work = evaluator_of(expr)
    value = Columns.measured(np.array([50.0]))
    first_garment = Inputs(body={Body.HEAD_GIRTH: value}, facts={"drop_cm": 10.0}, age_years=np.array([1.0]))
    assert work(first_garment).tolist() == [170.0]
    assert len(first_garment.memo) == 1
    assert work(first_garment.of({"drop_cm": 20.0})).tolist() == [190.0]


def test_signs_make_trees() -> None:
    head = OfBody(Body.HEAD_GIRTH, End.HIGH)
    assert expr_json(least(head, 5) - most(1.5, Fact("drop_cm"))) == [
        "-", ["min", {"body": "head_girth", "end": "high"}, 5], ["max", 1.5, {"fact": "drop_cm"}],
    ]  # fmt: skip
    assert expr_json(first(OfWearer("age_years"), OfBody(Body.HEIGHT)) / 2) == [
        "/", ["first", {"wearer": "age_years"}, {"body": "height"}], 2,
    ]  # fmt: skip


def test_what_is_no_node_is_refused() -> None:
    with pytest.raises(TypeError):
        evaluator_of(Op("%", (Const(1), Const(2))))
    with pytest.raises(TypeError):
        expr_json(Expr())
