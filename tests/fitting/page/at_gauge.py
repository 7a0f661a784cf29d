"""A size's trees worked out at a gauge, with the interpreter that knows their description alone."""

from __future__ import annotations

from typing import Any

from schematics.crochet.fabric import Counted
from schematics.design.design import Design
from schematics.fitting.gauge import Gauge
from tests.fitting.reader import Reader


def lengths(design: Design, gauge: Gauge) -> dict[str, float]:
    """The centimetres of a stitch and a row of every fabric, by how much tighter the body is worked."""
    usual = Gauge.of(design.parts.body)
    tighter = {
        Counted.STITCHES: gauge.stitches_per_cm / usual.stitches_per_cm,
        Counted.ROWS: gauge.rows_per_cm / usual.rows_per_cm,
    }
    found = {}
    for place, fabric in enumerate(design.parts.fabrics.values()):
        for counted, times in tighter.items():
            found[f"{place}.{counted.words}"] = 1 / fabric.gauge(counted) / times
            stretch = 1 + fabric.stretch(counted)
            found[f"{place}.{counted.words}.full"] = found[f"{place}.{counted.words}"] * stretch
    return found


def worked_out(size: Any, facts: dict[str, float]) -> dict[str, float]:
    rows = {name: Reader({}, {}, facts).number(tree) for name, tree in size["own_counts"]["edges"].items()}
    reader = Reader(size["terms"], {}, facts | rows)
    return {name: reader.number(tree) for name, tree in size["facts"].items()}
