"""``schematics workings``: the sheet as it is printed."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from schematics.cli import main
from tests.analysis.workings.calculator import PLAIN
from tests.shipped import shipped_results
from tests.specs_for_tests import SPEC, TIGHT_NECK, write

SPECS = Path(__file__).parents[3] / "specs"
INCHES = SPEC.replace("unit: cm", "unit: in").replace("width: 10, height: 10", "width: 4, height: 4")


def call(*arguments: object) -> Result:
    return CliRunner().invoke(main, ["workings", *map(str, arguments)])


def lines(said: str) -> list[str]:
    """The printed lines with their wrapping undone."""
    joined: list[str] = []
    indents: list[int] = []
    for line in said.splitlines():
        indent = len(line) - len(line.lstrip())
        begins = indent != 2 or bool(re.match(r"  [a-z][^=]*: ", line))
        if joined and line.strip() and not begins and indents[-1] == indent:
            joined[-1] += " " + line.strip()
        else:
            joined.append(line.strip())
            indents.append(indent)
    return joined


def test_a_measurement_is_its_count_over_its_swatch(tmp_path: Path) -> None:
    text = SPEC.replace("hem: 176", "hem: 150").replace(
        "swatch: {stitches: 14, rows: 10, width: 10, height: 10}",
        "swatch: {stitches: 19, rows: 14, width: 20, height: 20}",
    )
    said = call(write(tmp_path, text), "--size", "4").stdout
    assert "body hem edge: 150 sts / (19 sts / 20 cm) = 157.8947 cm\n" in said
    assert "printed 158 cm (62 1/4 in); swatch of half" in said
    assert "Size 4 (line 29): Finished measurements" in said
    assert "Size 6 years" not in said


def test_an_inch_design_is_worked_in_inches(tmp_path: Path) -> None:
    said = call(write(tmp_path, INCHES), "--size", "4").stdout
    assert "body hem edge: 176 sts / (14 sts / 4 in) = 50.2857 in\n" in said
    assert "printed 127.5 cm (50 1/4 in);" in said
    assert "√((" in said


@pytest.mark.slow
def test_a_swatch_in_the_other_unit_is_converted_in_the_open(tmp_path: Path) -> None:
    text = INCHES.replace(
        "swatch: {stitches: 16, rows: 10, width: 4, height: 4}",
        "swatch: {stitches: 16, rows: 10, width: 10 cm, height: 10 cm}",
    )
    said = call(write(tmp_path, text), "--size", "4").stdout
    assert "panel width: 12 sts / (16 sts / 10 cm) / 2.54 cm/in = 2.9528 in\n" in said
    other = SPEC.replace("width: 10, height: 10}", "width: 4 in, height: 10}", 1)
    said = call(write(tmp_path, other), "--size", "4").stdout
    assert "body neck edge: 60 sts / (14 sts / 4 in) × 2.54 cm/in = 43.5429 cm\n" in said


@pytest.mark.slow
@pytest.mark.parametrize("name", ["tidepool", "saltmarsh", "driftwood"])
def test_what_is_printed_comes_to_what_is_printed(name: str) -> None:
    said = call(SPECS / f"{name}.yaml", "--size", "6").stdout
    worked = 0
    for line in lines(said):
        found = re.fullmatch(r"[^:]+(?:: [a-z ,-]+)?: (.+) = (-?[\d.]+) ?(cm²|cm|°)", line)
        if found:
            assert float(found[2]) == pytest.approx(PLAIN(found[1]), abs=0.01 + 1e-6, rel=5e-5), line
            worked += 1
    assert worked >= 39
    (six,) = (result for result in shipped_results(name) if result.size.name == "6")
    assert len(re.findall(r"printed [\d.]+ cm \(", said)) == len(six.garment.finished) + len(["drop"])


def test_as_comma_separated_values(tmp_path: Path) -> None:
    said = call(write(tmp_path), "--csv").stdout
    rows = list(csv.DictReader(io.StringIO(said)))
    assert {row["size"] for row in rows} == {"4", "6 years"}
    hem = next(row for row in rows if row["key"] == "body.hem")
    assert (hem["arithmetic"], hem["result"], hem["unit"]) == ("176 sts / (14 sts / 10 cm)", "125.714", "cm")
    assert (hem["printed"], hem["swatch"], hem["source"]) == (
        "125.5 cm (49 1/2 in)",
        "half double",
        "body.hem",
    )
    for row in rows:
        assert PLAIN(row["arithmetic"]) == pytest.approx(float(row["result"]), abs=0.005, rel=5e-5), row


def test_what_goes_wrong(tmp_path: Path) -> None:
    path = write(tmp_path)
    result = call(path, "--size", "7")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"{path}: no size '7'; the sizes are 4, 6 years\n"
    assert call(write(tmp_path, TIGHT_NECK)).exit_code == 1


def test_an_arm_run_off_the_hem_has_no_reach_to_work_out(tmp_path: Path) -> None:
    result = call(write(tmp_path, SPEC.replace("from_front: 40", "from_front: 400")), "--size", "4")
    assert result.exit_code == 1
    assert "body hem edge: 176 sts" in result.stdout
    assert "reach, nape" not in result.stdout
