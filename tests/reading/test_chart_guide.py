"""What the guide to specs and the schema say of charts: every example is read, every list is complete."""

from __future__ import annotations

import re
from pathlib import Path

import jsonschema

from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.stitch_list import STITCHES, TRADE
from schematics.crochet.stitches import StitchBook
from schematics.crochet.symbols import COUNTED, StrokeKind, read_symbol
from schematics.reading.chart_block import ChartBlock, OwnStitchBlock
from schematics.reading.json_schema import design_schema
from tests.crochet.panels import PANELS
from tests.reading.files import GOOD, read

GUIDE = (Path(__file__).parents[2] / "specs" / "README.md").read_text("utf-8")
SECTION = GUIDE.split("## Stitch charts\n")[1].split("\n## ")[0]
ROWS, LIST = re.findall(r"\n\n(\|.*?)\n\n", SECTION, re.DOTALL)
AFTER = SECTION.split(LIST)[1]
SCHEMA = design_schema()


def code(text: str) -> list[str]:
    return re.findall(r"`([^`]+)`", text)


def first_cells(table: str) -> list[str]:
    return [line.split(" | ")[0] for line in table.splitlines()[2:]]


def test_each_row_shown_is_a_row() -> None:
    rows = [row for cell in first_cells(ROWS) for row in code(cell)]
    assert len(rows) > 15
    for row in rows:
        colours = frozenset("AB") if "with" in row else frozenset[str]()
        assert str(parse_row(row, TRADE, colours)) == row


def test_the_spec_shown_is_read(tmp_path: Path) -> None:
    (block,) = re.findall(r"```yaml\n(.*?)```", SECTION, re.DOTALL)
    head, fabric = GOOD.split("  cable:\n")
    rest = fabric.split("  rib:\n")[1]
    chart = read(tmp_path, f"{head}{block}  rib:\n{rest}").parts.centre_panel.chart
    assert chart
    assert (len(chart.setup), len(chart.repeat)) == (2, 4)
    assert "lp" in {worked.stitch.abbreviation for worked in chart.used()}


def test_the_list_names_every_stitch_or_its_family() -> None:
    shown = {name for line in LIST.splitlines() for name in code(line.split(" | ")[0])}
    assert all(TRADE.find(name) for name in shown)
    families = {re.sub(r"\d", "#", name) for name in shown}
    left = {
        each.abbreviation
        for each in STITCHES
        if each.abbreviation not in shown
        and re.sub(r"\d|hdc|dc|dtr|tr|sc", "#", each.abbreviation)
        not in {re.sub(r"hdc|dc|dtr|tr|sc", "#", family) for family in families}
    }
    assert left == set()


def test_what_the_list_says_they_use_and_make() -> None:
    for line in LIST.splitlines()[2:]:
        names, uses, makes = line.strip("| ").split(" | ")
        for name in code(names):
            stitch = TRADE.find(name)
            assert stitch
            if re.fullmatch(r"\d+", uses):
                assert stitch.uses == int(uses)
            else:
                assert stitch.uses == int(re.findall(r"\d", name)[0])
            if re.fullmatch(r"\d+", makes):
                assert stitch.makes == int(makes)
            else:
                assert stitch.makes == {"7-dc sh": 7, "sh": 5, "V-st": 3}[name]


def test_the_uk_names_shown() -> None:
    (sentence,) = re.findall(r"In UK terms (.*?)\.\n", AFTER, re.DOTALL)
    uk = StitchBook(STITCHES, uk=True)
    pairs = code(sentence)
    assert [(name, uk.name(found)) for name in pairs[::2] if (found := TRADE.find(name))][:2] == [
        ("sl st", "ss"), ("sk", "miss"),
    ]  # fmt: skip
    assert all(uk.find(name) for name in pairs[4:])


def test_every_stroke_and_every_key_is_named() -> None:
    named = {each for text in code(AFTER) for each in _kinds(text)}
    assert named == set(StrokeKind)
    keys = " ".join(code(SECTION))
    for block in (ChartBlock, OwnStitchBlock):
        for key in block.model_fields:
            assert re.search(rf"\b{key}\b", keys + SECTION), key
    assert all(f"3 {kind}" in AFTER or f"2 {kind}" in AFTER for kind in COUNTED)


def _kinds(text: str) -> set[StrokeKind]:
    try:
        return {stroke.kind for stroke in read_symbol(text)}
    except ValueError:
        return set()


def test_the_schema_tells_of_strokes_and_rows() -> None:
    defs = SCHEMA["$defs"]
    for kind in StrokeKind:
        assert kind in defs["OwnStitchBlock"]["properties"]["symbol"]["description"]
    row = defs["ChartBlock"]["properties"]["repeat"]["items"]
    assert all(str(parse_row(example)) == example for example in row["examples"])


def test_the_schema_takes_every_panel() -> None:
    keys = SCHEMA["$defs"]["FabricBlock"]["properties"]
    taken = ("multiple", "row_repeat", "stitches", "chart")
    schema = {"$defs": SCHEMA["$defs"], "properties": {key: keys[key] for key in taken}}
    validator = jsonschema.Draft202012Validator(schema)
    for panel in PANELS:
        assert list(validator.iter_errors(panel.fabric_keys)) == [], panel.name
        assert not validator.is_valid({**panel.fabric_keys, "chart": {"rows": ["sc across"]}})
