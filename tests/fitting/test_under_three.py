"""The caution for the smallest stands beside the verdict, and of nobody else."""

from __future__ import annotations

import pytest

from schematics.design.cautions import CAUTIONS
from schematics.document.writers import written
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.sizing import size_fit
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import Order
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.fitting.under_three import under_three
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from schematics.wearer.survey import height
from tests.fitting.children import demo
from tests.program import call

AT_THREE_CM = height(3.0, "both").cm


@pytest.mark.parametrize(
    ("spec", "size", "told"),
    [
        (WearerSpec(age_years=2.9), "4", True),
        (WearerSpec(age_years=3.0), "2", False),
        (WearerSpec(own={Body.HEIGHT: AT_THREE_CM - 1}), "4", True),
        (WearerSpec(own={Body.HEIGHT: AT_THREE_CM + 1}), "2", False),
        (WearerSpec(own={Body.HEAD_GIRTH: 48.0}), "2", True),
        (WearerSpec(own={Body.HEAD_GIRTH: 48.0}), "4", False),
    ],
)
def test_of_whom_it_is_said(spec: WearerSpec, size: str, told: bool) -> None:
    """By the age, else by the height, else by the age that the size is for."""
    design = demo("tidepool")
    (made,) = (size_at_gauge(design, each) for each in design.sizes if each.name == size)
    words = under_three(size_fit(design, made, resolve(spec, "the wearer")))
    assert bool(words) is told
    assert all(each.sentence in " ".join(words) for each in CAUTIONS if each.young and told)


@pytest.mark.slow
def test_it_stands_at_the_verdict() -> None:
    text = " ".join(call("fit", "specs/tidepool.yaml", "--age", "2").stdout.split())
    advised = "Work size 2: it comes nearest, but not all is right. "
    assert text.partition(advised)[2].partition(". ")[2].startswith("For a child under three: Up to 7 years")
    assert [text.count(each.sentence) for each in CAUTIONS] == [1] * len(CAUTIONS)


@pytest.mark.slow
@pytest.mark.parametrize("age", [2.0, 6.0])
def test_of_what_is_made_to_measure_each_caution_stands_once(age: float) -> None:
    order = Order(wearer=WearerSpec(age_years=age), changes=("none",))
    text = "".join(written([poncho_document(made_to_measure(demo("tidepool"), order))], "md"))
    assert [text.count(each.sentence) for each in CAUTIONS] == [1] * len(CAUTIONS)
    assert ("For a child under three: " in text) is (age < 3)
