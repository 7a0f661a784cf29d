"""What is guessed and what is missing, from a new spec to everything that is printed of it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import schematics
from schematics.cli import main
from schematics.design.guessed import GUESSED

SWATCH = "19 sts 14 rows over 20 cm, 46 g"


def call(*arguments: object) -> Result:
    result = CliRunner().invoke(main, [*map(str, arguments)])
    assert result.exit_code == 0, result.output
    return result


@pytest.fixture(scope="module")
def spec(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A spec with a swatch, a stretch and turning chains that were guessed, graded."""
    path = tmp_path_factory.mktemp("new") / "lake.yaml"
    call(
        "new", path, "--swatch", SWATCH, "--sizes", "child/4", "--panel-stitch", "crossed ripples",
        "--stretch", "20 % 10 %", "--panel-stretch", "12 % 5 %", "--rib-stretch", "10 % 35 %",
        "--rib-swatch", "20 sts 22 rows over 20 cm, 50 g", "--no-ask",
    )  # fmt: skip
    call("grade", path, "--write")
    return path


@pytest.fixture(scope="module")
def confirmed(spec: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same once the designer has deleted the key."""
    path = tmp_path_factory.mktemp("confirmed") / "lake.yaml"
    path.write_text(spec.read_text("utf-8").replace(", guessed: true", ""), "utf-8")
    return path


@pytest.mark.slow
@pytest.mark.parametrize("command", [["check"], ["figures"], ["pattern"], ["fit", "--age", "4"]], ids=str)
def test_every_report_says_what_is_guessed_until_it_is_confirmed(
    command: list[str], spec: Path, confirmed: Path
) -> None:
    name, *options = command
    assert GUESSED in call(name, spec, *options).stdout.replace("\n", " ").casefold()
    assert "guessed" not in call(name, confirmed, *options).stdout.replace("is not guessed", "")


@pytest.mark.slow
def test_every_sheet_and_the_page_of_the_maker_too(spec: Path, confirmed: Path) -> None:
    sheets, others = schematics.draw(schematics.read(spec)), schematics.draw(schematics.read(confirmed))
    for sheet in (sheets["4", "pieces"], sheets["4", "worn"], sheets["sizes"]):
        assert f"* {GUESSED}" in sheet.svg
        assert "* panel: " in sheet.svg
        assert "* main: " not in sheet.svg
    assert "(guessed," in sheets["4", "pieces"].svg, "the foundation chain counts the guessed turning chains"
    assert "guessed" not in others["4", "pieces"].svg


@pytest.mark.slow
def test_check_lists_what_the_pattern_lacks_and_stops_nothing(spec: Path) -> None:
    lines = [" ".join(line.split()) for line in call("check", spec).stdout.splitlines()]
    after = lines[lines.index("Missing for the written pattern") :]
    assert "designer title pattern.designer" in after
    assert "hook for the body materials fabrics.main.hook" in after
    (design,) = json.loads(call("check", spec, "--json").stdout)["designs"]
    assert design["verdict"] == "mind"
    assert all(each["severity"] != "stop" for size in design["sizes"] for each in size["findings"])
    assert design["guessed"] == [
        {"key": "fabrics.panel.swatch", "what": "gauge of the centre panel"},
        {"key": "fabrics.panel.turning_chains", "what": "turning chains of the centre panel"},
    ]
    assert {"key": "pattern.seam", "what": "stitch of the seams", "place": "seams"} in design["missing"]


@pytest.mark.slow
def test_every_mark_of_the_pattern_is_in_its_list_and_the_other_way_about(spec: Path) -> None:
    (design,) = json.loads(call("check", spec, "--json").stdout)["designs"]
    lacking = {each["what"] for each in design["missing"]}
    *parts, last = call("pattern", spec).stdout.split("\n## ")
    assert set(re.findall(r"\[to be added: ([^]]+)\]", "".join(parts))) == lacking
    assert [what for what in lacking if what not in last] == []
