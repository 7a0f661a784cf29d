"""What is checked of how a size is made, whoever wears it, as the page works it out at a maker's gauge."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from schematics.checks import flat, intent, seams, slot
from schematics.checks.evaluation import Result
from schematics.checks.rules.seam_limits import (
    past_agreement_cm,
    past_equal_widths_cm,
    past_stop_cm,
    seamable_cm,
)
from schematics.crochet.fabric import Counted
from schematics.design.design import Design, Parts
from schematics.fitting.page.size_trees import facts_json
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.garment.constructions.demands import TWO_CIRCLES
from schematics.garment.garment import Seam
from schematics.garment.printed_lengths import grain_of
from schematics.wearer.expr import Expr
from schematics.wearer.traced import tree_of

AT_GAUGE = frozenset({seams.LENGTH, slot.WIDTH, flat.CIRCLE})
"""Checks that the page makes itself."""

NOT_AT_GAUGE = frozenset({intent.MEANT})
"""Checks that are not made at a gauge of her own, see `schematics.checks.intent`."""


def making_words(design: Design) -> dict[str, Any]:
    """The sentences of `AT_GAUGE`, and the shares that are printed unlike."""
    limits = design.limits
    return {
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
            "circles": [math.tau, TWO_CIRCLES],
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
    past what can be seamed, ``stop``, and past what agrees, ``mind``, either ``margin`` of `seamable_cm`; the
    allowed ``count`` of either edge that brings it nearest to the other, and its ``length`` then; of a slot
    ``front``, ``back`` and ``mind``; the angle that the body opens to, ``opening``. ``seams`` has the names
    of both edges, and what is counted.
    """
    trees = dict(_trees(design, result, parts))
    return {
        **facts_json(trees),
        "seams": [_edges(seam) for seam in _each(result)],
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
    for number, (seam, pattern) in enumerate(zip(formulas.seams, _each(result), strict=True)):
        first, second = seam.first_cm.at(counts), seam.second_cm.at(counts)
        edges = first, second, *seam.rows_cm
        for name, edge, fabric, here, there in (
            ("first", pattern.first, seam.first_fabric, first, second),
            ("second", pattern.second, seam.second_fabric, second, first),
        ):
            count, length = seams.nearest_count(edge, fabric, there)
            yield f"{number}.{name}", tree_of(here)
            yield f"{number}.{name}.count", tree_of(count)
            yield f"{number}.{name}.length", tree_of(length)
        yield f"{number}.stop", tree_of(past_stop_cm(*edges, limits))
        for place, margin in enumerate(seamable_cm(*edges, limits)):
            yield f"{number}.margin.{place}", tree_of(margin)
        yield f"{number}.mind", tree_of(past_agreement_cm(*edges, limits))
    if formulas.opening is not None:
        yield "opening", tree_of(formulas.opening(counts))
    if formulas.widths_cm is not None:
        front, back = (each.at(counts) for each in formulas.widths_cm)
        yield "slot.front", tree_of(front)
        yield "slot.back", tree_of(back)
        yield "slot.mind", tree_of(past_equal_widths_cm(front, back, limits))


def _edges(seam: Seam) -> list[dict[str, Any]]:
    return [
        {
            "name": name,
            "words": ["stitch", "stitches"] if edge.counted is Counted.STITCHES else ["row", "rows"],
        }
        for name, edge in zip(seam.names, (seam.first, seam.second), strict=True)
    ]
