"""A fabric's chart and its own stitches, as they may be written in a spec."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, field_validator
from pydantic_core import InitErrorDetails

from schematics.crochet.charts.chart import Chart, ChartRow, Side
from schematics.crochet.charts.chart_fault import ChartFault
from schematics.crochet.charts.chart_rules import chart_faults, fitting_rule
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.charts.misread import EXAMPLE_ROW
from schematics.crochet.charts.text_cursor import RowTextError
from schematics.crochet.fabric import CountRule, RowRule
from schematics.crochet.stitch_list import TRADE
from schematics.crochet.stitches import Height, Post, Stitch, StitchBook
from schematics.crochet.symbols import MOST_STROKES, STROKE_WORDS, Symbol, read_symbol
from schematics.crochet.terms import Terms
from schematics.reading.problems import show_value
from schematics.reading.spec_block import SpecBlock
from schematics.reading.values import TextValue, ValueKind, refuse

MOST_OWN_STITCHES = 30
_LONGEST_ROW = 400
_LONGEST_DEFINITION = 300
_MOST_USED = 20
_ROW = "one row in working order; the guide to specs has the language and the stitches"
_EXAMPLE_ROWS = (
    "hdc across",
    EXAMPLE_ROW,
    "(sk, (2 dc, ch 2, 2 dc) in next st, sk) across",
    "dc, (2 FPtr round posts 3 and 4, 2 FPtr round posts 1 and 2 behind) across, dc",
    "(2 sl st blo, surface FPtr 2 rows below, 2 sl st blo) across",
)
_STROKES = (
    f"the strokes of its chart symbol with commas between, some after a number up to {MOST_STROKES}: "
    + ", ".join(f"{kind} ({words})" for kind, words in STROKE_WORDS.items())
)
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9-]{0,11}")
_NEVER_NAMES = frozenset(
    {"across", "in", "x", "round", "around", "behind", "with", "blo", "flo", "row", "rows", "surface"}
)


class RowText(ValueKind):
    """One row of a chart, in working order; it is read when the fabric's own stitches are."""

    def read(self, value: Any) -> str:
        """The row's text as it stands.

        Raises:
            PydanticCustomError: it is no line of text.
        """
        if not isinstance(value, str):
            raise refuse(f"expected a row such as {EXAMPLE_ROW!r}, got {show_value(value)}")
        return TextValue(_LONGEST_ROW).read(value)

    def schema(self) -> dict[str, Any]:
        """Text; its grammar is in `schematics.crochet.charts.chart_text`."""
        return {**TextValue(_LONGEST_ROW).schema(), "description": _ROW, "examples": list(_EXAMPLE_ROWS)}


class SymbolText(ValueKind):
    """The strokes of a symbol."""

    def read(self, value: Any) -> Symbol:
        """The strokes of the symbol.

        Raises:
            PydanticCustomError: it names no strokes.
        """
        try:
            return read_symbol(TextValue().read(value))
        except ValueError as error:
            raise refuse(str(error)) from None

    def schema(self) -> dict[str, Any]:
        """Text; the strokes are in `schematics.crochet.symbols`."""
        return {**TextValue().schema(), "examples": ["stem, cap, 2 bars"]}


class OwnStitchName(ValueKind):
    """The abbreviation of an own stitch."""

    def read(self, value: Any) -> str:
        """The abbreviation as it stands.

        Raises:
            PydanticCustomError: it could not be read in a row.
        """
        name = TextValue(20).read(value)
        if not _NAME.fullmatch(name) or name.lower() in _NEVER_NAMES:
            raise refuse(
                "expected an abbreviation of up to 12 letters, digits and hyphens that begins with a letter "
                f"and is no other word of a row, got {show_value(name)}"
            )
        return name

    def schema(self) -> dict[str, Any]:
        """Text."""
        return {"type": "string", "pattern": f"^{_NAME.pattern}$"}


class UKNameBlock(SpecBlock):
    """What a stitch is called in UK terms."""

    abbreviation: Annotated[str, OwnStitchName()] = Field(description="the abbreviation in UK terms")
    words: Annotated[str, TextValue()] = Field(description="what it stands for in UK terms")


