"""What mends something at the price of something worse is told, and made only where it is asked for."""

from __future__ import annotations

from dataclasses import replace

import pytest

from schematics.document.document import Items
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import Order
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.garment.constructions.base import counts_of
from schematics.wearer.body import Body, WearerSpec
from tests.fitting.children import demo

TIDEPOOL = demo("tidepool")


@pytest.mark.slow
def test_what_makes_the_worst_worse_is_made_only_where_it_is_asked_for() -> None:
    """A wider neck surely passes the head, but slips off narrow shoulders the more."""
    wearer = WearerSpec(age_years=20 / 12, own={Body.HEIGHT: 85.0, Body.HEAD_GIRTH: 51.5})
    unasked = made_to_measure(TIDEPOOL, Order(wearer=wearer))
    assert unasked.changes == ()
    assert unasked.asks_for_not_made == ("1",)
    asked = made_to_measure(TIDEPOOL, Order(wearer=wearer, changes=unasked.asks_for_not_made))
    assert asked.not_made is None
    assert counts_of(asked.fit.at_gauge.size)["body.neck"] > counts_of(unasked.fit.at_gauge.size)["body.neck"]
    for made in (unasked, asked):
        items = [
            str(item)
            for block in poncho_document(made).sections[0].blocks
            if isinstance(block, Items)
            for item in block.items
        ]
        assert any(each.startswith("shoulders over neck: holds in ") for each in items)


@pytest.mark.slow
def test_a_trade_that_grading_leaves_is_told_and_can_be_asked_for() -> None:
    """At big stitches no neck passes the head and stays on the shoulders, both surely."""
    kelp = demo("kelp")
    parts = read_gauge(["17 sts 12 rows over 7 1/2 in"], kelp).parts
    wearer = WearerSpec(age_years=5.0, own={Body.HEIGHT: 44 * 2.54, Body.HEAD_GIRTH: 20.25 * 2.54})
    order = Order(wearer=wearer, parts=parts, graded=True)
    made = made_to_measure(kelp, order)
    (change,) = made.asks_for_not_made
    traded = made_to_measure(kelp, replace(order, changes=(change,)))
    slips = [
        next(each.certainty for each in one.fit.findings if each.code == "NECK-SLIP")
        for one in (made, traded)
    ]
    assert slips[0] is not None
    assert slips[1] is not None
    assert slips[0].holds_fraction < 0.1 < 0.4 < slips[1].holds_fraction
