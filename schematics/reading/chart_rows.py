"""The rows of a fabric's chart, and how they fit the fabric's counts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic_core import InitErrorDetails

from schematics.crochet.charts.chart import Chart, ChartRow, tally
from schematics.crochet.charts.chart_rules import chart_faults
from schematics.crochet.charts.chart_text import EXAMPLE_ROW, RowTextError, parse_row
from schematics.crochet.fabric import CountRule, RowRule
from schematics.reading.problems import show_value
from schematics.reading.values import TextValue, ValueKind, refuse

_LONGEST = 200


class RowText(ValueKind):
    """One row of a chart, in working order."""

    def read(self, value: Any) -> ChartRow:
        """The row."""
        if not isinstance(value, str):
            raise refuse(f"expected a row such as {EXAMPLE_ROW!r}, got {show_value(value)}")
        try:
            return parse_row(TextValue(_LONGEST).read(value))
        except RowTextError as error:
            raise refuse(str(error)) from None

    def schema(self) -> dict[str, Any]:
        """Text; its grammar is in `schematics.crochet.charts.chart_text`."""
        return {
            **TextValue(_LONGEST).schema(),
            "examples": ["hdc across", EXAMPLE_ROW],
        }


def chart_errors(
    chart: Chart, stitch_rule: CountRule | None, row_rule: RowRule | None
) -> Iterator[InitErrorDetails]:
    """What is wrong with a chart, at its sections and rows; the rules are None where the file has none."""
    if stitch_rule is None:
        row = chart.repeat[0]
        keys = _keys(of=tally(row.across).makes, plus=row.once.makes)
        yield _error((), f"a chart needs the fabric's stitch multiple; add it, such as multiple: {{{keys}}}")
    if row_rule is None:
        keys = _keys(rows=len(chart.repeat), setup=len(chart.setup), closing=len(chart.closing))
        yield _error((), f"a chart needs the fabric's row repeat; add it, such as row_repeat: {{{keys}}}")
    if stitch_rule and row_rule:
        for fault in chart_faults(chart, stitch_rule, row_rule):
            yield _error(
                tuple(each for each in (fault.section, fault.index) if each is not None), fault.sentence
            )


def _keys(**counts: int) -> str:
    first, *others = counts.items()
    return ", ".join(f"{key}: {count}" for key, count in (first, *(each for each in others if each[1])))


def _error(where: tuple[str | int, ...], sentence: str) -> InitErrorDetails:
    return InitErrorDetails(type=refuse(sentence), loc=where, input=None)
