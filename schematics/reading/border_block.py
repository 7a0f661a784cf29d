"""The block of a border: rows of the body in a stitch pattern of their own."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field, ValidationError, ValidationInfo, field_validator
from pydantic_core import InitErrorDetails

from schematics.crochet.fabric import CountRule, RowRule
from schematics.design.border import Border, BorderEdge
from schematics.design.design import PART_OF, PIECE_OF
from schematics.reading.chart_block import ChartBlock, chart_of
from schematics.reading.pattern_block import PatternBlock
from schematics.reading.problems import listed, show_value
from schematics.reading.spec_block import LARGEST_COUNT, Count
from schematics.reading.values import Context, TextValue, ValueInContext, refuse

MOST_BORDERS = 10
_FIRST_ROW = "the number of the body row it begins on"
_PIECES = frozenset({*PIECE_OF, *PART_OF})


class BorderName(ValueInContext):
    """The designer's name for a border."""

    def read(self, value: Any, context: Context) -> str:
        """The name; no fabric and no part has it, so that one word means one thing.

        Raises:
            PydanticCustomError: it is no text that can be printed, or something else is called so.
        """
        name = TextValue(40).read(value)
        if name in (context.fabrics or ()):
            raise refuse(f"a fabric is called {show_value(name)} too; give the border another name")
        if name.casefold() in _PIECES:
            raise refuse(f"a part is called {show_value(name)} too; give the border another name")
        return name

    def schema(self) -> dict[str, Any]:
        """Text."""
        return TextValue(40).schema()


class BorderPlace(ValueInContext):
    """Where on the body a border is: along an edge, or from a row on."""

    def read(self, value: Any, context: Context) -> BorderEdge | int:
        """The edge, or the number of the row it begins on.

        Raises:
            PydanticCustomError: no whole rows of such a body lie there, or it is neither.
        """
        body = context.construction
        edges = [edge for edge in BorderEdge if body is None or edge in body.border_edges]
        if value in edges:
            return BorderEdge(value)
        expected = listed([*(each.value for each in edges), _FIRST_ROW], "or")
        if value in list(BorderEdge) and body:
            raise refuse(f"a {body.word} body has no whole rows along the {value}; expected {expected}")
        if type(value) is not int or not 1 <= value <= LARGEST_COUNT:
            raise refuse(f"expected {expected}, got {show_value(value)}")
        return value

    def schema(self) -> dict[str, Any]:
        """An edge or a row."""
        return {
            "anyOf": [
                {"enum": [edge.value for edge in BorderEdge]},
                {"type": "integer", "minimum": 1, "maximum": LARGEST_COUNT},
            ]
        }


class BorderBlock(PatternBlock):
    """Rows of the body in a stitch pattern of their own, such as a yoke; gauge and swatch are the body's."""

    at: Annotated[BorderEdge | int, BorderPlace()] = Field(
        description=f"where on the body it is worked: neck, hem, or {_FIRST_ROW}"
    )
    rows: Count = Field(description="how many rows of the body it is")

    @field_validator("rows")
    @classmethod
    def _whole_repeats(cls, rows: int, info: ValidationInfo) -> int:
        repeat = info.data.get("row_repeat")
        rule = repeat.rule().rule if repeat else CountRule()
        if not rule.allows(rows):
            near = dict.fromkeys((rule.at_most(rows), rule.at_least(rows)))
            fitting = listed(list(map(str, near)), "or")
            raise refuse(f"expected whole repeats as row_repeat says, such as {fitting} rows, got {rows}")
        return rows

    @field_validator("chart")
    @classmethod
    def _keeps_the_count(cls, chart: ChartBlock | None) -> ChartBlock | None:
        if chart and any((chart.adds.setup, chart.adds.repeat, chart.adds.closing)):
            sentence = (
                "a border leaves the body as many stitches as it found; delete 'adds', and chart rows that "
                "keep their count"
            )
            error = InitErrorDetails(type=refuse(sentence), loc=("adds",), input=None)
            raise ValidationError.from_exception_data(cls.__name__, [error])
        return chart

    def border(self, name: str) -> Border:
        """The border the program uses."""
        return Border(
            name=name,
            stitch=self.stitch,
            at=self.at,
            rows=self.rows,
            stitch_rule=self.multiple.rule() if self.multiple else CountRule(),
            row_rule=self.row_repeat.rule() if self.row_repeat else RowRule(),
            chart=chart_of(self.chart, self.stitches) if self.chart else None,
        )


Borders = Annotated[dict[Annotated[str, BorderName()], BorderBlock], Field(max_length=MOST_BORDERS)]
