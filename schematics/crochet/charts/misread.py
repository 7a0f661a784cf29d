"""What was meant where a row cannot be read, and how it is written: a sentence for each slip."""

from __future__ import annotations

import re

from schematics.crochet.stitches import StitchBook
from schematics.errors import shortened

EXAMPLE_ROW = "hdc, (2 FPdc, 2 hdc) across, hdc"
_LOOP = re.compile(r"(blo|flo)\b", re.IGNORECASE)
_WORD = re.compile(r"[a-z]+", re.IGNORECASE)
_NUMBER = re.compile(r"[0-9]+")
_EACH = re.compile(r"in\s+(?:each|every)\b", re.IGNORECASE)
_ROWS = re.compile(r"[0-9]+\s+rows?\b", re.IGNORECASE)
_NUMBERED = re.compile(r"([^0-9]*)([0-9]+)(-?[^0-9]+)")
_COUNT_AFTER = re.compile(r"([a-z]+) ?([0-9]+)", re.IGNORECASE)
_REPEATED = "put what repeats in '( )', and 'across' or 'x 3' after it"
_WITHOUT_TURN = (
    "a reverse stitch goes from left to right without a turn, and the rows of a chart are turned; leave that "
    "row out of the chart, and tell where it is worked under the pattern's 'notes', such as 'Edge the hem "
    "with 1 row of reverse single crochet'"
)
_TIMES = "'x' goes after a bracket, as in '(2 dc, ch) x 3'; a count before its stitch"
_NOT_STITCHES = {
    "inc": "an increase is written out: its stitch with '2' before it and 'in next st' after it",
    "dec": "a decrease is written out: its stitch with '2tog' at its end",
    "turn": "a piece is turned after each row; leave 'turn' out",
    "repeat": _REPEATED,
    "rep": _REPEATED,
    "yo": "a yarn over is part of a stitch; write the stitch",
    "rsc": _WITHOUT_TURN,
    "rdc": _WITHOUT_TURN,
    "reverse": _WITHOUT_TURN,
    "rev": _WITHOUT_TURN,
}
_SIGNS = {
    "*": _REPEATED,
    "[": "brackets in a row are '(' and ')'",
    ";": "between parts of a row stands ','",
    "×": "a count goes before its stitch without a sign, as in '2 dc'; 'x' goes after a bracket",
}
_SPECIAL = frozenset({"bobble", "popcorn", "cluster", "shell", "puff", "bo", "pc", "cl", "sh"})
_AFTER_STITCH = {
    "in": "after 'in' expected 'next st', 'same st', 'ch-2 sp' or '3rd loop'; 'st 2' in a crossing",
    "round": "a post stitch goes round the next post unsaid; in a crossing say which: 'round post 2'",
    "below": "expected how many rows, as in '2 rows below'",
    "only": "'blo' and 'flo' say 'only' already; leave it out",
}


def no_such_stitch(phrase: str, first: str, stitches: StitchBook, colours: frozenset[str]) -> str:
    """Where a stitch is expected there are words that name none: ``phrase``, which begins with ``first``."""
    if _LOOP.fullmatch(first):
        return _loop_first(first)
    if first.lower() in _NOT_STITCHES:
        return _NOT_STITCHES[first.lower()]
    if first.upper() in colours:
        return f"a colour is named as in 'with {first.upper()}'"
    numbered = _NUMBERED.fullmatch(phrase)
    if numbered and (numbers := stitches.numbers(numbered[1], numbered[3])):
        few = f"{numbers[0]} or {numbers[-1]}" if len(numbers) == 2 else ""
        expected = few or f"a number from {numbers[0]} to {numbers[-1]}"
        return f"expected {expected} before {numbered[3]!r}, got {shortened(numbered[2])}"
    after = _COUNT_AFTER.fullmatch(phrase)
    if after and (stitch := stitches.find(after[1])):
        return f"a count goes before its stitch, as in '{int(after[2][:3])} {stitches.name(stitch)}'"
    for name in (phrase,) if numbered else (phrase, first):
        if close := stitches.near(name):
            *others, last = (repr(each) for each in close)
            meant = f"{', '.join(others)} or {last}" if others else last
            return f"there is no stitch {shortened(name)!r} in {stitches.terms} terms; did you mean {meant}?"
    name = phrase if numbered else first
    return (
        f"there is no stitch {shortened(name)!r}; those of the trade are listed in the guide to specs, and "
        "one of your own is defined under the fabric's 'stitches'"
    )


def no_stitch_here(text: str, at: int) -> str:
    """Where a stitch is expected there is no word, or one that belongs elsewhere in a row."""
    sign = text[at : at + 1]
    if sign in ("", ",", ")"):
        before = f"before {sign!r}" if sign else "at the end"
        return f"a stitch is missing {before}; write one such as '2 dc', or delete the comma"
    if loop := _LOOP.match(text, at):
        return _loop_first(loop[0])
    if word := _WORD.match(text, at):
        if word[0].lower() == "across":
            return f"'across' goes after what repeats, as in {EXAMPLE_ROW!r}"
        return f"{word[0].lower()!r} goes after a stitch; expected a row such as {EXAMPLE_ROW!r}"
    return _SIGNS.get(sign, f"{sign!r} has no meaning in a row; expected one such as {EXAMPLE_ROW!r}")


_COMMA = "expected a comma between two stitches"


def not_after_a_stitch(text: str, at: int, stitches: StitchBook) -> str:
    """After a stitch there is neither a comma nor a bracket nor what may follow it."""
    if _ROWS.match(text, at):
        return "expected 'rows below' after the number"
    if _NUMBER.match(text, at):
        return "expected a comma; a count goes before its stitch, as in '2 dc'"
    if text.startswith("(", at):
        return _COMMA
    if text.startswith("×", at):
        return _TIMES
    word = _WORD.match(text, at)
    if word is None:
        return no_stitch_here(text, at)
    next_word = word[0].lower()
    if next_word == "x":
        return _TIMES
    if _EACH.match(text, at):
        return "a stitch in each is said by a count, as in '2 dc', or by 'across'"
    if next_word in _AFTER_STITCH:
        return _AFTER_STITCH[next_word]
    if next_word in _SPECIAL:
        return "a stitch of several legs is written with a hyphen, as in '5-dc bo' or '5-dc pc'"
    if stitches.find(next_word) or next_word in ("sl", "with"):
        return _COMMA
    return f"{shortened(next_word)!r} has no meaning after a stitch; expected a comma"


def _loop_first(loop: str) -> str:
    return f"{loop.lower()!r} goes after its stitch, as in 'dc {loop.lower()}'"
