"""What is missing of a wearer: as data and by columns it is what `schematics.wearer.resolve` gives."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.fitting.completion import completion_json
from schematics.fitting.wearer_columns import Columns, complete
from schematics.wearer.body import Body, Origin, Stage, Wearer, WearerSpec
from schematics.wearer.resolve import resolve
from schematics.wearer.standard_deviations import body_sd_cm
from tests.examples import examples
from tests.fitting.reader import Reader, through_json
from tests.fitting.wearers import RANGES

ENDS = {"low": "low_cm", "typical": "cm", "high": "high_cm"}
PAGE = through_json(completion_json())


@st.composite
def specs(draw: st.DrawFn) -> WearerSpec:
    age = draw(st.none() | st.floats(0, 90) | st.integers(0, 80).map(lambda quarters: quarters / 4))
    measured = draw(st.sets(st.sampled_from(Body), min_size=0 if age is not None else 1))
    return WearerSpec(age_years=age, own={body: draw(st.floats(*RANGES[body])) for body in sorted(measured)})


def lengths(wearer: Wearer) -> dict[tuple[str, str], float]:
    return {
        (body.value, end): getattr(value, name)
        for body, value in wearer.values.items()
        for end, name in ENDS.items()
    }


def at_age(table: dict[str, Any], age: float) -> dict[str, float]:
    """The ends at an age, by the description, with NumPy's reading of tables; empty where there are none."""
    if age < table["from_years"]:
        return {}
    scale = math.sqrt if table["root"] else float
    begun = [each for each in table["series"] if each["from_years"] is None or age >= each["from_years"]]
    going = [each for each in begun if each["until_years"] is None or age <= each["until_years"]]

    def read(end: str, series: list[dict[str, Any]]) -> list[float]:
        return [np.interp(scale(age), list(map(scale, each["years"])), each[end]) for each in series]

    typical = read("typical", going)
    return {
        "low": min(read("low", going)),
        "typical": sum(typical) / len(typical),
        "high": max(read("high", begun)),
    }


def as_the_page_does(spec: WearerSpec) -> tuple[dict[str, float], bool]:
    """By the order that `schematics.fitting.completion` describes."""
    body: dict[str, dict[str, float | None]] = {}
    if spec.age_years is not None:
        ends = {name: at_age(table, spec.age_years) for name, table in PAGE["by_age"].items()}
        body = {name: {"typical": each["typical"]} for name, each in ends.items() if each}
        if Body.HEIGHT in spec.own:
            body.pop("hip_height", None)
    body |= {each.value: {"typical": length} for each, length in spec.own.items()}
    for estimate in PAGE["estimates"]:
        if body.get(estimate["body"], {}).get("typical") is None:
            reader = Reader(PAGE["terms"], body, age_years=spec.age_years)
            found = (reader.number(way["value"]) for way in estimate["ways"])
            body[estimate["body"]] = {"typical": next((each for each in found if each == each), math.nan)}
    known = {
        name: length
        for name, ends in body.items()
        if (length := ends["typical"]) is not None and not math.isnan(length)
    }
    return known, Reader(PAGE["terms"], body, age_years=spec.age_years).truth(PAGE["adult"], unknown=False)


@pytest.mark.slow
@given(spec=specs())
@examples(150)
def test_the_page_completes_a_wearer_as_the_program_does(spec: WearerSpec) -> None:
    wearer = resolve(spec, "a test")
    found, grown = as_the_page_does(spec)
    assert found == pytest.approx({body.value: value.cm for body, value in wearer.values.items()}, abs=1e-8)
    assert grown is (wearer.stage is Stage.ADULT)


@pytest.mark.slow
@given(many=st.lists(specs(), min_size=1, max_size=8))
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


@pytest.mark.slow
@given(age=st.floats(0, 90))
@examples(200, part=10)
def test_the_page_gets_the_age_table_at_any_age(age: float) -> None:
    """Both ends, too, and what answers beyond it; estimates are not in it: they follow from the height."""
    values = resolve(WearerSpec(age_years=age), "a test").values
    tabled = {body.value: each for body, each in values.items() if each.origin is Origin.AGE_TABLE}
    found = {name: ends for name, table in PAGE["by_age"].items() if (ends := at_age(table, age))}
    assert found.keys() == tabled.keys()
    for name, ends in found.items():
        assert ends == pytest.approx({end: getattr(tabled[name], key) for end, key in ENDS.items()}, abs=1e-8)
        sd_cm = body_sd_cm(Body(name), tabled[name], person=True)
        assert (ends["high"] - ends["low"]) / PAGE["by_age"][name]["spread_sds"] == pytest.approx(
            sd_cm, abs=1e-8
        )
        held = PAGE["by_age"][name]["held"]
        beyond = held and (
            "youngest" if age < held["from_years"] else "oldest" if age >= held["to_years"] else ""
        )
        assert (held[beyond] if beyond else "") == tabled[name].held
