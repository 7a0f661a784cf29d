"""The steps of a folded body: to the neck hole, past it, and down the fronts."""

from __future__ import annotations

from collections.abc import Callable

from schematics.document.document import Figure, Section, Table, count_figure, listed_section
from schematics.garment.constructions.folded_counts import FoldedBody
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """Rows and stitches of each step; they add up to the body's rows."""

    def figure(key: str, name: str, unit: str, value: Callable[[FoldedBody], int]) -> Figure:
        values = [value(result.size.body) for result in book.results]
        return count_figure(f"body_steps.{key}", name, unit, values)

    rows = (
        figure("to_neck", "rows to the neck hole", "rows", lambda body: body.back_rows - body.neck_back_rows),
        figure("past_neck", "rows past the neck hole", "rows", lambda body: body.neck_side_rows),
        figure("fronts", "rows of the fronts", "rows", lambda body: body.front_edge_rows),
    )
    stitches = (
        figure("width", "stitches to the neck hole", "sts", lambda body: body.width),
        figure("shoulder", "stitches of each shoulder", "sts", lambda body: (body.width - body.neck) // 2),
        figure("front", "stitches of each front", "sts", lambda body: (body.width - body.slot) // 2),
    )
    neck = figure("neck", "stitches left for the neck hole", "sts", lambda body: body.neck)
    added = figure(
        "added", "stitches chained at each front neck edge", "sts", lambda body: (body.neck - body.slot) // 2
    )
    fold = figure("fold", "row of the back before the fold", "rows", lambda body: body.back_rows)
    all_rows = figure("rows", "rows in all", "rows", lambda body: body.back_rows + body.front_rows)
    return listed_section(
        key="body_steps",
        heading="Steps of the body",
        sentences=(
            "The body is worked flat, in rows to and fro, from the back hem up, over the shoulders and down "
            "the fronts.",
            f"The fabric does not show the fold at the shoulders: place a marker at each end of row {fold}, "
            "the last row of the back.",
        ),
        tables=(
            Table(
                caption="From the back hem to the front hem",
                header=("step", "rows", "stitches", "before the step"),
                rows=(
                    ("back, to the neck hole", rows[0], stitches[0], "foundation chain"),
                    ("each shoulder, past the neck hole", rows[1], stitches[1], _neck_words(neck)),
                    ("each front, to the hem", rows[2], stitches[2], _added_words(added)),
                    ("in all", all_rows, "", ""),
                ),
            ),
        ),
        figures=(*rows, *stitches, neck, added, fold, all_rows),
    )


def _neck_words(neck: Figure) -> str:
    return f"leave the middle {neck} sts"


def _added_words(added: Figure) -> str:
    if not any(added.values):
        return "go on along the slot"
    return f"chain {added} at each neck edge, and the turning chain"
