"""The example construction of the contributors' guide, as it stands there: every command knows it."""

from __future__ import annotations

import json
import math
import re
import sys
import types
from collections.abc import Iterator
from pathlib import Path

import pytest

import schematics
from schematics import checks
from schematics.analysis.drape import hang_report
from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.document.writers import WRITERS, written
from schematics.drawing.ink.marks import Line
from schematics.drawing.sheets import DESIGN_SHEETS
from schematics.fitting.gauge import Gauge, parts_at_gauge, size_at_gauge
from schematics.fitting.page.page_data import page_data
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.pattern import figures
from schematics.reading.design_file import read_design
from schematics.reading.json_schema import design_schema
from tests.analysis.drape.made_up_hang import made_up_ranges
from tests.cli.test_cli import COMMANDS
from tests.fitting.page.at_gauge import lengths, worked_out
from tests.program import call, spare_bare_drawings, spare_drawings, spare_pictures, spare_rendering

GUIDE = Path(__file__).parents[1] / "DEVELOPERS.md"
SWATCH = "19 sts 14 rows over 20 cm, 40 g"
TIMES = 4
"""Stitches at the hem to each at the neck, where nothing else is answered."""


def said(*arguments: str) -> str:
    """What a command prints that ends well; minor findings are no matter here."""
    result = call(*arguments)
    assert result.exit_code == 0, result.output
    return result.stdout


