"""``schematics figures``, ``yarn`` and ``compare``, and the figures among the files of a build."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path

import pytest

from schematics.design.cautions import CAUTIONS
from schematics.pattern.errata import versions
from tests.analysis.test_yarn_needed import WEIGHED
from tests.program import call, files_in, spare_drawings
from tests.specs_for_tests import SPEC, TIGHT_NECK, write

DEMO = Path(__file__).parents[2] / "specs" / "tidepool.yaml"


pytestmark = pytest.mark.usefixtures("place")


def test_figures_as_markdown(place: Path) -> None:
    result = call("figures", write(place))
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith("# Lake poncho: figures for the pattern\n\nSizes 4 (6 years).")
    assert "| body hem edge | 125.5 (137) | 49 1/2 (54) | 176 (192) | sts |" in result.stdout
    assert all(each.sentence in result.stdout for each in CAUTIONS)


@pytest.mark.parametrize(
    ("ending", "start"), [("csv", '"section","key",'), ("json", "{\n"), ("html", "<!DOCTYPE html>")]
)
def test_figures_in_other_forms(place: Path, ending: str, start: str) -> None:
    result = call("figures", write(place), "--format", ending)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith(start)


@pytest.mark.slow
def test_several_specs_in_every_form(place: Path) -> None:
    first, second = write(place), write(place, SPEC.replace("Lake poncho", "Shore poncho"), "shore.yaml")
    for form in ("md", "text", "html"):
        said = call("figures", first, second, "--format", form).stdout
        titles = [title for title in ("Lake poncho: figures", "Shore poncho: figures") if title in said]
        assert len(titles) == 2, form
    one, two = json.loads(call("figures", first, second, "--format", "json").stdout)["designs"]
    assert [one] == json.loads(call("figures", first, "--format", "json").stdout)["designs"]
    assert (one["format"], two["spec"]) == (2, "shore.yaml")


@pytest.mark.slow
def test_the_csv_of_several_specs_is_one_table_with_a_design_column(place: Path) -> None:
    """Its sizes are those of both; what a design has no size of is empty."""
    sized = SPEC.replace("Lake poncho", "Shore poncho").replace("6 years", "8 years")
    first, second = write(place), write(place, sized, "shore.yaml")

    def table(*paths: Path) -> list[dict[str, str]]:
        return list(csv.DictReader(io.StringIO(call("figures", *paths, "--csv").stdout)))

    lines = table(first, second)
    parted: dict[str, list[dict[str, str]]] = {}
    for line in lines:
        parted.setdefault(line.pop("design"), []).append(line)
    assert len(parted) == 2
    for path, (design, found) in zip((first, second), parted.items(), strict=True):
        alone = table(path)
        other = {"lake": "size 8 years", "shore": "size 6 years"}[path.stem]
        assert path.stem.capitalize() in design
        assert found == [{name: {**line, other: ""}[name] for name in found[0]} for line in alone]


@pytest.mark.slow
def test_terms_by_one_switch(place: Path) -> None:
    path = write(place)
    assert "half double crochet" in call("figures", path).stdout
    for words in ("uk", "UK"):
        told = call("figures", path, "--terms", words).stdout.partition("## Abbreviations")[0]
        assert "half treble crochet" in told
        assert "half double crochet" not in told
    write(place, SPEC + "terms: UK\n")
    assert "Stitch names in UK terms" in call("figures", path).stdout
    assert "Stitch names in US terms" in call("figures", path, "--terms", "us").stdout


def test_figures_of_some_sizes(place: Path) -> None:
    path = write(place)
    assert "\nSizes 6 years. Stitch" in call("figures", path, "--sizes", "6 years").stdout
    assert "\nSizes 6 years. Stitch" in call("figures", path, "--size", "6 years").stdout


def test_a_size_that_stops_is_1_and_told_in_the_figures(place: Path) -> None:
    result = call("figures", write(place, TIGHT_NECK))
    assert result.exit_code == 1
    assert "Size 4 cannot be made or worn as it stands. The head (" in result.stdout


@pytest.mark.parametrize("command", ["figures", "yarn"])
def test_misuse_is_2_with_a_message(place: Path, command: str) -> None:
    result = call(command, place / "none.yaml")
    assert (result.exit_code, result.stdout.strip()) in {(2, ""), (2, '{\n  "designs": []\n}')}
    assert "there is no such file" in result.stderr
    result = call(command, write(place), "--size", "5")
    assert result.exit_code == 2
    assert "no size '5'; the sizes are 4, 6 years" in result.stderr


def test_a_key_of_the_spec_that_is_wrong_is_told_with_its_line(place: Path) -> None:
    use = "yarn_use: {margin: 5, seam_thread: none, colours: {body: sand, hood: fog}}\nterms: English\n"
    result = call("figures", write(place, SPEC + use))
    assert result.exit_code == 2
    line = SPEC.count("\n") + 1
    told = result.stderr.splitlines()
    assert [each.split(": ")[0].endswith(f":{line}") for each in told] == [True, True, True, False]
    assert "yarn_use.margin: expected a fraction from 0 to 1" in result.stderr
    assert "yarn_use.seam_thread: expected a number, got 'none'" in result.stderr
    assert "unknown key 'hood'" in result.stderr
    assert "terms: expected 'US' or 'UK', got 'English'" in result.stderr


@pytest.mark.slow
def test_yarn_of_every_size() -> None:
    result = call("yarn", DEMO)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "How it is counted" in result.stdout
    assert all(len(line) <= 80 for line in result.stdout.splitlines())
    assert " ".join(CAUTIONS[0].sentence.split()) in " ".join(result.stdout.split())


def test_yarn_says_what_is_not_known(place: Path) -> None:
    result = call("yarn", write(place))
    assert result.exit_code == 0
    told = " ".join(result.stdout.split())
    assert "not known" in told
    assert "The swatches of 'half double', 'cable' and 'ribbing' were not weighed (give their mass)" in told
    result = call("yarn", write(place), "--have", "400 g")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "were not weighed (give their mass), so what a stash is good for is not known" in result.stderr


def test_a_stash(place: Path) -> None:
    result = call("yarn", write(place, WEIGHED), "--have", "650 g")
    assert result.exit_code in (0, 1)
    assert "With 650 g at hand" in result.stdout


@pytest.mark.slow
@pytest.mark.parametrize(
    ("have", "grams"),
    [
        ("0.7 kg", 700),
        ("14 balls", 700),
        ("1 ball", 50),
        ("1400 m", 700),
        ("25 oz", 708.738),
        ("100yd", 45.72),
        ("700 G", 700),
        ("0.7 Kg", 700),
        ("700 grams", 700),
        ("25 ounces", 708.738),
        ("3 skeins", 150),
        ("100 metres", 50),
        ("100 yards", 45.72),
    ],
)
def test_amounts_in_any_unit(place: Path, have: str, grams: float) -> None:
    """50 g to 100 m: a metre weighs half a gram; 25 oz are 708.738 g, 100 yd are 91.44 m."""
    result = call("yarn", write(place, WEIGHED), "--have", have, "--json")
    (design,) = json.loads(result.stdout)["designs"]
    assert list(design["stash_g"].values()) == [pytest.approx(grams)]
    assert [each["sentence"] for each in design["cautions"]] == [each.sentence for each in CAUTIONS]


@pytest.mark.parametrize(
    ("have", "message"),
    [
        ("lots", "expected an amount such as '450 g', '16 oz', '5 balls', '400 m' or '440 yd', got 'lots'"),
        ("-3 g", "expected an amount"),
        ("450", "expected an amount"),
        ("3 cones", "expected an amount"),
        ("450,5 g", "expected an amount"),
        ("nan g", "expected an amount"),
        ("sand: 450 g", "it names no colours, give the amount alone"),
    ],
)
def test_amounts_that_are_none(place: Path, have: str, message: str) -> None:
    result = call("yarn", write(place, WEIGHED), "--have", have)
    assert (result.exit_code, result.stdout) == (2, "")
    assert message in result.stderr


COLOURED = WEIGHED + "yarn_use: {colours: {body: sand, centre_panel: fog, neck_band: fog, arm_bands: fog}}\n"


@pytest.mark.parametrize(
    ("have", "message"),
    [
        (["450 g"], "does not say of which colour; write 'sand: 450 g' (the colours are 'sand' and 'fog')"),
        (["mud: 450 g"], "the design has no colour 'mud'; its colours are 'sand' and 'fog'"),
        (["sand: 1 g", "SAND: 2 g"], "gives sand a second time; add the amounts up"),
    ],
)
def test_colours_that_are_not_clear(place: Path, have: list[str], message: str) -> None:
    arguments = [word for each in have for word in ("--have", each)]
    result = call("yarn", write(place, COLOURED), *arguments)
    assert result.exit_code == 2
    assert message in result.stderr


def test_a_stash_of_one_colour_leaves_the_other_to_be_bought(place: Path) -> None:
    result = call("yarn", write(place, COLOURED), "--have", "fog: 100 g", "--json")
    (design,) = json.loads(result.stdout)["designs"]
    (size,) = design["sizes"]
    assert [(each["colour"], each["verdict"]) for each in size["stash"]] == [("fog", "enough")]


@pytest.mark.slow
def test_each_colour_is_told_apart(place: Path) -> None:
    """More than enough of one colour and too little of the other, and what a shorter one takes of each."""
    colours = "yarn_use: {colours: {body: sand, centre_panel: fog, neck_band: fog, arm_bands: sand}}\n"
    path = write(place, DEMO.read_text(encoding="utf-8") + colours)
    (design,) = json.loads(call("yarn", path, "--size", "6", "--json").stdout)["designs"]
    sand, fog = (colour["buy_g"] for colour in design["sizes"][0]["colours"])
    have = ("--have", "sand: 700 g", "--have", f"fog: {fog - 5:.0f} g")
    told = " ".join(call("yarn", path, "--size", "6", *have).stdout.split())
    assert f"sand {700 - sand:.0f} g over, fog 5 g short" in told
    shorter = re.search(r"shorter and then takes (\d+) g sand and (\d+) g fog with the margin", told)
    assert shorter
    assert int(shorter[1]) < sand
    assert int(shorter[2]) <= fog - 4


def test_the_spec_must_say_what_a_ball_is(place: Path) -> None:
    bare = WEIGHED.replace(", ball_mass: 50, ball_length: 100", "")
    result = call("yarn", write(place, bare), "--have", "3 balls")
    assert "give yarn.ball_mass, or say --have in grams" in result.stderr
    result = call("yarn", write(place, bare), "--have", "300 m")
    assert "give yarn.ball_mass and yarn.ball_length, or say --have in grams" in result.stderr


@pytest.mark.slow
def test_compare_prints_errata(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(versions, "_pages", lambda *_: dict.fromkeys(range(1000), 3))
    old, new = write(place), write(place, SPEC.replace("rows: 34}", "rows: 36}"), "new.yaml")
    result = call("compare", old, new)
    assert (result.exit_code, result.stderr) == (0, "")
    said = " ".join(result.stdout.split())
    assert said.startswith("Lake poncho: errata Pages are those of the A4 edition.")
    assert "Rows 1 to 34, size 6 years: read “Rows 1 to 36”, not “Rows 1 to 34”." in said
    assert "size 4:" not in said
    errata = json.loads(call("compare", old, new, "--json").stdout)["errata"]
    row, fastened_off = (each for each in errata if each["section"] == "Centre panel")
    assert row == {
        "page": 3, "section": "Centre panel", "place": "Rows 1 to 34", "sizes": ["6 years"],
        "what": "read", "old": "Rows 1 to 34", "new": "Rows 1 to 36",
    }  # fmt: skip
    assert fastened_off["new"] == "Fasten off at the end of Row 36 instead of turning"


def test_compare_lists_corrections_by_size(place: Path) -> None:
    old, new = write(place), write(place, SPEC.replace("rows: 34}", "rows: 36}"), "new.yaml")
    result = call("compare", old, new, "--figures")
    assert (result.exit_code, result.stderr) == (0, "")
    lines, told = result.stdout.splitlines(), " ".join(result.stdout.split())
    title = f"Lake poncho: corrections from {old} (2024-03-01) to {new} (2024-03-01) "
    assert "".join(told.split()).startswith("".join(title.split())), "a path longer than a line is folded"
    assert "Size 6 years" in lines
    assert "Size 4" not in lines
    assert all(f" - {each.sentence}" in told for each in CAUTIONS)


@pytest.mark.slow
def test_compare_with_itself(place: Path) -> None:
    path = write(place)
    result = call("compare", path, path)
    assert result.exit_code == 0
    assert "Nothing that is printed in the pattern has changed." in result.stdout
    assert json.loads(call("compare", path, path, "--json").stdout)["errata"] == []
    result = call("compare", path, path, "--figures")
    assert result.exit_code == 0
    assert "Nothing that is printed has changed." in result.stdout
    assert json.loads(call("compare", path, path, "--figures", "--json").stdout)["sizes"] == []


@pytest.mark.slow
def test_compare_says_when_the_new_one_stops(place: Path) -> None:
    old, new = write(place), write(place, TIGHT_NECK, "new.yaml")
    result = call("compare", old, new, "--figures")
    assert result.exit_code == 1
    assert result.stderr == f"stop: 4; schematics check {new} says why\n"


def test_compare_needs_two_specs(place: Path) -> None:
    assert call("compare", write(place)).exit_code == 2
    result = call("compare", write(place), place / "none.yaml")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "there is no such file" in result.stderr


@pytest.mark.slow
def test_build_writes_the_figures_of_every_size(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    spare_drawings(monkeypatch)
    result = call("build", write(place), "--sizes", "4", "--jobs", "1")
    assert result.exit_code == 0
    written = [name for name in files_in(place / "output" / "lake") if name.startswith("figures.")]
    assert written == ["figures.csv", "figures.html", "figures.json", "figures.md"]
    assert "Sizes 4 (6 years)" in (place / "output" / "lake" / "figures.md").read_text(encoding="utf-8")
    assert (place / "output" / "lake" / "figures.csv").read_bytes().startswith(b'\xef\xbb\xbf"section",')
