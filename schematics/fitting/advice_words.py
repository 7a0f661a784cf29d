"""What a maker is advised, in a sentence: the same from the command line and on her page."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

WORK, WORK_SO_FAR = "Work size {size}", "As far as is known, work size {size}"
NEAREST = "No size fits as it is; size {size} comes nearest."

AND_THEN: Mapping[str, str] = MappingProxyType(
    {
        "right": ".",
        "unsure": ": it should fit, but that is not sure.",
        "mind": ", and mind what is said of it.",
    }
)
"""What follows `WORK`, by how right the size is."""


def advised_sentence(size: str, how: str, *, unknown: bool) -> str:
    """What is said of the advised size.

    >>> advised_sentence("6", "mind", unknown=False)
    'Work size 6, and mind what is said of it.'
    """
    work = WORK_SO_FAR if unknown else WORK
    return f"{work}{AND_THEN[how]}".format(size=size)