class OwnStitchBlock(SpecBlock):
    """A stitch of the designer's own, or one of the trade with a meaning of its own."""

    words: Annotated[str, TextValue()] = Field(description="the stitch's name, in US terms")
    worked: Annotated[str, TextValue(_LONGEST_DEFINITION)] = Field(
        description="how it is worked, in US terms"
    )
    symbol: Annotated[Symbol, SymbolText()] = Field(
        description="the strokes of its chart symbol", json_schema_extra={"description": _STROKES}
    )
    uses: Annotated[int, Field(ge=0, le=_MOST_USED)] = Field(
        default=1, description="stitches of the row below that it is worked into or passes over"
    )
    makes: Annotated[int, Field(ge=0, le=_MOST_USED)] = Field(
        default=1, description="stitches it leaves for the row above"
    )
    post: Literal["front", "back"] | None = Field(
        default=None, description="worked round the post of each stitch it uses, from that side"
    )
    loops: bool = Field(default=False, description="whether it may be worked in one loop only")
    holds_posts: bool = Field(default=True, description="whether another stitch may be worked round it")
    uk: UKNameBlock | None = Field(default=None, description="its name in UK terms, where it is another")

    def stitch(self, abbreviation: str) -> Stitch:
        """The stitch the program uses."""
        return Stitch(
            abbreviation=abbreviation,
            words=self.words,
            symbol=self.symbol,
            height=Height.NONE,
            uses=self.uses,
            makes=self.makes,
            post=Post(self.post) if self.post else None,
            loops=self.loops,
            has_post=self.holds_posts,
            definition=self.worked,
            uk=(self.uk.abbreviation, self.uk.words) if self.uk else None,
        )


def _each_name_once(stitches: dict[str, OwnStitchBlock]) -> dict[str, OwnStitchBlock]:
    for names in (
        list(stitches),
        [each.uk.abbreviation if each.uk else name for name, each in stitches.items()],
    ):
        folded = [name.casefold() for name in names]
        for place, name in enumerate(names):
            if name.casefold() in folded[:place]:
                first = names[folded.index(name.casefold())]
                raise refuse(f"expected each name once, whatever its capitals; got {first!r} and {name!r}")
    return stitches


OwnStitches = Annotated[
    dict[Annotated[str, OwnStitchName()], OwnStitchBlock],
    Field(max_length=MOST_OWN_STITCHES),
    AfterValidator(_each_name_once),
]
Rows = Annotated[list[Annotated[str, RowText()]], Field(max_length=200)]


class AddsBlock(SpecBlock):
    """By how many stitches each section changes the width of the piece; a minus takes away."""

    setup: int = Field(default=0, ge=-1000, le=1000, description="by the set-up rows")
    repeat: int = Field(default=0, ge=-1000, le=1000, description="by each repeat")
    closing: int = Field(default=0, ge=-1000, le=1000, description="by the closing rows")


class ColourLetter(ValueKind):
    """The letter a colour has in a chart."""

    def read(self, value: Any) -> str:
        """The letter as it stands.

        Raises:
            PydanticCustomError: it is no capital letter.
        """
        if not isinstance(value, str) or not re.fullmatch("[A-Z]", value):
            raise refuse(f"expected a capital letter such as A, got {show_value(value)}")
        return value

    def schema(self) -> dict[str, Any]:
        """A letter."""
        return {"type": "string", "pattern": "^[A-Z]$"}


class ChartBlock(SpecBlock):
    """The stitch pattern row by row, each section once, bottom to top."""

    setup: Rows = Field(default=[], description="rows before the first repeat, row 1 first")
    repeat: Annotated[Rows, Field(min_length=1)] = Field(description="rows of one repeat")
    closing: Rows = Field(default=[], description="rows after the last repeat")
    first_row: Literal["RS", "WS"] = Field(
        default="RS", description="the side that faces in row 1: RS (right) or WS"
    )
    adds: AddsBlock = Field(
        default=AddsBlock(), description="stitches by which each section changes the width"
    )
    colours: Annotated[
        dict[Annotated[str, ColourLetter()], Annotated[str, TextValue(40)]], Field(max_length=8)
    ] = Field(default={}, description="the colour each letter stands for; rows begin 'with A'")
    carried: bool = Field(default=True, description="whether a yarn that rests is carried along; cut if not")
    terms: Literal["US", "UK"] = Field(default="US", description="the terms the rows are written in")

    @field_validator("colours")
    @classmethod
    def _several(cls, value: dict[str, str]) -> dict[str, str]:
        if len(value) == 1:
            raise refuse("expected two colours or more; leave 'colours' out where one yarn does")
        return value

    def chart(self, rows: Mapping[str, Sequence[ChartRow]]) -> Chart:
        """The chart the program uses, of rows by section."""
        return Chart(
            setup=tuple(rows["setup"]),
            repeat=tuple(rows["repeat"]),
            closing=tuple(rows["closing"]),
            first_side=Side(self.first_row),
            adds=(self.adds.setup, self.adds.repeat, self.adds.closing),
            colours=tuple(self.colours.items()),
            carried=self.carried,
        )

    def read_rows(self, own: Mapping[str, OwnStitchBlock]) -> dict[str, list[ChartRow | RowTextError]]:
        """The rows by section, each read or what is wrong with it."""
        trade = StitchBook(TRADE.stitches, uk=self.terms == "UK")
        stitches = trade.with_own(block.stitch(name) for name, block in own.items())
        colours = frozenset(self.colours)
        return {
            section: [_read(text, stitches, colours) for text in texts]
            for section, texts in (("setup", self.setup), ("repeat", self.repeat), ("closing", self.closing))
        }


