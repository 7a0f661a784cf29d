"""A few random specs and as many spoilt ones through the command line; `make fuzz` does thousands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.examples import share
from tests.fuzz.fuzz_specs import Tally, faults_of, message_faults
from tests.fuzz.random_specs import spoilt, valid_text, wild_text


@pytest.mark.slow
@pytest.mark.seeds
def test_spoilt_specs_are_told_by_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SCHEMATICS_TRACEBACK", "1")
    tally = Tally()
    for number in range(10_005, 10_005 + share(100, part=20)):
        path = tmp_path / f"spoilt-{number}.yaml"
        path.write_bytes(spoilt(number))
        assert list(faults_of(path, ("check",), valid=False, tally=tally)) == []
    assert tally.codes["check 2"] > share(100, part=20) / 2


@pytest.mark.slow
@pytest.mark.seeds
def test_valid_specs_are_checked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SCHEMATICS_TRACEBACK", "1")
    tally = Tally()
    for number in range(20_000, 20_000 + share(10)):
        for kind, text in (("valid", valid_text(number)), ("wild", wild_text(number))):
            path = tmp_path / f"{kind}-{number}.yaml"
            path.write_text(text, encoding="utf-8")
            assert list(faults_of(path, ("check",), valid=kind == "valid", tally=tally)) == []


@pytest.mark.slow
@pytest.mark.parametrize(
    ("number", "form"),
    [
        pytest.param(0, "--format=text", id="a band's rows fit its chart in no size"),
        pytest.param(860, "--large", id="a drawing would come between the items of a list on two pages"),
    ],
)
def test_a_pattern_of_any_valid_spec_is_printed(
    number: int, form: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SCHEMATICS_TRACEBACK", "1")
    path, written = tmp_path / "spec.yaml", tmp_path / "pattern.pdf"
    path.write_text(valid_text(number), encoding="utf-8")
    arguments = ("pattern", form, *(["--output", str(written)] if form == "--large" else []))
    assert list(faults_of(path, arguments, valid=True, tally=Tally())) == []


@pytest.mark.parametrize(
    ("code", "errors", "fault"),
    [
        (3, "", "exit code 3"),
        (2, "", "exit code 2 and not a word why"),
        (2, "lake.yaml: something is wrong", "no line in"),
        (2, "lake.yaml:9: no such line", "no line in"),
        (2, "lake.yaml:1: \x1b[2J", "odd or overlong"),
        (2, "lake.yaml:1: " + "a" * 701, "odd or overlong"),
    ],
)
def test_faults_are_seen(
    code: int, errors: str, fault: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lake.yaml").write_text("title: a\n", encoding="utf-8")
    (found,) = message_faults(Path("lake.yaml"), code, errors)
    assert found.startswith(fault)
