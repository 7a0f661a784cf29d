"""Numbers beyond what can be worked, worn or drawn: each has its sentence before anything is made of it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest
from click.testing import CliRunner

from schematics.batch.lock import LOCK
from schematics.cli import main
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from tests.garment.constructions.samples import fabric, garment, parts
from tests.program import files_in
from tests.reading.files import edited, read, told, write

Edits = Sequence[tuple[str, str]]

SWATCH = "{stitches: 19, rows: 14, width: 20, height: 20, mass: 38}"
BALL = "ball_mass: 100, ball_length: 90"
SAG = "  neck_clearance_cm: 3\n"
BODY = "body: {neck: 44, hem: 168, rows: 26}"
ARMS = "arms: {from_front: 34, stitches: 18}"
PANEL = "panel: {stitches: 14, rows: 43}"
NECK_BAND, ARM_BANDS = "neck_band: {stitches: 5}", "arm_bands: {stitches: 6}"
BLOCK = "    body:\n      neck: 48\n      hem: 180\n      rows: 28\n      increase_every: 2\n"

THREAD = (
    (SWATCH, "{stitches: 40, rows: 60, width: 10, height: 10}"),
    ("stitches: 12\n      rows: 11.5\n", "stitches: 40\n      rows: 60\n"),
    ("{stitches: 11, rows: 12,", "{stitches: 40, rows: 60,"),
)
"""Every fabric so fine that two thousand stitches are five metres."""

MITRED = (
    ("construction: flared", "construction: mitred"),
    (BODY, "body: {neck: 44, lines: 4, rows: 26, increase_rows: 15}"),
)
TO_GRADE = (
    ("sizes:\n", "grading: {intent: {body.hem: 176 cm}}\nsizes:\n"),
    (BODY, "body: {neck: 44, rows: 26}"),
)


def charted(of: int, row: str, rows: int) -> Edits:
    return (
        ("multiple: {of: 4, plus: 2}", f"multiple: {{of: {of}}}"),
        ("row_repeat: {rows: 8, setup: 2, closing: 1}", f"row_repeat: {{rows: {rows}}}"),
        ("turning_chains: 3\n", f"turning_chains: 3\n    chart: {{repeat: {[row] * rows}}}\n"),
    )


CASES: Sequence[tuple[str, Edits, Sequence[str]]] = [
    ("loose stitches", [(SWATCH, "{stitches: 0.001, rows: 14, width: 200, height: 20}")],
     ["12: fabrics.body.swatch.stitches: expected 0.5 to 200 stitches to 10 cm, got 5e-05"]),
    ("hardly a stitch", [(SWATCH, "{stitches: 1.0e-300, rows: 14, width: 20, height: 20}")],
     ["12: fabrics.body.swatch.stitches: expected 0.5 to 200 stitches to 10 cm, got 5e-301"]),
    ("tall rows", [(SWATCH, "{stitches: 19, rows: 0.9, width: 20, height: 20}")],
     ["12: fabrics.body.swatch.rows: expected 0.5 to 200 rows to 10 cm, got 0.45"]),
    ("tight both ways", [(SWATCH, "{stitches: 1000, rows: 1000, width: 1, height: 1}")],
     ["12: fabrics.body.swatch.stitches: expected 0.5 to 200 stitches to 10 cm, got 10000",
      "12: fabrics.body.swatch.rows: expected 0.5 to 200 rows to 10 cm, got 10000"]),
    ("a swatch in inches", [("rows: 11.5\n", "rows: 9\n"), ("height: 6 in", "height: 78 in")],
     ["18: fabrics.cable.swatch.rows: expected 0.5 to 200 rows to 10 cm, got 0.45427"]),
    ("heavy fabric", [(SWATCH, "{stitches: 19, rows: 14, width: 20, height: 20, mass: 5000}")],
     ["12: fabrics.body.swatch.mass: expected 0.001 to 2 g to the square cm, got 12.5"]),
    ("light fabric", [(SWATCH, "{stitches: 19, rows: 14, width: 20, height: 20, mass: 0.3}")],
     ["12: fabrics.body.swatch.mass: expected 0.001 to 2 g to the square cm, got 0.00075"]),
    ("yarn like a hair", [(BALL, "ball_mass: 1, ball_length: 10000")],
     ["6: yarn.ball_length: expected 0.02 to 100 m to the gram, got 10000"]),
    ("yarn like a beam", [(BALL, "ball_mass: 5000, ball_length: 90")],
     ["6: yarn.ball_length: expected 0.02 to 100 m to the gram, got 0.018"]),
    ("a hem pulled up to the neck", [(SAG, "  hem_sag_fraction: -1\n")],
     ["36: limits.hem_sag_fraction: expected a fraction from 0 to 2, such as 0.15 or '15 %', got -1"]),
    ("a hem pulled up", [(SAG, "  hem_sag_fraction: -2 %\n")],
     ["36: limits.hem_sag_fraction: expected a fraction from 0 to 2, such as 0.15 or '15 %', got '-2 %'"]),
    ("lines of increases",
     [*MITRED, (BLOCK, "    body: {neck: 48, lines: 65, rows: 28, increase_rows: 1}\n")],
     ['53: sizes."6".body.lines: expected 64 or less, got 65']),
    ("circles", [(BODY, "body: {neck: 44, hem: 168, rows: 2}")],
     ['42: sizes."4".body: expected the body to open to at most 6 full circles, got 7.3; check the hem and '
      "the rows"]),
    ("circles, counts one to a line", [("rows: 28\n", "rows: 1\n")],
     ['53: sizes."6".body: expected the body to open to at most 6 full circles, got 15.5; check the hem and '
      "the rows"]),
    ("a long hem in one row", [(BODY, "body: {neck: 2, hem: 2000, rows: 1}")],
     ['42: sizes."4".body.hem: expected a body.hem of at most 1000 cm, got 2105 cm']),
    ("a long hem by lines",
     [*MITRED, (BLOCK, "    body: {neck: 48, lines: 40, rows: 28, increase_rows: 14}\n")],
     ['53: sizes."6".body.increase_rows: expected a body.hem of at most 1000 cm, got 1229 cm']),
    ("two thousand by two thousand", [(BODY, "body: {neck: 900, hem: 2000, rows: 2000}")],
     ['42: sizes."4".body.hem: expected a body.hem of at most 1000 cm, got 2105 cm',
      '42: sizes."4".body.rows: expected a body.depth of at most 1000 cm, got 2857 cm']),
    ("two thousand by two thousand of thread",
     [*THREAD, (BODY, "body: {neck: 1900, hem: 2000, rows: 2000}"),
      (PANEL, "panel: {stitches: 1000, rows: 1001}")],
     ['42: sizes."4".body: expected at most 1000000 stitches in the body, got 2000 by 2000 rows',
      '44: sizes."4".panel: expected at most 1000000 stitches in the centre panel, got 1000 by 1001 rows']),
    ("bands of thread",
     [*THREAD, (BODY, "body: {neck: 1986, hem: 2000, rows: 200}"),
      (ARMS, "arms: {from_front: 34, stitches: 900}"),
      (NECK_BAND, "neck_band: {stitches: 501}"), (ARM_BANDS, "arm_bands: {stitches: 2000}")],
     ['45: sizes."4".neck_band: expected at most 1000000 stitches in the neck band, got 501 by 2000 rows',
      '46: sizes."4".arm_bands: expected at most 1000000 stitches in the arm band, got 2000 by 900 rows']),
    ("a long panel", [(PANEL, "panel: {stitches: 14, rows: 2000}")],
     ['44: sizes."4".panel.rows: expected a panel.length of at most 1000 cm, got 2650 cm']),
    ("counts too long together", [(BODY, "body: {neck: 900, hem: 940, rows: 700}"),
                                  (PANEL, "panel: {stitches: 100, rows: 43}")],
     ['40: sizes."4": expected a neck.edge of at most 1000 cm, got 1031 cm']),
    ("a count by hand, others to be found", [*TO_GRADE, (NECK_BAND, "neck_band: {stitches: 1200}")],
     ['46: sizes."4".neck_band.stitches: expected a neck_band.depth of at most 1000 cm, got 1091 cm']),
    ("a wide chart", charted(2000, "(999 dc, 999 dc, 2 dc) across", 6),
     ["24: fabrics.cable.chart: its rows are 24000 stitches on a width of 4000; expected at most 20000"]),
    ("a high chart", charted(80, "(80 dc) across", 126),
     ["24: fabrics.cable.chart: its rows are 20160 stitches on a width of 160; expected at most 20000"]),
]  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize(
    ("edits", "problems"), [case[1:] for case in CASES], ids=[case[0].replace(" ", "-") for case in CASES]
)
def test_each_has_its_own_sentence(edits: Edits, problems: Sequence[str], tmp_path: Path) -> None:
    assert told(tmp_path, edited(*edits)) == problems


@pytest.mark.slow
@pytest.mark.parametrize(
    "edits",
    [
        [(SWATCH, "{stitches: 1, rows: 10, width: 20, height: 200}"),
         (BODY, "body: {neck: 44, hem: 50, rows: 9}"), (BLOCK, "    body: {neck: 44, hem: 50, rows: 9}\n")],
        [(SWATCH, "{stitches: 20, rows: 200, width: 1, height: 10, mass: 20}")],
        [(SAG, "  hem_sag_fraction: 0\n")],
        [(BALL, "ball_mass: 1000, ball_length: 20")],
        [(BODY, "body: {neck: 44, hem: 168, rows: 3}")],
        [(BODY, "body: {neck: 900, hem: 950, rows: 700}")],
        [*THREAD, (BODY, "body: {neck: 1000, hem: 2000, rows: 500}"),
         (PANEL, "panel: {stitches: 1000, rows: 1000}")],
        charted(80, "(80 dc) across", 125),
    ],
)  # fmt: skip
def test_what_just_can_be_is_read(edits: Edits, tmp_path: Path) -> None:
    assert len(read(tmp_path, edited(*edits)).sizes) == 2


@pytest.mark.slow
def test_every_command_that_reads_a_spec_says_so_and_stops(tmp_path: Path) -> None:
    path = write(tmp_path, edited((BODY, "body: {neck: 44, hem: 2000, rows: 26}")))
    build = ["build", "--jobs", "1", "--out", str(tmp_path / "out")]
    for command in (["check"], build, ["figures"], ["grade"]):
        result = CliRunner().invoke(main, [command[0], str(path), *command[1:]])
        assert result.exit_code == 2
        assert result.stderr == (
            f'{path}:42: sizes."4".body.hem: expected a body.hem of at most 1000 cm, got 2105 cm\n'
        )
    assert files_in(tmp_path / "out") == [LOCK]


@pytest.mark.parametrize("gauge", [(10, 10), (5, 20)])
def test_an_arc_has_so_many_points_however_far_it_goes_round(gauge: tuple[float, float]) -> None:
    """318 circles, and four times as many: a point to the fiftieth of a radian were over 100,000."""
    made = garment(
        FlaredBody(neck=2, hem=2000, rows=1), HemArms(from_front=400, stitches=40), parts(fabric(*gauge))
    )
    assert len(made.piece("body").outline.exterior.coords) < 6000
