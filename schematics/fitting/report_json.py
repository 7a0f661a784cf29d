"""The same as plain JSON values, for other programs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from schematics.analysis.json_keys import FINISHED
from schematics.analysis.measurements import finding_json, questions_json, wearer_json
from schematics.design.design import Design
from schematics.document.common import cautions_json, head_json
from schematics.document.json_text import number, picked
from schematics.fitting.advice import Advice
from schematics.fitting.fit_keys import POINT
from schematics.fitting.fitting import Fitting, Instead
from schematics.fitting.gauge_text import OwnGauge
from schematics.fitting.growth_report import and_next, growth_json
from schematics.fitting.sizing import Point, SizeFit
from schematics.fitting.suggestion_report import suggestions_json


def head_and_cautions(design: Design) -> dict[str, Any]:
    """What every document begins with."""
    return {**head_json(design), "cautions": cautions_json()}


def fitting_json(
    design: Design, fitting: Fitting, gauge: OwnGauge | None, offered: Sequence[Advice]
) -> dict[str, Any]:
    """A wearer against every size; lengths in cm."""
    return {
        **head_and_cautions(design),
        "gauge": gauge_json(gauge),
        "wearer": wearer_json(fitting.wearer),
        "questions": questions_json(fitting.wearer, design.unit),
        "advised": fitting.advised.name,
        "right": fitting.right,
        "wearable": fitting.wearable,
        "could_also_be": list(fitting.other_sizes),
        "suggestions": suggestions_json(design, offered),
        "growth": growth_json(and_next(fitting.fits, fitting.advised), fitting.wearer, design.limits),
        "sizes": [size_json(fit) for fit in fitting.fits],
    }


def instead_json(design: Design, choices: Iterable[Instead], gauge: OwnGauge) -> dict[str, Any]:
    """Which size to work instead at a maker's gauge, for each size of the pattern."""
    choices = tuple(choices)
    return {
        **head_and_cautions(design),
        "gauge": gauge_json(gauge),
        "instead": [
            {
                "size": each.meant,
                "verdict": each.as_it_is.verdict.value,
                "work": each.instead.name,
                "then": each.instead.verdict.value,
            }
            for each in choices
        ],
        "sizes": [size_json(each.as_it_is) for each in choices],
    }


def size_json(fit: SizeFit) -> dict[str, Any]:
    """One size on one wearer."""
    return {
        "name": fit.name,
        "verdict": fit.verdict.value,
        "points": [point_json(point) for point in fit.points],
        "findings": [finding_json(each) for each in fit.findings],
        "finished": [picked(each, FINISHED, cm=each.length_cm) for each in fit.at_gauge.garment.finished],
    }


def point_json(point: Point) -> dict[str, Any]:
    """What is to spare at one point."""
    return picked(point, POINT, answer=point.answer.name.lower())


def gauge_json(gauge: OwnGauge | None) -> dict[str, Any] | None:
    """A maker's gauge to 10 cm."""
    if gauge is None:
        return None
    return {
        "fabrics": [
            {
                "name": fabric.name,
                "stitches": number(10 * own.stitches_per_cm),
                "rows": number(10 * own.rows_per_cm),
                "pattern_stitches": number(10 * fabric.stitches_per_cm),
                "pattern_rows": number(10 * fabric.rows_per_cm),
            }
            for fabric, own in gauge.given
        ],
        "not_counted": [f"{name}: {counted.words}" for name, counted in gauge.uncounted],
        "scaled_alike": list(gauge.alike),
    }
