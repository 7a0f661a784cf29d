"""Kinds of stitches: what one uses of the row below, what it makes, where it may be worked.

Abbreviations are in US terms, with the UK ones beside them. Source: the Craft Yarn Council's lists of
abbreviations and of US and UK terms, from memory.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import Enum, StrEnum
from functools import cache
from types import MappingProxyType

from schematics.crochet.symbols import Symbol


class Loop(StrEnum):
    """The one loop a stitch is worked into; the value is the trade's abbreviation."""

    BACK = "blo"
    FRONT = "flo"
    THIRD = "in 3rd loop"

    @property
    def words(self) -> str:
        """What the abbreviation stands for."""
        return f"{self.name.lower()} loop only"


class Post(StrEnum):
    """The side from which the hook goes round the post of a stitch."""

    FRONT = "front"
    BACK = "back"


class Height(Enum):
    """How tall a stitch is: its name in US and UK terms, and the same in words."""

    NONE = ("", "", "", "")
    CHAIN = ("ch", "chain", "ch", "chain")
    SLIP = ("sl st", "slip stitch", "ss", "slip stitch")
    SINGLE = ("sc", "single crochet", "dc", "double crochet")
    HALF_DOUBLE = ("hdc", "half double crochet", "htr", "half treble crochet")
    DOUBLE = ("dc", "double crochet", "tr", "treble crochet")
    TREBLE = ("tr", "treble crochet", "dtr", "double treble crochet")
    DOUBLE_TREBLE = ("dtr", "double treble crochet", "trtr", "triple treble crochet")
    TRIPLE_TREBLE = ("trtr", "triple treble crochet", "quadtr", "quadruple treble crochet")

    @property
    def us(self) -> str:
        """The US abbreviation."""
        return self.value[0]

    @property
    def us_words(self) -> str:
        """The US name."""
        return self.value[1]

    @property
    def uk(self) -> str:
        """The UK abbreviation."""
        return self.value[2]

    @property
    def uk_words(self) -> str:
        """The UK name."""
        return self.value[3]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stitch:
    """One kind of stitch.

    ``uses`` is how many stitches of the row below it is worked into or passes over, ``makes`` how many it
    leaves for the row above. ``post`` is the side from which it is worked round the post of each stitch it
    uses, if it is; ``loops`` says that it may be worked into one loop only, ``has_post`` that another may be
    worked round it.
    ``definition`` says in US terms how a special stitch is worked; it is empty where every maker knows.
    ``basics`` says the same of one that most makers know, for those who are new to it.
    ``uk`` is its abbreviation and its words in UK terms, where they differ.
    """

    abbreviation: str
    words: str
    symbol: Symbol
    height: Height
    uses: int = 1
    makes: int = 1
    post: Post | None = None
    loops: bool = False
    has_post: bool = True
    definition: str = ""
    basics: str = ""
    uk: tuple[str, str] | None = None


TURNING_CHAINS = {
    "slip stitch": 1,
    "single crochet": 1,
    "half double crochet": 2,
    "double crochet": 3,
    "treble crochet": 4,
}
"""Chains skipped at the turn, by the stitch's name in US terms (common practice, no source)."""

_SHORTHAND = {
    "slst": "sl st",
    "skip": "sk",
    "popcorn": "pc",
    "bobble": "bo",
    "shell": "sh",
    "cluster": "cl",
    "ps": "puff",
}
_HEIGHT_IN_WORD = re.compile(
    r"(?:half |double |triple |quadruple )?treble|half double|single|double|quadtr|trtr|dtr|htr|hdc|tr|dc|sc"
)
_POST_IN_WORDS = re.compile(r"(front|back)[ -]post ?")
_NOT_LETTERS = re.compile(r"[\s-]+")
_DOUBLED = re.compile(r"([a-ce-ru-z])\1+")
"""A letter typed twice; not one that makes another stitch, as in ``ssc`` or ``ttr``."""
_ALIKE = 0.8
"""From which likeness on the rest of a name is taken for a slip, 1 being the same."""