def example(name: str, patch: pytest.MonkeyPatch) -> types.ModuleType:
    """The example of the guide that stands in the file of that module."""
    text = GUIDE.read_text("utf-8")
    before = f"`{name.replace('.', '/')}.py`:\n\n```python\n"
    code = text[text.index(before) + len(before) :].partition("```")[0]
    module = types.ModuleType(name)
    patch.setitem(sys.modules, name, module)
    exec(compile(code, str(GUIDE), "exec"), module.__dict__)
    return module


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder with a graded spec of the example in it, which is registered by its one line."""
    folder = tmp_path_factory.mktemp("fanned")
    with pytest.MonkeyPatch.context() as patch:
        module = example("schematics.garment.constructions.fanned", patch)
        patch.setitem(CONSTRUCTIONS, "fanned", module.FANNED)
        patch.delitem(sys.modules, "schematics.cli.new_command", raising=False)
        patch.chdir(folder)
        said(
            "new", "fan.yaml", "--construction", "fanned", "--sizes", "child/4",
            "--swatch", SWATCH, "--panel-swatch", SWATCH, "--rib-swatch", "19 sts 22 rows over 20 cm, 50 g",
        )  # fmt: skip
        said("grade", "fan.yaml", "--write")
        yield folder
        del sys.modules["schematics.cli.new_command"]


@pytest.fixture
def design(place: Path) -> Design:
    return read_design(place / "fan.yaml")


@pytest.mark.slow
def test_a_new_spec_has_what_the_construction_asks_for(place: Path, design: Design) -> None:
    assert f"{{times: {TIMES}" in (place / "fan.yaml").read_text("utf-8").replace("\n", " ")
    assert {size.body.times for size in design.sizes} == {TIMES}
    shown = re.sub(r"\s+", " ", said("new", "--help"))
    assert "fanned (worked from the neck down, so many stitches at the hem to each at the neck)" in shown
    assert "--times WORDS Stitches at the hem to each at the neck: such as 4." in shown
    refused = call("new", "other.yaml", "--construction", "fanned", "--swatch", SWATCH, "--times", "10")
    assert refused.stderr == "--times: expected a whole number from 1 to 9, got '10'\n"
    assert "fanned" in json.dumps(design_schema())


@pytest.mark.slow
def test_the_garment_has_so_many_stitches_at_the_hem(design: Design) -> None:
    for result in evaluate(design):
        body, neck = result.garment.piece("body"), result.size.body.neck
        assert (body.edge("neck").count, body.edge("hem").count) == (neck, TIMES * neck)
        finished = {each.key: each.length_cm for each in result.garment.finished}
        assert finished["body.hem"] == pytest.approx(TIMES * neck * 20 / 19)
        assert finished["body.hem"] == pytest.approx(2 * body.edge("hem").path.length, rel=1e-4)
        assert finished["arm.back"] == pytest.approx(
            (TIMES * neck - 2 * (result.size.arms.from_front + result.size.arms.stitches)) * 20 / 19
        )
        assert not [each for each in result.findings if each.severity == "stop"]


TOLD = {
    "check fan.yaml": "Size 4, chart row child/4",
    "grade fan.yaml": "Every count is given",
    "figures fan.yaml": "Increases of the body",
    "workings fan.yaml": "so many to each stitch of the neck",
    "sensitivity fan.yaml": "Size 4",
    "yarn fan.yaml --have 130g": "130 g",
    "fit fan.yaml --age 5 --size 4": "Size 4",
    "coverage fan.yaml --ages 5-5": "Fan poncho",
    "rescue fan.yaml --size 4 --measured hem=150cm": "Whom it fits as it is",
    "progress fan.yaml --size 4 --rows 10 --measured 90 14.5 --have 200g": "10 of 24 rows",
    "pattern fan.yaml": "**Row 2 (WS):** Ch 2",
    "compare fan.yaml other.yaml": "read “Fan”, not “Fan poncho”",
    "make fan.yaml --age 4 -o made": "files in made",
    "templates fan.yaml --size 4 -o fan.pdf": "",
    "hang fan.yaml": "arms level",
}
"""What is printed by each command that takes a spec, of what it tells of this one."""

ELSEWHERE = {"build", "explain", "new", "schema", "serve", "wearers"}
"""Commands that are tried by tests of their own below, or that take no spec of a construction."""


def test_every_command_is_tried_on_it() -> None:
    assert {command.split()[0] for command in TOLD} | ELSEWHERE == set(COMMANDS)


@pytest.mark.slow
@pytest.mark.parametrize("command", TOLD)
def test_every_command_knows_it(place: Path, monkeypatch: pytest.MonkeyPatch, command: str) -> None:
    """Nothing is drawn for what is made, nor hung on cloth, which `tests/garment/cloth` does."""
    spare_drawings(monkeypatch)
    monkeypatch.setattr(hang_report, "ranges", made_up_ranges)
    other = (place / "fan.yaml").read_text("utf-8").replace("title: Fan poncho", "title: Fan")
    (place / "other.yaml").write_text(other, encoding="utf-8")
    result = call(*command.split())
    assert result.exit_code in (0, 1), result.output
    assert not result.exception or isinstance(result.exception, SystemExit)
    assert TOLD[command] in re.sub(r"\s+", " ", result.stdout)


@pytest.mark.thorough
def test_it_hangs_on_cloth(place: Path) -> None:
    (size,) = json.loads(said("hang", "fan.yaml", "--json"))["designs"][0]["sizes"]
    assert size["without_cloth"] is None
    assert all(length["cloth_low_cm"] <= length["cloth_high_cm"] for length in size["lengths"])


@pytest.mark.slow
def test_its_hem_is_worked_out_by_hand(place: Path, design: Design) -> None:
    printed = re.sub(r"\s+", " ", said("workings", "fan.yaml", "--size", "4"))
    neck = design.sizes[0].body.neck
    assert f"{TIMES} × {neck} sts = {TIMES * neck}: so many to each stitch of the neck" in printed
    assert "reach, nape to band edge" in printed


@pytest.mark.slow
def test_advice_changes_its_counts_by_their_names(place: Path) -> None:
    """A child whose head does not pass needs a wider neck: more stitches there, or a wider panel."""
    told = call("fit", "fan.yaml", "--age", "5", "--head-girth", "63 cm", "--size", "4")
    assert re.search(r"more (stitch(es)? at the neck|repeats? across the panel|panel stitch)", told.stdout), (
        told.output
    )


def test_a_small_stash_shortens_it(place: Path) -> None:
    (need,) = json.loads(said("yarn", "fan.yaml", "--size", "4", "--json"))["designs"][0]["sizes"]
    told = call("yarn", "fan.yaml", "--size", "4", "--have", f"{need['buy_g'] * 0.93:.0f} g")
    assert "body rows" in told.stdout, told.output


@pytest.mark.slow
def test_the_makers_page_has_it_at_any_gauge(design: Design) -> None:
    gauge = Gauge(stitches_per_cm=1.05, rows_per_cm=0.62)
    made = size_at_gauge(design, design.sizes[0], parts_at_gauge(design.parts, gauge))
    size = json.loads(json.dumps(page_data(design, evaluate(design))["sizes"][0]))
    found = worked_out(size, lengths(design, gauge))
    for key in ("reach_cm", "spread_back_cm", "spread_front_cm", "neck.full_cm", "drop_cm"):
        assert found[key] == pytest.approx(made.facts[key], rel=1e-4), key


@pytest.mark.slow
def test_it_is_built(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    spare_bare_drawings(monkeypatch)
    spare_pictures(monkeypatch)
    spare_rendering(monkeypatch)
    said("build", "fan.yaml", "--jobs", "1", "--out", "output")
    drawn = {path.name for path in (place / "output").rglob("*.svg")}
    assert drawn >= {"pieces.svg", "assembly.svg", "worn.svg", "sizes.svg", "cover.svg"}


def test_the_example_check_is_reported_and_explained(monkeypatch: pytest.MonkeyPatch) -> None:
    family = example("schematics.checks.panel_share", monkeypatch).FAMILY
    monkeypatch.setattr(checks, "FAMILIES", (*checks.FAMILIES, family))
    (explanation,) = family.explanations
    for known in ("EXPLANATIONS", "EXPLAINED"):
        monkeypatch.setattr(checks, known, {**getattr(checks, known), explanation.code: explanation})
    monkeypatch.chdir(GUIDE.parent)
    (size,) = json.loads(said("check", "specs/tidepool.yaml", "--size", "6", "--json"))["designs"][0]["sizes"]
    (found,) = (each for each in size["findings"] if each["code"] == "PANEL-SHARE")
    assert found["figures"]["panel_cm"] == pytest.approx(14 * 20 / 22, abs=5e-4)
    assert found["severity"] == "good"
    assert "narrower" in said("explain", "panel-share")


@pytest.mark.slow
def test_the_example_sheet_is_drawn_to_scale_and_in_the_workbook(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(
        DESIGN_SHEETS, "depths", example("schematics.drawing.depths", monkeypatch).draw_depths
    )
    design = schematics.read(GUIDE.parent / "specs" / "tidepool.yaml")
    page = schematics.draw(design)["depths"]
    lines = [
        mark
        for group in page.sheet.groups
        if group.name == "depths"
        for mark in group.marks
        if isinstance(mark, Line)
    ]
    assert page.sheet.scale
    drawn = [(line.points[1][1] - line.points[0][1]) * page.sheet.scale / 10 for line in lines]
    assert drawn == pytest.approx([size.body.rows * 20 / 14 for size in design.sizes])


def test_the_example_form_is_written(monkeypatch: pytest.MonkeyPatch) -> None:
    example("schematics.document.tabbed", monkeypatch)
    monkeypatch.setitem(WRITERS, "tabs", "tabbed")
    design = schematics.read(GUIDE.parent / "specs" / "tidepool.yaml")
    document = figures(design, tuple(schematics.evaluate(design).values()))
    lines = "".join(written([document], "tabs")).splitlines()
    (hem,) = (line.split("\t") for line in lines if line.startswith("body hem edge\t"))
    rounded = [math.floor(size.body.hem * 20 / 19 * 2 + 0.5) / 2 for size in design.sizes]
    assert [float(length) for length in re.findall(r"[\d.]+", hem[1])] == rounded


def test_the_lines_of_the_guide_can_be_read_beside_the_code() -> None:
    """But those of tables, which are a row each."""
    lines = GUIDE.read_text("utf-8").splitlines()
    assert [line for line in lines if len(line) > 120 and not line.startswith("|")] == []


def test_the_guide_names_places_that_are_there() -> None:
    root, text = GUIDE.parent, GUIDE.read_text("utf-8")
    to_be = {"fanned.py", "panel_share.py", "depths.py", "tabbed.py"}
    for name in re.findall(r"`((?:schematics|tests)/[\w/]+(?:\.\w+|/))`", text):
        assert Path(name).name in to_be or (root / name).exists(), name
    for name in {*re.findall(r"`(?:\w+/)*(\w+\.py)`", text)} - to_be:
        assert any((root / room).rglob(name) for room in ("schematics", "tests")), name
