"""What is wrong with a spec: where, and in one plain sentence."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from schematics.errors import SchematicsError, shortened

KeyPath = tuple[str | int, ...]
"""The keys and list positions that lead from the top of the file to a value."""

_IN_QUOTES = '"\\'
_PLAIN_KEY = re.compile(r"[A-Za-z_][A-Za-z0-9_-]*")
_LONGEST_LIST = 20
_MOST_SHOWN = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing wrong in a spec.

    ``line`` counts from 1 and is None where the file as a whole cannot be read; ``path`` is
    empty where the sentence is about the whole file.
    """

    file: str
    line: int | None
    path: str
    sentence: str

    def __str__(self) -> str:
        file = _escaped(self.file, "")
        where = file if self.line is None else f"{file}:{self.line}"
        return ": ".join(part for part in (where, self.path, self.sentence) if part)


class SpecError(SchematicsError):
    """A spec cannot be used; ``entries`` holds everything wrong with it, in line order."""

    def __init__(self, entries: Iterable[Problem]) -> None:
        self.entries = tuple(sorted(entries, key=lambda problem: problem.line or 0))
        super().__init__(self.entries)

    @property
    def problems(self) -> tuple[str, ...]:
        """Everything wrong with the spec, a text for each with file and line, however many there are."""
        return tuple(map(str, self.entries))

    def __str__(self) -> str:
        shown, rest = self.entries[:_MOST_SHOWN], self.entries[_MOST_SHOWN:]
        lines = [str(problem) for problem in shown]
        if rest:
            more = f"{len(rest)} more problems from here on; mend those above first"
            lines.append(str(replace(rest[0], path="", sentence=more)))
        return "\n".join(lines)


def show_path(path: KeyPath) -> str:
    """The path as printed, e.g. ``sizes."4".body.hem``."""
    shown = ""
    for part in path:
        if isinstance(part, int):
            shown += f"[{part}]"
        else:
            key = part if _PLAIN_KEY.fullmatch(part) else f'"{_escaped(shortened(part), _IN_QUOTES)}"'
            shown += f".{key}" if shown else key
    return shown


def show_value(value: Any) -> str:
    """A value of the file as printed after *got*: quoted text, a number, ``nothing``, ``a list``."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a mapping" if value else "an empty mapping"
    if isinstance(value, list):
        return "a list" if value else "an empty list"
    if isinstance(value, str):
        return repr(shortened(value))
    text = repr(value)
    return {"nan": ".nan", "inf": ".inf", "-inf": "-.inf"}.get(text, shortened(text))


def listed(words: Sequence[str], last: str = "or") -> str:
    """``a, b or c``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def nearest(word: str, names: Iterable[str]) -> list[str]:
    """Up to three of ``names`` that ``word`` may have been meant for, best first."""
    by_folded = {each.casefold(): each for each in names}
    close = difflib.get_close_matches(word.casefold(), by_folded, n=3, cutoff=0.6)
    return [by_folded[each] for each in close]


def hint(word: str, names: Sequence[str]) -> str:
    """What to put instead of the unknown ``word``: the nearest of ``names``, or all of them."""
    if close := nearest(word, names):
        return f"did you mean {_quoted(close)}?"
    if len(names) > _LONGEST_LIST:
        return f"expected a name such as {_quoted(names[:3])}"
    return f"expected {'one of ' if len(names) > 1 else ''}{_quoted(names)}"


def _quoted(words: Sequence[str]) -> str:
    return listed([show_value(each) for each in words])


def _escaped(text: str, signs: str) -> str:
    """The text with these signs, and what cannot be printed, behind a backslash."""

    def escaped(sign: str) -> str:
        if sign in signs:
            return f"\\{sign}"
        return sign if sign.isprintable() else sign.encode("unicode_escape").decode()

    return "".join(map(escaped, text))
