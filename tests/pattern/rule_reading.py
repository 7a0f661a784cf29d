"""The rule of regular increases read as a maker reads it, and worked stitch by stitch: text only."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from tests.pattern.reading import read_work

_SCHEDULE = re.compile(
    r"Inc (?:on each side of (?:the line|each of the (?P<lines>\d+) lines) )?in row (?P<first>.+?) and every "
    r"(?:(?P<step>\d+)(?:st|nd|rd|th) )?row to row (?P<last>.+?): (?P<more>.+?) sts? more each time, "
    r"\[(?P<end>.+?) sts\] at the end\."
)
_ROWS = re.compile(
    r"Rows? (?P<rows>[\d, and]+?)(?P<on> and so on)?: (?P<work>.+?)(?:; each time (?P<grows>.+))?\."
)
_MARKS = re.compile(
    r"Mark (?:it|them) in row 1: (?P<marks>.+)\. In an inc row inc in the last st before and in the first st "
    r"after each mark, and move the marks up\."
)


@dataclass(frozen=True, slots=True)
class Worked:
    """An increase row as it was worked: stitches before it, and the numbers of those increased in."""

    row: int
    before: int
    places: tuple[int, ...]

    @property
    def after(self) -> int:
        return self.before + len(self.places)


def is_rule(sentence: str) -> bool:
    return sentence.startswith(("Inc ", "Row ", "Rows 2", "Rows 3", "Rows 4", "Rows 5", "Rows 6", "Mark "))


def work_rule(lines: Sequence[str], size: int, sizes: int, stitches: int) -> list[Worked]:
    """The increase rows of the size of that index, begun on so many stitches.

    Fails where a row does not use up its stitches exactly, or what is told of it does not come true.
    """
    schedule = _SCHEDULE.fullmatch(lines[0])
    assert schedule, lines[0]
    first, last, more, end = (
        int(_of_size(schedule[key], size, sizes)) for key in ("first", "last", "more", "end")
    )
    rows = range(first, last + 1, int(schedule["step"] or 1))
    assert rows[-1] == last
    if lines[0].startswith("Inc on"):
        assert len(lines) == 2
        done = _beside_marks(lines[1], size, sizes, rows, stitches)
        assert more == 2 * int(schedule["lines"] or 1)
    else:
        done = _in_brackets([_of_one_size(line, size, sizes) for line in lines[1:]], rows, stitches)
    assert all(len(each.places) == more for each in done)
    assert done[-1].after == end
    return done


def _of_size(text: str, size: int, sizes: int) -> str:
    """One entry of ``8 (8, 9)``; a number by itself is for all sizes."""
    assert re.fullmatch(r"\d+(?: \(\d+(?:, \d+)*\))?", text), text
    entries = re.findall(r"\d+", text)
    assert len(entries) in (1, sizes)
    return str(entries[-1] if len(entries) == 1 else entries[size])


def _of_one_size(line: str, size: int, sizes: int) -> str:
    """The line with every size string as its entry."""
    return re.sub(r"\d+ \(\d+(?:, \d+)*\)", lambda match: _of_size(match[0], size, sizes), line)


def _in_brackets(lines: Sequence[str], rows: range, stitches: int) -> list[Worked]:
    told = [_ROWS.fullmatch(line) for line in lines]
    done = []
    times = [0] * len(lines)
    for row in rows:
        (at,) = [at for at, match in enumerate(told) if match and row in _rows(match, rows[-1])]
        match = told[at]
        assert match
        worked = _row(row, stitches, _grown(match["work"], match["grows"], times[at]))
        times[at] += 1
        stitches = worked.after
        done.append(worked)
    return done


def _rows(match: re.Match[str], last: int) -> list[int]:
    numbers = [int(number) for number in re.findall(r"\d+", match["rows"])]
    if match["on"]:
        assert len(numbers) == 3
        assert numbers[2] - numbers[1] == numbers[1] - numbers[0]
        return list(range(numbers[0], last + 1, numbers[1] - numbers[0]))
    return numbers


def _grown(work: str, grows: str | None, times: int) -> str:
    """The row's words after it has grown so many times."""
    if times == 0:
        return work
    told = re.fullmatch(
        r"(?:(?P<ends>\d+) sts? more at each end and )?(?P<inside>\d+) sts more in each bracket", grows or ""
    )
    assert told, grows
    opening, bracket, rest = re.split(r"(\[[^\]]*\])", work)
    ends, inside = times * int(told["ends"] or 0), times * int(told["inside"])
    return _more(opening, ends) + _more(bracket, inside) + _more(rest, ends)


def _more(text: str, more: int) -> str:
    return re.sub(r"(\d+) sts?", lambda match: f"{int(match[1]) + more} sts", text)


def _row(row: int, stitches: int, work: str) -> Worked:
    places, at = [], 0
    for done in read_work(work):
        at += 1 if done is None else done
        if done is None:
            places.append(at)
    assert at == stitches, f"row {row} uses {at} of {stitches} stitches: {work}"
    return Worked(row, stitches, tuple(places))


def _beside_marks(line: str, size: int, sizes: int, rows: range, stitches: int) -> list[Worked]:
    match = _MARKS.fullmatch(line)
    assert match, line
    words = _of_one_size(match["marks"], size, sizes).split(", mark, ")
    marks, at = [], 0
    for count in words[:-1]:
        at += int(count.split()[0])
        marks.append(at)
    assert at + int(words[-1].split()[0]) == stitches
    done = []
    for row in rows:
        places = [place for mark in marks for place in (mark, mark + 1)]
        assert len(set(places)) == len(places)
        assert 1 <= min(places) <= max(places) <= stitches
        done.append(Worked(row, stitches, tuple(places)))
        marks = [mark + 2 * before + 1 for before, mark in enumerate(marks)]
        stitches = done[-1].after
    return done
