"""Where in its part a line of the old version is found: by its label, or by how it begins."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.pattern.errata.lines import Headed, PatternLine

_WORDS, _FEWEST = 5, 2
"""A paragraph is named by so many words, or by those before its first figure if they are not too few."""


def place_of(part: Headed, line: PatternLine, sizes: Sequence[str]) -> str:
    """A label as some sizes read it, ``Row 12 (WS)``; or the first words in quotation marks."""
    if line.label:
        return line.among(sizes).label
    words = line.text.split(" ")
    others = [each.text for each in part.lines if each is not line]
    bare = next((at for at, word in enumerate(words) if any(map(str.isdecimal, word))), len(words))
    for count in range(min(_WORDS, bare if bare >= _FEWEST else _WORDS, len(words)), len(words)):
        begun = " ".join(words[:count])
        if not any(each.startswith(begun) for each in others):
            return quoted(f"{begun} \N{HORIZONTAL ELLIPSIS}")
    return quoted(line.text)


def quoted(words: str) -> str:
    """The words in quotation marks."""
    return f"\N{LEFT DOUBLE QUOTATION MARK}{words}\N{RIGHT DOUBLE QUOTATION MARK}"