@dataclass(frozen=True, slots=True)
class StitchBook:
    """The stitches a chart may use, by abbreviation: those of the trade and a spec's own.

    ``uk``: they are called by their UK names.
    """

    stitches: tuple[Stitch, ...]
    uk: bool = False
    _by_name: Mapping[str, Stitch] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        by_name = {self.name(stitch).casefold(): stitch for stitch in self.stitches}
        object.__setattr__(self, "_by_name", MappingProxyType(by_name))

    def name(self, stitch: Stitch) -> str:
        """The stitch's abbreviation in the book's terms."""
        return stitch.uk[0] if self.uk and stitch.uk else stitch.abbreviation

    @property
    def terms(self) -> str:
        """``US`` or ``UK``."""
        return "UK" if self.uk else "US"

    def with_own(self, own: Iterable[Stitch]) -> StitchBook:
        """The same with a spec's own stitches; one that has a name of the trade takes its place."""
        added = tuple(own)
        names = {stitch.abbreviation.casefold() for stitch in added}
        kept = (each for each in self.stitches if each.abbreviation.casefold() not in names)
        return StitchBook((*kept, *added), uk=self.uk)

    def find(self, abbreviation: str) -> Stitch | None:
        """The stitch of that abbreviation, in capitals or not; None if there is none."""
        return self._by_name.get(abbreviation.casefold())

    def near(self, word: str) -> list[str]:
        """Up to three abbreviations that ``word`` may stand for, best first, all of one height and kind.

        >>> from schematics.crochet.stitch_list import TRADE
        >>> TRADE.near("back post treble crochet"), TRADE.near("FPhtr"), TRADE.near("rdc")
        (['BPtr'], ['FPhdc'], [])
        """
        if certain := self.respelled(word) or self._named_otherwise(word.casefold()):
            return [self.name(certain)]
        before, height, after = _parted(word.casefold())
        close = [
            self._by_name[name]
            for name in difflib.get_close_matches(word.casefold(), self._by_name, n=9, cutoff=0.6)
            if _is_slip(_parted(name), (before, height, after))
        ][:3]
        return [self.name(each) for each in close] if len({(e.height, e.post) for e in close}) == 1 else []

    def respelled(self, word: str) -> Stitch | None:
        """The stitch of that abbreviation, whatever its hyphens, spaces and doubled letters."""
        letters = _letters(word.casefold())
        return next((each for name, each in self._by_name.items() if _letters(name) == letters), None)

    def numbers(self, before: str, after: str) -> list[int]:
        """The numbers that make an abbreviation between the two."""
        return [number for number in range(10) if self.find(f"{before}{number}{after}")]

    def _named_otherwise(self, folded: str) -> Stitch | None:
        """The stitch of a name in words, in the other terms or of common use, if it is no other height's."""
        us = {each.abbreviation.casefold(): each for each in self.stitches}
        other = us if self.uk else {each.uk[0].casefold(): each for each in self.stitches if each.uk}
        in_words = {
            (each.uk[1] if self.uk and each.uk else each.words).casefold(): each for each in self.stitches
        }
        *before, last = folded.split() or [""]
        short = " ".join((*before, _SHORTHAND.get(last, last)))
        short = _POST_IN_WORDS.sub(lambda match: f"{match[1][0]}p", short)
        short = re.sub("^(?:extended|ext) ", "ex" if self.uk else "e", short)
        if stitch := in_words.get(folded) or self.find(short):
            return stitch
        stitch = us.get(short) or other.get(folded)
        _, height, _ = _parted(folded)
        own = {_parted(name)[1] for name in self._by_name}
        same = stitch and _parted(self.name(stitch).casefold())[1] == height
        return stitch if same or height not in own else None


@cache
def _letters(name: str) -> str:
    return _DOUBLED.sub(r"\1", _NOT_LETTERS.sub("", name))


@cache
def _parted(name: str) -> tuple[str, str, str]:
    """What comes before the last height in a name, the height, and the rest; ``""`` for none."""
    heights = list(_HEIGHT_IN_WORD.finditer(name))
    if not heights:
        return name, "", ""
    return name[: heights[-1].start()], heights[-1][0], name[heights[-1].end() :]


def _is_slip(name: tuple[str, str, str], word: tuple[str, str, str]) -> bool:
    """Whether a word is a slip of a name and not another kind of stitch: ``FP`` and ``e`` make one."""
    return name[1] == word[1] and _alike(name[0], word[0]) and _alike(name[2], word[2])


def _alike(name: str, word: str) -> bool:
    if sorted(name) == sorted(word):
        return True
    numbers = [re.findall(r"\d", each) for each in (name, word)]
    if min(len(name), len(word)) < 3 or name[0] != word[0] or numbers[0] != numbers[1]:
        return False
    return difflib.SequenceMatcher(None, name, word).ratio() >= _ALIKE
