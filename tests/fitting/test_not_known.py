"""What a maker is told of what is not known: which measurement to take, and what it would tell."""

from __future__ import annotations

from schematics.document.document import Items
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.not_known import not_known
from schematics.fitting.sizing import size_fit
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from tests.fitting.children import demo

TIDEPOOL = demo("tidepool")


def told(spec: WearerSpec) -> Items | None:
    return not_known(
        size_fit(TIDEPOOL, size_at_gauge(TIDEPOOL, TIDEPOOL.sizes[2]), resolve(spec, "somebody"))
    )


def test_each_measurement_stands_with_what_it_tells() -> None:
    """From the head alone nothing follows; from the height as well reach, spread and hem do."""
    head = told(WearerSpec(own={Body.HEAD_GIRTH: 52.0}))
    assert head is not None
    asked = dict(str(each).split(": ") for each in head.items)
    assert asked["Neck girth"] == "whether the neck is tight"
    assert "whether the hem stays above the knee" in asked["Height"]
    assert "or say a child’s age" in head.caption
    tall = told(WearerSpec(own={Body.HEAD_GIRTH: 52.0, Body.HEIGHT: 118.0}))
    assert tall is not None
    assert "Neck girth: whether the neck is tight" in tall.items
    assert not any("hem" in str(each) or "Height" in str(each) for each in tall.items)


def test_of_an_age_everything_is_known() -> None:
    assert told(WearerSpec(age_years=6.0)) is None
