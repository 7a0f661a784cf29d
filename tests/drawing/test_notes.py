"""What the checks say on a sheet: what stops the size first, in full where there is room."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks.finding import Finding, Severity
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Text
from schematics.drawing.notes import SHORTER, notes_block
from tests.examples import examples


def _finding(code: str, severity: Severity) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        size="4",
        place="the neck",
        words=f"What {code} has to say, in a sentence long enough to break.",
    )


_WORRIES = (Severity.STOP, Severity.MIND)

_MIXED = (
    _finding("ONE", Severity.GOOD),
    _finding("TWO", Severity.MIND),
    _finding("THREE", Severity.STOP),
    _finding("FOUR", Severity.GOOD),
    _finding("FIVE", Severity.STOP),
    _finding("TWO", Severity.MIND),
)


def _lines(block: Block | None) -> list[str]:
    """The block's lines from the top; none without a block."""
    if block is None:
        return []
    texts = [mark for group in block.groups for mark in group.marks if isinstance(mark, Text)]
    return [text.words for text in sorted(texts, key=lambda text: text.at[1])]


def test_what_stops_comes_first_then_what_to_mind_and_nothing_that_is_good() -> None:
    said = " ".join(_lines(notes_block(_MIXED, 150.0, _WORRIES)))
    places = [said.index(each) for each in ("STOP THREE: ", "STOP FIVE: ", "MIND TWO: ")]
    assert places == sorted(places)
    assert said.startswith("This size cannot be made or worn as it stands")
    assert said.count("What TWO has to say, in a sentence long enough to break.") == 2
    assert not re.search(r"ONE|FOUR|good|json", said)


def test_what_stops_is_told_in_full_before_what_to_mind() -> None:
    said = _lines(notes_block(_MIXED, 180.0, (Severity.STOP,)))
    assert any(line.startswith("STOP THREE: What THREE") for line in said)
    assert "MIND: TWO" in said


def test_texts_get_shorter_and_the_last_is_codes_alone() -> None:
    heights = [
        (y1 - y0)
        for each in SHORTER
        for block in [notes_block(_MIXED, 90.0, each)]
        if block
        for _, y0, _, y1 in [block.bounds()]
    ]
    assert len(heights) == len(SHORTER)
    assert heights == sorted(heights, reverse=True)
    assert SHORTER[-1] == ()


def test_codes_alone_are_each_said_once() -> None:
    _, stops, minds = _lines(notes_block(_MIXED, 180.0, ()))
    assert (stops, minds) == ("STOP: THREE, FIVE", "MIND: TWO")


@pytest.mark.parametrize(
    ("worst", "heading"),
    [
        (Severity.STOP, ["This size cannot be made or worn as it stands"]),
        (Severity.MIND, ["To mind"]),
        (Severity.GOOD, []),
    ],
)
def test_the_heading_says_what_the_worst_means_and_nothing_is_said_where_there_is_nothing_to_mind(
    worst: Severity, heading: list[str]
) -> None:
    findings = [_finding("GOOD", Severity.GOOD), _finding("WORST", worst)]
    for in_full in SHORTER:
        assert _lines(notes_block(findings, 180.0, in_full))[:1] == heading
        assert notes_block((), 180.0, in_full) is None


_findings = st.lists(
    st.builds(
        _finding, st.sampled_from(("SEAM-LENGTH", "NECK-PASS", "HANG-KNEE")), st.sampled_from(Severity)
    ),
    max_size=12,
)


@pytest.mark.slow
@examples(100)
@given(_findings, st.floats(45, 190), st.sampled_from(SHORTER))
def test_no_line_is_wider_than_the_room_and_none_touch(
    findings: list[Finding], width: float, in_full: tuple[Severity, ...]
) -> None:
    block = notes_block(findings, width, in_full)
    assert (block is None) == all(each.severity is Severity.GOOD for each in findings)
    if block is None:
        return
    texts = [mark for group in block.groups for mark in group.marks if isinstance(mark, Text)]
    x0, _, x1, _ = block.bounds()
    assert x1 - x0 <= width + 1e-6
    for above, below in pairwise(texts):
        assert above.box().bounds[3] <= below.box().bounds[1] + 0.05


@pytest.mark.slow
@examples(100)
@given(_findings)
def test_every_stop_is_named_in_full_or_by_code(findings: list[Finding]) -> None:
    for in_full in SHORTER:
        block = notes_block(findings, 45.0, in_full)
        said = re.sub(r"\s", "", "".join(_lines(block)))
        assert all(each.code in said for each in findings if each.severity is Severity.STOP)
