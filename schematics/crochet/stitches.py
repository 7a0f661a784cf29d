"""The stitches a chart may hold, by the trade's abbreviations in US terms, with the UK ones beside them.

Source: trade abbreviations, common practice; the Craft Yarn Council's lists, from memory.
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from enum import StrEnum


class Loop(StrEnum):
    """The one loop a stitch is worked into; the value is the trade's abbreviation."""

    BACK = "blo"
    FRONT = "flo"

    @property
    def words(self) -> str:
        """What the abbreviation stands for."""
        return f"{self.name.lower()} loop only"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stitch:
    """One kind of stitch.

    ``uses`` is how many stitches of the row below it is worked into or passes over, ``makes`` how
    many it leaves for the row above, nought or one. One that is ``round_post`` is worked round a
    stitch of the row below; one with ``loops`` may be worked into the back or the front loop only.
    ``uk`` is its abbreviation and words in UK terms, where they differ.
    """

    abbreviation: str
    words: str
    uses: int = 1
    makes: int = 1
    round_post: bool = False
    loops: bool = False
    uk: tuple[str, str] | None = None


def _post(abbreviation: str, words: str, uk: tuple[str, str]) -> Stitch:
    return Stitch(abbreviation=abbreviation, words=words, round_post=True, uk=uk)


def _plain(abbreviation: str, words: str, uk: tuple[str, str] | None = None) -> Stitch:
    return Stitch(abbreviation=abbreviation, words=words, loops=True, uk=uk)


def _together(abbreviation: str, words: str, uk: tuple[str, str]) -> Stitch:
    return Stitch(abbreviation=abbreviation, words=words, uses=2, uk=uk)


STITCHES = (
    Stitch(abbreviation="ch", words="chain", uses=0),
    Stitch(abbreviation="sk", words="skip the next stitch", makes=0, uk=("miss", "miss the next stitch")),
    _plain("sl st", "slip stitch", ("ss", "slip stitch")),
    _plain("sc", "single crochet", ("dc", "double crochet")),
    _plain("hdc", "half double crochet", ("htr", "half treble crochet")),
    _plain("dc", "double crochet", ("tr", "treble crochet")),
    _plain("tr", "treble crochet", ("dtr", "double treble crochet")),
    _plain("dtr", "double treble crochet", ("trtr", "triple treble crochet")),
    _post("FPhdc", "front post half double crochet", ("FPhtr", "front post half treble crochet")),
    _post("BPhdc", "back post half double crochet", ("BPhtr", "back post half treble crochet")),
    _post("FPdc", "front post double crochet", ("FPtr", "front post treble crochet")),
    _post("BPdc", "back post double crochet", ("BPtr", "back post treble crochet")),
    _post("FPtr", "front post treble crochet", ("FPdtr", "front post double treble crochet")),
    _post("BPtr", "back post treble crochet", ("BPdtr", "back post double treble crochet")),
    _together("sc2tog", "single crochet 2 together", ("dc2tog", "double crochet 2 together")),
    _together("hdc2tog", "half double crochet 2 together", ("htr2tog", "half treble crochet 2 together")),
    _together("dc2tog", "double crochet 2 together", ("tr2tog", "treble crochet 2 together")),
    Stitch(
        abbreviation="cl", words="cluster of 3 double crochet in one stitch",
        uk=("cl", "cluster of 3 treble crochet in one stitch"),
    ),
    Stitch(abbreviation="puff", words="puff stitch"),
    Stitch(abbreviation="pc", words="popcorn stitch"),
)  # fmt: skip
"""In the order of a key: low to tall, then post stitches, then stitches worked together."""

TURNING_CHAINS = {
    "slip stitch": 1,
    "single crochet": 1,
    "half double crochet": 2,
    "double crochet": 3,
    "treble crochet": 4,
}
"""Chains skipped at the turn, by the stitch's name in US terms (common practice, no source)."""

_BY_ABBREVIATION = {stitch.abbreviation.casefold(): stitch for stitch in STITCHES}
_OTHER_WORDS = {"htr": "hdc", "ss": "sl st", "slst": "sl st", "miss": "sk", "skip": "sk", "popcorn": "pc"}
"""UK abbreviations without a US meaning, and common shorthand."""


def find_stitch(abbreviation: str) -> Stitch | None:
    """The stitch of that abbreviation, in capitals or not; None if there is none."""
    return _BY_ABBREVIATION.get(abbreviation.casefold())


def nearest_abbreviations(word: str) -> list[str]:
    """Up to three abbreviations that ``word`` may stand for, best first."""
    folded = word.casefold()
    by_words = {stitch.words: stitch.abbreviation for stitch in STITCHES}
    if certain := _OTHER_WORDS.get(folded) or by_words.get(folded):
        return [certain]
    close = difflib.get_close_matches(folded, _BY_ABBREVIATION, n=3, cutoff=0.6)
    return [_BY_ABBREVIATION[each].abbreviation for each in close]
