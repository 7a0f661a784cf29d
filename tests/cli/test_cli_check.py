"""``schematics check``."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from schematics.cli import main
from tests.examples import seeds
from tests.specs_for_tests import SPEC, TIGHT_NECK, write


def check(*arguments: object) -> Result:
    return CliRunner().invoke(main, ["check", *map(str, arguments)])


def line_of(words: str) -> int:
    """The line of the spec that holds the words."""
    return next(i for i, line in enumerate(SPEC.splitlines(), start=1) if words in line)


@pytest.mark.slow
def test_nothing_stops(tmp_path: Path) -> None:
    result = check(write(tmp_path))
    assert (result.exit_code, result.stderr) == (0, "")
    assert "Size 4, chart row child/4: " in result.stdout
    assert "Size 6 years, chart row child/6: " in result.stdout
    assert "harness" in result.stdout, "the cautions go along"


@pytest.mark.slow
def test_a_size_that_stops(tmp_path: Path) -> None:
    result = check(write(tmp_path, TIGHT_NECK))
    assert (result.exit_code, result.stderr) == (1, "")
    assert re.search("stop +NECK-PASS", result.stdout)


@pytest.mark.slow
def test_only_the_sizes_asked_for_count(tmp_path: Path) -> None:
    path = write(tmp_path, TIGHT_NECK)
    result = check(path, "--sizes", "6 years")
    assert result.exit_code == 0
    assert "Size 4" not in result.stdout
    assert check(path, "--sizes", " 6 years , 4").exit_code == 1


def test_an_unknown_size_names_the_known_ones(tmp_path: Path) -> None:
    path = write(tmp_path)
    result = check(path, "--sizes", "4,8,10")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"{path}: no size '8' and '10'; the sizes are 4, 6 years\n"


@pytest.mark.slow
def test_all_shows_what_is_good(tmp_path: Path) -> None:
    path = write(tmp_path)
    assert not re.search("good +NECK-TIGHT", check(path).stdout)
    assert re.search("good +NECK-TIGHT", check(path, "--all").stdout)


def test_json_holds_every_design_and_only_the_sizes_asked_for(tmp_path: Path) -> None:
    first, second = write(tmp_path), write(tmp_path, TIGHT_NECK, "tight.yaml")
    result = check("--json", "--sizes", "4", first, second)
    document = json.loads(result.stdout)
    assert result.exit_code == 1
    assert [design["spec"] for design in document["designs"]] == ["lake.yaml", "tight.yaml"]
    assert [[size["name"] for size in design["sizes"]] for design in document["designs"]] == [["4"], ["4"]]
    assert document["designs"][1]["verdict"] == "stop"


def test_a_missing_file(tmp_path: Path) -> None:
    result = check(tmp_path / "nothing.yaml")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith(str(tmp_path / "nothing.yaml"))
    assert result.stderr.count("\n") == 1


def test_a_folder_instead_of_a_file(tmp_path: Path) -> None:
    result = check(tmp_path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith(str(tmp_path))


@pytest.mark.slow
def test_one_bad_spec_does_not_hide_the_others(tmp_path: Path) -> None:
    bad = write(tmp_path, SPEC.replace("hem: 176", "hem: '12,5'"), "bad.yaml")
    result = check(bad, write(tmp_path))
    assert result.exit_code == 2
    assert "Size 4" in result.stdout
    assert result.stderr.startswith(f"{bad}:{line_of('hem: 176')}: ")


def test_a_problem_of_a_wearer_has_file_and_line(tmp_path: Path) -> None:
    path = write(tmp_path, SPEC.replace("wearer: child/4", "wearer: child/5"))
    result = check(path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith(f"{path}:{line_of('child/4')}: ")
    assert "child/4" in result.stderr


@pytest.mark.slow
def test_all_specs_of_the_folder_when_none_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "specs").mkdir()
    write(tmp_path / "specs")
    write(tmp_path / "specs", TIGHT_NECK, "tight.yml")
    monkeypatch.chdir(tmp_path)
    result = check()
    assert result.exit_code == 1
    assert "specs/lake.yaml" in result.stdout
    assert "specs/tight.yml" in result.stdout


def test_nowhere_to_look(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = check()
    assert (result.exit_code, result.stdout) == (2, "")
    assert "no spec was named" in result.stderr


@pytest.mark.slow
def test_the_same_spec_twice_is_checked_once(tmp_path: Path) -> None:
    path = write(tmp_path)
    assert check(path, tmp_path / "." / "lake.yaml").stdout.count("Size 4") == 1


ONE_SIZE = SPEC.partition('  "6 years":')[0]
BENT = [
    *(ONE_SIZE.replace(line + "\n", "") for line in ONE_SIZE.splitlines()),
    *(ONE_SIZE[: len(ONE_SIZE) * i // 12] for i in range(12)),
    *(
        ONE_SIZE.replace("176", value)
        for value in ("-1", "0", "1e9", ".nan", "[1]", "{}", "null", "'176'", "60", "61")
    ),
    *(ONE_SIZE.replace("rows: 30", f"rows: {value}") for value in ("1", "2", "10000", "10001", "2.5", "yes")),
    *(
        ONE_SIZE.replace("from_front: 40", f"from_front: {value}")
        for value in ("0", "1", "88", "89", "176", "9999")
    ),
    *(ONE_SIZE.replace("stitches: 12", f"stitches: {value}") for value in ("1", "13", "10000")),
    *(
        ONE_SIZE.replace("child/4", value)
        for value in ("woman/5X", "age/2", "baby/3 mo", "{height: 3}", "{age: 120}")
    ),
    "\ufeff" + ONE_SIZE,
    ONE_SIZE.replace("\n", "\r\n"),
    ONE_SIZE.replace("\n", "\t\n"),
    ONE_SIZE + ONE_SIZE,
    "\0",
    "- " * 2000,
    "{" * 2000,
    "&a [*a]",
    "title: \ud83e\uddf6\n",
]


@pytest.mark.slow
@pytest.mark.parametrize("number", [*seeds(range(len(BENT) - 12)), *range(len(BENT) - 12, len(BENT))])
def test_a_bent_spec_is_read_or_gets_a_message(tmp_path: Path, number: int) -> None:
    """Lines left out, cut short, odd values: a code, a message when it is misuse, no internal error."""
    text = BENT[number]
    path = tmp_path / "bent.yaml"
    path.write_bytes(text.encode(errors="surrogatepass"))
    result = check(path, "--all")
    assert result.exit_code in (0, 1, 2), result.exception
    assert "internal error" not in result.stderr
    assert "Traceback" not in result.output
    for line in result.stderr.splitlines():
        assert line.startswith(str(path)), "each problem names the file"
    assert (result.exit_code == 2) == bool(result.stderr)
