"""Fabrics that are one stitch in every row, which take no chart to be worked."""

from __future__ import annotations

import re
from dataclasses import dataclass

from schematics.crochet.fabric import Fabric
from schematics.crochet.stitches import Loop, Stitch
from schematics.pattern.sections.abbreviations import stitches_named

_LOOPS = {"back": Loop.BACK, "front": Loop.FRONT, "third": Loop.THIRD}
_PLAIN = re.compile(
    r"(?:worked )?(?:(?:in|into|through) )?(?:the )?(?P<loop>back|front|third) loops?(?: only)?"
    r"|(?P<short>blo|flo)|",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class PlainStitch:
    """The stitch, and the loop of the row below it is worked into; None for both loops."""

    stitch: Stitch
    loop: Loop | None = None

    @property
    def short(self) -> str:
        """Its abbreviation in US terms, without the loop."""
        return self.stitch.abbreviation

    @property
    def text(self) -> str:
        """With the loop: ``sc blo``."""
        return f"{self.short} {self.loop.value}" if self.loop else self.short

    @property
    def words(self) -> str:
        """In full: ``single crochet in the back loop only``."""
        return f"{self.stitch.words} in the {self.loop.words}" if self.loop else self.stitch.words


def plain_stitch(fabric: Fabric) -> PlainStitch | None:
    """The stitch of a fabric whose name says that it is one stitch all over; None where it says more.

    Only stitches that use one stitch of the row below and make one are taken so.
    """
    named = stitches_named(fabric.stitch)
    if len(named) != 1:
        return None
    (stitch,) = named
    rest = fabric.stitch
    for name in (
        f"{stitch.words}s",
        stitch.words,
        stitch.words.removesuffix(" crochet"),
        stitch.abbreviation,
    ):
        rest, found = re.subn(rf"\b{re.escape(name)}\b", "", rest, count=1, flags=re.IGNORECASE)
        if found:
            break
    match = _PLAIN.fullmatch(" ".join(rest.split()))
    if match is None or not stitch.loops or (stitch.uses, stitch.makes) != (1, 1):
        return None
    if match["short"]:
        return PlainStitch(stitch, Loop(match["short"].lower()))
    return PlainStitch(stitch, _LOOPS[match["loop"].lower()] if match["loop"] else None)
