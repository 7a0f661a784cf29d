"""What a changed swatch does: against the spec with that swatch written into it, and worked out anew."""

from __future__ import annotations

import copy
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from schematics.analysis.sensitivity.effects import effects, finished_cm
from schematics.analysis.sensitivity.swatch_changes import CHANGES, Outlook, outlooks
from schematics.checks import EXPLANATIONS
from schematics.checks.evaluation import evaluate
from schematics.checks.rules.size_rules import size_rules
from schematics.cli import main
from schematics.crochet.fabric import Counted
from schematics.design.limits import Limits
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import read_design
from tests.examples import combinations, marked, thorough
from tests.pattern.designs import design_of, dressed_spec
from tests.pattern.recompute import anew
from tests.specs_for_tests import SPEC, read, write

SPECS = Path(__file__).parents[3] / "specs"


def call(*arguments: object) -> Result:
    return CliRunner().invoke(main, ["sensitivity", *map(str, arguments)])


def changed_spec(spec: dict[str, Any], outlook: Outlook) -> dict[str, Any]:
    """The spec with the swatch as the change has it; swatches of random specs are square and in cm."""
    spec = copy.deepcopy(spec)
    swatch = spec["fabrics"][outlook.fabric.name]["swatch"]
    key = "stitches" if outlook.change.counted is Counted.STITCHES else "rows"
    tens = Fraction(swatch["width"].split()[0]) / 10
    if spec["unit"] == "in":
        tens *= Fraction("10") / Fraction("10.16")
    swatch[key] = swatch[key] + outlook.change.by * tens
    return spec


@pytest.mark.slow
@pytest.mark.parametrize("number", marked(range(6 if thorough() else 3)))
def test_lengths_are_those_of_the_changed_swatch_worked_out_anew(number: int) -> None:
    spec = dressed_spec(number)
    assert spec["construction"] == tuple(CONSTRUCTIONS)[number % len(CONSTRUCTIONS)]
    design = design_of(spec, number)
    seen = 0
    for outlook in outlooks(design):
        other = changed_spec(spec, outlook)
        for result, size in zip(outlook.results, other["sizes"].values(), strict=True):
            names = {each.key: each.name for each in result.garment.finished}
            names["drop"] = "centre back, neck edge to hem"
            expected = anew(other, size).lengths
            for key, length in finished_cm(result).items():
                assert length == pytest.approx(expected[names[key]]), (key, outlook.change)
            seen += 1
    assert seen == len(design.sizes) * len(CHANGES) * len(set(spec["parts"].values()))


READS = {
    ("half double", "stitches: 14, rows: 10"): (15, 13, 11, 9),
    ("cable", "stitches: 16, rows: 10"): (17, 15, 11, 9),
    ("ribbing", "stitches: 14, rows: 14"): (15, 13, 15, 13),
}
"""What the swatches of 10 cm read now and under each of `CHANGES`."""


@pytest.mark.slow
@pytest.mark.seeds
def test_findings_are_those_of_the_changed_spec_read_again(tmp_path: Path) -> None:
    design = read(tmp_path)
    worked = {(each.fabric.name, each.change): each for each in outlooks(design)}
    assert len(worked) == len(READS) * len(CHANGES)
    for (name, now), change in combinations([*READS], CHANGES):
        begins, count = SPEC.index(f"  {name}:"), READS[name, now][CHANGES.index(change)]
        key = change.counted.value.replace("sts", "stitches")
        then = re.sub(rf"{key}: \d+", f"{key}: {count}", now)
        text = SPEC[:begins] + SPEC[begins:].replace(now, then, 1)
        assert text != SPEC
        again = evaluate(read(tmp_path, text))
        pairs = zip(again, worked[name, change].results, strict=True)
        assert all(one.findings == other.findings for one, other in pairs), (name, change)


def test_what_moves_and_only_what_moves_is_told(tmp_path: Path) -> None:
    design = read(tmp_path)
    (now, _) = evaluate(design)
    outlook = next(each for each in outlooks(design) if each.fabric.name == "cable")
    found = effects(design, now, [(outlook.design, outlook.results[0])])
    told = {each.name: (each.now_cm, *each.changed_cm) for each in found.lengths}
    assert told == {
        "panel width": pytest.approx((12 / 1.6, 12 / 1.7)),
        "neck edge with panel top": pytest.approx((60 / 1.4 + 12 / 1.6, 60 / 1.4 + 12 / 1.7)),
    }
    moved = {each.code: each for each in found.findings}
    assert moved.keys() == {"NECK-PASS", "NECK-TIGHT", "NECK-SLIP", "GIRTH-EASE"}
    (head,) = (each.finding.figures["head_cm"] for each in (moved["NECK-PASS"].now,))
    for stand, stitches in ((moved["NECK-PASS"].now, 1.6), (moved["NECK-PASS"].changed[0], 1.7)):
        assert stand is not None
        edge, band = 60 / 1.4 * 1.25 + 12 / stitches * 1.15, 72 / 1.4 * 1.6
        assert stand.figure_cm == pytest.approx(min(edge, band) - head)


