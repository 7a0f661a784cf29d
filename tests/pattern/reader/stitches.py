"""The reader's own table of stitches: how many of the row below each uses, and how many it makes.

From memory of the Craft Yarn Council's lists, in US terms; the UK names stand beside them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property

HEIGHTS = (
    ("sl st", "ss"), ("sc", "dc"), ("hdc", "htr"), ("dc", "tr"), ("tr", "dtr"), ("dtr", "trtr"),
    ("trtr", "quadtr"),
)  # fmt: skip
_MANY = range(2, 10)


@dataclass(frozen=True)
class Kind:
    uses: int = 1
    makes: int = 1
    post: bool = True
    """Whether another stitch can be worked round its post."""


def _table(uk: bool) -> dict[str, Kind]:
    table: dict[str, Kind] = {"V-st": Kind(makes=3), "picot": Kind(0, 0, post=False)}
    table |= dict.fromkeys(("cl", "bo", "pc", "puff"), Kind()) | {"sh": Kind(makes=5)}
    table |= {f"{number}-loop puff": Kind() for number in _MANY}
    for names in HEIGHTS:
        name, slip = names[uk], names[0] == "sl st"
        table[name] = Kind(post=not slip)
        if slip:
            continue
        table |= {f"{side}{name}": Kind() for side in ("FP", "BP")}
        table[f"{'ex' if uk else 'e'}{name}"] = Kind()
        for number in _MANY:
            table[f"{name}{number}tog"] = Kind(uses=number)
            table |= {f"{number}-{name} {each}": Kind() for each in ("cl", "bo", "pc")}
            table[f"{number}-{name} sh"] = Kind(makes=number)
    return table


@dataclass(frozen=True)
class Vocabulary:
    """The stitches of a pattern: those of its terms that it explains, and what its gauge calls by name."""

    uk: bool
    explained: frozenset[str]
    named: frozenset[str] = field(default=frozenset())

    @cached_property
    def table(self) -> dict[str, Kind]:
        return _table(self.uk) | dict.fromkeys(self.named, Kind())

    @cached_property
    def pattern(self) -> str:
        """A regular expression for a stitch with its loop."""
        names = "|".join(re.escape(name) for name in sorted(self.table, key=len, reverse=True))
        return rf"(?:{names})(?: blo| flo| in 3rd loop)?"

    @property
    def slip(self) -> str:
        return "ss" if self.uk else "sl st"

    @property
    def slips(self) -> str:
        return "ss" if self.uk else "sl sts"

    @property
    def skip(self) -> str:
        return "miss" if self.uk else "skip"

    @property
    def skipped(self) -> str:
        return "missed" if self.uk else "skipped"

    def kind(self, name: str) -> Kind | None:
        """The stitch of that name, its loop left out; None if the pattern does not say what it is."""
        bare = re.sub(r" (?:blo|flo|in 3rd loop)$", "", name)
        loop = name[len(bare) :].strip()
        told = bare in self.named or self._explains(bare)
        return self.table.get(bare) if told and (loop not in ("blo", "flo") or self._explains(loop)) else None

    def defines(self, special: str) -> bool:
        """Whether it is told how such a stitch is worked."""
        return self._explains(special)

    def _explains(self, short: str) -> bool:
        return short in self.explained
