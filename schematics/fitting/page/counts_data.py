"""What a maker works by in each size: the pattern's figures, and those that hang on her gauge as trees."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from schematics.checks.evaluation import Result
from schematics.checks.wording import sentence_case
from schematics.design.design import Design, Parts
from schematics.document.document import Figure
from schematics.fitting.page.size_trees import ARM_ROWS, NECK_ROWS
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.pattern.book import Book
from schematics.pattern.sections import bands, repeats, worked_steps, yarn_amounts
from schematics.pattern.sections import piece_sizes as pieces
from schematics.wearer.expr import expr_json
from schematics.wearer.traced import tree_of

PIECES = "Pieces"

SHOWN_ELSEWHERE = frozenset(
    {
        *("increases.start", "increases.rows", "increases.total", "increases.end", "body_steps.rows"),
        *(f"{band}.{each}" for band in ("neck_band", "arm_band") for each in ("ribbing_rows", "depth")),
    }
)
"""Figures that the schedule of increases and the table of the pieces have, too."""

YARN = ("buy_g", "balls")
"""What of the yarn is shown: how much to buy."""


def count_groups(design: Design, results: Sequence[Result]) -> list[tuple[str, list[Figure]]]:
    """The figures of the pattern that a maker works by, under their headings, each in all sizes."""
    book = Book(design=design, results=tuple(results), terms=design.terms)
    repeated = [
        each for each in repeats.section(book).figures if each.key.endswith(("repeats.across", "repeats.up"))
    ]
    yarn = [each for each in yarn_amounts.section(book).figures if each.key.rpartition(".")[2] in YARN]
    groups = (
        (PIECES, pieces.section(book).figures),
        ("The body", worked_steps.section(book).figures),
        ("Pattern repeats", repeated),
        (bands.MARKERS, bands.markers_section(book).figures),
        (bands.RIBBING, bands.ribbing_section(book).figures),
        ("Yarn", yarn),
    )
    shown = [
        (title, [each for each in figures if not each.detail and each.key not in SHOWN_ELSEWHERE])
        for title, figures in groups
    ]
    return [(title, figures) for title, figures in shown if figures]


def count_rows(design: Design, results: Sequence[Result]) -> list[dict[str, Any]]:
    """The groups as plain JSON values: ``title``, and ``rows`` of ``key``, ``name``, ``unit`` and ``texts``.

    ``texts`` has a text for each size, empty where it has no such figure. Rows that go by piece follow
    each other in ``columns``.
    """
    return [
        {
            "title": title,
            **({"columns": _columns(figures)} if title == PIECES else {}),
            "rows": [
                {
                    "key": each.key,
                    "name": sentence_case(each.name.partition(":")[0] if title == PIECES else each.name),
                    "unit": each.unit,
                    "texts": [each.text(place) for place in range(len(results))],
                }
                for each in figures
            ],
        }
        for title, figures in count_groups(design, results)
    ]


def _columns(figures: Sequence[Figure]) -> list[str]:
    """The figures of each piece, as it is named after the piece."""
    return list(dict.fromkeys(each.name.partition(": ")[2] for each in figures))


def own_counts(design: Design, result: Result, parts: Parts) -> dict[str, Any]:
    """The counts of a size that follow from a maker's gauge, by the keys of the pattern's figures.

    ``edges`` are the stitches of edges that bands are worked onto, as many as rows of ribbing, as trees by
    the names of those facts, ``rows`` for each key the edge it follows from, how much less than that it is,
    and over how many places that is spread.

    Args:
        design: of the size.
        result: the size.
        parts: the fabrics with their lengths as trees.
    """
    counts: Mapping[str, Any] = counts_of(result.size)
    formulas = CONSTRUCTIONS[design.construction].formulas_of(result.size.body, parts)
    garment = result.garment
    edges: dict[str, Any] = {}
    rows: dict[str, list[Any]] = {}
    for band, edge, ring, pattern in (
        ("neck_band", NECK_ROWS, formulas.neck, garment.neck),
        ("arm_band", ARM_ROWS, formulas.arm, garment.arm.ring),
    ):
        if pattern.picked_up:
            edges[edge] = expr_json(tree_of(ring.edge_count.at(counts)))
            rows |= {f"{band}.{each}": [edge, 0, 1] for each in ("edge", "rows")}
    if garment.arm.ring.picked_up:
        rows["picked_up.arm.stitches"] = [ARM_ROWS, 0, 1]
    if garment.neck.picked_up:
        top = garment.piece("centre panel").edge("top").count
        others = garment.neck.edge_count - garment.neck.picked_up
        rows["neck_band.edge_body"] = [NECK_ROWS, top, 1]
        rows |= {
            f"picked_up.{side}.stitches": [NECK_ROWS, others + less, 2]
            for side, less in (("neck", 0), ("neck_right", -1), ("neck_left", 1))
        }
    return {"edges": edges, "rows": rows}
