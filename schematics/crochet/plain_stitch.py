"""Stitch patterns that are one stitch throughout, which a maker can work from their name alone."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from schematics.crochet.stitch_list import TRADE
from schematics.crochet.stitches import Loop, Stitch

_LOOPS = {"back": Loop.BACK, "blo": Loop.BACK, "front": Loop.FRONT, "flo": Loop.FRONT, "third": Loop.THIRD}
_IN_A_LOOP = re.compile(
    r",? (?:worked )?(?:(?:in|into|through) )?(?:the )?(?:(back|front|third) loops?(?: only)?|(blo|flo))$"
)


@dataclass(frozen=True, slots=True)
class PlainStitch:
    """The stitch, and the loop of the row below that it is worked into; None for both loops."""

    stitch: Stitch
    loop: Loop | None = None

    @property
    def short(self) -> str:
        """The stitch's abbreviation in US terms, without the loop."""
        return self.stitch.abbreviation

    @property
    def text(self) -> str:
        """The stitch's abbreviation in US terms, with the loop: ``sc blo``."""
        return f"{self.short} {self.loop.value}" if self.loop else self.short

    @property
    def words(self) -> str:
        """In full: ``single crochet in the back loop only``."""
        return f"{self.stitch.words} in the {self.loop.words}" if self.loop else self.stitch.words


def plain_stitch(pattern: str) -> PlainStitch | None:
    """The one stitch that a pattern's name in US terms says; None where it says more.

    >>> plain_stitch("single crochet in the back loop").text
    'sc blo'
    """
    name = " ".join(pattern.casefold().split())
    match = _IN_A_LOOP.search(name)
    stitch = _by_name().get(name[: match.start()] if match else name)
    if stitch is None:
        return None
    return PlainStitch(stitch, _LOOPS[match[1] or match[2]] if match else None)


@cache
def _by_name() -> dict[str, Stitch]:
    """Stitches of one height, extended or not, by every name they go by."""
    plain = [
        each
        for each in TRADE.stitches
        if each.loops and each.words.removeprefix("extended ") == each.height.us_words
    ]
    return {
        name: each
        for each in plain
        for name in (each.words, each.words.removesuffix(" crochet"), each.abbreviation.casefold())
    }
