"""Facts and finished lengths of the sizes as trees over a maker's gauge: the page works them out by these.

The formulas are those of grading and of `schematics.checks.rules.varied_facts`, written down as trees, so
that the page is at any gauge where `schematics.fitting.gauge.size_at_gauge` is: counts stay what they are,
but for stitches picked up along row ends.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from schematics.checks.evaluation import Result
from schematics.checks.rules.formula_facts import FabricFacts
from schematics.checks.rules.garment_numbers import facts
from schematics.crochet.fabric import Counted, Fabric
from schematics.crochet.traced_fabric import traced
from schematics.crochet.varied_fabric import (
    LENGTH_ERRORS,
    STRETCH_ERRORS,
    FabricError,
    error_fraction,
)
from schematics.design.design import Design, Parts
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.wearer.expr import Expr, Fact, expr_json, terms, with_names
from schematics.wearer.traced import Traced, tree_of

FINISHED = "finished."
"""What is put before the key of a finished measurement among the facts of a size."""

NECK_ROWS, ARM_ROWS = "neck.rows", "arm.rows"
"""The facts of how many rows of ribbing are on stitches picked up along row ends at a maker's gauge."""

_BAND_LENGTHS = {"neck_band.length": "neck.band_cm", "arm_band.length": "arm.band_cm"}
"""Finished lengths that follow from stitches picked up, and the facts they are."""


def fabrics_json(design: Design) -> list[dict[str, Any]]:
    """The fabrics by their places, as the pattern has them, and by how much each of them may be off.

    ``body`` is that of the body, which a maker swatches. ``errors`` has their standard deviations by their
    names, as fractions; of each direction ``length_errors`` are off its lengths, ``stretch_error`` its
    stretch.
    """
    parts = design.parts
    return [_fabric(fabric, parts) for fabric in parts.fabrics.values()]


def _fabric(fabric: Fabric, parts: Parts) -> dict[str, Any]:
    of = fabric.swatch
    swatch = (of.stitches, of.width_cm), (of.rows, of.height_cm)
    return {
        "parts": parts.named_for(fabric),
        "body": fabric.name == parts.body.name,
        **{
            counted.words: {
                "count": count,
                "over_cm": over_cm,
                "per_cm": fabric.gauge(counted),
                "stretch": fabric.stretch(counted),
                "length_errors": [LENGTH_ERRORS[counted].value, FabricError.DRIFT.value],
                "stretch_error": STRETCH_ERRORS[counted].value,
            }
            for counted, (count, over_cm) in zip(Counted, swatch, strict=True)
        },
        "errors": {error.value: error_fraction(fabric, error) for error in FabricError},
    }


def traced_parts(parts: Parts) -> Parts:
    """The fabrics with their lengths as trees."""
    places = {name: place for place, name in enumerate(parts.fabrics)}
    return parts.with_fabrics(lambda fabric: traced(fabric, places[fabric.name]))


def size_trees(design: Design, result: Result, parts: Parts) -> Mapping[str, Expr]:
    """The facts of one size by their names, and its finished lengths as ``finished.<key>``.

    Args:
        design: of the size.
        result: the size.
        parts: see `traced_parts`.
    """
    construction = CONSTRUCTIONS[design.construction]
    neck, arm = result.garment.neck, result.garment.arm.ring
    rows = {
        "neck": Traced(Fact(NECK_ROWS)) if neck.picked_up else neck.band_rows,
        "arm": Traced(Fact(ARM_ROWS)) if arm.picked_up else arm.band_rows,
    }
    numbers = FabricFacts(construction, result.size, result.garment, parts, rows)
    names = facts(result.garment, result.freedom)
    counts, measures = counts_of(result.size), construction.formulas_of(result.size.body, parts).measures
    finished = {
        f"{FINISHED}{each.key}": numbers[_BAND_LENGTHS[each.key]]
        if each.key in _BAND_LENGTHS
        else each.at(counts)
        for each in measures
    }
    return {
        name: tree_of(number) for name, number in ({each: numbers[each] for each in names} | finished).items()
    }


def facts_json(trees: Mapping[str, Expr]) -> dict[str, Any]:
    """Trees by name as plain JSON values: ``terms`` are those that come more than once, by their names."""
    named = dict(zip(trees, with_names(trees.values()), strict=True))
    return {
        "terms": {name: expr_json(expr) for name, expr in terms(named.values()).items()},
        "facts": {name: expr_json(expr) for name, expr in named.items()},
    }
