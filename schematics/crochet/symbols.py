"""Chart symbols as combinations of basic strokes, such as ``stem, cap, 2 bars``.

Source: the strokes that the Craft Yarn Council's chart symbols and JIS L 0201 share, from memory: an oval
for a chain, a dot for a slip stitch, a cross for a single crochet, for taller stitches a stem with a cap
and a bar for each yarn over.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum


class StrokeKind(StrEnum):
    """What a stroke looks like; the value is the word for it in a spec."""

    OVAL = "oval"
    DOT = "dot"
    CROSS = "cross"
    STEM = "stem"
    CAP = "cap"
    BARS = "bars"
    HOOK_RIGHT = "hook right"
    HOOK_LEFT = "hook left"
    LEGS = "legs"
    FAN = "fan"
    LEAF = "leaf"
    LOOPS = "loops"
    CROWN = "crown"
    EYE = "eye"
    ROOF = "roof"
    LETTER = "letter"


STROKE_WORDS = {
    StrokeKind.OVAL: "an open oval, as for a chain",
    StrokeKind.DOT: "a filled oval, as for a slip stitch",
    StrokeKind.CROSS: "two crossed strokes, as for a single crochet; across each of several legs, one stroke",
    StrokeKind.STEM: "an upright stroke",
    StrokeKind.CAP: "a stroke across the top of the stem",
    StrokeKind.BARS: "so many slanting strokes across the stem, legs, fan or leaf: one for each yarn over",
    StrokeKind.HOOK_RIGHT: "the foot hooked to the right, as for a front post",
    StrokeKind.HOOK_LEFT: "the foot hooked to the left, as for a back post",
    StrokeKind.LEGS: "so many stems that meet at the top, as for stitches worked together",
    StrokeKind.FAN: "so many stems that meet at the foot, as for stitches worked into one",
    StrokeKind.LEAF: "so many stems that meet at top and foot, the outer ones bold, as for a bobble",
    StrokeKind.LOOPS: "so many long loops side by side in a round outline, as for a puff",
    StrokeKind.CROWN: "a small oval on top, as for a popcorn",
    StrokeKind.EYE: "a small open loop at the foot, as for an extended stitch",
    StrokeKind.ROOF: "a wide stroke on top of a leaf, whose stems it makes straight, as for a cluster",
    StrokeKind.LETTER: "the abbreviation itself in a circle",
}
"""What each stroke is, for the guide to specs and the schema."""

COUNTED = frozenset({StrokeKind.BARS, StrokeKind.LEGS, StrokeKind.FAN, StrokeKind.LEAF, StrokeKind.LOOPS})
MOST_STROKES = 9


@dataclass(frozen=True, slots=True)
class Stroke:
    """A stroke, so many times where it is one that is counted."""

    kind: StrokeKind
    count: int = 1

    def __str__(self) -> str:
        if self.kind not in COUNTED:
            return self.kind.value
        return (
            f"{self.count} {self.kind.value if self.count > 1 else _SINGULAR.get(self.kind, self.kind.value)}"
        )


Symbol = tuple[Stroke, ...]

_SINGULAR = {StrokeKind.BARS: "bar", StrokeKind.LEGS: "leg", StrokeKind.LOOPS: "loop"}
_BY_WORD = {kind.value: kind for kind in StrokeKind} | {word: kind for kind, word in _SINGULAR.items()}
_STROKE = re.compile(r"(?:(?P<count>[0-9]+)\s+)?(?P<word>[a-z]+(?:\s+[a-z]+)?)", re.IGNORECASE)


def read_symbol(text: str) -> Symbol:
    """Read strokes with commas between them.

    Raises:
        ValueError: a stroke is none of `StrokeKind`, or has a count that it cannot have.

    >>> [str(stroke) for stroke in read_symbol("stem, cap, 2 bars")]
    ['stem', 'cap', '2 bars']
    """
    return tuple(_stroke(part.strip()) for part in text.split(","))


def _stroke(text: str) -> Stroke:
    match = _STROKE.fullmatch(text)
    kind = _BY_WORD.get(" ".join(match["word"].lower().split())) if match else None
    if match is None or kind is None:
        raise ValueError(f"{text!r} is no stroke of a symbol; expected {', '.join(StrokeKind)}")
    if match["count"] is None:
        return Stroke(kind)
    count = int(match["count"])
    if kind not in COUNTED:
        raise ValueError(f"{kind.value!r} takes no number; expected {kind.value!r} alone")
    if not 1 <= count <= MOST_STROKES:
        raise ValueError(f"expected 1 to {MOST_STROKES} {kind.value}, got {count}")
    return Stroke(kind, count)
