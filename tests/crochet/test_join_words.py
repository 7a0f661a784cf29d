import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet.fabric import Counted
from schematics.crochet.join_words import JoinSide, ratio_words, schedule_words, sequence_words
from schematics.crochet.spacing import even_shares, join

BODY = JoinSide(name="body", counted=Counted.ROWS)
PANEL = JoinSide(name="panel", counted=Counted.ROWS)
counts = st.integers(1, 200)


def read_back(words: str) -> list[int]:
    """A sequence read as a maker reads it: brackets repeat, ``1 × 13`` is thirteen ones."""
    numbers: list[int] = []
    for block, times, plain in re.findall(r"\[([^\]]*)\] × (\d+)|([^,\[\]]+)", words):
        if block:
            numbers += read_back(block) * int(times)
        elif plain.strip():
            value, _, run = plain.partition(" × ")
            numbers += [int(value)] * int(run or 1)
    return numbers


@given(st.lists(st.integers(1, 3), min_size=1, max_size=60))
def test_a_sequence_keeps_every_number(shares: list[int]) -> None:
    assert read_back(sequence_words(shares)) == shares


@given(counts, counts)
def test_the_schedule_adds_up_to_both_totals(first: int, second: int) -> None:
    how = join(first, second)
    words = schedule_words(how, BODY, PANEL)
    assert words.startswith(f"{max(first, second)} ")
    many, few = re.findall(r"(\d+) (?:body|panel) rows?", words.partition(":")[0])
    if "in turn" in words:
        shares = read_back(words.partition("in turn ")[2])
        told = {int(value): int(count) for count, value in re.findall(r"(\d+) takes? (\d+)", words)}
        assert told == {value: shares.count(value) for value in set(shares)}
    else:
        each = re.search(r"takes (\d+)$", words)
        shares = [int(each[1]) if each else 1] * int(few)
        assert each or words.endswith("one to one")
    assert (len(shares), sum(shares)) == (int(few), int(many)) == (min(first, second), max(first, second))


@given(counts, counts)
def test_ratio_and_schedule_name_the_sides_in_one_order(first: int, second: int) -> None:
    how = join(first, second)
    ratio, schedule = ratio_words(how, BODY, PANEL), schedule_words(how, BODY, PANEL).partition(":")[0]
    assert re.findall(r"body|panel", ratio) == re.findall(r"body|panel", schedule)
    assert [*map(int, re.findall(r"\d+", schedule))] == sorted((first, second), reverse=True)


@pytest.mark.parametrize(
    ("first", "second", "ratio", "schedule"),
    [
        (4, 7, "5 panel rows to 3 body rows",
         "7 panel rows to 4 body rows: 3 take 2 and 1 takes 1, in turn 2, 2, 1, 2"),
        (7, 4, "5 body rows to 3 panel rows",
         "7 body rows to 4 panel rows: 3 take 2 and 1 takes 1, in turn 2, 2, 1, 2"),
        (26, 52, "2 panel rows to 1 body row", "52 panel rows to 26 body rows: each body row takes 2"),
        (26, 26, "1 panel row to 1 body row", "26 panel rows to 26 body rows: one to one"),
        (26, 27, "1 panel row to 1 body row",
         "27 panel rows to 26 body rows: 25 take 1 and 1 takes 2, in turn 1 × 12, 2, 1 × 13"),
        (1, 1, "1 panel row to 1 body row", "1 panel row to 1 body row: one to one"),
    ],
)  # fmt: skip
def test_words(first: int, second: int, ratio: str, schedule: str) -> None:
    how = join(first, second)
    assert ratio_words(how, BODY, PANEL) == ratio
    assert schedule_words(how, BODY, PANEL) == schedule


def test_long_schedules_are_written_short() -> None:
    assert sequence_words(even_shares(40, 26)) == "[2, 1] × 6, 2, 2, 1, [2, 1] × 5, 2"
    assert sequence_words((1, 1, 1, 1, 2) * 3) == "[1 × 4, 2] × 3"
    assert sequence_words(even_shares(24, 18)) == "[1, 2, 1] × 6"
    assert sequence_words((2, 1, 1, 2, 1, 1, 2, 1)) == "2, [1, 1, 2] × 2, 1"


def test_stitches_have_their_own_plural() -> None:
    side = JoinSide(name="hem", counted=Counted.STITCHES)
    assert (side.words(1), side.words(2)) == ("1 hem stitch", "2 hem stitches")
