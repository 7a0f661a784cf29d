"""The kinds of body; a spec picks one by its word.

A new construction is one new file and one line in `CONSTRUCTIONS`.
"""

from schematics.garment.constructions.construction import Construction
from schematics.garment.constructions.flared import FLARED
from schematics.garment.constructions.folded.folded import FOLDED
from schematics.garment.constructions.mitred.mitred import MITRED

CONSTRUCTIONS: dict[str, Construction] = {each.word: each for each in (FLARED, MITRED, FOLDED)}
"""Every construction by the word that picks it in a spec."""

__all__ = ["CONSTRUCTIONS", "Construction"]
