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
    leaves for the row above. ``post`` is the side from which it is worked round a post, if it is; ``loops``
    says that it may be worked into one loop only, ``has_post`` that another may be worked round it.
    ``definition`` tells in US terms how a special stitch is worked; it is empty where every maker knows.
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
    r"(?:half )?(?:double |triple )?treble|half double|single|double|trtr|dtr|htr|hdc|tr|dc|sc"
)


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
        """Up to three abbreviations that ``word`` may stand for, best first, all of one height.

        >>> from schematics.crochet.stitch_list import TRADE
        >>> TRADE.near("back post treble crochet"), TRADE.near("FPhtr")
        (['BPtr'], ['FPhdc'])
        """
        folded = word.casefold()
        us = {each.abbreviation.casefold(): each for each in self.stitches}
        other = us if self.uk else {each.uk[0].casefold(): each for each in self.stitches if each.uk}
        in_words = {
            (each.uk[1] if self.uk and each.uk else each.words).casefold(): each for each in self.stitches
        }
        *before, last = folded.split() or [""]
        short = " ".join((*before, _SHORTHAND.get(last, last)))
        certain = us.get(short) or in_words.get(folded) or other.get(folded)
        if certain:
            return [self.name(certain)]
        close = [
            self._by_name[name] for name in difflib.get_close_matches(folded, self._by_name, n=9, cutoff=0.6)
        ]
        if meant := _HEIGHT_IN_WORD.findall(folded):
            close = [each for each in close if meant[-1] in each.height.value[2 * self.uk :][:2]]
        close = close[:3]
        return [self.name(each) for each in close] if len({each.height for each in close}) == 1 else []
