"""The counts of a chart's rows: does each come out even in every piece that is worked from one."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.wording import sentence_case
from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_fault import ChartFault, ChartFaultError, count_words
from schematics.crochet.charts.chart_rules import deep_enough
from schematics.crochet.charts.worked_rows import row_counts, work_rows
from schematics.crochet.fabric import Counted, Fabric
from schematics.garment.garment import Piece

CODE = "COUNT-CHART"


def check(case: Case) -> Iterator[Finding]:
    """One finding for each piece that keeps its chart to itself; one in all where none has a chart."""
    charted = [each for each in case.garment.pieces if each.fabric.chart and not each.on_fold]
    for piece in charted:
        yield _of_piece(case, piece)
    if not charted:
        yield case.finding(CODE, Severity.GOOD, "all pieces", "No panel and no band is worked from a chart.")


def _of_piece(case: Case, piece: Piece) -> Finding:
    stitches = piece.foundation_stitches
    rows = max(edge.count for edge in piece.edges if edge.counted is Counted.ROWS)
    counts, fault = rows_counted(piece.fabric, stitches, max(0, piece.fabric.row_rule.repeats(rows)))
    if fault:
        sentence = f"{sentence_case(piece.name)}, {unworkable_words(stitches, fault)}."
        return case.finding(CODE, Severity.STOP, piece.name, sentence, stitches_count=stitches)
    met = (stitches, *counts)
    low, high, top = min(met), max(met), met[-1]
    kept = (
        count_words(stitches) if stitches == top else f"{count_words(stitches)} at the foot, {top} at the top"
    )
    varied = "" if {low, high} <= {stitches, top} else f", {low} to {high} in between"
    return case.finding(
        CODE,
        Severity.GOOD,
        piece.name,
        f"{sentence_case(piece.name)}: every row of its chart comes out even ({kept}{varied}).",
        stitches_count=stitches,
        top_count=top,
    )


def unworkable_words(stitches: int, fault: str) -> str:
    """What a chart's fault on so many stitches means for its piece."""
    return f"on {count_words(stitches)} its chart cannot be worked: {fault}"


@lru_cache(maxsize=1024)
def rows_counted(fabric: Fabric, stitches: int, repeats: int) -> tuple[tuple[int, ...], str]:
    """The count of each row, and what is wrong with the first that cannot be worked."""
    chart = fabric.chart
    assert chart is not None
    try:
        counts = row_counts(chart, stitches, repeats)
        work_rows(chart, stitches, min(repeats, deep_enough(chart)))
    except ChartFaultError as error:
        return (), _named(chart, error.fault)
    if any(count < 1 for count in counts):
        return (), "a row is left without stitches"
    return counts, ""


def _named(chart: Chart, fault: ChartFault) -> str:
    """The fault with the number of its row in the chart, from 1."""
    numbers = dict(chart.sections())
    if fault.section is None or fault.index is None or fault.sentence.startswith("row "):
        return fault.sentence
    return f"row {numbers[fault.section][fault.index]}: {fault.sentence}"


FAMILY = Family(
    name="chart counts",
    check=check,
    explanations=(
        Explanation(
            code=CODE,
            title="Every row of a chart comes out even",
            meaning=(
                "Each row of a chart uses the stitches that the row below offers, worked in this size from "
                "the foundation to the top. On a piece too narrow for a motif, or that tapers until a "
                "row has no room, some row has stitches left over or too few, and stitches round posts miss "
                "those they go round."
            ),
            cure=(
                "Work the piece wider by whole repeats, or with fewer rows where it tapers; or chart it "
                "narrower."
            ),
            origin="Plain counting, row by row, from the chart in the spec.",
            severities=(Severity.STOP, Severity.GOOD),
        ),
    ),
)
