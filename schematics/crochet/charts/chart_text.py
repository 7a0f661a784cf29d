"""Reading a chart's row: ``2 dc, (FPdc, BPdc) x 3, (2 dc, 2 FPdc) across, dc``.

    row     = part { "," part }            exactly one part has "across"
    part    = unit [ "across" ]
    unit    = run | "(" unit { "," unit } ")" "x" number
    run     = [ number ] abbreviation [ "blo" | "flo" ]

A bracket that is followed by ``across`` needs no ``x``. Capitals and spaces make no difference.
`ChartRow`'s ``str`` writes what is read here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from schematics.crochet.charts.chart import ChartRow, Item, StitchGroup, StitchRun, Worked
from schematics.crochet.stitches import STITCHES, Loop, Stitch, find_stitch, nearest_abbreviations

MOST = 999
"""Largest count or number of times."""
_DEEPEST = 4
_LONGEST_QUOTE = 40
EXAMPLE_ROW = "hdc, (2 FPdc, 2 hdc) across, hdc"
_SPACE = re.compile(r"\s*")
_NUMBER = re.compile(r"[0-9]+")
_WORDS = re.compile(r"(?!across\b)[a-z][a-z0-9]*(?:\s+(?!across\b)[a-z][a-z0-9]*)*", re.IGNORECASE)
_WORD = re.compile(r"[a-z][a-z0-9]*", re.IGNORECASE)
_LOOP = re.compile(r"(blo|flo)\b", re.IGNORECASE)
_ACROSS = re.compile(r"across\b", re.IGNORECASE)
_TIMES = re.compile(r"[x×]\s*(?P<number>[0-9]*)(?![a-z])", re.IGNORECASE)


class RowTextError(ValueError):
    """The text is no row; ``column`` counts its characters from 1."""

    def __init__(self, column: int, sentence: str) -> None:
        self.column = column
        super().__init__(f"column {column} of the row: {sentence}")


def parse_row(text: str) -> ChartRow:
    """Read one row.

    Raises:
        RowTextError: the text is no row; the message says where, and what would be right.
    """
    return _Reader(text).row()


@dataclass(frozen=True, slots=True)
class _Part:
    """Items between two commas; several only where they are worked across."""

    items: tuple[Item, ...]
    across: bool
    column: int


class _Reader:
    """Reads a text from left to right, each rule of the grammar by one method.

    Between two steps it is at the end or at something other than a space.
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._at = 0
        self._skip_space()

    def row(self) -> ChartRow:
        parts = self._parts(depth=0)
        if self._at < len(self._text):
            if self._text[self._at] == ")":
                raise self._error("this bracket closes none; delete it, or put '(' before what repeats")
            raise self._misplaced()
        across = [place for place, part in enumerate(parts) if part.across]
        if not across:
            raise RowTextError(
                1, f"nothing is worked across; mark what repeats over the whole row, as in {EXAMPLE_ROW!r}"
            )
        if len(across) > 1:
            raise RowTextError(
                parts[across[1]].column,
                "a second part is worked across; one part of a row is, any other takes a number, as in 'x 3'",
            )
        (place,) = across
        return ChartRow(
            before=tuple(item for part in parts[:place] for item in part.items),
            across=parts[place].items,
            after=tuple(item for part in parts[place + 1 :] for item in part.items),
        )

    def _parts(self, depth: int) -> list[_Part]:
        parts = [self._part(depth)]
        while self._take(","):
            parts.append(self._part(depth))
        return parts

    def _part(self, depth: int) -> _Part:
        start = self._at
        if self._take("("):
            return self._bracket(start, depth)
        run = self._run()
        across_at = self._at
        across = self._match(_ACROSS) is not None
        if across and run.count > 1:
            raise self._error(
                f"put what repeats in brackets: '({run}) across'; without them it is one stitch", start
            )
        if across and depth:
            raise self._nested_across(across_at)
        return _Part((run,), across, start + 1)

    def _bracket(self, start: int, depth: int) -> _Part:
        if depth == _DEEPEST:
            raise self._error(f"brackets are nested more than {_DEEPEST} deep; write some of it out", start)
        items = tuple(item for part in self._parts(depth + 1) for item in part.items)
        if not self._take(")"):
            if self._at == len(self._text):
                raise self._error("the bracket opened here is not closed; put ')' after what repeats", start)
            raise self._misplaced()
        after = self._at
        if self._match(_ACROSS):
            if depth:
                raise self._nested_across(after)
            return _Part(items, across=True, column=start + 1)
        if (times := self._match(_TIMES)) and times["number"]:
            number = self._within(times["number"], "times", times.start("number"))
            return _Part((StitchGroup(items=items, times=number),), across=False, column=start + 1)
        raise self._error("expected 'x' and a number, or 'across', after the bracket", after)

    def _run(self) -> StitchRun:
        count_at = self._at
        digits = self._match(_NUMBER)
        if digits and self._text[self._at : self._at + 1] == "(":
            raise self._error(
                f"the number goes after the bracket, as in '(2 dc, ch) x {digits[0]}'", count_at
            )
        count = self._within(digits[0], "stitches", count_at) if digits else 1
        stitch = self._stitch()
        loop_at = self._at
        loop = self._match(_LOOP)
        if loop and not stitch.loops:
            fit = _abbreviations(each for each in STITCHES if each.loops)
            raise self._error(
                f"{loop[0].lower()!r} does not go with {stitch.abbreviation}, only with {fit}", loop_at
            )
        worked = Worked(stitch=stitch, loop=Loop(loop[0].lower()) if loop else None)
        return StitchRun(worked=worked, count=count)

    def _stitch(self) -> Stitch:
        words_match = _WORDS.match(self._text, self._at)
        if words_match is None:
            raise self._no_stitch()
        words = list(_WORD.finditer(self._text, *words_match.span()))
        names = [" ".join(word[0] for word in words[: n + 1]) for n in range(len(words))]
        for name, word in reversed(list(zip(names[:2], words, strict=False))):
            if stitch := find_stitch(name):
                self._at = word.end()
                self._skip_space()
                return stitch
        raise self._unknown(names[-1], names[0])

    def _unknown(self, phrase: str, first: str) -> RowTextError:
        if _LOOP.fullmatch(first):
            return self._error(f"{first.lower()!r} goes after its stitch, as in 'dc {first.lower()}'")
        for name in (phrase, first):
            if close := nearest_abbreviations(name):
                *others, last = (repr(each) for each in close)
                meant = f"{', '.join(others)} or {last}" if others else last
                return self._error(f"there is no stitch {_cut(name)!r} in US terms; did you mean {meant}?")
        return self._error(f"there is no stitch {_cut(first)!r}; those known are {_abbreviations(STITCHES)}")

    def _no_stitch(self) -> RowTextError:
        sign = self._text[self._at : self._at + 1]
        if sign in ("", ",", ")"):
            before = f"before {sign!r}" if sign else "at the end"
            return self._error(f"a stitch is missing {before}; write one such as '2 dc', or delete the comma")
        if _ACROSS.match(self._text, self._at):
            return self._error(f"'across' goes after what repeats, as in {EXAMPLE_ROW!r}")
        return self._error(f"{sign!r} has no meaning in a row; expected one such as {EXAMPLE_ROW!r}")

    def _misplaced(self) -> RowTextError:
        """What is wrong with anything but a comma or a bracket after a stitch."""
        if _NUMBER.match(self._text, self._at):
            return self._error("expected a comma; a count goes before its stitch, as in '2 dc'")
        if _TIMES.match(self._text, self._at):
            return self._error("'x' goes after a bracket, as in '(2 dc, ch) x 3'; a count before its stitch")
        if _WORDS.match(self._text, self._at) or self._text[self._at] == "(":
            return self._error("expected a comma between two stitches")
        return self._no_stitch()

    def _nested_across(self, at: int) -> RowTextError:
        return self._error("'across' inside a bracket; only a part that stands in none is worked across", at)

    def _within(self, digits: str, what: str, at: int) -> int:
        number = int(digits)
        if not 1 <= number <= MOST:
            raise self._error(f"expected 1 to {MOST} {what}, got {digits[:12]}", at)
        return number

    def _take(self, sign: str) -> bool:
        taken = self._text.startswith(sign, self._at)
        self._at += len(sign) * taken
        self._skip_space()
        return taken

    def _match(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        match = pattern.match(self._text, self._at)
        if match:
            self._at = match.end()
            self._skip_space()
        return match

    def _skip_space(self) -> None:
        match = _SPACE.match(self._text, self._at)
        self._at = match.end() if match else self._at

    def _error(self, sentence: str, at: int | None = None) -> RowTextError:
        return RowTextError((self._at if at is None else at) + 1, sentence)


def _abbreviations(stitches: Iterable[Stitch]) -> str:
    return ", ".join(stitch.abbreviation for stitch in stitches)


def _cut(name: str) -> str:
    return name if len(name) <= _LONGEST_QUOTE else f"{name[: _LONGEST_QUOTE - 3]}..."
