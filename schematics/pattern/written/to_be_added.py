"""Places where the spec lacks what a step needs: marked where it is missing, and listed once."""

from __future__ import annotations

import re
from collections.abc import Iterable

_MARK = re.compile(r"\[to be added: ([^\]]+)\]")


def to_be_added(what: str) -> str:
    """The mark that stands for it.

    >>> to_be_added("the seam's stitch")
    "[to be added: the seam's stitch]"
    """
    return f"[to be added: {what}]"


def marked(texts: Iterable[str]) -> tuple[str, ...]:
    """What is marked as missing in the texts, each once, in the order it is met."""
    return tuple(dict.fromkeys(what for text in texts for what in _MARK.findall(text)))
