"""The page's words, which are written in US terms, in those of the design."""

from __future__ import annotations

import re
from typing import Any

from schematics.crochet.terms import Terms

_UNSEEN = re.compile(r"(<(?P<name>script|style)\b.*?</(?P=name)>)", re.DOTALL)
_SEEN = re.compile(r"""(?<=>)[^<>]+(?=<)|(?<=aria-label=")[^"]+|(?<=alt=")[^"]+""")


def page_in_terms(page: str, terms: Terms) -> str:
    """The page with every text that is seen or read aloud turned once; not its script and style."""
    if terms is Terms.US:
        return page
    parts = _UNSEEN.split(page)
    seen = parts[::3]
    turned = [_SEEN.sub(lambda match: terms.text(match[0]), each) for each in seen]
    return "".join(a + b for a, b in zip(turned, [*parts[1::3], ""], strict=True))


def in_terms(data: Any, terms: Terms) -> Any:
    """The data with every sentence turned once: what has a space in it, which names for the script lack."""
    if terms is Terms.US:
        return data
    if isinstance(data, dict):
        return {key: in_terms(each, terms) for key, each in data.items()}
    if isinstance(data, list | tuple):
        return [in_terms(each, terms) for each in data]
    return terms.text(data) if isinstance(data, str) and " " in data else data