def _read(text: str, stitches: StitchBook, colours: frozenset[str]) -> ChartRow | RowTextError:
    try:
        return parse_row(text, stitches, colours)
    except RowTextError as error:
        return error


def chart_of(block: ChartBlock, own: Mapping[str, OwnStitchBlock]) -> Chart:
    """The chart of a block whose rows can be read."""
    rows = block.read_rows(own)
    return block.chart(
        {key: [row for row in each if isinstance(row, ChartRow)] for key, each in rows.items()}
    )


def chart_errors(
    block: ChartBlock,
    own: Mapping[str, OwnStitchBlock],
    stitch_rule: CountRule | None,
    row_rule: RowRule | None,
) -> Iterator[InitErrorDetails]:
    """What is wrong with a chart, at its sections and rows; the rules are None where the file has none."""
    unreadable = [
        _error((section, index), str(row))
        for section, rows in block.read_rows(own).items()
        for index, row in _unreadable(rows, getattr(block, section))
    ]
    if unreadable:
        yield from unreadable
        return
    chart = chart_of(block, own)
    if stitch_rule is None:
        yield _error(
            (),
            f"a chart needs the fabric's stitch multiple; add it, such as multiple: {{{_multiple(chart)}}}",
        )
    if row_rule is None:
        keys = _keys(rows=len(chart.repeat), setup=len(chart.setup), closing=len(chart.closing))
        yield _error((), f"a chart needs the fabric's row repeat; add it, such as row_repeat: {{{keys}}}")
    if stitch_rule and row_rule:
        for fault in chart_faults(chart, stitch_rule, row_rule):
            where = tuple(each for each in (fault.section, fault.index) if each is not None)
            yield _error(where, Terms(block.terms).text(_sentence(fault)))


def _unreadable(
    rows: Sequence[ChartRow | RowTextError], texts: Sequence[str]
) -> Iterator[tuple[int, RowTextError]]:
    """The rows that cannot be read, by index; of those that commas parted within a bracket the first."""
    done = 0
    for index, row in enumerate(rows):
        if index < done or not isinstance(row, RowTextError):
            continue
        done = _bracket_end(texts, index)
        if done > index + 1:
            whole = show_value(", ".join(texts[index:done]))
            sentence = (
                "the bracket opened here is closed in a later row; where rows are written in '[ ]', one with "
                f"commas wants quotes round it: {whole}"
            )
            row = RowTextError(_open_bracket(texts[index]) + 1, sentence)
        yield index, row


def _bracket_end(texts: Sequence[str], index: int) -> int:
    """The index after the text that closes the brackets opened in one; the next if none does."""
    depth = 0
    for end in range(index, len(texts)):
        depth += texts[end].count("(") - texts[end].count(")")
        if depth <= 0:
            return end + 1
    return index + 1


def _open_bracket(text: str) -> int:
    """The place of the first bracket that is not closed in the text."""
    places: list[int] = []
    for place, sign in enumerate(text):
        if sign == "(":
            places.append(place)
        elif sign == ")" and places:
            places.pop()
    return places[0]


def _sentence(fault: ChartFault) -> str:
    return fault.sentence if fault.column is None else str(RowTextError(fault.column, fault.sentence))


def _multiple(chart: Chart) -> str:
    rule = fitting_rule(chart)
    if rule is None:
        return "of: 4, plus: 2"
    return f"exactly: {rule.plus}" if rule.only else _keys(of=rule.multiple, plus=rule.plus)


def _keys(**counts: int) -> str:
    first, *others = counts.items()
    return ", ".join(f"{key}: {count}" for key, count in (first, *(each for each in others if each[1])))


def _error(where: tuple[str | int, ...], sentence: str) -> InitErrorDetails:
    return InitErrorDetails(type=refuse(sentence), loc=where, input=None)
