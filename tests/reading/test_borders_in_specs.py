"""The borders of a spec: what is read, and where and how everything wrong with one is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.crochet.fabric import CountRule, RowRule
from schematics.design.border import BorderEdge
from tests.borders_for_tests import EDGING, YOKE
from tests.reading.files import read, told
from tests.specs_for_tests import SPEC

TEXT = SPEC.replace("sizes:\n", f"{EDGING}{YOKE}sizes:\n")
FOLDED = TEXT.replace("construction: flared", "construction: folded")


def line(text: str, part: str) -> int:
    """The line, from 1, that the part is on; the first of several."""
    return text[: text.index(part)].count("\n") + 1


def test_borders_are_the_bodys_fabric_with_a_pattern_of_their_own(tmp_path: Path) -> None:
    parts = read(tmp_path, TEXT).parts
    edging, yoke = parts.borders
    assert (edging.name, edging.stitch, edging.at, edging.rows) == ("hem edging", "shells", BorderEdge.HEM, 6)
    assert (yoke.name, yoke.at, yoke.rows) == ("yoke", 3, 6)
    assert (edging.stitch_rule, edging.row_rule) == (
        CountRule(multiple=8),
        RowRule(setup=1, repeat=2, closing=1),
    )
    fabric = edging.fabric(parts.body)
    assert (fabric.swatch, fabric.stretch_across, fabric.turning_chains) == (
        parts.body.swatch,
        parts.body.stretch_across,
        parts.body.turning_chains,
    )
    assert fabric.chart == edging.chart
    assert [str(row) for row in edging.chart.rows] == [  # type: ignore[union-attr]
        "sc across",
        "(sk 2, 5 dc in next st, sk 2, 3 sc) across",
        "dc across",
        "sc across",
    ]


def test_a_border_needs_no_chart(tmp_path: Path) -> None:
    plain = SPEC.replace("sizes:\n", "borders: {welt: {at: neck, stitch: back loop only, rows: 1}}\nsizes:\n")
    (welt,) = read(tmp_path, plain).parts.borders
    assert (welt.at, welt.chart, welt.stitch_rule) == (BorderEdge.NECK, None, CountRule())


def test_the_swatches_of_a_design_that_is_changed_are_those_of_its_borders(tmp_path: Path) -> None:
    parts = read(tmp_path, TEXT).parts
    changed = parts.with_fabrics(lambda _: parts.centre_panel)
    assert changed.borders == parts.borders
    assert changed.borders[0].fabric(changed.body).swatch == parts.centre_panel.swatch


@pytest.mark.parametrize(
    ("old", "new", "at", "problem"),
    [
        (
            "    at: hem\n",
            "    at: cuff\n",
            "at: cuff",
            'borders."hem edging".at: expected neck, hem or the number of the body row it begins on, got '
            '\'cuff\'',
        ),
        (
            "    at: 3\n",
            "    at: 0\n",
            "at: 0",
            "borders.yoke.at: expected neck, hem or the number of the body row it begins on, got 0",
        ),
        (
            "    at: 3\n",
            "    at: true\n",
            "at: true",
            "borders.yoke.at: expected neck, hem or the number of the body row it begins on, got true",
        ),
        (
            "    at: 3\n",
            "",
            "yoke:",
            "borders.yoke: the key 'at' is missing: where on the body it is worked: neck, hem, or the number "
            "of the body row it begins on",
        ),
        (
            "    rows: 6\n    multiple: {of: 8}",
            "    multiple: {of: 8}",
            "hem edging:",
            "borders.\"hem edging\": the key 'rows' is missing: how many rows of the body it is",
        ),
        (
            "rows: 6\n    multiple: {of: 8}",
            "rows: 7\n    multiple: {of: 8}",
            "rows: 7",
            'borders."hem edging".rows: expected whole repeats as row_repeat says, such as 6 or 8 rows, '
            'got 7',
        ),
        (
            "rows: 6\n    multiple: {of: 8}",
            "rows: 1\n    multiple: {of: 8}",
            "rows: 1\n    multiple",
            'borders."hem edging".rows: expected whole repeats as row_repeat says, such as 2 rows, got 1',
        ),
        (
            "    stitch: shells\n",
            "    stitch: shells\n    swatch: {stitches: 20, rows: 12, width: 10, height: 10}\n",
            "swatch: {stitches: 20, rows: 12",
            "borders.\"hem edging\": unknown key 'swatch'; the keys here are 'stitch', 'multiple', "
            "'row_repeat', "
            "'stitches', 'chart', 'at' and 'rows'",
        ),
        (
            "  yoke:\n",
            "  cable:\n",
            "  cable:\n    at: 3",
            "borders.cable: a fabric is called 'cable' too; give the border another name",
        ),
        (
            "  yoke:\n",
            "  Neck band:\n",
            "  Neck band:\n",
            "borders.\"Neck band\": a part is called 'Neck band' too; give the border another name",
        ),
        (
            "      closing: [sc across]\n",
            "      closing: ['sc2tog, sc across, sc2tog']\n      adds: {closing: -2}\n",
            "adds: {closing: -2}",
            'borders."hem edging".chart.adds: a border leaves the body as many stitches as it found; '
            'delete \'adds\', '
            "and chart rows that keep their count",
        ),
        (
            "(sk 2, 5 dc in next st, sk 2, 3 sc) across",
            "(sk 2, 5 dc in next st, sk 2, 2 sc) across",
            "(sk 2, 5 dc in next st, sk 2, 2 sc)",
            'borders."hem edging".chart.repeat[0]: column 1 of the row: the row below has a multiple of 8 '
            'stitches, so '
            "expected 8 stitches (or a number that goes into it) to be worked across, got 7",
        ),
        (
            "    multiple: {of: 8}\n",
            "",
            "chart:",
            'borders."hem edging".chart: a chart needs the fabric\'s stitch multiple; add it, such as '
            'multiple: {of: 8}',
        ),
    ],
)  # fmt: skip
def test_each_malformed_border_gets_its_own_sentence(
    old: str, new: str, at: str, problem: str, tmp_path: Path
) -> None:
    assert TEXT.count(old) == 1 or old.startswith("      closing")
    text = TEXT.replace(old, new, 1)
    assert told(tmp_path, text) == [f"{line(text, at)}: {problem}"]


def test_a_folded_body_has_no_rows_along_the_neck(tmp_path: Path) -> None:
    text = FOLDED.replace("    at: 3\n", "    at: neck\n")
    assert (
        f"{line(text, 'at: neck')}: borders.yoke.at: a folded body has no whole rows along the neck; "
        "expected "
        "hem or the number of the body row it begins on"
    ) in told(tmp_path, text)


def test_a_design_has_few_borders(tmp_path: Path) -> None:
    welts = "".join(f"  welt {each}: {{at: {each}, stitch: ridge, rows: 1}}\n" for each in range(1, 12))
    text = SPEC.replace("sizes:\n", f"borders:\n{welts}sizes:\n")
    assert told(tmp_path, text) == [
        f"{line(text, 'borders:')}: borders: expected at most 10 entries, got a mapping"
    ]
