"""measurements.json: every number of a design, for other programs and for keeping.

The same design gives the same bytes: sizes, seams and findings are in the order of the spec and
the garment, names are spelt as in `schematics.analysis.json_keys`, and no clock is read.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from schematics.analysis.json_keys import CERTAINTY, EDGE, FINDING, FINISHED_IN_FULL, RING, VALUE
from schematics.checks.evaluation import Result, worst
from schematics.checks.finding import Finding
from schematics.crochet.spacing import Join, join
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.common import cautions_json, head_json, unfinished_json
from schematics.document.json_text import number, picked
from schematics.garment.garment import ArmRun, Edge, Finished, Seam
from schematics.garment.increases import IncreasePlan
from schematics.garment.printed_lengths import finished_figure
from schematics.units import Unit
from schematics.wearer.asking import questions_of
from schematics.wearer.body import Wearer

Json = dict[str, Any]


def measurements(design: Design, results: Sequence[Result]) -> Json:
    """The design and its results as plain JSON values; `json_keys` says what each key means."""
    return {
        **head_json(design),
        "date": design.date.isoformat() if design.date else None,
        "unit": design.unit.value,
        "construction": design.construction,
        "verdict": worst(result.verdict for result in results).value,
        "cautions": cautions_json(),
        **unfinished_json(design),
        "sizes": [_size(result, design) for result in results],
    }


def wearer_json(wearer: Wearer) -> dict[str, Any]:
    """The wearer, each length in cm with where it comes from, in the order of `Body`."""
    body = {body.value: picked(value, VALUE) for body, value in wearer.values.items()}
    return {**picked(wearer, ("label", "stage", "age_years")), "body": body}


def questions_json(wearer: Wearer, unit: Unit) -> list[dict[str, str]]:
    """What is to be asked about the wearer's measurements."""
    asked = questions_of(wearer, unit)
    return [{"measurement": body.value, "sentence": sentence} for body, sentence in asked.items()]


def _size(result: Result, design: Design) -> Json:
    garment = result.garment
    return {
        "name": result.size.name,
        "verdict": result.verdict.value,
        "wearer": wearer_json(result.wearer),
        "questions": questions_json(result.wearer, design.unit),
        "finished": [_finished(each) for each in garment.finished],
        "drop_cm": number(garment.drop_cm),
        "opening_angle_degrees": (
            None if garment.opening_angle is None else number(math.degrees(garment.opening_angle))
        ),
        "seams": [_seam(each) for each in garment.seams],
        "rings": [picked(each, RING) for each in (garment.neck, garment.arm.ring)],
        "arm": _arm(garment.arm),
        "increases": _increases(garment.increases),
        "findings": [
            {
                **finding_json(each, design.terms),
                "figures": {name: number(value) for name, value in each.figures.items()},
            }
            for each in result.findings
        ],
    }


def finding_json(finding: Finding, terms: Terms = Terms.US) -> dict[str, Any]:
    """A finding as plain JSON values, with how sure it is."""
    sure = finding.certainty
    doubts = [] if sure is None else sure.shares
    return {
        **picked(finding, FINDING, sentence=terms.text(finding.sentence)),
        "sure": sure
        and {
            **picked(sure, CERTAINTY),
            "doubts": [{"name": name, "share_fraction": number(share)} for name, share in doubts],
        },
    }


def _finished(each: Finished) -> Json:
    return picked(
        each,
        FINISHED_IN_FULL,
        cm=each.length_cm,
        cm_printed=float(finished_figure(each, Unit.CM)),
        inches_printed=finished_figure(each, Unit.IN),
    )


def _edge(piece: str, edge: Edge) -> Json:
    return picked(edge, EDGE, piece=piece, edge=edge.name, cm=edge.length_cm)


def _seam(seam: Seam) -> Json:
    how = join(seam.first.count, seam.second.count)
    return {
        "letter": seam.letter,
        "places": seam.places,
        "first": _edge(seam.first_piece, seam.first),
        "second": _edge(seam.second_piece, seam.second),
        "join": {
            "first": how.ratio.numerator,
            "second": how.ratio.denominator,
            "longer": _longer(how),
            "shares": list(how.shares),
        },
    }


def _longer(how: Join) -> str | None:
    if how.first_rows == how.second_rows:
        return None
    return "first" if how.longer_first else "second"


def _arm(arm: ArmRun) -> Json:
    left_first, left_last = arm.left
    return {
        "edge": arm.edge.name,
        "edge_count": arm.edge.count,
        "count": arm.count,
        "back_count": arm.back_count,
        "right": {"first": arm.first, "last": arm.last},
        "left": {"first": left_first, "last": left_last},
    }


def _increases(plan: IncreasePlan | None) -> Json | None:
    if plan is None:
        return None
    return {
        "start": plan.start,
        "sections": list(plan.sections),
        "each": plan.each,
        "interval": plan.interval,
        "rows": [
            {"row": row, "increases": added, "before": before, "after": before + added}
            for row, added, before in plan.running()
        ],
    }
