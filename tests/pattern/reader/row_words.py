"""A row's words taken apart: what is worked, into what, how often."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.pattern.reader.complaint import CannotWorkError
from tests.pattern.reader.stitches import Vocabulary


@dataclass(frozen=True)
class Sts:
    """So many of a stitch, one after the other; ``name`` is empty for ``4 sts``."""

    count: int
    name: str


@dataclass(frozen=True)
class Each:
    """A stitch in each stitch, up to so many from the end or from the next marker."""

    name: str
    left: int = 0
    marker: bool = False


@dataclass(frozen=True)
class Inc:
    count: int


@dataclass(frozen=True)
class Group:
    """Over and over: so many ``times``, or up to so many stitches from the end."""

    items: tuple[Item, ...]
    times: int | None
    left: int = 0


@dataclass(frozen=True)
class Skip:
    count: int


@dataclass(frozen=True)
class Chains:
    count: int


@dataclass(frozen=True)
class At:
    """A stitch in, or round the post of, each of the next so many; ``below`` 1 is the row below."""

    name: str
    count: int
    round: frozenset[str] = frozenset()
    """What it can go round, a ``post`` or a raised ``strand``; empty if it is worked into a stitch."""
    below: int = 1
    surface: bool = False
    strands: int = 0
    """The raised strands that the stitches of a crossing are said to have, if its places count those."""

    @property
    def elsewhere(self) -> bool:
        """Whether a stitch of the row below is left unworked for it."""
        return not self.surface and (bool(self.round) or self.below > 1)


@dataclass(frozen=True)
class Back:
    """A stitch in each of those skipped before."""

    name: str
    count: int


@dataclass(frozen=True)
class Leave:
    """So many stitches of the row below are left unworked by a crossing; ``other``: not all it is over."""

    count: int
    other: bool


@dataclass(frozen=True)
class Over:
    """The next so many stitches in an order of their own: what is worked in which of them, from 1."""

    count: int
    items: tuple[tuple[At | Skip | Chains | Leave, tuple[int, ...]], ...]


@dataclass(frozen=True)
class Into:
    """Several in one place: ``next`` or ``same`` stitch, or a space of so many chains."""

    items: tuple[Item, ...]
    place: str
    chains: int = 0


Item = Sts | Each | Inc | Group | Skip | Chains | At | Back | Leave | Over | Into

_END = r"to end|to the neck edge|to last st|to last \d+ sts|to 1 st before marker"
_ROUND = r"(?:post or raised strand|post|raised strand)"
_DEEP = r"(?: of the row below| (?P<below>\d+) rows below)?(?P<surface> \(on the surface\))?"
_TARGET = rf"(?:next|each of (?:the )?next (?P<count>\d+)) (?P<what>st|{_ROUND})s?{_DEEP}"
_ORDINALS = r"(?P<places>\d+(?:st|nd|rd|th)(?:(?:, | and | to )\d+(?:st|nd|rd|th))*)"
_LEAVING = r"leaving the (?P<other>other )?(?:st|(?P<count>\d+) sts) of the row below unworked"


@dataclass(frozen=True)
class Words:
    """Takes the words of rows apart; ``surface`` are stitches that are always worked on the surface."""

    vocabulary: Vocabulary
    where: str
    surface: frozenset[str] = frozenset()

    def items(self, text: str) -> tuple[Item, ...]:
        """What ``2 hdc, [2 hdc, inc] 10 times, 2 hdc`` says."""
        return tuple(item for clause in clauses(text) if (item := self._item(clause)) is not None)

    def _item(self, clause: str) -> Item | None:
        name, skip = f"(?P<name>{self.vocabulary.pattern})", self.vocabulary.skip
        forms = {
            r"with \S+": self._colour,
            r"ch (?P<count>\d+)": lambda m: Chains(int(m["count"])),
            rf"{skip} next (?:st|post)": lambda _: Skip(1),
            rf"{skip} (?P<count>\d+) (?:sts|posts)": lambda m: Skip(int(m["count"])),
            r"inc": lambda _: Inc(1),
            r"inc in each of next (?P<count>\d+) sts": lambda m: Inc(int(m["count"])),
            rf"\[(?P<inside>.+)\] (?P<end>{_END})": lambda m: Group(
                self.items(m["inside"]), None, _left(m["end"])
            ),
            r"\[(?P<inside>.+)\] (?P<times>once|twice|\d+ times)": lambda m: Group(
                self.items(m["inside"]), times(m["times"])
            ),
            r"over next (?:st|(?P<count>\d+) sts) \((?P<inside>.+)\)": self._over,
            rf"working (?:in front of|behind) (?:this|these) {name} (?:in|round) (?:each of )?the "
            rf"(?:(?P<count>\d+) )?{self.vocabulary.skipped}(?: st| post)?": lambda m: Back(
                self._known(m["name"]), int(m["count"] or 1)
            ),
            _LEAVING: _leave,
            rf"{name} (?:in each st(?: and ch)?|round each post) (?P<end>{_END})": self._each,
            rf"{name} (?:in|round|in free (?:front|back) loop of) {_TARGET}": self._at,
            rf"(?P<inside>\(.+\)|\d+ {name}|{self.vocabulary.pattern}) in "
            r"(?P<place>next st|same st|next ch-(?P<chains>\d+) sp)": self._into,
            rf"(?P<count>\d+) {name}": self._sts,
            name: self._sts,
            r"(?P<count>\d+) sts?": lambda m: Sts(int(m["count"]), ""),
            rf"{name} (?P<end>to end|to the neck edge|to 1 st before marker)": self._each,
        }
        for form, make in forms.items():
            if match := re.fullmatch(form, clause):
                made: Item | None = make(match)
                return made
        raise CannotWorkError(self.where, f"no maker can tell what {clause!r} is")

    def _known(self, name: str) -> str:
        if self.vocabulary.kind(name) is None:
            raise CannotWorkError(self.where, f"the abbreviations do not explain {name!r}")
        return name

    @staticmethod
    def _colour(match: re.Match[str]) -> None:
        """Colours change nothing in the counts."""

    def _each(self, match: re.Match[str]) -> Each:
        return Each(self._known(match["name"]), _left(match["end"]), match["end"].endswith("marker"))

    def _sts(self, match: re.Match[str]) -> Sts:
        return Sts(int(match.groupdict().get("count") or 1), self._known(match["name"]))

    def _at(self, match: re.Match[str]) -> At:
        return At(
            name=self._known(match["name"]),
            count=int(match["count"] or 1),
            round=_round(match["what"]),
            below=int(match["below"] or 1),
            surface=bool(match["surface"]) or match["name"] in self.surface,
        )

    def _into(self, match: re.Match[str]) -> Into:
        inside = match["inside"].removeprefix("(").removesuffix(")")
        return Into(self.items(inside), match["place"].split()[-2], int(match["chains"] or 0))

    def _over(self, match: re.Match[str]) -> Over:
        return Over(int(match["count"] or 1), tuple(map(self._placed, clauses(match["inside"]))))

    def _placed(self, clause: str) -> tuple[At | Skip | Chains | Leave, tuple[int, ...]]:
        clause = re.sub(r"^working (?:in front of|behind) (?:this|these) ", "", clause)
        name = f"(?P<name>{self.vocabulary.pattern})"
        if match := re.fullmatch(r"ch (\d+)", clause):
            return Chains(int(match[1])), ()
        if match := re.fullmatch(_LEAVING, clause):
            return _leave(match), ()
        if match := re.fullmatch(rf"{self.vocabulary.skip} {_ORDINALS} sts?", clause):
            return Skip(1), _places(match["places"])
        forms = (
            rf"{name} (?:in|in free (?:front|back) loop of) {_ORDINALS} (?P<what>st)s?{_DEEP}",
            rf"{name} round the (?P<what>{_ROUND})s? of {_ORDINALS} sts?{_DEEP}",
            rf"{name} round the {_ORDINALS} of the (?P<strands>\d+) (?P<what>raised strand)s{_DEEP}",
            rf"{name} round the (?P<what>raised strand){_DEEP}",
        )
        for form in forms:
            if match := re.fullmatch(form, clause):
                told = match.groupdict()
                places = _places(told.get("places") or "1st")
                return At(
                    name=self._known(match["name"]),
                    count=len(places),
                    round=_round(match["what"]),
                    below=int(match["below"] or 1),
                    surface=bool(match["surface"]) or match["name"] in self.surface,
                    strands=int(told.get("strands") or "places" not in told),
                ), places
        raise CannotWorkError(self.where, f"no maker can tell what {clause!r} is")


def clauses(text: str) -> list[str]:
    """The text cut at the commas that stand in no bracket."""
    parts, start, deep = [], 0, 0
    for place, sign in enumerate(text):
        deep += (sign in "([") - (sign in ")]")
        if sign == "," and deep == 0:
            parts.append(text[start:place].strip())
            start = place + 1
    return [*parts, text[start:].strip()]


def _left(end: str) -> int:
    digits = re.search(r"\d+", end)
    return int(digits[0]) if digits else int(end == "to last st")


def times(words: str) -> int:
    """``once``, ``twice``, ``3 times``."""
    return {"once": 1, "twice": 2}.get(words) or int(words.split()[0])


def _places(words: str) -> tuple[int, ...]:
    """``4th``, ``3rd and 4th``, ``1st, 3rd and 4th``; ``2nd to 5th`` or ``5th to 2nd``."""
    numbers = tuple(map(int, re.findall(r"\d+", words)))
    if " to " not in words:
        return numbers
    first, last = numbers
    step = 1 if last > first else -1
    return tuple(range(first, last + step, step))


def _round(what: str) -> frozenset[str]:
    return frozenset(each.removeprefix("raised ") for each in what.split(" or ")) - {"st"}


def _leave(match: re.Match[str]) -> Leave:
    return Leave(int(match["count"] or 1), bool(match["other"]))
