"""``schematics new --ask``: what is asked for, and asked for again."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.reading.new.questions import questions
from tests.program import call
from tests.reading.new.calling import ALL_FLAGS, SWATCH, loaded

pytestmark = pytest.mark.usefixtures("place")


@pytest.mark.slow
def test_a_wrong_answer_is_asked_for_again(place: Path) -> None:
    typed = {
        "title": ["Lake"],
        "unit": [""],
        "construction": ["square", "mitred"],
        "lines": ["none", ""],
        "yarn": [""],
        "stitch": ["dc"],
        "swatch": ["", "19", "19 sts 14 rows over 20 x 15 cm"],
        "stretch": ["20", "20 % 10 %"],
        "multiple": ["4+2"],
        "sizes": ["2, 2", "2, 4"],
        "fullness": ["wide", "slim"],
    }
    lines = [line for question in questions() for line in typed.get(question.key, [""])]
    result = call("new", "lake.yaml", "--ask", typed="\n".join([*lines, ""]))
    assert result.exit_code == 0, result.output
    assert result.stderr.splitlines() == [
        "  there is no construction 'square'; expected one of 'flared', 'mitred' or 'folded'",
        "  expected a whole number from 1 to 40, got 'none'",
        "  expected a swatch such as '19 sts 14 rows over 20 cm' or '19 sts 14 rows over 20 x 15 cm, 46 g', "
        "got '19'",
        "  expected two shares such as '20 % 10 %', got '20'",
        "  child/2 stands twice; name each size once",
        "  expected slim, usual or full, got 'wide'",
    ]
    spec = loaded(place / "lake.yaml")
    assert (spec["title"], spec["construction"], list(spec["sizes"])) == ("Lake", "mitred", ["2", "4"])
    assert spec["fabrics"]["main"]["turning_chains"] == 3
    assert spec["fabrics"]["panel"]["stitch"] == "double crochet"


@pytest.mark.slow
def test_only_what_no_flag_gives_is_asked_and_a_wrong_flag_is(place: Path) -> None:
    flags = [
        word
        for flag, words in ALL_FLAGS.items()
        for word in (f"--{flag}", words)
        if flag not in ("title", "fullness")
    ]
    result = call("new", "lake.yaml", *flags, "--fullness", "wide", "--ask", typed="\nslim\n")
    assert result.exit_code == 0, result.output
    assert result.stderr == "--fullness: expected slim, usual or full, got 'wide'\n"
    assert "Title [Lake poncho]" in result.stdout
    assert loaded(place / "lake.yaml")["grading"]["intent"]["body.hem"]["part"] == 3


def test_stopping_half_way_writes_nothing(place: Path) -> None:
    result = call("new", "lake.yaml", "--ask", typed="Lake\ncm\n")
    assert result.exit_code == 130
    assert list(place.iterdir()) == []


def test_without_a_terminal_nothing_is_asked(place: Path) -> None:
    """Here the input is none, as in a pipe."""
    done = call("new", "pipe.yaml", "--swatch", SWATCH)
    assert done.exit_code == 0, done.stderr
    assert done.stdout.startswith("Wrote pipe.yaml.\n")
