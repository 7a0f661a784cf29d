"""A textured panel as a designer would write it, with the counts that were worked out on paper."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import yaml

from schematics.crochet.charts.chart import Chart
from schematics.crochet.fabric import CountRule, Fabric, RowRule, Swatch
from schematics.reading.chart_block import ChartBlock, OwnStitchBlock, chart_of
from tests.crochet.panels.by_hand import Row, Token, tokens, work

Counts = dict[int, tuple[int, ...]]


@dataclass(frozen=True, kw_only=True)
class Panel:
    """One panel.

    ``counts``: for each of two widths the stitches after each row, every section once, counted on paper.
    ``written_out``: for a row, from 1, on the narrower of them, its stitches one by one, as on paper.
    """

    name: str
    shows: str
    multiple: tuple[int, int] | int
    repeat: tuple[str, ...]
    setup: tuple[str, ...] = ()
    closing: tuple[str, ...] = ()
    counts: Counts
    written_out: Mapping[int, str] = field(default_factory=dict)
    first_row: str = "RS"
    adds: tuple[int, int, int] = (0, 0, 0)
    colours: Mapping[str, str] = field(default_factory=dict)
    carried: bool = True
    own: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    uk: bool = False
    """Written in UK terms."""

    @property
    def rule(self) -> CountRule:
        if isinstance(self.multiple, int):
            return CountRule.exactly(self.multiple)
        return CountRule(multiple=self.multiple[0], plus=self.multiple[1])

    @property
    def row_rule(self) -> RowRule:
        return RowRule(setup=len(self.setup), repeat=len(self.repeat), closing=len(self.closing))

    @property
    def rows(self) -> tuple[str, ...]:
        return (*self.setup, *self.repeat, *self.closing)

    @property
    def fabric_keys(self) -> dict[str, Any]:
        """The keys of the fabric in a spec, swatch and stretch left out."""
        chart: dict[str, Any] = {
            section: list(rows)
            for section, rows in (("setup", self.setup), ("repeat", self.repeat), ("closing", self.closing))
            if rows
        }
        chart["first_row"] = self.first_row
        chart["terms"] = "UK" if self.uk else "US"
        if any(self.adds):
            chart["adds"] = dict(zip(("setup", "repeat", "closing"), self.adds, strict=True))
        if self.colours:
            chart |= {"colours": dict(self.colours), "carried": self.carried}
        multiple = self.multiple
        keys: dict[str, Any] = {
            "multiple": {"exactly": multiple}
            if isinstance(multiple, int)
            else {"of": multiple[0], "plus": multiple[1]},
            "row_repeat": {"rows": len(self.repeat), "setup": len(self.setup), "closing": len(self.closing)},
        }
        if self.own:
            keys["stitches"] = {name: dict(each) for name, each in self.own.items()}
        return {**keys, "chart": chart}

    @property
    def yaml(self) -> str:
        """The same as it stands in a spec, under the fabric."""
        text: str = yaml.safe_dump(self.fabric_keys, sort_keys=False, width=10_000)
        return "".join(f"    {line}\n" for line in text.splitlines())

    @cached_property
    def chart(self) -> Chart:
        """The chart, as the program reads it."""
        keys = self.fabric_keys
        own = {name: OwnStitchBlock.model_validate(each) for name, each in keys.get("stitches", {}).items()}
        return chart_of(ChartBlock.model_validate(keys["chart"]), own)

    @property
    def fabric(self) -> Fabric:
        """A fabric worked from the chart, in a plausible gauge."""
        swatch = Swatch(stitches=14, rows=12, width_cm=10, height_cm=10)
        return Fabric(
            name=self.name, stitch=self.shows, swatch=swatch, stitch_rule=self.rule, row_rule=self.row_rule,
            chart=self.chart,
        )  # fmt: skip

    def own_table(self) -> dict[str, tuple[int, int]]:
        return {name: (each.get("uses", 1), each.get("makes", 1)) for name, each in self.own.items()}

    def tokens(self, row: str, width: int) -> list[Token]:
        return tokens(row, width, self.own_table(), uk=self.uk)

    def worked_by_hand(self, width: int, repeats: int) -> Iterator[Row]:
        """The rows of a piece, worked as a maker would."""
        order = (*self.setup, *self.repeat * repeats, *self.closing)

        def written() -> Iterator[list[Token]]:
            offered = width
            for row in order:
                stitches = self.tokens(row, offered)
                offered = sum(token.makes for token in stitches)
                yield stitches

        return work(written(), width, right=self.first_row == "RS")
