"""What is missing of a wearer: as data and by columns it is what `schematics.wearer.resolve` gives."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.fitting.completion import AGE_STEP_YEARS, completion_json
from schematics.fitting.wearer_columns import Columns, complete
from schematics.wearer.body import Body, Stage, Wearer, WearerSpec
from schematics.wearer.resolve import resolve
from tests.examples import examples
from tests.fitting.reader import Reader, through_json
from tests.fitting.wearers import RANGES

ENDS = {"low": "low_cm", "typical": "cm", "high": "high_cm"}
PAGE = through_json(completion_json())

ages = st.integers(0, 72).map(lambda quarters: quarters * AGE_STEP_YEARS)


@st.composite
def specs(draw: st.DrawFn, any_age: bool = False) -> WearerSpec:
    age = draw(st.none() | (st.floats(0, 90) if any_age else ages))
    measured = draw(st.sets(st.sampled_from(Body), min_size=0 if age is not None else 1))
    return WearerSpec(age_years=age, own={body: draw(st.floats(*RANGES[body])) for body in sorted(measured)})


def lengths(wearer: Wearer) -> dict[tuple[str, str], float]:
    return {
        (body.value, end): getattr(value, name)
        for body, value in wearer.values.items()
        for end, name in ENDS.items()
    }


def as_the_page_does(spec: WearerSpec) -> tuple[dict[str, float], bool]:
    """By the order that `schematics.fitting.completion` describes."""
    body: dict[str, dict[str, float | None]] = {}
    if spec.age_years is not None:
        at = PAGE["ages"].index(spec.age_years)
        body = {name: {"typical": column["typical"][at]} for name, column in PAGE["by_age"].items()}
        if Body.HEIGHT in spec.own:
            del body["hip_height"]
    body |= {each.value: {"typical": length} for each, length in spec.own.items()}
    for estimate in PAGE["estimates"]:
        if body.get(estimate["body"], {}).get("typical") is None:
            reader = Reader(PAGE["terms"], body, age_years=spec.age_years)
            body[estimate["body"]] = {"typical": reader.number(estimate["value"])}
    known = {
        name: length
        for name, ends in body.items()
        if (length := ends["typical"]) is not None and not math.isnan(length)
    }
    return known, Reader(PAGE["terms"], body, age_years=spec.age_years).truth(PAGE["adult"], unknown=False)


@given(spec=specs())
@examples(150)
def test_the_page_completes_a_wearer_as_the_program_does(spec: WearerSpec) -> None:
    wearer = resolve(spec, "a test")
    found, grown = as_the_page_does(spec)
    assert found == pytest.approx({body.value: value.cm for body, value in wearer.values.items()}, abs=1e-8)
    assert grown is (wearer.stage is Stage.ADULT)


@pytest.mark.slow
@given(many=st.lists(specs(any_age=True), min_size=1, max_size=8))
@examples(100)
def test_columns_complete_each_wearer_as_alone(many: list[WearerSpec]) -> None:
    own = {body: np.array([each.own.get(body, math.nan) for each in many]) for body in Body}
    found = complete(own, np.array([math.nan if each.age_years is None else each.age_years for each in many]))
    for row, spec in enumerate(many):
        wearer = resolve(spec, "a test")
        together: dict[Any, float] = {}
        for body, column in found.body.items():
            assert isinstance(column, Columns)
            for end, name in ENDS.items():
                together[body.value, end] = float(getattr(column, name)[row])
        known = {key: length for key, length in together.items() if not math.isnan(length)}
        assert known == pytest.approx(lengths(wearer), abs=1e-9)
        assert bool(found.adult[row]) is (wearer.stage is Stage.ADULT)
    gaps = {body for body in Body if any(resolve(each, "a test").get(body) is None for each in many)}
    assert found.gaps == gaps


def test_the_page_gets_what_the_age_table_gives_and_no_estimates() -> None:
    """Estimates follow from the child's own height, so they must not be fixed by the age."""
    assert "knee_height" not in PAGE["by_age"]
    assert PAGE["by_age"]["head_girth"]["typical"][24] == pytest.approx(
        resolve(WearerSpec(age_years=6.0), "a test").values[Body.HEAD_GIRTH].cm
    )
