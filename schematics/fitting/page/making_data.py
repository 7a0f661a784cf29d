"""What is checked of how a size is made, whoever wears it, as the page works it out at a maker's gauge."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np

from schematics.checks import flat, seams, slot
from schematics.checks.counts import bound_by
from schematics.checks.evaluation import Result
from schematics.checks.rules.seam_limits import past_agreement_cm, past_equal_widths_cm, past_stop_cm
from schematics.crochet.fabric import Counted
from schematics.design.design import Design, Parts
from schematics.fitting.page.size_trees import facts_json
from schematics.fitting.sizing import MIND_WEIGHT, STOP_WEIGHT
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.garment.garment import Edge, Garment, Seam
from schematics.garment.printed_lengths import grain_of
from schematics.wearer.expr import Expr
from schematics.wearer.traced import tree_of

AT_GAUGE = frozenset({seams.LENGTH, slot.WIDTH, flat.CIRCLE})
"""Checks that the page makes itself."""

NOT_AT_GAUGE = frozenset({"LENGTH-MEANT"})
"""Checks that are not made at a gauge of her own, see `schematics.checks.intent`."""


def making_words(design: Design) -> dict[str, Any]:
    """The sentences of `AT_GAUGE`, the shares that are printed unlike, and what each finding weighs."""
    limits = design.limits
    return {
        "weights": {"stop": STOP_WEIGHT, "mind": MIND_WEIGHT},
        "not_at_gauge": sorted(NOT_AT_GAUGE),
        "seam": {
            "code": seams.LENGTH,
            "words": seams.SEAM_WORDS["apart"],
            "cure": seams.SEAM_CURE,
            "stop": seams.NOT_MET,
            "mind": seams.TO_EASE_IN,
            "against": [limits.seam_mind_fraction, limits.seam_stop_fraction],
        },
        "flat": {
            "code": flat.CIRCLE,
            "stop": flat.PAST_TWO_CIRCLES,
            "mind": flat.PAST_A_CIRCLE,
            "circle": math.tau,
        },
        "slot": {
            "code": slot.WIDTH,
            "words": slot.UNLIKE,
            "panel": {"plain": slot.PLAIN, "tapered": slot.TAPERED},
            "sides": [slot.WIDER, slot.NARROWER],
            "grains": {key: grain_of(key).value for key in ("panel.top", "body.slot", "body.width")},
            "against": [limits.seam_mind_fraction],
        },
    }


def making_json(design: Design, result: Result, parts: Parts) -> dict[str, Any]:
    """Of one size: the lengths of the edges of its seams as trees, and what each edge is.

    ``facts`` and ``terms`` are as in `facts_json`: of each seam ``first``, ``second``, how far the edges are
    past what can be seamed, ``stop``, and past what agrees, ``mind``; of a slot ``front``, ``back`` and
    ``mind``; the angle that the body opens to, ``opening``.
    ``seams`` has the names of both edges, their fabrics' places, and the counts they may have; no
    counts of one that slopes.
    """
    trees = dict(_trees(design, result, parts))
    places = {name: place for place, name in enumerate(design.parts.fabrics)}
    return {
        **facts_json(trees),
        "seams": [_edges(seam, places) for seam in _each(result)],
        "opens": "opening" in trees,
        "slot": "slot.front" in trees,
        "tapered": any(each.key == "panel.top" for each in result.garment.finished),
    }


def _each(result: Result) -> list[Seam]:
    """A seam of those that are alike on either side."""
    return [seam for seam in result.garment.seams if not seam.left]


def _trees(design: Design, result: Result, parts: Parts) -> Iterator[tuple[str, Expr]]:
    formulas = CONSTRUCTIONS[design.construction].formulas_of(result.size.body, parts)
    counts, limits = counts_of(result.size), design.limits
    for number, seam in enumerate(formulas.seams):
        edges = seam.first_cm.at(counts), seam.second_cm.at(counts), *seam.rows_cm
        yield f"{number}.first", tree_of(edges[0])
        yield f"{number}.second", tree_of(edges[1])
        yield f"{number}.stop", tree_of(past_stop_cm(*edges, limits))
        yield f"{number}.mind", tree_of(past_agreement_cm(*edges, limits))
    if result.garment.opening_angle is not None:
        yield "opening", tree_of(_opening(result.garment, parts))
    if formulas.widths_cm is not None:
        front, back = (each.at(counts) for each in formulas.widths_cm)
        yield "slot.front", tree_of(front)
        yield "slot.back", tree_of(back)
        yield "slot.mind", tree_of(past_equal_widths_cm(front, back, limits))


def _opening(garment: Garment, parts: Parts) -> Any:
    """The angle that a body opens to whose stitches and rows come to other lengths than the pattern's.

    Of a sector it goes by the stitches over the rows; of triangles on both sides of lines of increases the
    tangent of each does.
    """
    angle, body = garment.opening_angle or 0.0, garment.piece("body").fabric
    usual = body.length_cm(1, Counted.STITCHES) / body.length_cm(1, Counted.ROWS)
    times = parts.body.length_cm(1, Counted.STITCHES) / parts.body.length_cm(1, Counted.ROWS) / usual
    lines = len(garment.increases.sections) - 1 if garment.increases else 0
    triangles = 2 * lines
    return np.arctan(times * math.tan(angle / triangles)) * triangles if lines > 0 else times * angle


def _edges(seam: Seam, places: dict[str, int]) -> list[dict[str, Any]]:
    return [
        {"name": name, **_edge(edge, places)}
        for name, edge in zip(seam.names, (seam.first, seam.second), strict=True)
    ]


def _edge(edge: Edge, places: dict[str, int]) -> dict[str, Any]:
    rule = bound_by(edge)
    level = abs(edge.length_cm - edge.fabric.length_cm(edge.count, edge.counted)) < 1e-9 * edge.length_cm
    words = ["stitch", "stitches"] if edge.counted is Counted.STITCHES else ["row", "rows"]
    return {
        "fabric": places[edge.fabric.name],
        "counted": edge.counted.words,
        "words": words,
        "rule": {"multiple": rule.multiple, "plus": rule.plus, "smallest": rule.smallest} if level else None,
    }
