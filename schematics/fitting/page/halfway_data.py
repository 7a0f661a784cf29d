"""Half-way: the rows of each piece, so that what is measured on it becomes the gauge it is worked at."""

from __future__ import annotations

from typing import Any

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.fitting.progress import (
    BANDS,
    PIECES,
    height_grain,
    row_stitches,
    rows_for_length,
    width_grain,
)
from schematics.garment.garment import Garment
from schematics.wearer.expr import Fact, expr_json
from schematics.wearer.traced import Traced, tree_of


def halfway_json(garment: Garment) -> dict[str, Any]:
    """``names`` are those of the finished measurements, ``instead`` is the tree of `rows_for_length`.

    It is over the facts ``rows`` and ``times``. ``grains`` say how finely width and height of each
    piece are printed; ``bands`` are those of `BANDS`.
    """
    tree = tree_of(rows_for_length(Traced(Fact("rows")), Traced(Fact("times"))))
    return {
        "names": {each.key: each.name for each in garment.finished},
        "instead": expr_json(tree),
        "bands": sorted(BANDS),
        "grains": {piece: [width_grain(piece).value, height_grain(piece).value] for piece in PIECES.values()},
    }


def worked_rows(design: Design, result: Result) -> dict[str, Any]:
    """Of each piece of a size: its stitches row by row, each given until it changes, and its fabric's place.

    ``runs`` are pairs of how many rows and of how many stitches.
    """
    places = {name: place for place, name in enumerate(design.parts.fabrics)}
    rows = {}
    for piece in PIECES.values():
        runs: list[list[int]] = []
        for stitches in row_stitches(result.size, result.garment, piece):
            if runs and runs[-1][1] == stitches:
                runs[-1][0] += 1
            else:
                runs.append([1, stitches])
        rows[piece] = {"fabric": places[result.garment.piece(piece).fabric.name], "runs": runs}
    return rows
