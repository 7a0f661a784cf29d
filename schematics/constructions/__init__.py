"""The ways a body can be built; a spec picks one by its word.

A new construction is one new file and one line in `CONSTRUCTIONS`.
"""

from schematics.constructions.construction import Construction
from schematics.constructions.flared import FLARED
from schematics.constructions.folded import FOLDED
from schematics.constructions.mitred import MITRED

CONSTRUCTIONS: dict[str, Construction] = {each.word: each for each in (FLARED, MITRED, FOLDED)}
"""Every construction by the word that picks it in a spec."""

__all__ = ["CONSTRUCTIONS", "Construction"]
