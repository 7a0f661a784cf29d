"""What a spec lacks for its pattern: all of a bare one, nothing of a whole one, each thing by itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.design.design import Design
from schematics.design.guessed import guessed, guessed_sentence
from schematics.design.missing import marks, missing
from schematics.reading.design_file import parse_draft

SPECS = Path(__file__).parents[2] / "specs"
TIDEPOOL = (SPECS / "tidepool.yaml").read_text("utf-8")


def head(text: str) -> Design:
    return parse_draft(Path("lake.yaml"), text.encode()).head


def without(*lines: str) -> Design:
    text = TIDEPOOL
    for line in lines:
        assert text.count(line) == 1, line
        text = text.replace(line, "")
    return head(text)


def test_a_bare_spec_lacks_all_that_it_does_not_say() -> None:
    bare = head((SPECS / "first-draft.yaml").read_text("utf-8").replace("hook: 9 mm\n", ""))
    assert [(each.key, each.place.value) for each in missing(bare)] == [
        ("pattern.designer", "title"),
        ("pattern.copyright", "title"),
        ("pattern.level", "title"),
        ("yarn.fibre", "materials"),
        ("yarn.ball_mass", "materials"),
        ("yarn.ball_length", "materials"),
        ("fabrics.main.hook", "materials"),
        ("fabrics.main.swatch.mass", "materials"),
        ("fabrics.ripple.hook", "materials"),
        ("fabrics.ripple.swatch.mass", "materials"),
        ("fabrics.rib.hook", "materials"),
        ("fabrics.rib.swatch.mass", "materials"),
        ("pattern.notions", "materials"),
        ("fabrics.ripple.chart", "centre panel"),
        ("pattern.seam", "seams"),
        ("pattern.care", "care"),
    ]
    assert marks(bare)["fabrics.rib.hook"] == "[to be added: hook for the neck band and arm bands]"


@pytest.mark.slow
@pytest.mark.parametrize("name", ["tidepool", "driftwood", "saltmarsh", "sandpiper", "kelp"])
def test_a_whole_spec_lacks_nothing(name: str) -> None:
    design = head((SPECS / f"{name}.yaml").read_text("utf-8"))
    assert missing(design) == ()
    assert guessed(design) == ()
    assert guessed_sentence(design) == ""


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ("  designer: Tern Hollow Patterns\n", "pattern.designer"),
        ("  level: intermediate\n", "pattern.level"),
        ("  fibre: 100 % wool\n", "yarn.fibre"),
        ("  weight: 5            # the trade's yarn weight number\n", "yarn.weight"),
        ("  ball_mass: 100       # grams\n", "yarn.ball_mass"),
        ("  ball_length: 95      # metres\n", "yarn.ball_length"),
        ("  seam: {stitch: mattress stitch}\n", "pattern.seam"),
        (", mass: 150", "fabrics.rib.swatch.mass"),
    ],
)
def test_one_line_left_out_is_the_one_thing_missing(line: str, key: str) -> None:
    assert [each.key for each in missing(without(line))] == [key]


@pytest.mark.slow
def test_the_hook_of_the_design_is_that_of_every_fabric_without_its_own() -> None:
    assert missing(without("    hook: 8 mm\n")) == ()
    own = without("hook: 9 mm\n")
    assert [each.key for each in missing(own)] == ["fabrics.main.hook", "fabrics.ripple.hook"]
    assert {name: fabric.hook_mm for name, fabric in own.parts.fabrics.items()} == {
        "main": None,
        "ripple": None,
        "rib": 8.0,
    }


@pytest.mark.slow
def test_how_the_pieces_lie_is_asked_for_where_the_stitch_leaves_it_open() -> None:
    for seam, keys in (
        ("slip stitch", ["pattern.seam.sides"]),
        ("slip stitch, sides: wrong sides together", []),
        ("mattress stitch", []),
    ):
        design = head(TIDEPOOL.replace("stitch: mattress stitch", f"stitch: {seam}"))
        assert [each.key for each in missing(design)] == keys


def test_a_yarn_that_is_not_chosen_is_missing() -> None:
    design = head(TIDEPOOL.replace("name: bulky wool, one strand", "name: not chosen yet"))
    assert [each.mark for each in missing(design)] == ["[to be added: yarn]"]


@pytest.mark.slow
def test_a_border_without_a_chart_is_missing_unless_it_is_one_stitch() -> None:
    for stitch, keys in (("shells", ["borders.yoke.chart"]), ("single crochet", [])):
        border = f"borders: {{yoke: {{at: neck, stitch: {stitch}, rows: 2}}}}\n"
        assert [each.key for each in missing(head(TIDEPOOL + border))] == keys


@pytest.mark.slow
def test_guesses_are_named_by_part_and_key() -> None:
    text = TIDEPOOL.replace("along: 35 %, pulls: 4}", "along: 35 %, guessed: true}").replace(
        "turning_chains: 2", "turning_chains: {chains: 2, guessed: true}"
    )
    assert [(each.what, each.key) for each in guessed(head(text))] == [
        ("turning chains of the centre panel", "fabrics.ripple.turning_chains"),
        ("stretch of the neck band and arm bands", "fabrics.rib.stretch"),
    ]
    assert guessed(head(text.replace("guessed: true", "guessed: false"))) == ()
    assert head(text).parts.centre_panel.turning_chains == 2
