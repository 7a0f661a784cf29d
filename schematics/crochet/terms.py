"""Stitch names as the United States or the United Kingdom use them.

A spec is in US terms. The same word can name two stitches (US double crochet is UK treble crochet, and
UK double crochet is US single crochet), so a text is turned in one pass and never twice.

Source: the Craft Yarn Council's table of US and UK terms, from memory.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from enum import StrEnum
from functools import cache

from schematics.crochet.stitch_list import STITCHES
from schematics.crochet.stitches import Height, Stitch

_HEIGHTS = {each.us_words: each.uk_words for each in Height if each.us_words != each.uk_words}
_SHORTER = {
    us.removesuffix(" crochet"): uk.removesuffix(" crochet")
    for us, uk in _HEIGHTS.items()
    if us not in (Height.SINGLE.us_words, Height.DOUBLE.us_words)
}
"""What is clear without *crochet*: alone, *single* and *double* are words of every day."""

_WORDS = {
    **_HEIGHTS,
    **_SHORTER,
    "triple crochet": Height.TREBLE.uk_words,
    "skip": "miss",
    "skipped": "missed",
    "gauge": "tension",
    "yarn over": "yarn over hook",
}
_PROSE = dict(sorted(_WORDS.items(), key=lambda each: -len(each[0])))
"""US words and the UK ones for them; a longer phrase goes before those it holds."""


class Terms(StrEnum):
    """Whose names stitches are called by."""

    US = "US"
    UK = "UK"

    def text(self, us_text: str) -> str:
        """A text in US terms, in these.

        Names and abbreviations may have a plural s; names capitals, abbreviations one that begins a sentence.

        >>> Terms.UK.text("half double crochet in the back loop, 2 FPdc")
        'half treble crochet in the back loop, 2 FPtr'
        """
        return us_text if self is Terms.US else _us_words().sub(_uk_words, us_text)

    def abbreviation(self, stitch: Stitch) -> str:
        """The stitch's abbreviation."""
        return stitch.uk[0] if self is Terms.UK and stitch.uk else stitch.abbreviation

    def words(self, stitch: Stitch) -> str:
        """What the abbreviation stands for."""
        return stitch.uk[1] if self is Terms.UK and stitch.uk else stitch.words


@cache
def _us_words() -> re.Pattern[str]:
    prose = "|".join(r"\s+".join(phrase.split()) for phrase in _PROSE)
    short = "|".join(map(re.escape, _uk_abbreviations()))
    return re.compile(rf"\b(?:(?P<prose>(?i:{prose}))(?P<plural>s?)|(?P<short>{short})(?P<several>s?))\b")


@cache
def _uk_abbreviations() -> Mapping[str, str]:
    """By the US one, as it is spelt and as it begins a sentence."""
    spelt = {stitch.abbreviation: stitch.uk[0] for stitch in STITCHES if stitch.uk}
    begun = {us[0].upper() + us[1:]: uk[0].upper() + uk[1:] for us, uk in spelt.items() if us[0].islower()}
    return begun | spelt


def _uk_words(match: re.Match[str]) -> str:
    if match["short"]:
        uk = _uk_abbreviations()[match["short"]]
        return uk if uk.endswith("s") else uk + match["several"]
    us_words = match["prose"].split()
    words = _PROSE[" ".join(us_words).lower()]
    if all(word[0].isupper() for word in us_words):
        words = words.title() if len(us_words) > 1 else words.capitalize()
    elif us_words[0][0].isupper():
        words = words.capitalize()
    return words + match["plural"]
