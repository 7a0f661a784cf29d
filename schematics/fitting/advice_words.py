"""What a maker is advised, in a sentence: the same from the command line and on her page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from schematics.checks.wording import listed

ADVISED: Mapping[str, str] = MappingProxyType(
    {
        "right": "Work size {size}.",
        "unsure": "Work size {size}: it should fit, but that is not sure.",
        "mind": "Work size {size}, and mind what is said of it.",
    }
)
"""What is said of the advised size, by how right it is."""

ADVISED_SO_FAR: Mapping[str, str] = MappingProxyType(
    {
        "right": "As far as is known, work size {size}.",
        "unsure": "As far as is known, work size {size}: it should fit.",
        "mind": "As far as is known, work size {size}, and mind what is said of it.",
    }
)
"""The same where something of it is not known."""

NOT_HERS = (
    "Size {size} is not this wearer's: its bands or its hem come far from where they are meant to. All "
    "counts can be found for exactly this body instead."
)
"""What is said of a best size that nobody would think of; see `sizing.SizeFit.is_not_hers`."""

NOT_THIS_CHILDS = "not this child’s size"
"""The same in a list of sizes, of any that is so far off."""

NEAREST = "No size fits as it is; size {size} comes nearest."


def advised_sentence(size: str, how: str, *, unknown: bool) -> str:
    """What is said of the advised size.

    >>> advised_sentence("6", "mind", unknown=False)
    'Work size 6, and mind what is said of it.'
    """
    return (ADVISED_SO_FAR if unknown else ADVISED)[how].format(size=size)


LEFT_OPEN = tuple(
    f"What is not measured leaves it open: it could be {named} {{sizes}} as well."
    for named in ("size", "sizes")
)
"""What is said of one size that could be the best as well, and of several."""


def left_open(sizes: Sequence[str]) -> str:
    """Which other sizes could be the best as well, at least one.

    >>> left_open(["4", "8"])
    'What is not measured leaves it open: it could be sizes 4 and 8 as well.'
    """
    return LEFT_OPEN[len(sizes) > 1].format(sizes=listed(sizes))
