"""Whatever is done to a spec, it is read or told in plain sentences that point into the file."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from schematics.design.design import Design
from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError
from tests.examples import ANY, examples
from tests.reading.accidents import mutated
from tests.reading.files import GOOD

JARGON = re.compile(
    r"pydantic|Input should|validat|Traceback|Error\b|NoneType|block mapping|<[a-z ]+>|scalar|\bdict|\bint\b",
    re.IGNORECASE,
)


def read_or_tell(path: Path, content: bytes) -> Design | SpecError:
    path.write_bytes(content)
    try:
        return read_design(path)
    except SpecError as error:
        return error


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("mutated") / "lake.yaml"


@pytest.mark.slow
@examples(200, part=8, suppress_health_check=[HealthCheck.too_slow])
@given(st.randoms(use_true_random=False), st.integers(1, 4))
def test_accidents_are_told_in_plain_sentences(path: Path, dice: random.Random, accidents: int) -> None:
    text = GOOD
    for _ in range(accidents):
        text = mutated(text, dice)
    result = read_or_tell(path, text.encode())
    if isinstance(result, Design):
        assert result.sizes
        return
    last = len(re.split("\r\n|[\r\n\x85\u2028\u2029]", text))
    lines = [problem.line for problem in result.entries]
    assert lines
    assert all(line is not None and 1 <= line <= last for line in lines)
    assert lines == sorted(line for line in lines if line is not None)
    assert len(set(result.entries)) == len(result.entries)
    for problem in result.entries:
        assert str(problem).isprintable()
        assert len(problem.sentence) < 400
        assert not JARGON.search(problem.sentence), problem.sentence


@examples(100)
@given(st.binary(max_size=200) | st.text(ANY, max_size=200).map(str.encode))
def test_no_file_whatever_ends_in_a_traceback(path: Path, content: bytes) -> None:
    result = read_or_tell(path, content)
    assert isinstance(result, SpecError)
    assert all(problem.line is None or problem.line >= 1 for problem in result.entries)
    assert all(str(problem).isprintable() for problem in result.entries)


@pytest.mark.parametrize("at", range(len(GOOD.split("\n"))))
def test_each_line_but_blanks_comments_and_options_is_missed(path: Path, at: int) -> None:
    """The file's own list of what it can do without; any other line must not vanish unnoticed."""
    lines = GOOD.split("\n")
    gone = lines.pop(at)
    optional = re.match(
        r"$|#|date:|hook:|limits:|  (neck_clearance|arm_rest)|    (stretch|multiple|row_repeat):|"
        r"      (chart|age|head_girth|height: 46|increase_every)",
        gone,
    )
    result = read_or_tell(path, "\n".join(lines).encode())
    if gone == "limits:":
        assert isinstance(result, SpecError)
    elif gone == '  "6":':
        assert isinstance(result, SpecError)
        assert any("stands twice" in problem.sentence for problem in result.entries)
    else:
        assert isinstance(result, Design if optional else SpecError), gone
