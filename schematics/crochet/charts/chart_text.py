"""Reading a chart's row: ``2 dc, (FPdc, BPdc) x 3, (2 dc, 2 FPdc) across, dc``.

    row      = part { "," part }
    part     = "with" letter | unit [ "across" ]
    unit     = run [ into ] | "(" part { "," part } ")" [ "x" number | into ]
    run      = [ number ] [ "surface" ] abbreviation [ number ] [ loop ] [ depth ] [ target ] [ passing ]
    loop     = "blo" | "flo" | "in 3rd loop"
    depth    = number "rows below"
    target   = "round post" places | "in st" places
    places   = number [ ( "and" | "to" ) number ]
    passing  = "in front" | "behind"
    into     = "in next st" | "in same st" | "in ch-" number " sp"

A bracket that is followed by ``across`` needs no ``x``; one with a target in it is a crossing, and stands
alone. A number after an abbreviation is for chains and skipped stitches: ``ch 2``. Capitals and spaces make
no difference. `ChartRow`'s ``str`` writes what is read here.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from schematics.crochet.charts.bracket_rules import crossing, is_crossing, several_in_one, stitches_worked
from schematics.crochet.charts.chart import (
    ChartRow,
    Into,
    Item,
    Passing,
    RowPart,
    SeveralInOne,
    StitchGroup,
    StitchRun,
    Worked,
    runs,
)
from schematics.crochet.charts.chart_fault import count_words
from schematics.crochet.charts.misread import no_stitch_here, no_such_stitch, not_after_a_stitch
from schematics.crochet.charts.text_cursor import RowTextError, TextCursor
from schematics.crochet.stitch_list import TRADE
from schematics.crochet.stitches import Loop, Stitch, StitchBook
from schematics.errors import shortened

MOST = 999
"""Largest count or number of times."""
MOST_IN_ROW = 2_000
"""Most stitches of a row, those worked across counted once."""
DEEPEST_ROWS = 30
"""Most rows below that a stitch may reach down."""
_DEEPEST = 4
_MOST_DIGITS = 12
_NUMBER = re.compile(r"[0-9]+")
_DECIMAL = re.compile(r"[0-9]+(?P<point>[.])[0-9]+")
_END_OF_NAME = r"(?!(?:across|in|x|round|around|behind|with|blo|flo|rows?)\b)"
_WORDS = re.compile(
    rf"(?:[0-9]+-)?{_END_OF_NAME}[a-z][a-z0-9-]*(?:\s+{_END_OF_NAME}[a-z][a-z0-9-]*)*", re.IGNORECASE
)
_WORD = re.compile(r"[a-z0-9][a-z0-9-]*", re.IGNORECASE)
_LOOP = re.compile(r"(?:(?P<short>blo|flo)|in\s+(?:the\s+)?(?:3rd|third)\s+loop)\b", re.IGNORECASE)
_ACROSS = re.compile(r"across\b", re.IGNORECASE)
_SURFACE = re.compile(r"surface\b", re.IGNORECASE)
_TIMES = re.compile(r"[x×]\s*(?P<number>[0-9]*)(?![a-z])", re.IGNORECASE)
_WITH = re.compile(r"with\b\s*(?P<letter>[a-z](?![a-z0-9]))?", re.IGNORECASE)
_BEGINS_WITH = re.compile(r"[(\s]+with\b", re.IGNORECASE)
_BELOW = re.compile(r"(?P<number>[0-9]+)\s+rows?\s+below\b", re.IGNORECASE)
_TARGET = re.compile(r"(?P<kind>(?:a?round\s+posts?)|(?:in\s+sts?))\s*(?=[0-9])", re.IGNORECASE)
_UPTO = re.compile(r"(?:and|to)\b", re.IGNORECASE)
_PASSING = re.compile(r"in\s+front\b|behind\b", re.IGNORECASE)
_INTO = re.compile(
    r"in\s+(?:(?P<next>(?:the\s+)?next\s+st(?:itch)?)|(?P<same>(?:the\s+)?same\s+st(?:itch)?)|"
    r"(?:(?:the\s+)?next\s+)?ch(?:-(?P<chains>[0-9]+))?[\s-]+sp(?:ace)?)\b",
    re.IGNORECASE,
)


def parse_row(text: str, stitches: StitchBook = TRADE, colours: frozenset[str] = frozenset()) -> ChartRow:
    """Read one row, written with the abbreviations of ``stitches`` and the letters of ``colours``.

    Raises:
        RowTextError: the text is no row; the message says where, and what would be right.
    """
    return _Reader(text, stitches, colours).row()


@dataclass(frozen=True, slots=True)
class _Part:
    """Items between two commas; several only where they are worked across."""

    items: tuple[Item, ...]
    across: bool
    column: int


class _Reader(TextCursor):
    """Reads a text from left to right, each rule of the grammar by one method."""

    def __init__(self, text: str, stitches: StitchBook, colours: frozenset[str]) -> None:
        super().__init__(text)
        self._stitches = stitches
        self._colours = colours
        self._colour = ""

    def row(self) -> ChartRow:
        parts = self._parts(depth=0)
        if not self.at_end:
            if self.sees(")"):
                raise self.error("this bracket closes none; delete it, or put '(' before what repeats")
            raise self._misplaced()
        if not parts:
            raise self.error("a colour alone is no row; write its stitches after it", 0)
        row = ChartRow(
            parts=tuple(RowPart(items=each.items, across=each.across, column=each.column) for each in parts)
        )
        if self._colours and not next(row.runs()).worked.colour:
            raise self.error("the row does not say its colour; begin it as in 'with A, sc across'", 0)
        self._check_size(row)
        return row

    def _check_size(self, row: ChartRow) -> None:
        total = 0
        for part in row.parts:
            total += stitches_worked(part.items)
            if total > MOST_IN_ROW:
                raise RowTextError(
                    part.column, f"expected at most {MOST_IN_ROW} stitches in a row, got {total}"
                )

    def _parts(self, depth: int) -> list[_Part]:
        """Parts with commas between them; each takes the colour that was named last."""
        parts: list[_Part] = []
        while True:
            if match := self.match(_WITH):
                self._change_colour(match)
                if not self.at_end and not self.sees(",") and not self.sees(")"):
                    raise self.error("expected a comma after the colour")
            else:
                parts.append(self._part(depth))
            if not self.take(","):
                return parts

    def _change_colour(self, match: re.Match[str]) -> None:
        if not match["letter"]:
            raise self.error("'with' takes the letter of a colour, as in 'with A'", match.start())
        letter = match["letter"].upper()
        if letter not in self._colours:
            listed = f"; those of the chart are {', '.join(sorted(self._colours))}" if self._colours else ""
            raise self.error(
                f"there is no colour {letter!r}{listed}; name it under the chart's 'colours'", match.start()
            )
        self._colour = letter

    def _part(self, depth: int) -> _Part:
        start = self.at
        if self.take("("):
            return self._bracket(start, depth)
        run = self._run(start)
        item: Item = run
        if into := self.match(_INTO):
            item = self._several((run,), into, start)
        across_at = self.at
        across = self.match(_ACROSS) is not None
        if across and item is run and run.count > 1:
            raise self.error(
                f"put what repeats in brackets: '({self.text_from(start, across_at)}) across'; "
                "without them it is one stitch",
                start,
            )
        if across and depth:
            raise self._nested_across(across_at)
        if run.places and not depth:
            raise self.error(
                "which stitch is meant is counted inside a bracket: put the whole crossing in '( )'", start
            )
        return _Part((item,), across, start + 1)

    def _bracket(self, start: int, depth: int) -> _Part:
        if depth == _DEEPEST:
            raise self.error(f"brackets are nested more than {_DEEPEST} deep; write some of it out", start)
        items = tuple(item for part in self._parts(depth + 1) for item in part.items)
        if not self.take(")"):
            if self.at_end:
                raise self.error("the bracket opened here is not closed; put ')' after what repeats", start)
            raise self._misplaced()
        self._check_colours(items, start)
        after = self.at
        if self.match(_ACROSS):
            if depth:
                raise self._nested_across(after)
            if is_crossing(items):
                items = (crossing(items, start + 1),)
            return _Part(items, across=True, column=start + 1)
        if is_crossing(items):
            items = (crossing(items, start + 1),)
            if not (times := self.match(_TIMES)):
                return _Part(items, across=False, column=start + 1)
        else:
            times = self.match(_TIMES)
        if times and times["number"]:
            number = self._within(times["number"], "times", times.start("number"))
            return _Part((StitchGroup(items=items, times=number),), across=False, column=start + 1)
        if into := self.match(_INTO):
            return _Part((self._several(items, into, start),), self._across_after(depth), start + 1)
        raise self.error("expected 'x' and a number, or 'across', after the bracket", after)

    def _across_after(self, depth: int) -> bool:
        at = self.at
        if not self.match(_ACROSS):
            return False
        if depth:
            raise self._nested_across(at)
        return True

    def _check_colours(self, items: tuple[Item, ...], start: int) -> None:
        """A bracket that is worked again begins in the colour it names, not in the one it ended with."""
        shades = [run.worked.colour for run in runs(items)]
        if len(set(shades)) > 1 and not _BEGINS_WITH.match(self.text, start):
            raise self.error(
                "a bracket that changes colour begins with its first: put 'with ...' after '('", start
            )

    def _several(self, items: tuple[Item, ...], into: re.Match[str], start: int) -> SeveralInOne:
        chains = 0
        where = Into.STITCH if into["next"] else Into.SAME if into["same"] else Into.SPACE
        if where is Into.SPACE:
            chains = self._within(into["chains"] or "1", "chains", into.start())
        return several_in_one(items, where, chains, start + 1, self._stitches)

    def _run(self, start: int) -> StitchRun:
        count_at = self.at
        family = re.compile(r"[0-9]+-").match(self.text, self.at)
        digits = None if family else self.match(_NUMBER)
        if digits and self.sees("("):
            raise self.error(f"the number goes after the bracket, as in '(2 dc, ch) x {digits[0]}'", count_at)
        count = self._within(digits[0], "stitches", count_at) if digits else 1
        surface_at = self.at
        surface = self.match(_SURFACE) is not None
        stitch = self._stitch(count_at)
        if surface and (stitch.uses, stitch.makes) != (1, 1):
            name = self._stitches.name(stitch)
            raise self.error(f"{name} is not worked on the surface; a stitch into one stitch is", surface_at)
        if stitch.abbreviation in ("ch", "sk") and (digits is None) and (after := self.match(_NUMBER)):
            count = self._within(after[0], "stitches", after.start())
        loop_at = self.at
        loop = self.match(_LOOP)
        if loop and not stitch.loops:
            does_not = f"{_tidy(loop[0])!r} does not go with {self._stitches.name(stitch)}"
            raise self.error(f"{does_not}, which is worked {_how(stitch)}", loop_at)
        below_at = self.at
        below = self.match(_BELOW)
        rows_below = self._within(below["number"], "rows below", below_at, DEEPEST_ROWS) if below else 1
        if rows_below > 1 and (stitch.uses != 1 or stitch.abbreviation == "sk"):
            raise self.error(f"{self._stitches.name(stitch)} is worked into the row below only", below_at)
        if rows_below > 1 and _loop(loop) is Loop.THIRD:
            raise self.error(
                "the 3rd loop is that of a stitch of the row below; leave the rows below out", below_at
            )
        worked = Worked(
            stitch=stitch, loop=_loop(loop), rows_below=rows_below, surface=surface, colour=self._colour
        )
        run = StitchRun(worked=worked, count=count, column=start + 1)
        return self._aimed(run)

    def _aimed(self, run: StitchRun) -> StitchRun:
        """The run with its places in a crossing, and the side on which it passes."""
        at = self.at
        places: tuple[int, ...] = ()
        if target := self.match(_TARGET):
            if run.worked.stitch.uses != 1 or run.worked.stitch.abbreviation == "sk":
                name = self._stitches.name(run.worked.stitch)
                raise self.error(f"{name} takes no place in a crossing; a stitch into one stitch does", at)
            round_post = "round" in target["kind"].lower()
            if round_post != bool(run.worked.stitch.post):
                right = "round post" if run.worked.stitch.post else "in st"
                name = self._stitches.name(run.worked.stitch)
                raise self.error(f"{name} goes {right!r}, not {_tidy(target['kind'])!r}", at)
            places = self._places()
            if len(places) != run.count:
                expected = f"{count_words(run.count, 'place')} for {count_words(run.count)}"
                raise self.error(f"expected {expected}, got {len(places)}", at)
        passing = self.match(_PASSING)
        if passing and not places:
            raise self.error(
                f"{_tidy(passing[0])!r} goes after the posts or stitches that are taken, "
                "as in 'round post 1 in front'",
                passing.start(),
            )
        side = Passing(_tidy(passing[0])) if passing else None
        return replace(run, places=places, passing=side)

    def _places(self) -> tuple[int, ...]:
        first = self._place()
        joined = self.match(_UPTO)
        if not joined:
            return (first,)
        last = self._place()
        if joined[0].lower() == "and":
            return first, last
        step = 1 if last >= first else -1
        return tuple(range(first, last + step, step))

    def _place(self) -> int:
        match = self.match(_NUMBER)
        if not match:
            raise self.error("expected the number of a stitch, counted from the bracket's first")
        return self._within(match[0], "for the number of a stitch", match.start())

    def _stitch(self, begun: int) -> Stitch:
        """The stitch named here; what precedes it ``begun`` there."""
        words_match = _WORDS.match(self.text, self.at)
        if words_match is None:
            self._check_whole()
            raise self.error(no_stitch_here(self.text, self.at))
        words = list(_WORD.finditer(self.text, *words_match.span()))
        names = [" ".join(word[0] for word in words[: n + 1]) for n in range(len(words))]
        for name, word in reversed(list(zip(names[:2], words, strict=False))):
            if stitch := self._stitches.find(name):
                self.go_to(word.end())
                return stitch
        with_count = self.text[begun : words[-1].end()]
        if self._stitches.respelled(with_count):
            self.at = begun
            names = [with_count]
        sentence = no_such_stitch(names[-1], names[0], self._stitches, self._colours)
        raise self.error(sentence)

    def _misplaced(self) -> RowTextError:
        """Anything but a comma or a bracket after a stitch."""
        self._check_whole()
        return self.error(not_after_a_stitch(self.text, self.at, self._stitches))

    def _check_whole(self) -> None:
        """Refuses the point of a number that has one, which is read as far as there."""
        for number in _DECIMAL.finditer(self.text):
            if number.start("point") == self.at:
                raise self.error(f"expected a whole number, got {shortened(number[0])!r}", number.start())

    def _nested_across(self, at: int) -> RowTextError:
        return self.error("'across' inside a bracket; only a part that stands in none is worked across", at)

    def _within(self, digits: str, what: str, at: int, most: int = MOST) -> int:
        number = int(digits[:_MOST_DIGITS])
        if not 1 <= number <= most:
            got = digits if len(digits) <= _MOST_DIGITS else f"{digits[:_MOST_DIGITS]}..."
            raise self.error(f"expected 1 to {most} {what}, got {got}", at)
        return number


def _loop(match: re.Match[str] | None) -> Loop | None:
    if match is None:
        return None
    return Loop(match["short"].lower()) if match["short"] else Loop.THIRD


def _how(stitch: Stitch) -> str:
    if stitch.post:
        return "round a post"
    return "into no stitch" if stitch.uses == 0 or not stitch.makes else "through both loops"


def _tidy(words: str) -> str:
    return " ".join(words.lower().split())