def test_every_rule_has_words_for_its_figure() -> None:
    for rule in size_rules(Limits()):
        assert EXPLANATIONS[rule.code].tracked == ("ease_cm", rule.about.spare)
        assert rule.about.spare
        assert "ease_cm" in rule.figures


@pytest.mark.slow
def test_a_finding_that_flips_is_named_with_what_it_would_say() -> None:
    """Tidepool's neck: 36 sts of main and 14 of ripple, which give 20 and 12 %."""
    path = SPECS / "tidepool.yaml"
    before, after = (36 / gauge * 1.2 + 14 / 1.1 * 1.12 for gauge in (0.95, 1.05))
    head = next(
        each.figures["head_cm"]
        for result in evaluate(read_design(path))
        for each in result.findings
        if (result.size.name, each.code) == ("6", "NECK-PASS")
    )
    assert after < head < before
    said = " ".join(call(path, "--size", "6").stdout.split())
    assert f"neck stretched over head {before - head:.1f} good {after - head:.1f} stop" in said
    assert "1 stitch more: NECK-PASS from good to stop: The head (" in said
    assert f"does not go through: the neck opens to {round(after, 1):g} cm" in said
    assert "Size 8" not in said


@pytest.mark.slow
def test_rows_of_the_table_say_what_changes() -> None:
    said = call(SPECS / "tidepool.yaml", "--size", "6").stdout
    assert max(map(len, said.splitlines())) <= 80
    assert re.search(r"stitches in the swatch +19 +21 +17\n +rows in the swatch +14 +16 +12\n", said)
    now, fewer, more = 166 / 0.95, 166 / 1.05, 166 / 0.85
    row = rf"body hem edge +{round(2 * now) / 2:.1f} +{fewer - now:.1f} +\+{more - now:.1f}\n"
    assert re.search(row, said)
    assert re.search(r"body depth, neck to hem +38\.5 {10,}-4\.8 +\+6\.4\n", said)


@pytest.mark.slow
def test_in_inches_the_gauge_is_over_four(tmp_path: Path) -> None:
    text = SPEC.replace("unit: cm", "unit: in").replace(
        "stitches: 14, rows: 10, width: 10, height: 10", "stitches: 28, rows: 20, width: 8, height: 8"
    )
    said = call(write(tmp_path, text), "--size", "4").stdout
    assert "What one stitch or row more or fewer in 4 in of a swatch would do." in said
    assert "Lengths are in inches;" in " ".join(said.split())
    assert re.search(r"stitches in the swatch +28 +30 +26\n", said)
    now, fewer = 176 / 3.5, 176 / 3.75
    assert 50.125 < now < 50.375
    assert round(32 * (now - fewer)) == 3 * 32 + 11
    assert re.search(r"body hem edge +50 1/4 +-3 11/32 ", said)


@pytest.mark.slow
def test_a_swatch_of_one_stitch_has_none_to_lose(tmp_path: Path) -> None:
    text = SPEC.replace("stitches: 16, rows: 10,", "stitches: 1, rows: 10,")
    said = call(write(tmp_path, text), "--size", "4").stdout
    assert re.search(r"stitches in the swatch +1 +2 +- *\n", said)
    assert re.search(r"panel width +120 +-60 +- *\n", said)


def test_wrong_names_are_told(tmp_path: Path) -> None:
    path = write(tmp_path)
    result = call(path, "--size", "9")
    assert (result.exit_code, result.stderr) == (2, f"{path}: no size '9'; the sizes are 4, 6 years\n")


@pytest.mark.slow
def test_what_is_good_in_too_few_cases_says_what_to_measure() -> None:
    """Of a head 1.8 cm, give or take 1.9, it is not sure; of a hand 2.2, give or take 0.8, it is."""
    told = " ".join(call(SPECS / "tidepool.yaml", "--size", "2").output.split())
    assert "Neck stretched over head: to be sure, pull the swatch of the neck band" in told
    assert "Band stretched over hand: to be sure" not in told
