"""What the pattern still lacks, as its last part."""

from __future__ import annotations

from collections.abc import Iterable

from schematics.checks.wording import sentence_case
from schematics.document.document import Items, Section
from schematics.pattern.written.to_be_added import marked


def section(texts: Iterable[str]) -> Section | None:
    """What is marked in the texts of the other parts; None where nothing is."""
    missing = marked(texts)
    if not missing:
        return None
    return Section(
        "Still to be added",
        (
            "This pattern is not complete. What follows is marked where it belongs:",
            Items(tuple(map(sentence_case, missing))),
        ),
        "missing",
    )
