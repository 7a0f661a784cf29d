"""``schematics explain``, ``wearers`` and ``schema``."""

from __future__ import annotations

import json

import jsonschema
import pytest
import yaml
from click.testing import CliRunner, Result

from schematics.checks import EXPLANATIONS
from schematics.cli import main
from schematics.wearer.rows import references
from tests.specs_for_tests import SPEC


def invoke(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


@pytest.mark.parametrize("code", ["NECK-PASS", "neck-pass"])
def test_explain_a_code_in_capitals_or_not(code: str) -> None:
    result = invoke("explain", code)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith(f"NECK-PASS: {EXPLANATIONS['NECK-PASS'].title}\n")


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("wearers", "--json", "--csv"), "give --csv or --json, not both"),
        (("wearers", "--json", "--format", "md"), "give --format md or --json, not both"),
        (("explain", "NECK-PASS", "--limits"), "give a CODE, --limits or --keys, and only one of them"),
    ],
)
def test_misuse_of_the_forms_is_one_sentence(arguments: tuple[str, ...], message: str) -> None:
    result = invoke(*arguments)
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", f"{message}\n")


def test_the_short_forms_are_the_same() -> None:
    for form in ("json", "csv"):
        short, long = (
            invoke("wearers", "child/4", *flag).stdout for flag in ((f"--{form}",), ("--format", form))
        )
        assert short == long != ""


def test_explain_lists_all_codes() -> None:
    result = invoke("explain")
    assert result.exit_code == 0
    assert [code for code in EXPLANATIONS if code not in result.stdout] == []


def test_explain_an_unknown_code_suggests_one() -> None:
    result = invoke("explain", "NECK-PAS")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "NECK-PASS" in result.stderr


def test_wearers_lists_every_row() -> None:
    result = invoke("wearers")
    assert (result.exit_code, result.stderr) == (0, "")
    rows = [line.split("  ")[1] for line in result.stdout.splitlines()[2:]]
    assert rows == list(references())
    assert all(len(line) <= 80 for line in result.stdout.splitlines())


def test_a_row_in_full() -> None:
    """Craft Yarn Council standards: child 4 has a chest of 23 in, printed as 58.5 cm."""
    result = invoke("wearers", "child/4")
    assert result.exit_code == 0
    chest = next(line for line in result.stdout.splitlines() if "chest girth" in line)
    assert chest.split() == ["chest", "girth", "58.5", "58.5", "58.5", "23", "chart"]
    assert "  chest girth: Craft Yarn Council standards" in result.stdout


def test_a_row_as_json() -> None:
    document = json.loads(invoke("wearers", "child/4", "--json").stdout)
    assert document["reference"] == "child/4"
    assert document["body"]["chest_girth"]["cm"] == 58.5
    assert document["body"]["chest_girth"]["printed_inches"] == "23 in"
    assert document["body"]["head_girth"]["borrowed"] is True


def test_rows_as_json() -> None:
    document = json.loads(invoke("wearers", "--json").stdout)
    assert [row["reference"] for row in document["references"]] == list(references())


def test_an_unknown_row_names_the_nearest() -> None:
    result = invoke("wearers", "child/5")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "child/4" in result.stderr


def test_the_schema_accepts_the_spec_and_refuses_a_bent_one() -> None:
    result = invoke("schema")
    assert (result.exit_code, result.stderr) == (0, "")
    validator = jsonschema.Draft202012Validator(json.loads(result.stdout))
    document = json.loads(json.dumps(yaml.safe_load(SPEC), default=str))
    assert [error.message for error in validator.iter_errors(document)] == []
    document["sizes"]["4"]["body"]["hem"] = "many"
    assert list(validator.iter_errors(document))
