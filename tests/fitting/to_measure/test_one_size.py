"""The size that is advised is the size that is made, or it is said that another is."""

from __future__ import annotations

import pytest

from schematics.document.writers import written
from schematics.fitting.advice_words import NEAREST_AS_IT_IS
from schematics.fitting.fit_report import fitting_document
from schematics.fitting.fitting import fitting
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.measured import resolved
from schematics.fitting.suggestions import suggestions
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import NotWearableError, Order
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.wearer.body import Body, WearerSpec
from tests.fitting.children import demo

CHILDREN = (
    ("kelp", 12.0, 54.5, 153.0, "23 sts 17 rows over 22 cm"),
    ("sandpiper", 3.0, 48.3, 94.0, "25 sts 18 rows over 20 cm"),
    ("saltmarsh", 3.0, 50.9, 95.0, "26 sts 19 rows over 20 cm"),
    ("tidepool", 8.0, 53.1, 129.0, "31 sts 21 rows over 19 cm"),
)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "age", "head", "height", "swatch"), CHILDREN)
def test_fit_and_make_start_from_one_size_or_say_why_not(
    name: str, age: float, head: float, height: float, swatch: str
) -> None:
    design = demo(name)
    wearer = WearerSpec(age_years=age, own={Body.HEAD_GIRTH: head, Body.HEIGHT: height})
    gauge = read_gauge([swatch], design)
    told = fitting(design, design.sizes, resolved(wearer), gauge.parts)
    first = next((each.before for each in suggestions(told)), told.advised)
    assert told.advised.is_not_hers or not first.is_not_hers
    said = NEAREST_AS_IT_IS.format(size=told.advised.name)
    text = "".join(written([fitting_document(design, told, gauge, show_all=False)], "md"))
    assert (said in text) == (first.name != told.advised.name)
    try:
        made = made_to_measure(design, Order(wearer=wearer, parts=gauge.parts))
    except NotWearableError:
        return
    assert made.nearest == told.advised.name
    told_of_made = " ".join(map(str, poncho_document(made).lead))
    assert made.start.name == told.advised.name or said in told_of_made
    if not told.wearable:
        return
    unchanged = made_to_measure(design, Order(wearer=wearer, parts=gauge.parts, changes=("none",)))
    assert unchanged.start.name == told.advised.name
